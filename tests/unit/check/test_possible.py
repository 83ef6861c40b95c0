"""Whether a condition can hold is what trying every answer finds: the search against an oracle that only counts.

The oracle knows nothing of the search: it evaluates conditions by Kleene's strong three-valued logic (Kleene SC.
Introduction to Metamathematics. 1952, section 64) for every person there can be, each answer at every critical value.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from itertools import combinations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from protodsl.check.logic import possible
from protodsl.check.logic.possible import certain, example_of
from protodsl.model.condition import (
    All,
    AnyOf,
    AtLeast,
    Compare,
    Condition,
    Constant,
    Elapsed,
    Fact,
    IsOneOf,
    Measured,
    Not,
    Side,
    findings_in,
)
from protodsl.model.protocol import Scope
from tests.support import entry

DECLARED = """question ill: Are you ill?
question tired: Are you tired?
question pain: How strong is your pain?
  answer 0 to 3
question stiffness: How stiff is it?
  answer 0 to 3
test reach: How far you reach.
  answer cm from 0 to 2, each side
test mood: How you feel.
  answer one of low, middling, high
finding grade: how bad it is
  bad if pain > 1
  fair if stiffness < 2 and not ill
finding verdict: what follows
  stop if grade is bad and tired
  otherwise go
"""

Person = Mapping[tuple[str, str], object]
CRITICAL: dict[str, tuple[object, ...]] = {
    "ill": (True, False),
    "tired": (True, False),
    "pain": tuple(map(Decimal, range(4))),
    "stiffness": tuple(map(Decimal, range(4))),
    # Thresholds are halves, and a reach is compared with numbers only, so quarters find every stretch.
    "reach": tuple(Decimal(quarter) / 4 for quarter in range(9)),
    "mood": ("low", "middling", "high"),
    "start": tuple(map(Decimal, (0, 6, 7, 13, 14, 16, 17, 20, 21, 28))),
}

FACTS = (
    *("ill", "tired", "pain > 0", "pain >= 2", "pain <= 1", "pain < 3", "pain = 2", "stiffness > 1", "stiffness <= 2"),
    *("pain > stiffness", "stiffness >= pain + 1", "pain <= stiffness + 1", "mood is high", "mood is not low"),
    *("mood is one of (low, high)", "grade is bad", "grade is fair", "grade is not bad", "verdict is go"),
    *("weeks since start >= 2", "weeks since start < 3", "days since start > 16", "weeks since start = 2"),
    *(f"reach {op} cm on {side} side" for op in (">= 1", "< 1.5", "> 0.5", "<= 0.5") for side in ("each", "either")),
    *(f"reach {op} cm on the {side} side" for op in (">= 1", "< 1") for side in ("affected", "other", "left")),
)


def joined(inner: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    """Bracketed joins of two or three."""
    some = st.lists(inner, min_size=2, max_size=3)
    return st.one_of(
        some.map(lambda parts: f"({' and '.join(parts)})"),
        some.map(lambda parts: f"({' or '.join(parts)})"),
        some.map(lambda parts: f"at least 2 of ({', '.join(parts)})"),
        inner.map(lambda part: f"not {part}" if part.startswith("(") else f"not ({part})"),
    )


CONDITIONS = st.recursive(st.sampled_from(FACTS), joined, max_leaves=4)


@settings(max_examples=80, deadline=None)
@given(CONDITIONS)
def test_what_can_hold_and_what_can_fail(text: str) -> None:
    scope = entry(f"{DECLARED}finding probe: what is asked\n  yes if {text}\n").scope
    condition = scope.findings["probe"].rows[0].condition
    seen = {judged(condition, person, affected, scope) for person, affected in everybody(condition, scope)}
    assert possible(scope, (condition, True)) is (True in seen)
    assert possible(scope, (condition, False)) is (False in seen)
    assert certain(scope, condition) is (seen == {True})


@settings(max_examples=60, deadline=None)
@given(CONDITIONS, CONDITIONS)
def test_what_can_hold_at_once(one: str, other: str) -> None:
    text = f"{DECLARED}finding probe: what is asked\n  yes if {one}\n  no if {other}\n"
    scope = entry(text).scope
    first, second = (row.condition for row in scope.findings["probe"].rows)
    both = AnyOf((first, second))
    seen = any(
        judged(first, person, affected, scope) is True and judged(second, person, affected, scope) is True
        for person, affected in everybody(both, scope)
    )
    assert possible(scope, (first, True), (second, True)) is seen


@pytest.mark.parametrize(
    ("text", "pain", "stiffness"),
    [("pain >= 2 and stiffness > pain", 2, 3), ("pain > stiffness + 2", 3, 0)],
)
def test_an_example_is_one(text: str, pain: int, stiffness: int) -> None:
    """The numbers of an example meet the condition."""
    scope = entry(f"{DECLARED}finding probe: what is asked\n  yes if {text}\n").scope
    found = example_of(scope, (scope.findings["probe"].rows[0].condition, True))
    assert found is not None
    assert found.numbers == {("value", "pain", ""): pain, ("value", "stiffness", ""): stiffness}


@pytest.mark.parametrize("pigeons", [3, 4, 5])
def test_as_many_holes_less_one_are_too_few(pigeons: int) -> None:
    """The pigeonhole principle, small enough to be decided."""
    assert not possible(*pigeonhole(pigeons))


def test_a_search_that_grows_too_long_claims_nothing() -> None:
    """Nine pigeons do not fit into eight holes either, but it takes long (Haken A. Theor Comput Sci 1985;39:297)."""
    assert possible(*pigeonhole(9))


def pigeonhole(count: int) -> tuple[Scope, tuple[Condition, bool]]:
    """So many pigeons, one hole less, and no two in one."""
    pigeons, holes = range(count), range(count - 1)
    asked = "".join(f"question p{pigeon}in{hole}: Is it?\n" for pigeon in pigeons for hole in holes)
    parts = [f"({' or '.join(f'p{pigeon}in{hole}' for hole in holes)})" for pigeon in pigeons]
    parts += [
        f"not (p{one}in{hole} and p{other}in{hole})" for hole in holes for one, other in combinations(pigeons, 2)
    ]
    scope = entry(f"{asked}finding probe: what is asked\n  yes if {' and '.join(parts)}\n").scope
    return scope, (scope.findings["probe"].rows[0].condition, True)


def everybody(condition: Condition, scope: Scope) -> Iterator[tuple[Person, str]]:
    """Every person that differs in what the condition asks for, with either side affected."""
    names: list[str] = []
    waiting = [*findings_in(condition), *(["start"] if "Elapsed" in repr(condition) else [])]
    while waiting:
        name = waiting.pop()
        finding = scope.findings.get(name)
        if finding is not None and finding.rows:
            waiting += [inner for row in finding.rows for inner in findings_in(row.condition)]
        elif name not in names:
            names.append(name)
    keys = [(name, side) for name in names for side in (("left", "right") if name == "reach" else ("",))]
    for values in product(*(CRITICAL[name] for name, _ in keys)):
        person = dict(zip(keys, values, strict=True))
        for affected in ("left", "right"):
            yield person, affected


def judged(condition: Condition, person: Person, affected: str, scope: Scope) -> bool | None:
    """Yes, no or (None) unknown."""
    if isinstance(condition, Not):
        inner = judged(condition.of, person, affected, scope)
        return None if inner is None else not inner
    if isinstance(condition, (All, AnyOf, AtLeast)):
        parts = [judged(one, person, affected, scope) for one in condition.of]
        needed = condition.count if isinstance(condition, AtLeast) else len(parts) if isinstance(condition, All) else 1
        if parts.count(True) >= needed:
            return True
        return None if parts.count(True) + parts.count(None) >= needed else False
    if condition.side in (Side.EACH, Side.EITHER):
        sides = [_atom(condition, person, side, scope) for side in ("left", "right")]
        return all(sides) if condition.side is Side.EACH else any(sides)
    other = "left" if affected == "right" else "right"
    sides_by_name = {Side.AFFECTED: affected, Side.OTHER: other, Side.LEFT: "left", Side.RIGHT: "right", None: ""}
    return _atom(condition, person, sides_by_name[condition.side], scope)


def _atom(atom: Fact | IsOneOf | Compare, person: Person, side: str, scope: Scope) -> bool | None:
    if isinstance(atom, Fact):
        return person[atom.finding, ""] is True
    if isinstance(atom, IsOneOf):
        value = _value(atom.finding, person, scope)
        return None if value is None else (value in atom.values) is not atom.negated
    left = _number(atom.left, person, side)
    right = _number(atom.right, person, side)
    if isinstance(atom.left, Elapsed) and atom.left.unit == "weeks":
        left = left // 7
    return {
        ">=": left >= right, "<=": left <= right, ">": left > right, "<": left < right, "=": left == right,
    }[atom.op]  # fmt: skip


def _value(name: str, person: Person, scope: Scope) -> object:
    """The value of a choice; of a derived one the first row that holds."""
    finding = scope.findings[name]
    if not finding.rows:
        return person[name, ""]
    for row in finding.rows:
        held = judged(row.condition, person, "left", scope)
        if held is not False:
            return row.value if held else None
    return finding.otherwise


def _number(term: object, person: Person, side: str) -> Decimal:
    if isinstance(term, Constant):
        return term.quantity.value
    if isinstance(term, Elapsed):
        return Decimal(str(person["start", ""]))
    assert isinstance(term, Measured)
    plus = term.plus.value if term.plus else Decimal(0)
    return Decimal(str(person[term.finding, side if term.finding == "reach" else ""])) + plus
