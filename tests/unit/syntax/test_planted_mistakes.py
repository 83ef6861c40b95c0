"""Every kind of slip, planted into every file of the demo: told on its line, and nothing told besides."""

from __future__ import annotations

import pytest

from tests.unit.syntax.planting import MISTAKES, Count, plant, table
from tests.unit.syntax.samples import DEMO, sample_paths

# Every n-th place that can carry a mistake; `python -m tests.unit.syntax.planting 1` tries all of them.
EVERY = 13
WANTED = 0.98


@pytest.fixture(scope="module")
def counts() -> dict[str, Count]:
    return plant([path for path in sample_paths() if path.is_relative_to(DEMO)], EVERY)


@pytest.mark.parametrize("kind", MISTAKES)
def test_a_mistake_is_told_on_its_line_and_no_other_is(kind: str, counts: dict[str, Count]) -> None:
    """Of each kind at least 98 in 100, and of the few kinds the demo hardly has a place for, all."""
    count = counts[kind]
    assert count.planted, f"no place for: {kind}"
    assert count.on_its_line >= WANTED * count.planted, (count.elsewhere, count.silent)


def test_all_mistakes_together(counts: dict[str, Count]) -> None:
    print(table(counts))
    planted = sum(count.planted for count in counts.values())
    assert planted > 2000
    assert sum(count.on_its_line for count in counts.values()) >= WANTED * planted
