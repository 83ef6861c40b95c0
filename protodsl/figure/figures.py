"""The figures of one run: each is solved once and drawn once, and what an earlier run has made is taken from there."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from dataclasses import astuple, dataclass, field
from typing import Any

from protodsl.figure import drawn
from protodsl.figure.approval import drawing_digest
from protodsl.figure.cache import Store, user_store
from protodsl.figure.cache_solved import NotPlain, Told, from_plain, to_plain, told
from protodsl.figure.drawn import PREFIX, USUAL, Drawn, Look
from protodsl.figure.load.joints import Load
from protodsl.figure.posture import SolvedFigure
from protodsl.figure.shown import shown
from protodsl.model.figure import Figure
from protodsl.model.shown import Shown
from protodsl.outcome import Outcome

Parallel = Callable[[Sequence[int], Callable[[int], Any]], Iterator[Any]]
_NOT_AS_KEPT = (LookupError, TypeError, ValueError, AttributeError)


@dataclass(slots=True)
class Figures:
    """Solved and drawn figures; `store` keeps them for the next run (None: the user's own)."""

    store: Store | None = None
    # By identity; a figure that is kept here cannot give its place to another.
    _told: dict[int, tuple[Figure, Told]] = field(default_factory=dict)
    _solved: dict[tuple[str, tuple[object, ...]], Outcome[SolvedFigure]] = field(default_factory=dict)
    _drawn: dict[str, Drawn] = field(default_factory=dict)
    _shown: dict[tuple[str, tuple[object, ...]], tuple[Shown, ...]] = field(default_factory=dict)
    _loads: dict[str, tuple[Load, ...] | None] = field(default_factory=dict)

    def solved(self, figure: Figure) -> Outcome[SolvedFigure]:
        """As `solve`."""
        said = self._of(figure)
        key = said.text, said.places
        if key not in self._solved:
            self._solved[key] = self._kept(figure, said) or self._solve(figure, said)
        return self._solved[key]

    def solve_all(self, wanted: Iterable[Figure], parallel: Parallel) -> None:
        """Solve many at once; one that is lost on the way is solved when it is asked for."""
        todo = {said: one for one in wanted if (said := self._of(one)) and not self._is_solved(one, said)}
        if not todo:
            return
        from protodsl.figure.solve.solve import solve

        figures = list(todo.items())

        def work(at: int) -> tuple[int, Any]:
            said, one = figures[at]
            try:
                return at, to_plain(solve(one), said.places)
            except NotPlain:
                return at, None

        for found in parallel(range(len(figures)), work):
            if isinstance(found, tuple) and found[1] is not None:
                said, one = figures[found[0]]
                self._store().keep(f"solved {said.text}", found[1])
                self._solved[said.text, said.places] = from_plain(found[1], one, said.places)

    def draw_all(self, wanted: Iterable[tuple[Figure, Sequence[str]]], parallel: Parallel) -> None:
        """Draw many at once as they are drawn at the usual scale; one that is lost is drawn when it is asked for."""
        todo: dict[str, tuple[Figure, Sequence[str]]] = {}
        for one, works in wanted:
            key = self._key(one, works, USUAL)
            if key not in self._drawn and key not in todo and self.solved(one).value is not None:
                kept = self._kept_drawing(key)
                if kept is None:
                    todo[key] = one, works
                else:
                    self._drawn[key] = kept
        if not todo:
            return
        from protodsl.figure.draw import draw

        assert draw, "loaded before there are copies of this process"
        jobs = list(todo.items())

        def work(at: int) -> tuple[int, Any]:
            made = self._made(*jobs[at][1], USUAL)
            return at, made.plain() if made else None

        for found in parallel(range(len(jobs)), work):
            if isinstance(found, tuple) and found[1] is not None:
                key = jobs[found[0]][0]
                self._store().keep(key, found[1])
                self._drawn[key] = drawn.from_plain(found[1])

    def drawn(self, figure: Figure, works: Sequence[str] = (), look: Look = USUAL) -> Drawn | None:
        """As `draw`, of the figure solved; None where no body can do it."""
        key = self._key(figure, works, look)
        if key not in self._drawn:
            made = self._kept_drawing(key) or self._draw(figure, works, look, key)
            if made is None:
                return None
            self._drawn[key] = made
        return self._drawn[key]

    def shown(self, figure: Figure) -> tuple[Shown, ...]:
        """The angles that are drawn; empty where no body can do it."""
        said = self._of(figure)
        key = said.text, said.places
        if key not in self._shown:
            solved = self.solved(figure).value
            self._shown[key] = shown(solved) if solved is not None else ()
        return self._shown[key]

    def loads(self, figure: Figure, joint: str, side: str) -> tuple[Load, ...] | None:
        """As `peaks`."""
        key = f"loads {joint} {side} {self._of(figure).text}"
        if key not in self._loads:
            self._loads[key] = self._kept_loads(key) or self._reckoned(figure, joint, side, key)
        return self._loads[key]

    def digest(self, figure: Figure, works: Sequence[str] = ()) -> str | None:
        """What an approval holds on to: the digest of the drawing as it is written; None where there is none."""
        made = self.drawn(figure, works)
        return made.digest if made else None

    def text(self, figure: Figure) -> str:
        """What a figure says in one line, the same wherever it stands."""
        return self._of(figure).text

    def _of(self, figure: Figure) -> Told:
        found = self._told.get(id(figure))
        if found is None:
            found = self._told[id(figure)] = figure, told(figure)
        return found[1]

    def _kept(self, figure: Figure, said: Told) -> Outcome[SolvedFigure] | None:
        data = self._store().find(f"solved {said.text}")
        with suppress(*_NOT_AS_KEPT):
            return from_plain(data, figure, said.places) if data is not None else None
        return None

    def _solve(self, figure: Figure, said: Told) -> Outcome[SolvedFigure]:
        # Most runs find all figures kept, and what solves them takes longer to load than a check to run.
        from protodsl.figure.solve.solve import solve

        outcome = solve(figure)
        with suppress(NotPlain):
            self._store().keep(f"solved {said.text}", to_plain(outcome, said.places))
        return outcome

    def _kept_drawing(self, key: str) -> Drawn | None:
        data = self._store().find(key)
        with suppress(*_NOT_AS_KEPT):
            return drawn.from_plain(data) if data is not None else None
        return None

    def _key(self, figure: Figure, works: Sequence[str], look: Look) -> str:
        return f"drawn {self._of(figure).text} {list(works)} {look}"

    def _is_solved(self, figure: Figure, said: Told) -> bool:
        key = said.text, said.places
        if key not in self._solved:
            kept = self._kept(figure, said)
            if kept is None:
                return False
            self._solved[key] = kept
        return True

    def _draw(self, figure: Figure, works: Sequence[str], look: Look, key: str) -> Drawn | None:
        made = self._made(figure, works, look)
        if made is not None:
            self._store().keep(key, made.plain())
        return made

    def _made(self, figure: Figure, works: Sequence[str], look: Look) -> Drawn | None:
        from protodsl.figure.draw.draw import draw

        solved = self.solved(figure).value
        if solved is None:
            return None
        made = draw(solved, works, PREFIX, mirror=look.mirror, scale=look.scale, room=look.room, leftward=look.leftward)
        digest = drawing_digest(made.svg) if look == USUAL else ""
        return Drawn(made.svg, made.width_mm, made.height_mm, made.roles, made.unshaded, digest)

    def _kept_loads(self, key: str) -> tuple[Load, ...] | None:
        data = self._store().find(key)
        with suppress(*_NOT_AS_KEPT):
            return tuple(Load(*one) for one in data["loads"]) if data is not None else None
        return None

    def _reckoned(self, figure: Figure, joint: str, side: str, key: str) -> tuple[Load, ...] | None:
        # As with the solver: it is seldom needed, and takes long to load.
        from protodsl.figure.load.movement import peaks

        found = peaks(figure, joint, side)
        if found:
            self._store().keep(key, {"loads": [astuple(load) for load in found]})
        return found

    def _store(self) -> Store:
        self.store = self.store or user_store()
        return self.store
