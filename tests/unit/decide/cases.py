"""A protocol and a case from text, for tests that decide; both short, with what every text needs added."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from protodsl.decide import Plan, decide
from protodsl.diagnostics.diagnostic import Diagnostic, Severity, in_order
from protodsl.model.clinic import Clinic, Contact
from protodsl.resolve import Cache
from protodsl.resolve.case import Person, resolve_case
from protodsl.resolve.case_protocol import protocols_in
from protodsl.source import Source
from protodsl.syntax import parse_case
from tests.support import Shelf

HEAD = """\
question chest pain: Do you have chest pain?
question pain: How much does it hurt?
  answer 0 to 10
  fresh for one session
question pain next morning: How much does it hurt the next morning?
  answer 0 to 10
  fresh for one session
test heel raises: Heel raises.
  answer count from 0 to 60, each side
  fresh for 4 weeks
target calf: calf
equipment step: a step
equipment wall: a wall
equipment light band: a light band
"""
PROTOCOL = """\
protocol test protocol
  version 1.0.0
  review 2026-10-05 by team, next by 2027-10-05
  source common practice, no source
  for adults
  emergency if chest pain
"""


def exercise(name: str, *lines: str, dose: str = "3 x 10, daily") -> str:
    """An exercise that does no more than the test needs."""
    below = "".join(f"  {line}\n" for line in lines)
    return f"exercise {name}\n  dose {dose}\n  do\n    Move.\n  stop a sharp pain\n{below}"


def indented(text: str, by: int = 2) -> str:
    """Lines set in, empty ones left out."""
    return "".join(f"{' ' * by}{line}\n" for line in text.splitlines() if line.strip())


def protocol_text(declarations: str, lines: str) -> str:
    """A protocol file: the usual questions, some declarations, and the lines of the protocol."""
    return HEAD + declarations + PROTOCOL + indented(lines)


def case_text(lines: str, started: str = "2026-11-02", answered: bool = True) -> str:
    """A case file with its first lines; with `answered` the danger sign is answered no on the first day."""
    head = f"case P-0417\n  protocol test protocol, version 1.0.0\n  started {started}\n  language en\n"
    if "side" not in lines.split():
        head += "  side right\n"
    if answered:
        head += f"  on {started}\n    no: chest pain\n"
    return head + indented(lines)


def read(protocol: str, case: str) -> tuple[Person | None, tuple[Diagnostic, ...]]:
    """The person that a case file comes to, and what is said about the case file."""
    shelf = Shelf({"input.protocol": protocol})
    followed = protocols_in("input.protocol", shelf, Cache())
    parsed = parse_case(Source("input.case", case))
    assert parsed.value is not None
    outcome = resolve_case(
        parsed.value,
        lambda name: tuple(one for one in followed if one.protocol.name == name),
        [one.protocol.name for one in followed],
    )
    errors = [one for one in shelf.diagnostics if one.severity is Severity.ERROR]
    assert not errors, [one.message for one in errors]
    return outcome.value, in_order((*parsed.diagnostics, *outcome.diagnostics))


def person(protocol: str, case: str) -> Person:
    """The person; fails the test where anything is wrong with the case file."""
    value, diagnostics = read(protocol, case)
    errors = [one for one in diagnostics if one.severity is Severity.ERROR]
    assert not errors and value is not None, [(one.code.id, one.message) for one in errors]
    return value


def day(text: str) -> date:
    """A date of November 2026 by its day, or a whole date."""
    return date.fromisoformat(text if "-" in text else f"2026-11-{text}")


CLINIC = Clinic(
    "Alder Quay",
    "Harbour Street 1",
    Contact("Call the ambulance", "112"),
    Contact("Call us", "555 0100"),
    weights=tuple(Decimal(number) for number in ("1", "2", "2.5", "5", "7.5", "10", "12.5", "15", "20")),
)


def plan(protocol: str, case: str, as_of: str | None = None) -> Plan:
    """What is decided; fails the test where nothing is."""
    value, diagnostics = planned(protocol, case, as_of)
    assert value is not None, [(one.code.id, one.message) for one in diagnostics]
    return value


def planned(protocol: str, case: str, as_of: str | None = None) -> tuple[Plan | None, tuple[Diagnostic, ...]]:
    """What is decided, and what is said on the way."""
    someone = person(protocol, case)
    outcome = decide(someone.versions, someone.case, CLINIC, day(as_of) if as_of else None)
    return outcome.value, outcome.diagnostics


def names(found: Plan) -> list[str]:
    """The exercises on the sheet."""
    return [item.exercise.name for item in found.items]


def moves(found: Plan) -> list[str]:
    """The moves as `02 up calf strength: low > high`."""
    return [f"{one.date:%d} {one.kind} {one.item}: {one.before} > {one.after}" for one in found.moves]
