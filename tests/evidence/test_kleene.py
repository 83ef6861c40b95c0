"""Three-valued logic against the published tables and against an independent implementation.

Kleene SC. Introduction to Metamathematics, 1952, section 64, as in the documentation of databases (rows of 11_kleene);
SQLite's AND, OR and NOT with NULL (https://www.sqlite.org/nulls.html).
"""

from __future__ import annotations

import sqlite3
from itertools import product

from protodsl.decide.truth import Truth, at_least
from tests.evidence.rows import table
from tests.unit.decide.people import TRUTHS, condition_of, decided, moment, said

LETTERS = {"T": True, "F": False, "U": None}
FORMS = {"and": "one and two", "or": "one or two", "not": "not one", "implies": "not one or two",
         "xor": "(one and not two) or (not one and two)"}  # fmt: skip
QUESTIONS = "question one: One?\nquestion two: Two?\nquestion three: Three?\n"


def truth_of(written: str, **answers: bool | None) -> Truth:
    """The truth of a condition over the questions one, two and three."""
    condition, findings = condition_of(QUESTIONS, written)
    at = moment(findings)
    for name, value in answers.items():
        said(at, name, value)
    return decided(condition, at).truth


def test_the_published_tables() -> None:
    """Every row, those of `implies` and `xor` written with the three words there are."""
    rows = [row for row in table("11_kleene").values() if row["status"] in ("confirmed", "computed")]
    assert len(rows) == 39
    for row in rows:
        answers = {"one": LETTERS[row["a"]]} | ({"two": LETTERS[row["b"]]} if row["b"] else {})
        assert truth_of(FORMS[row["op"]], **answers) is TRUTHS[LETTERS[row["result"]]], row["id"]


def test_as_a_database_decides() -> None:
    """Conditions with brackets and `not`, over every combination of three answers."""
    database = sqlite3.connect(":memory:")
    forms = (
        "one and (two or not three)",
        "not (one or two) and three",
        "one or two or three",
        "(one and two) or three",
        "not (one and not (two or three))",
    )
    for written in forms:
        for answers in product((True, False, None), repeat=3):
            named = dict(zip(("one", "two", "three"), answers, strict=True))
            sql = written
            for name in named:
                sql = sql.replace(name, f":{name}")
            (result,) = database.execute(f"select {sql}", named).fetchone()
            expected = TRUTHS[None if result is None else bool(result)]
            assert truth_of(written, **named) is expected, (written, answers)


def test_at_least_n_as_a_sum_in_the_database() -> None:
    """`at least n of`: yes by the sure ones alone, no where even every unknown would not do."""
    database = sqlite3.connect(":memory:")
    sql = "select sum(coalesce(column1, 0)), sum(coalesce(column1, 1)) from (values (?), (?), (?), (?))"
    for count in range(1, 5):
        for answers in product((True, False, None), repeat=4):
            low, high = database.execute(sql, answers).fetchone()
            expected = Truth.YES if low >= count else Truth.NO if high < count else Truth.UNKNOWN
            assert at_least(count, (TRUTHS[one] for one in answers)) is expected
