"""Plain text that fits a message."""

from __future__ import annotations

import re

import pytest

from protodsl.render import Style
from protodsl.render.documents.to_text import COLUMNS, text
from tests.documents.pages import demo_pages
from tests.unit.render import others, sample

ISOLATES = "\u2068\u2069"
# Every character of Unicode's Bidi_Control property (UCD, PropList.txt 15.0).
BIDI_CONTROLS = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"


def made(page: object = None, style: Style | None = None) -> str:
    """The text of a page, of the sample sheet unless another is given."""
    found = text(page or sample.sheet(), style or Style()).value  # type: ignore[arg-type]
    assert found is not None
    return found.decode()


def test_no_line_is_longer_than_a_phone_shows() -> None:
    """Not on any page of the demo, tables included; only one long word may be."""
    assert 60 <= COLUMNS <= 70
    for name, (page, look) in demo_pages().items():
        long = [line for line in made(page, look).split("\n") if len(line) > COLUMNS and " " in line.strip()]
        assert long == [], name


def test_stop_stands_first_and_its_numbers_are_whole() -> None:
    lines = made().split("\n")
    heads = [line for line in lines if line.startswith("==")]
    assert heads[0] == "== STOP and get help if this happens =="
    assert "Call now: 112" in lines
    assert "Stop all exercises. Call us today: 01632 960 142" in lines
    assert "Nights, weekends: 01632 960 199" in lines


def test_a_number_is_never_parted_at_the_end_of_a_line() -> None:
    for name, (page, look) in demo_pages().items():
        written = made(page, look)
        joined = re.sub(r"\s+", " ", written)
        assert written.count("01632 960 142") == joined.count("01632 960 142"), name


def test_no_sign_of_markdown_is_left() -> None:
    """Not even where an author wrote emphasis."""
    assert "**" in str(sample.sheet())
    for _, (page, look) in demo_pages().items():
        assert not re.search(r"\*\*|^#|^- |^\||`|\]\(", made(page, look), re.MULTILINE)


def test_exercises_and_steps_are_numbered_and_long_lines_hang() -> None:
    written = made()
    assert "== 2. Straighten your knee ==" in written
    assert "  1. Sit on the front half. Put your feet a little behind your\n     knees.\n" in written
    assert "Felt elsewhere? At the front of the kneecap: move your feet\n  forward" in written


def test_the_week_is_told_in_lines() -> None:
    written = made()
    assert "1 Stand up from a chair: Mon 5 · Wed 5 · Fri 5\n" in written
    week = re.sub(r"\s+", " ", written)
    assert "Minutes in the day: Mon 19 · Tue 14 · Wed 19 · Thu 14 · Fri 19 · Sat 14 · Sun 9" in week


def test_what_needs_a_pen_is_left_out() -> None:
    written = made()
    assert "Your diary" not in written
    assert "What I want to ask" not in written
    assert "Daily life" in written


def test_a_picture_is_told_in_words() -> None:
    assert "[A person does the exercise Lift your hips in 2 pictures.]" in made()


def test_from_right_to_left_only_numbers_are_isolated() -> None:
    """UAX #9: a number with parts is isolated so that they keep their order; no other control is in the text."""
    written = made(others.arabic(), Style(language="ar", direction="rtl"))
    assert "\u2068+44 1632 960142\u2069" in written
    assert {sign for sign in written if sign in BIDI_CONTROLS} == set(ISOLATES)
    assert all(re.fullmatch(r"[\d+ –-]+", found) for found in re.findall("\u2068(.*?)\u2069", written))
    assert not set(made()) & set(BIDI_CONTROLS)


@pytest.mark.parametrize("name", ["P-0417, sheet", "P-0423, sheet", "P-0431, sheet", "P-0438, sheet"])
def test_a_persons_sheet_stays_a_message(name: str) -> None:
    """Some 2,000 words are some ten minutes of reading; common practice, no source."""
    page, look = demo_pages()[name]
    assert len(made(page, look).split()) < 2600


def test_the_same_page_gives_the_same_bytes() -> None:
    assert made() == made()
