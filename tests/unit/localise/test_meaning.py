"""The words of a condition mean what the rule means: they are read back by a reader that knows only English."""

from __future__ import annotations

import re
from decimal import Decimal
from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from protodsl.localise.catalogue import catalogue
from protodsl.localise.conditions import in_words
from protodsl.localise.voice import Voice
from protodsl.model.condition import All, AnyOf, AtLeast, Compare, Condition, Constant, Fact, Measured, Not, Side
from protodsl.model.finding import Answer, Finding, Kind
from protodsl.model.protocol import Scope
from protodsl.model.text import Prose
from protodsl.units import UNITS, Quantity
from tests.unit.localise.reading import at_least, both, either, on_scale, opposite, threshold, truth

_FACTS = 4
_OPPOSITES = {">=": "<", "<": ">=", ">": "<=", "<=": ">", "=": "!="}


def _voice() -> Voice:
    spoken = catalogue("en")
    assert spoken is not None
    facts = {
        f"f{at}": Finding(
            f"f{at}", "question", yes_means=Prose(f"fact{at} is so"), no_means=Prose(f"fact{at} is not so")
        )
        for at in range(_FACTS)
    }
    facts["level"] = Finding("level", "question", means=Prose("the level"))
    return Voice(spoken, Scope(facts))


VOICE = _voice()


def _joined(parts: st.SearchStrategy[Condition]) -> st.SearchStrategy[Condition]:
    several = st.lists(parts, min_size=2, max_size=4).map(tuple)
    return st.one_of(
        parts.map(Not),
        several.map(All),
        several.map(AnyOf),
        several.flatmap(lambda of: st.integers(1, len(of)).map(lambda count: AtLeast(count, of))),
    )


def _conditions() -> st.SearchStrategy[Condition]:
    """Conditions over four facts, at most four lists deep: as deep as there are kinds of marks."""
    level: st.SearchStrategy[Condition] = st.integers(0, _FACTS - 1).map(lambda at: Fact(f"f{at}"))
    for _ in range(4):
        level = st.one_of(level, _joined(level))
    return level


def _truth(node: Condition, facts: dict[int, str]) -> str:
    """What a condition comes to by the published tables, negations taken as they stand."""
    if isinstance(node, Fact):
        return facts[int(node.finding[1:])]
    if isinstance(node, Not):
        return opposite(_truth(node.of, facts))
    assert isinstance(node, (All, AnyOf, AtLeast))
    values = [_truth(one, facts) for one in node.of]
    if isinstance(node, AtLeast):
        return at_least(node.count, values)
    result = values[0]
    for value in values[1:]:
        result = both(result, value) if isinstance(node, All) else either(result, value)
    return result


@settings(max_examples=200, deadline=None)
@given(_conditions(), st.booleans())
def test_any_condition_reads_as_it_decides(condition: Condition, negated: bool) -> None:
    """Yes, no and unknown agree for every answer to every fact, however deep the brackets."""
    words = in_words(VOICE, condition, negated=negated)
    for answers in product("TFU", repeat=_FACTS):
        facts = dict(enumerate(answers))
        decided = _truth(condition, facts)
        assert truth(words, facts) == (opposite(decided) if negated else decided), words


@given(
    st.sampled_from(sorted(_OPPOSITES)),
    st.decimals(min_value=-200, max_value=20000, places=3, allow_nan=False, allow_infinity=False),
    st.sampled_from([None, "cm", "kg", "deg", "s", "%", "N", "mmHg"]),
    st.booleans(),
)
def test_any_threshold_reads_as_it_is_written(op: str, value: Decimal, unit: str | None, negated: bool) -> None:
    """The sign and every digit of the threshold come back from the words."""
    condition = Compare(Measured("level"), op, Constant(Quantity(value, UNITS[unit] if unit else None)))
    words = in_words(VOICE, condition, negated=negated)
    before, _, rest = words.partition(" is ")
    assert before == "the level"
    assert threshold(rest) == (_OPPOSITES[op] if negated else op, value)


@given(
    st.sampled_from(sorted(_OPPOSITES)),
    st.integers(0, 100),
    st.sampled_from([0, 1, -5]),
    st.sampled_from([Kind.SCALE, Kind.MEASURE]),
    st.sampled_from([None, Side.EACH, Side.AFFECTED]),
    st.booleans(),
)
def test_a_point_on_a_scale_is_said_with_its_end(
    op: str, value: int, low: int, kind: Kind, side: Side | None, negated: bool
) -> None:
    """Out of how many: on a scale that begins at 0 alone, since 2 on a scale from 1 to 5 is no 2 out of 5."""
    finding = Finding("score", "question", answer=Answer(kind, Decimal(low), Decimal(100)), means=Prose("the score"))
    voice = Voice(VOICE.catalogue, Scope({"score": finding}))
    condition = Compare(Measured("score"), op, Constant(Quantity(Decimal(value))), side)
    words = in_words(voice, condition, negated=negated)
    _, _, rest = words.partition(" is ")
    said = re.sub(r" on (both sides|at least one side|the affected side)$", "", rest)
    end = Decimal(100) if kind is Kind.SCALE and low == 0 else None
    assert on_scale(said) == (_OPPOSITES[op] if negated else op, Decimal(value), end)
    assert (said != rest) is (side is not None)
