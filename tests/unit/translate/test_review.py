"""A review is of the very words that were read, and of no others."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from protodsl.translate.entries import Entry
from protodsl.translate.review import Review, digest, mark_lines, read_mark

ENTRY = Entry("exercise/heel raise/do", ("Rise slowly.",), ("Suba despacio.",))
MARKED = replace(ENTRY, review=Review(date(2026, 10, 5), "team", digest(ENTRY.key, ENTRY.source, ENTRY.target)))


def test_a_mark_of_these_words_holds() -> None:
    assert MARKED.is_reviewed and not ENTRY.is_reviewed


@pytest.mark.parametrize(
    "changed",
    [
        replace(MARKED, target=("Suba despacio",)),
        replace(MARKED, target=("suba despacio.",)),
        replace(MARKED, source=("Rise slowly",)),
        replace(MARKED, key="exercise/other/do"),
        replace(MARKED, fuzzy=True),
        replace(MARKED, target=()),
    ],
)
def test_any_change_ends_it(changed: Entry) -> None:
    assert not changed.is_reviewed


def test_words_cannot_move_between_text_and_translation() -> None:
    assert digest("k", ("ab",), ("c",)) != digest("k", ("a",), ("bc",))
    assert digest("k", ("a", "b"), ("c",)) != digest("k", ("a",), ("b", "c"))


def test_the_mark_is_read_as_it_is_written() -> None:
    assert MARKED.review is not None
    assert read_mark(("before", *mark_lines(MARKED.review), "after")) == (MARKED.review, ("before", "after"))


@pytest.mark.parametrize(
    "comments",
    [
        ("reviewed 2026-10-05 by team",),
        ("reviewed-words 0123456789ab",),
        ("reviewed 2026-13-05 by team", "reviewed-words 0123456789ab"),
        ("reviewed by team", "reviewed-words 0123456789ab"),
    ],
)
def test_half_a_mark_is_none(comments: tuple[str, ...]) -> None:
    assert read_mark(comments)[0] is None
