"""Diagnostics in a terminal: the mark stands under the place, and nothing that was written can act on the terminal."""

import re

import pytest

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Fix, Label, Severity
from protodsl.diagnostics.render_text import render_text
from protodsl.diagnostics.visible import visible, width
from protodsl.source import Source, Span

CODE = Code("N999", "made-up", Severity.ERROR)


def span(source: Source, words: str) -> Span:
    start = source.text.index(words)
    return Span(source.path, start, start + len(words))


def marked(source: Source, words: str, **more: object) -> list[str]:
    one = Diagnostic(CODE, "something is wrong", Label(span(source, words)), **more)  # type: ignore[arg-type]
    return render_text([one], {source.path: source}).splitlines()


def under_mark(echo: str, underline: str) -> str:
    """What stands above the mark, cell by cell."""
    cells = "".join(sign if width(sign) == 1 else sign + "\0" for sign in echo if width(sign))
    start = underline.index("^")
    return cells[start : start + underline.count("^")].replace("\0", "")


def test_place_severity_code_message() -> None:
    """The first line is what an editor can jump to and a log can be searched for."""
    source = Source("a.protocol", "exercise x\n  dose  3 x 12\n")
    lines = marked(source, "12")
    assert lines[0] == "a.protocol:2:13 error N999: something is wrong"
    assert lines[1] == "    2:   dose  3 x 12"
    assert under_mark(lines[1], lines[2]) == "12"


@pytest.mark.parametrize(
    "text",
    [
        "  feel  仰向けに寝る HERE end",
        "  feel  ＦＵＬＬ HERE",
        "  feel  e\u0301te\u0301 HERE",
        "  feel\tHERE",
        "\t\t漢\tHERE",
        "  dose  \x1b[31mHERE",
        "  feel  \u202eHERE\u2066",
    ],
)
def test_mark_stands_under_wide_combining_and_spelled_out_signs(text: str) -> None:
    """Widths are those of UAX 11 (East Asian Width): W and F take two cells, combining marks none."""
    lines = marked(Source("a.protocol", text), "HERE")
    assert under_mark(lines[1], lines[2]) == "HERE"


def test_nothing_written_reaches_the_terminal_as_a_control() -> None:
    """C0, C1, DEL, the bidi controls of UAX 9, U+2028/9 and lone surrogates are all spelled out, in words too."""
    acting = [chr(c) for c in (*range(0x20), *range(0x7F, 0xA0), 0x061C, 0x200E, 0x200F, 0x2028, 0x2029)]
    acting += [chr(c) for c in (*range(0x202A, 0x202F), *range(0x2066, 0x206A), 0xFEFF, 0xD800)]
    evil = "".join(acting)
    source = Source("a.protocol", "a" + evil.replace("\n", ""))
    label = Label(Span("a.protocol", 0, 1), evil.replace("\n", ""))
    one = Diagnostic(CODE, evil, label, (label,), (evil,), evil, Fix(label.span, evil.replace("\n", "") + "x"))
    shown = render_text([one], {"a.protocol": source})
    assert not set(shown) & (set(acting) - {"\n"})
    shown.encode("utf-8")


def test_joiners_stay_for_the_scripts_that_need_them() -> None:
    """Persian is misspelled without U+200C; it moves nothing."""
    assert visible("می\u200cشود") == "می\u200cشود"


def test_labels_in_the_same_file_come_in_line_order_and_other_files_after() -> None:
    here = Source("a.protocol", "one\ntwo\nthree\n")
    there = Source("lib/b.protocol", "exercise one\n")
    one = Diagnostic(
        CODE,
        "m",
        Label(span(here, "two"), "this"),
        (Label(span(there, "one"), "declared here"), Label(span(here, "three"), "and this"), Label(span(here, "one"))),
    )
    assert render_text([one], {here.path: here, there.path: there}).splitlines() == [
        "a.protocol:2:1 error N999: m",
        "    1: one",
        "       ---",
        "    2: two",
        "       ^^^ this",
        "    3: three",
        "       ----- and this",
        "       in lib/b.protocol",
        "    1: exercise one",
        "                --- declared here",
    ]


def test_a_stretch_over_several_lines_is_marked_to_the_end_of_its_first() -> None:
    source = Source("a.protocol", "do\n  One thing\n  Another\n")
    assert marked(source, "One thing\n  Another")[1:] == ["    2:   One thing", "         ^^^^^^^^^ to line 3"]


def test_a_place_at_the_end_of_the_text_has_a_mark() -> None:
    source = Source("a.protocol", "exercise x")
    one = Diagnostic(CODE, "m", Label(Span("a.protocol", 10, 10)))
    assert render_text([one], {"a.protocol": source}).splitlines()[1:] == ["    1: exercise x", "                 ^"]


def test_an_endless_line_is_cut_around_the_mark() -> None:
    source = Source("a.protocol", "x" * 5_000_000 + "HERE" + "y" * 5_000_000)
    lines = marked(source, "HERE")
    assert all(len(line) < 140 for line in lines)
    assert under_mark(lines[1], lines[2]) == "HERE"
    assert lines[1].count("…") == 2


@pytest.mark.parametrize("sign", ["漢", "\0", "\u202e", "e\u0301"])
def test_a_line_is_cut_by_what_it_shows(sign: str) -> None:
    """A wide sign takes two cells and a spelled-out one eight, so fewer of them fit."""
    lines = marked(Source("a.protocol", sign * 300 + "HERE" + sign * 300), "HERE")
    assert all(width(line) < 140 for line in lines)
    assert under_mark(lines[1], lines[2]) == "HERE"


def test_a_message_with_a_whole_file_in_it_is_cut() -> None:
    source = Source("a.protocol", "x")
    long = "x" * 1_000_000
    one = Diagnostic(CODE, f"`{long}` is long", Label(Span("a.protocol", 0, 1), long), (), (long,), long)
    assert all(len(line) < 500 for line in render_text([one], {"a.protocol": source}).splitlines())


def test_notes_help_and_fix() -> None:
    source = Source("a.protocol", "  works  calve\n")
    lines = marked(source, "calve", notes=("a fact",), help="write it right", fix=Fix(span(source, "calve"), "calf"))
    assert [line.split() for line in lines[3:]] == [
        ["note", "a", "fact"],
        ["do", "write", "it", "right"],
        ["fix", "write", "`calf`", "for", "`calve`"],
    ]


@pytest.mark.parametrize(
    ("start", "end", "replacement", "words"),
    [
        (2, 2, "each side", "put in `each side`"),
        (2, 7, "", "take out `works`"),
        (0, 2, "    ", "write 4 blanks here"),
        (0, 2, "a\n  b", "at a.protocol:1:1 write:"),
    ],
)
def test_a_fix_can_put_in_take_out_and_span_lines(start: int, end: int, replacement: str, words: str) -> None:
    source = Source("a.protocol", "  works  calf\n")
    one = Diagnostic(CODE, "m", Label(Span("a.protocol", 2, 7)), fix=Fix(Span("a.protocol", start, end), replacement))
    assert f"fix  {words}" in render_text([one], {"a.protocol": source})


def test_without_a_place_or_a_known_text_the_message_stands_alone() -> None:
    alone = Diagnostic(CODE, "nothing is there")
    unknown = Diagnostic(CODE, "cannot be read", Label(Span("gone.protocol", 3, 4)))
    assert (
        render_text([alone, unknown], {})
        == "error N999: nothing is there\n\ngone.protocol error N999: cannot be read\n"
    )


def test_colour_adds_nothing_but_colour() -> None:
    source = Source("a.protocol", "  works  calve\n")
    one = Diagnostic(CODE, "m", Label(span(source, "calve"), "w"), (Label(span(source, "works")),), ("n",), "h")
    plain, coloured = (render_text([one], {"a.protocol": source}, colour) for colour in (False, True))
    assert "\x1b[" in coloured
    assert re.sub(r"\x1b\[[0-9;]*m", "", coloured) == plain
