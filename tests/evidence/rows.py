"""The evidence rows that tests use: facts from outside the project, copied beside the tests."""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

DATA = Path(__file__).parent / "data"


@cache
def table(name: str) -> dict[str, dict[str, str]]:
    """The rows of `data/NAME.csv` by their id."""
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return {row["id"]: row for row in csv.DictReader(file)}


def oracle(name: str, id: str) -> str:
    """The value of a row that may serve as an oracle; a value from memory may not."""
    row = table(name)[id]
    assert row["status"] in ("confirmed", "computed"), f"{id} is {row['status']} and proves nothing"
    return row["value"]
