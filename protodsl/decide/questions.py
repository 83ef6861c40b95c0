"""Open questions in order of consequence: first what keeps the sheet from being made, last what a focus waits for."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from protodsl.decide.plan import Evidence, OpenQuestion, QuestionUse, Reason
from protodsl.decide.truth import UNKNOWN
from protodsl.model.condition import Condition
from protodsl.source import Span

# What an unanswered line of each keyword comes to, the gravest first: no sheet; an exercise left out; nobody goes on;
# the clinician may have to be told; something to heed is printed; something is not given; nobody goes further.
ORDER: tuple[str, ...] = (
    "emergency if",
    "red flag if",
    "avoid if",
    "back to",
    "down when",
    "take off",
    "call if",
    "caution",
    "give",
    "until",
    "up when",
    "add",
    "load",
    "focus",
)


@dataclass(slots=True)
class Asked:
    """Questions as they are come upon."""

    found: list[tuple[int, QuestionUse, Evidence]] = field(default_factory=list)

    def add(self, kind: str, item: str, span: Span, condition: Condition | None, unknown: Iterable[Evidence]) -> None:
        """A line that waits for some values."""
        for one in unknown:
            self.found.append((ORDER.index(kind), QuestionUse(kind, item, span, condition), one))

    def of_reasons(self, reasons: Iterable[Reason], item: str) -> None:
        """The `avoid if` lines among the reasons that nobody can answer."""
        for reason in reasons:
            if reason.kind == "avoid" and reason.truth is UNKNOWN:
                self.add("avoid if", reason.name or item, reason.span, None, reason.unknown)

    def questions(self) -> tuple[OpenQuestion, ...]:
        """Each finding and side once, in order of the gravest line that waits for it."""
        ranks: dict[tuple[str, str | None], int] = {}
        uses: dict[tuple[str, str | None], dict[QuestionUse, int]] = {}
        last: dict[tuple[str, str | None], Evidence] = {}
        for rank, use, evidence in self.found:
            key = (evidence.finding, evidence.side)
            ranks[key] = min(rank, ranks.get(key, rank))
            uses.setdefault(key, {}).setdefault(use, rank)
            if evidence.date is not None:
                last.setdefault(key, evidence)
        ordered = sorted(ranks, key=lambda key: ranks[key])
        return tuple(
            OpenQuestion(key[0], key[1], last.get(key), tuple(sorted(uses[key], key=lambda use: uses[key][use])))
            for key in ordered
        )
