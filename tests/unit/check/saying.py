"""What the checks say of a text, and short texts to say it of."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Mapping
from decimal import Decimal

from protodsl.check import check
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.clinic import Clinic, Contact, Limits
from tests.support import entry

AS_OF = datetime.date(2026, 11, 25)
CLINIC = Clinic(
    "Alder Quay clinic",
    "2 Harbour Steps",
    Contact("Call for help now", "112"),
    Contact("Call us", "01632 960 142"),
    limits=Limits(20, Decimal(8), Decimal(50), Decimal(60)),
)


def checked(
    text: str,
    others: Mapping[str, str] | None = None,
    *,
    clinic: Clinic = CLINIC,
    as_of: datetime.date | None = AS_OF,
    lacks: Callable[[str], tuple[str, ...]] | None = None,
) -> tuple[Diagnostic, ...]:
    """Everything the checks say of a text that resolves without an error."""
    return check(entry(text, **(others or {})), clinic, as_of, lacks)


def codes(text: str, **others: str) -> list[str]:
    """The codes the checks say of a text, in the order of the text."""
    return [one.code.id for one in checked(text, others)]


def messages(text: str, code: str, **others: str) -> list[str]:
    """The messages of one code."""
    return [one.message for one in checked(text, others) if one.code.id == code]


PAIN = "question pain: How strong is your pain?\n  answer 0 to 10\n"


def exercise(name: str = "heel raise", *lines: str, dose: str = "dose 3 x 12, daily") -> str:
    """An exercise that no rule has anything to say of, with lines added."""
    own = "".join(f"  {line}\n" for line in (dose, *lines))
    return f"exercise {name}\n{own}  do\n    Rise as high as you can.\n  stop a sharp pain\n"


def protocol(*lines: str, name: str = "calf") -> str:
    """A protocol that no rule has anything to say of, with lines added."""
    own = "".join(f"  {line}\n" for line in lines)
    return (
        "question chest pain: Do you have chest pain?\n"
        f"protocol {name}\n  title A calf\n  version 1.0.0\n  review 2026-10-05 by team, next by 2027-10-05\n"
        f"  source common practice, no source\n  for adults\n  emergency if chest pain\n{own}"
    )
