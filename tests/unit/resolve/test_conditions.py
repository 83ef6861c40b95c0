"""Conditions: what can be compared with what, and what every form means."""

from decimal import Decimal

import pytest

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.condition import (
    All,
    AnyOf,
    AtLeast,
    Change,
    Compare,
    Condition,
    Constant,
    Difference,
    Elapsed,
    Fact,
    IsOneOf,
    Measured,
    Not,
    Side,
    Symmetry,
)
from protodsl.units import UNITS, Quantity
from tests.support import compiled

DECLARED = """
setting weeks in brace = 2 weeks, from 0 to 6 weeks
setting ten days = 10 days
setting pain limit = 5
setting reach = 10 cm
setting half = 50 %

question pain: How strong was your worst pain?
  answer 0 to 10
question pain next morning: How strong was it the next morning?
  answer 0 to 10
question stiffness: How stiff was it?
  answer 0 to 10, each side
question tear: Have you torn your calf muscle?
question numb: Is a foot numb?
  answer yes or no, each side
question sore place: Where is it sore?
  answer one of heel bone, mid tendon
question operation: On which day was your operation?
  answer date
question injection: On which day was the injection?
  answer date, each side
test heel raises: Single-leg heel raises.
  answer count from 0 to 60, each side
test chair rises: Rises in 30 seconds.
  answer count from 0 to 40
test knee-to-wall: From the big toe to the wall.
  answer cm from 0 to 25, each side
test waist: Round the waist.
  answer cm from 0 to 25
test weight: On the scales.
  answer kg from 20 to 300
test stretch: No range is given.
  answer cm
finding irritable
  yes if pain > 7
  otherwise no
finding stage
  early if pain > 7
  late if pain <= 7
"""


def read(condition: str) -> tuple[Condition | None, tuple[Diagnostic, ...]]:
    """The condition as it stands in an exercise, and what is said about it."""
    text = f"{DECLARED}\nexercise heel raise\n  do\n    Rise.\n  avoid if {condition}\n"
    entry, diagnostics = compiled(text)
    assert entry is not None
    avoid = entry.scope.exercises["heel raise"].avoid
    return (avoid[0].condition if avoid else None), diagnostics


def number(text: str, unit: str | None = None) -> Constant:
    return Constant(Quantity(Decimal(text), UNITS[unit] if unit else None))


RIGHT: dict[str, Condition] = {
    "tear": Fact("tear"),
    "irritable": Fact("irritable"),
    "not tear": Not(Fact("tear")),
    "numb on each side": Fact("numb", Side.EACH),
    "numb on the affected side": Fact("numb", Side.AFFECTED),
    "tear and pain > 5": All((Fact("tear"), Compare(Measured("pain"), ">", number("5")))),
    "tear or not irritable": AnyOf((Fact("tear"), Not(Fact("irritable")))),
    "not (tear or irritable)": Not(AnyOf((Fact("tear"), Fact("irritable")))),
    "at least 2 of (tear, irritable, pain > 3)": AtLeast(
        2, (Fact("tear"), Fact("irritable"), Compare(Measured("pain"), ">", number("3")))
    ),
    "sore place is heel bone": IsOneOf("sore place", ("heel bone",)),
    "sore place is not heel bone": IsOneOf("sore place", ("heel bone",), True),
    "sore place is one of (heel bone, mid tendon)": IsOneOf("sore place", ("heel bone", "mid tendon")),
    "stage is early": IsOneOf("stage", ("early",)),
    "pain >= pain limit": Compare(Measured("pain"), ">=", Constant(Quantity(Decimal(5)), "pain limit")),
    "pain >= pain limit + 1": Compare(Measured("pain"), ">=", Constant(Quantity(Decimal(6)), "pain limit")),
    "pain next morning > pain + 1": Compare(
        Measured("pain next morning"), ">", Measured("pain", Quantity(Decimal(1)))
    ),
    "pain next morning > pain - 1": Compare(
        Measured("pain next morning"), ">", Measured("pain", Quantity(Decimal(-1)))
    ),
    "heel raises >= 15 on each side": Compare(Measured("heel raises"), ">=", number("15", "count"), Side.EACH),
    "knee-to-wall < 100 mm on the affected side": Compare(
        Measured("knee-to-wall"), "<", number("100", "mm"), Side.AFFECTED
    ),
    "waist < reach": Compare(Measured("waist"), "<", Constant(Quantity(Decimal(10), UNITS["cm"]), "reach")),
    "waist < reach + 20 mm": Compare(
        Measured("waist"), "<", Constant(Quantity(Decimal(12), UNITS["cm"]), "reach")
    ),
    "waist < knee-to-wall on the left side": Compare(
        Measured("waist"), "<", Measured("knee-to-wall"), Side.LEFT
    ),
    "chair rises < 8": Compare(Measured("chair rises"), "<", number("8", "count")),
    "chair rises < pain limit": Compare(
        Measured("chair rises"), "<", Constant(Quantity(Decimal(5), UNITS["count"]), "pain limit")
    ),
    "symmetry of heel raises >= 90 %": Compare(Symmetry("heel raises"), ">=", number("90", "%")),
    "symmetry of heel raises >= half": Compare(
        Symmetry("heel raises"), ">=", Constant(Quantity(Decimal(50), UNITS["%"]), "half")
    ),
    "symmetry of heel raises >= 90 % on each side": Compare(
        Symmetry("heel raises"), ">=", number("90", "%"), Side.EACH
    ),
    "difference of knee-to-wall > 2 cm": Compare(Difference("knee-to-wall"), ">", number("2", "cm")),
    "difference of stiffness > 2": Compare(Difference("stiffness"), ">", number("2")),
    "change of pain since start < -2": Compare(Change("pain", "start"), "<", number("-2")),
    "change of heel raises since last time >= 1 on the other side": Compare(
        Change("heel raises", "last time"), ">=", number("1", "count"), Side.OTHER
    ),
    "weeks since start >= 2": Compare(Elapsed("weeks", "start"), ">=", number("2", "weeks")),
    "days since phase start >= 10": Compare(Elapsed("days", "phase start"), ">=", number("10", "days")),
    "weeks since operation >= weeks in brace": Compare(
        Elapsed("weeks", "operation"), ">=", Constant(Quantity(Decimal(2), UNITS["weeks"]), "weeks in brace")
    ),
    "days since operation >= weeks in brace": Compare(
        Elapsed("days", "operation"), ">=", Constant(Quantity(Decimal(14), UNITS["days"]), "weeks in brace")
    ),
    "weeks since injection >= 2 on either side": Compare(
        Elapsed("weeks", "injection"), ">=", number("2", "weeks"), Side.EITHER
    ),
    "stretch > 500 cm": Compare(Measured("stretch"), ">", number("500", "cm")),
}


@pytest.mark.parametrize("text", RIGHT)
def test_a_condition_means(text: str) -> None:
    condition, diagnostics = read(text)
    assert not diagnostics
    assert condition == RIGHT[text]


WRONG: dict[str, str] = {
    "tear > 3": "K301",
    "irritable >= 1": "K301",
    "pain": "K302",
    "heel raises": "K302",
    "not pain": "K302",
    "sore place": "K303",
    "sore place > 3": "K303",
    "tear is heel bone": "K304",
    "pain is heel bone": "K304",
    "sore place is heel": "K305",
    "sore place is one of (heel bone, toe)": "K305",
    "stage is middle": "K305",
    "operation": "K306",
    "operation > 3": "K306",
    "operation is heel bone": "K306",
    "weeks since pain >= 3": "K307",
    "days since tear >= 3": "K307",
    "waist > 10 kg": "K308",
    "waist > 10 reps": "K308",
    "heel raises > 10 cm on each side": "K308",
    "pain > 5 cm": "K308",
    "pain > heel raises on each side": "K308",
    "waist > weight": "K308",
    "waist > pain limit": "K308",
    "pain > reach": "K308",
    "pain > pain next morning + 1 cm": "K308",
    "symmetry of heel raises >= 9 cm": "K308",
    "weeks since start >= 3 cm": "K308",
    "weeks since start >= reach": "K308",
    "waist > 10": "K309",
    "waist > reach + 1": "K309",
    "waist > knee-to-wall + 1 on each side": "K309",
    "symmetry of heel raises >= 90": "K309",
    "difference of knee-to-wall > 2": "K309",
    "pain > 10": "K310",
    "pain >= 11": "K310",
    "pain < 0": "K310",
    "pain <= 12": "K310",
    "pain = 11": "K310",
    "weight > 301 kg": "K310",
    "knee-to-wall >= 300 mm on each side": "K310",
    "change of pain since start > 10": "K310",
    "difference of knee-to-wall > 26 cm": "K310",
    "numb": "K311",
    "heel raises > 3": "K311",
    "waist < knee-to-wall": "K311",
    "change of heel raises since start > 3": "K311",
    "weeks since injection >= 3": "K311",
    "tear on each side": "K312",
    "pain > 3 on the left side": "K312",
    "weeks since operation >= 3 on each side": "K312",
    "weeks since start >= 3 on each side": "K312",
    "change of pain since start > 3 on each side": "K312",
    "symmetry of waist >= 90 %": "K313",
    "difference of pain >= 3": "K313",
    "symmetry of tear >= 90 %": "K314",
    "symmetry of numb >= 90 %": "K314",
    "change of sore place since start > 1": "K314",
    "pain > tear": "K314",
    "weeks in brace > 3": "K315",
    "at least 3 of (tear, irritable)": "K317",
    "at least 0 of (tear, irritable)": "K317",
    "weeks since start >= 1.5": "K325",
    "weeks since operation >= ten days": "K325",
    "pian > 3": "N201",
    "pain > pian": "N201",
    "tears": "N201",
    "symmetry of heel rises >= 90 %": "N201",
    "weeks since operatoin > 3": "N201",
    "pins and needles": "N201",
}


@pytest.mark.parametrize("text", WRONG)
def test_a_condition_that_cannot_be_decided_is_said_once(text: str) -> None:
    """One mistake, one diagnostic, no value that a later stage could decide by."""
    condition, diagnostics = read(text)
    assert [one.code.id for one in diagnostics] == [WRONG[text]]
    assert condition is None


def test_an_inch_is_25_4_millimetres() -> None:
    """International yard and pound agreement of 1959 (NIST SP 811, B.8): 10 in is 25.4 cm, past the range of 25 cm."""
    assert not read("waist < 9.8 in")[1]
    assert [one.code.id for one in read("waist < 10 in")[1]] == ["K310"]


def test_every_mistake_in_one_condition_is_said() -> None:
    codes = [one.code.id for one in read("pian > 3 or tear > 3 or (sore place and waist > 10)")[1]]
    assert codes == ["N201", "K301", "K303", "K309"]


def test_two_unknown_halves_of_a_name_are_one_mistake() -> None:
    """Around `and` both are undeclared: the hint is to hyphenate, and it can be applied as it stands."""
    (only,) = read("pain > 3 or (pins and needles)")[1]
    assert only.fix is not None
    assert only.fix.replacement == "pins-and-needles"
    assert "hyphens" in only.help


def test_two_misspelled_facts_are_two_mistakes() -> None:
    """Each is near a declared name, so they are no halves of one."""
    said = read("teer and irritabel")[1]
    assert [one.fix and one.fix.replacement for one in said] == ["tear", "irritable"]


def test_a_name_of_another_kind_is_pointed_out() -> None:
    (only,) = read("heel raise")[1]
    assert only.notes == ("`heel raise` is declared as an exercise",)


@pytest.mark.parametrize(("depth", "codes"), [(6, []), (10, []), (30, ["T146"]), (2000, ["T146"])])
def test_brackets_in_brackets_never_overflow(depth: int, codes: list[str]) -> None:
    """Deep nesting is a mistake with a place that the parser names; what it lets through is read whole."""
    text = "tear and (irritable or (" * (depth // 2) + "tear" + "))" * (depth // 2)
    assert [one.code.id for one in read(text)[1]] == codes
