"""Names: what a declaration is known by, and how a line that is read looks names up and leaves a trace of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, NamedTuple

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.finding import Answer
from protodsl.model.protocol import Setting
from protodsl.source import Span
from protodsl.syntax import tree

# What the lines of one declaration come to: for each keyword the values of its lines, in text order.
Block = dict[str, list[Any]]

Tables = dict[str, dict[str, "Symbol"]]

KINDS: tuple[str, ...] = (
    "findings", "settings", "equipment", "targets", "exercises", "progressions", "protocols",
)  # fmt: skip

# Of these a line needs more than that they are there: their kind of answer, their value.
_EXACT = frozenset(("findings", "settings"))


class Missing(NamedTuple):
    """A name that nothing declares: the kinds that would have done, the name, and what it may be half of."""

    kinds: tuple[str, ...]
    name: tree.Name
    pair: tuple[str, str, str, Span] | None = None
    placeholder: bool = False


@dataclass(slots=True, eq=False)
class Own:
    """What the lines of one declaration come to by themselves, and every name they asked for on the way.

    `exact` are names whose very declaration mattered, `there` are names of which it mattered only whether they exist.
    """

    block: Block
    exact: dict[tuple[str, str], Symbol | None]
    there: dict[tuple[str, str], bool]
    said: list[Diagnostic]
    missing: list[Missing]

    def holds(self, tables: Tables) -> bool:
        """Whether reading the lines again with these tables would come to the same."""
        for (kind, name), symbol in self.exact.items():
            if tables[kind].get(name) is not symbol:
                return False
        return all((name in tables[kind]) is there for (kind, name), there in self.there.items())

    def asked(self) -> Iterator[tuple[str, str]]:
        """Every kind and name that was looked up."""
        yield from self.exact
        yield from self.there


@dataclass(slots=True, eq=False)
class Whole:
    """What a declaration comes to with everything it inherits; `lines` is what it was made from, to know it again."""

    block: Block
    made_from: tuple[object, ...]
    said: list[Diagnostic]
    model: Any = None


@dataclass(slots=True, eq=False)
class Symbol:
    """A declaration under its name; `answer` for findings (None: not understood), `setting` for settings.

    `stands_in` is True where it takes the place of one that a `without` takes out. `base` and `changes` are set where a
    protocol changes the declaration for itself. The last results are kept, and used again while what they were made
    from is the same.
    """

    kind: str
    name: str
    path: str
    node: Any
    answer: Answer | None = None
    setting: Setting | None = None
    base: Symbol | None = None
    stands_in: bool = False
    changes: tuple[tree.Declaration, ...] = ()
    own: list[Own] = field(default_factory=list)
    whole: Whole | None = None

    @property
    def span(self) -> Span:
        """The place of the name where it is declared, or where the change stands that made this of it."""
        span: Span = (self.changes[-1] if self.changes else self.node).name.span
        return span


@dataclass(slots=True, eq=False)
class Names:
    """The names in reach of the lines being read; `prefix` begins the keys of their prose (`exercise/NAME/`)."""

    tables: Tables
    prefix: str = ""
    exact: dict[tuple[str, str], Symbol | None] = field(default_factory=dict)
    there: dict[tuple[str, str], bool] = field(default_factory=dict)
    said: list[Diagnostic] = field(default_factory=list)
    missing: list[Missing] = field(default_factory=list)

    def finding(self, name: tree.Name) -> Symbol | None:
        """The question, test or finding of that name; None, and remembered as missing, where there is none."""
        symbol = self.find("findings", name.text)
        if symbol is None:
            self.missing.append(Missing(("findings",), name))
        return symbol

    def find(self, kind: str, text: str) -> Symbol | None:
        """What is declared under that name, or None; nothing is said."""
        symbol = self.tables[kind].get(text)
        if kind in _EXACT:
            self.exact[kind, text] = symbol
        else:
            self.there[kind, text] = symbol is not None
        return symbol

    def known(self, kind: str, name: tree.Name) -> str | None:
        """The text of a name that is declared as that kind; None, and remembered as missing, where it is not."""
        text = name.text
        there = text in self.tables[kind]
        if kind in _EXACT:
            self.exact[kind, text] = self.tables[kind].get(text)
        else:
            self.there[kind, text] = there
        if there:
            return text
        self.missing.append(Missing((kind,), name))
        return None

    def all_known(self, kind: str, names: tuple[tree.Name, ...]) -> list[str]:
        """The declared ones among several names."""
        return [text for name in names if (text := self.known(kind, name)) is not None]

    def say(self, diagnostic: Diagnostic) -> None:
        """Keep what is to be said about the lines."""
        self.said.append(diagnostic)

    def result(self, block: Block) -> Own:
        """The block with the trace of how it came about."""
        return Own(block, self.exact, self.there, self.said, self.missing)
