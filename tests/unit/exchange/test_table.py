"""Tables against RFC 4180, against the plan, and against what a spreadsheet would run."""

from __future__ import annotations

import csv
import io
import re

import pytest
from hypothesis import given
from hypothesis import strategies as some

from protodsl.exchange.table.cells import cell, table
from protodsl.exchange.table.columns import dose_cells, dose_header
from tests.support import dose
from tests.unit.exchange import demo

# The grammar of RFC 4180, section 2: records of fields, quoted where they hold a quote, a comma or a line end.
FIELD = r'(?:"(?:[^"]|"")*"|[^",\r\n]*)'
FILE = re.compile(rf"{FIELD}(?:,{FIELD})*(?:\r\n{FIELD}(?:,{FIELD})*)*\r\n")
# OWASP, CSV Injection: cells that begin with one of these are read as formulas.
DANGEROUS = ("=", "+", "-", "@", "\t", "\r", "\n")


def read(data: bytes) -> list[dict[str, str]]:
    """The rows by the names of the header; every row has as many cells as the header."""
    text = data.decode()
    assert FILE.fullmatch(text)
    header, *rows = csv.reader(io.StringIO(text, newline=""), strict=True)
    assert len(header) == len(set(header)) and {len(row) for row in rows} <= {len(header)}
    return [dict(zip(header, row, strict=True)) for row in rows]


@pytest.mark.parametrize("case", demo.CASES)
def test_a_plan(case: str) -> None:
    """A row for each exercise and later dose, with the dates of the plan; together they hold each date once."""
    plan = demo.decided(case).plan
    rows = read(demo.case_file("csv", case))
    for item in plan.items:
        mine = [row for row in rows if row["exercise"] == item.exercise.name]
        assert len(mine) == 1 + sum(later.dose is not None for later in item.later)
        assert [day for row in mine for day in row["dates"].split()] == [day.isoformat() for day in item.dates]
    assert {row["case"] for row in rows} == {case}
    assert all(re.fullmatch(r"[\w/.-]+\.protocol:\d+", row["place"]) for row in rows)


@pytest.mark.parametrize("name", demo.protocols())
def test_a_protocol(name: str) -> None:
    """Every exercise that the protocol can come to give has a row, and every row its dose in words."""
    rows = read(demo.protocol_file("csv", name))
    assert rows and {row["given"] for row in rows} <= {"given", "instead"}
    assert all(row["title"] and row["place"] for row in rows)
    assert all(bool(row["if"]) == bool(row["if_words"]) for row in rows)


def test_a_dose_by_its_columns() -> None:
    """Worked by hand from the line: numbers stand low and high, seconds in columns that say so, units in UCUM."""
    one = dose("3 x 8 to 12, each side, lift 2 s, lower 3 s, rest 2 min, load 5 kg, effort 6 to 7, 3 days a week")
    said = {name: text for name, text in zip(dose_header(), dose_cells(one), strict=True) if text}
    assert said == {
        "sets_low": "3", "sets_high": "3", "repetitions_low": "8", "repetitions_high": "12",
        "lift_seconds_low": "2", "lift_seconds_high": "2", "lower_seconds_low": "3", "lower_seconds_high": "3",
        "rest_seconds_low": "120", "rest_seconds_high": "120", "sides": "each",
        "load_low": "5", "load_high": "5", "load_unit": "kg", "effort_low": "6", "effort_high": "7",
        "days_a_week_low": "3", "days_a_week_high": "3",
    }  # fmt: skip


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", " =1", "＝1", "\n@x"])
def test_a_formula_is_guarded(text: str) -> None:
    """A cell that a spreadsheet would run begins with an apostrophe."""
    assert cell(text).startswith("'")


@pytest.mark.parametrize("text", ["3 x 12", "2.5", "heel raise", "a-b", "1 = 1", ""])
def test_what_is_no_formula_stays(text: str) -> None:
    """Everything else stands as it is."""
    assert cell(text) == text


@given(some.lists(some.tuples(some.text(max_size=30), some.text(max_size=30)), max_size=4))
def test_any_cells(rows: list[tuple[str, str]]) -> None:
    """Whatever is in the cells, the table is one by the grammar, keeps its shape, and no cell is run."""
    rows = [tuple(re.sub("[\ud800-\udfff]", "", one) for one in row) for row in rows]  # type: ignore[misc]
    data = table(("a", "b"), rows)
    assert FILE.fullmatch(data.decode())
    back = list(csv.reader(io.StringIO(data.decode(), newline=""), strict=True))
    assert len(back) == len(rows) + 1
    assert not [text for row in back for text in row if text.startswith(DANGEROUS)]
