"""Published decision rules written in the language and run over every combination of yes, no and unknown.

Ottawa ankle, foot and knee rules: Stiell IG, et al. JAMA 1993;269:1127-1132; Stiell IG, et al. JAMA 1996;275:611-615
(rows of 06_ottawa_truth, computed from the rules). Wells criteria: Wells PS, et al. N Engl J Med 2003;349:1227-1235
(rows of 06_wells_counts, enumerated from the scores). A rule with unknowns is yes or no only where every way to fill in
the unknowns agrees; that is seen from the two-valued rows here, not from the logic under test.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import product

import pytest

from protodsl.decide.evaluate import evaluate
from protodsl.decide.truth import NO, Truth
from protodsl.decide.values import ANSWER, Values
from protodsl.model.case import Observation
from protodsl.model.condition import Condition
from protodsl.model.finding import Finding
from tests.evidence.rows import table
from tests.unit.decide.people import DAY, TRUTHS, condition_of, moment

Answers = tuple[bool | None, ...]

RULES = {
    "ankle": "pain malleolar and (tender lateral or tender medial or cannot four steps)",
    "foot": "pain midfoot and (tender mt5 or tender navicular or cannot four steps)",
    "knee": "aged past fifty-four or patella isolated or fibular head or cannot flex or cannot four steps",
}
INPUTS = {
    "ankle": ("pain malleolar", "tender lateral", "tender medial", "cannot four steps"),
    "foot": ("pain midfoot", "tender mt5", "tender navicular", "cannot four steps"),
    "knee": ("aged past fifty-four", "patella isolated", "fibular head", "cannot flex", "cannot four steps"),
}
WELLS = tuple(f"wells {word}" for word in ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine"))
ALTERNATIVE = "alternative as likely"
LIKELY = f"at least 4 of ({', '.join(WELLS)}) or (not {ALTERNATIVE} and at least 2 of ({', '.join(WELLS)}))"


def questions(names: Sequence[str]) -> str:
    return "".join(f"question {name}: Is it so?\n" for name in names)


def truths(rule: Condition, findings: Mapping[str, Finding], names: Sequence[str]) -> dict[Answers, Truth]:
    """The truth of the rule for each combination of answers."""
    at = moment(findings)
    found: dict[Answers, Truth] = {}
    said = {(name, value): Observation(name, None, value, DAY) for name in names for value in (True, False, None)}
    for answers in product((True, False, None), repeat=len(names)):
        at.values = Values()
        for name, value in zip(names, answers, strict=True):
            if value is not None:
                at.values.record(said[name, value], ANSWER)
        found[answers] = evaluate(rule, at, NO).truth
    return found


@pytest.mark.parametrize("name", RULES)
def test_the_ottawa_rules(name: str) -> None:
    """Each row as published, and with unknowns yes or no only where all rows they may turn out to be agree."""
    rule, findings = condition_of(questions(INPUTS[name]), RULES[name])
    rows = {
        tuple(bit == "1" for bit in row["bits"]): row["film"] == "1"
        for row in table("06_ottawa_truth").values()
        if row["rule"] == name and row["status"] == "computed"
    }
    assert len(rows) == 2 ** len(INPUTS[name])
    for answers, truth in truths(rule, findings, INPUTS[name]).items():
        ways = product(*((True, False) if one is None else (one,) for one in answers))
        films = {rows[way] for way in ways}
        assert truth is TRUTHS[films.pop() if len(films) == 1 else None], answers


def test_the_wells_criteria() -> None:
    """All 59,049 combinations of ten criteria, counted as they were enumerated from the scores."""
    rule, findings = condition_of(questions((*WELLS, ALTERNATIVE)), LIKELY)
    found = truths(rule, findings, (*WELLS, ALTERNATIVE))
    counts = Counter(found.values())
    rows = table("06_wells_counts")
    for truth, word in ((Truth.YES, "likely"), (Truth.NO, "unlikely"), (Truth.UNKNOWN, "unknown")):
        row = rows[f"wells2003_3v_{word}"]
        assert row["status"] == "computed"
        assert counts[truth] == int(row["combinations"])
    scores: Counter[tuple[int, Truth]] = Counter()
    for answers, truth in found.items():
        if None not in answers:
            scores[sum(map(bool, answers[:-1])) - 2 * bool(answers[-1]), truth] += 1
    for row in rows.values():
        if row["score"] != "with unknowns":
            truth = Truth.YES if row["class"] == "likely" else Truth.NO
            assert scores[int(row["score"]), truth] == int(row["combinations"])
