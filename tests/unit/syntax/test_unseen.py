"""Characters that nobody sees are told once a line, and nothing else is said because of them."""

from __future__ import annotations

import unicodedata

import pytest

from protodsl.source import Source
from protodsl.syntax import parse_protocol

# Unicode 15.1: controls of direction (UAX 9, table 1), general punctuation without width (chapter 23), line and
# paragraph separators (chapter 5.8); ECMA-48 controls.
BIDI = "\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069"
WIDTHLESS = "\u200b\u2060\u2061\u2062\u2063\u2064\u180e"
BREAKS = "\x0b\x0c\x85\u2028\u2029"
CONTROLS = "".join(map(chr, (*range(1, 9), *range(0x0E, 0x20), *range(0x7F, 0xA0))))


def told(text: str) -> list[str]:
    return [one.code.id for one in parse_protocol(Source("x.protocol", text)).diagnostics]


def exercise(name: str = "heel raise", step: str = "Rise.") -> str:
    return f"exercise {name}\n  dose 3 x 12\n  do\n    {step}\n"


@pytest.mark.parametrize("sign", BIDI + WIDTHLESS + BREAKS + CONTROLS, ids=lambda sign: f"U+{ord(sign):04X}")
def test_in_text_in_a_name_and_before_a_line(sign: str) -> None:
    assert told(exercise(step=f"Rise {sign}now.")) == ["T148"]
    assert told(exercise(name=f"heel{sign}raise")) == ["T148"]
    assert told(exercise().replace("  dose", f"{sign}  dose")) == ["T148"]


@pytest.mark.parametrize("sign", ["\u200c", "\u200d", "\u00a0", "\ufe0f"])
def test_joiners_and_blanks_with_width_are_left_alone(sign: str) -> None:
    assert told(exercise(step=f"Rise{sign}now.")) == []


def test_a_mark_of_direction_has_work_to_do_beside_hebrew_or_arabic() -> None:
    assert told(exercise(step="\u05e7\u05d5\u05dd\u200f 3 x")) == []
    assert told(exercise(step="\u05e7\u05d5\u05dd\u202e 3 x")) == ["T148"]


def test_each_line_is_told_once_at_its_first() -> None:
    text = exercise(step="Rise \u200bnow\u200b.\n    And \u200bagain.")
    found = parse_protocol(Source("x.protocol", text)).diagnostics
    assert [text.count("\n", 0, one.primary.span.start) for one in found] == [3, 4]
    assert all(unicodedata.category(text[one.primary.span.start]) == "Cf" for one in found)
