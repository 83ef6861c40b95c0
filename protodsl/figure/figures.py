"""The figures of one run: each is solved once and drawn once, and what an earlier run has made is taken from there."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import suppress
from dataclasses import astuple, dataclass, field

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

_NOT_AS_KEPT = (LookupError, TypeError, ValueError, AttributeError)


@dataclass(slots=True)
class Figures:
    """Solved and drawn figures; `store` keeps them for the next run (None: the user's own)."""

    store: Store | None = None
    # By identity; a figure that is kept here cannot give its place to another.
    _told: dict[int, tuple[Figure, Told]] = field(default_factory=dict)
    _solved: dict[tuple[str, tuple[object, ...]], Outcome[SolvedFigure]] = field(default_factory=dict)
    _drawn: dict[str, Drawn] = field(default_factory=dict)
    _loads: dict[str, tuple[Load, ...] | None] = field(default_factory=dict)

    def solved(self, figure: Figure) -> Outcome[SolvedFigure]:
        """As `solve`."""
        said = self._of(figure)
        key = said.text, said.places
        if key not in self._solved:
            self._solved[key] = self._kept(figure, said) or self._solve(figure, said)
        return self._solved[key]

    def drawn(self, figure: Figure, works: Sequence[str] = (), look: Look = USUAL) -> Drawn | None:
        """As `draw`, of the figure solved; None where no body can do it."""
        key = f"drawn {self._of(figure).text} {list(works)} {look}"
        if key not in self._drawn:
            made = self._kept_drawing(key) or self._draw(figure, works, look, key)
            if made is None:
                return None
            self._drawn[key] = made
        return self._drawn[key]

    def shown(self, figure: Figure) -> tuple[Shown, ...]:
        """The angles that are drawn; empty where no body can do it."""
        solved = self.solved(figure).value
        return shown(solved) if solved is not None else ()

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

    def _draw(self, figure: Figure, works: Sequence[str], look: Look, key: str) -> Drawn | None:
        from protodsl.figure.draw.draw import draw

        solved = self.solved(figure).value
        if solved is None:
            return None
        made = draw(solved, works, PREFIX, mirror=look.mirror, scale=look.scale, room=look.room, leftward=look.leftward)
        digest = drawing_digest(made.svg) if look == USUAL else ""
        found = Drawn(made.svg, made.width_mm, made.height_mm, made.roles, made.unshaded, digest)
        self._store().keep(key, found.plain())
        return found

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
