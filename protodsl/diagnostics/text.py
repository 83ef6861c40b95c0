"""What is said about the text of a file: its letters, lines, indents and keywords, and what is missing or twice."""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Fix, Label, Severity
from protodsl.diagnostics.phrases import either
from protodsl.source import Span

TAB = Code("T101", "tab-in-indent", Severity.ERROR)
CROOKED_INDENT = Code("T102", "crooked-indent", Severity.ERROR)
WRONG_INDENT = Code("T103", "wrong-indent", Severity.ERROR)
UNKNOWN_KEYWORD = Code("T104", "unknown-keyword", Severity.ERROR)
MISPLACED = Code("T105", "misplaced-keyword", Severity.ERROR)
MISSING_BLOCK = Code("T106", "missing-lines-below", Severity.ERROR)
NO_BLOCK = Code("T107", "lines-below-not-allowed", Severity.ERROR)
MISSING_IF = Code("T108", "missing-if", Severity.ERROR)
LOWER_CASE_PROSE = Code("T112", "lower-case-prose", Severity.ERROR)
GLUED = Code("T113", "glued-keyword", Severity.ERROR)
TWICE = Code("T125", "keyword-twice", Severity.ERROR)
MISSING_LINE = Code("T126", "missing-line", Severity.ERROR)
NOT_UTF_8 = Code("T128", "not-utf-8", Severity.ERROR)
BINARY = Code("T129", "binary-file", Severity.ERROR)
EMPTY = Code("T130", "empty-file", Severity.ERROR)
TOO_LARGE = Code("T131", "file-too-large", Severity.ERROR)
LINE_TOO_LONG = Code("T132", "line-too-long", Severity.ERROR)
WRONG_FILE = Code("T133", "wrong-kind-of-file", Severity.ERROR)
HOPELESS = Code("T147", "hardly-a-line-understood", Severity.ERROR)
UNSEEN = Code("T148", "unseen-character", Severity.ERROR)
CAPITAL = Code("T134", "capital-keyword", Severity.ERROR)
DEEPER_PROSE = Code("T137", "indent-inside-text", Severity.ERROR)


def tab(span: Span, blanks: str) -> Diagnostic:
    """A tab; `blanks` is what to write in its place."""
    return Diagnostic(
        TAB,
        "a tab stands here, and what it looks like depends on the editor",
        Label(span),
        help="use blanks, two for each step to the right",
        fix=Fix(span, blanks),
    )


def crooked_indent(span: Span, width: int, step: int, meant: int) -> Diagnostic:
    """An indent between two steps; `span` are its blanks, `meant` is the width that fits."""
    return Diagnostic(
        CROOKED_INDENT,
        f"this line stands {_blanks(width)} from the margin, which is between two steps",
        Label(_seen(span)),
        notes=(f"each step to the right in this file is {_blanks(step)}",),
        help=f"begin the line with {_blanks(meant)}",
        fix=Fix(span, " " * meant),
        args={"width": width, "meant": meant},
    )


def wrong_indent(span: Span, word: str, width: int, meant: int, parent: str) -> Diagnostic:
    """A line that fits, but at another indent; `span` are its blanks, `parent` is the container it belongs to."""
    side = "right" if width > meant else "left"
    where = f"under `{parent}`" if parent else "at the left margin"
    return Diagnostic(
        WRONG_INDENT,
        f"`{word}` stands too far to the {side} to be {where}",
        Label(_seen(span)),
        help=f"begin the line with {_blanks(meant)}" if meant else "begin the line at the left margin",
        fix=Fix(span, " " * meant),
        args={"width": width, "meant": meant},
    )


def unknown_keyword(span: Span, word: str, near: str | None, parent: str, allowed: Sequence[str]) -> Diagnostic:
    """A line that begins with no keyword; `near` is the keyword that was probably meant."""
    if near:
        return Diagnostic(
            UNKNOWN_KEYWORD,
            f"`{word}` is not a keyword",
            Label(span),
            help=f"did you mean `{near}`?",
            fix=Fix(span, near),
            args={"word": word, "near": near},
        )
    where = f"under `{parent}`" if parent else "at the left margin"
    return Diagnostic(
        UNKNOWN_KEYWORD,
        f"`{word}` is not a keyword",
        Label(span),
        notes=(f"a line {where} begins with one of: {', '.join(allowed)}",) if allowed else (),
        help="begin the line with a keyword",
        args={"word": word},
    )


def misplaced(span: Span, word: str, parent: str, belongs: Sequence[str]) -> Diagnostic:
    """A keyword in a container that has no place for it."""
    where = f"under `{parent}`" if parent else "at the left margin"
    return Diagnostic(
        MISPLACED,
        f"`{word}` cannot stand {where}",
        Label(span),
        help=f"move the line: it belongs {_places(belongs)}",
        args={"word": word, "parent": parent},
    )


def _places(belongs: Sequence[str]) -> str:
    """`at the left margin`, or `under exercise or level`."""
    under = [f"`{place}`" for place in belongs if place != "the left margin"]
    margin = len(under) < len(belongs)
    words = f"under {either(under)}" if under else ""
    return " or ".join(filter(None, ("at the left margin" if margin else "", words)))


def missing_block(span: Span, word: str) -> Diagnostic:
    """A line that needs lines under it and has none."""
    return Diagnostic(
        MISSING_BLOCK,
        f"`{word}` has nothing under it",
        Label(span),
        help="write the lines that belong to it below, two blanks further to the right",
    )


def no_block(span: Span, word: str) -> Diagnostic:
    """A line under one that takes none."""
    return Diagnostic(
        NO_BLOCK,
        f"nothing can stand under `{word}`" if word else "nothing can stand under the line above",
        Label(span),
        help="write it on the line above, or begin it with a keyword in line with that one",
    )


def missing_if(span: Span, word: str, keyword: str) -> Diagnostic:
    """`avoid` without its `if`; `span` is the word."""
    return Diagnostic(
        MISSING_IF,
        f"`{word}` needs `{keyword.removeprefix(word).strip()}` behind it",
        Label(span),
        help=f"write `{keyword}`",
        fix=Fix(span, keyword),
    )


def lower_case_prose(span: Span, word: str) -> Diagnostic:
    """A line of a text block that begins with a small letter."""
    return Diagnostic(
        LOWER_CASE_PROSE,
        f"a line of text begins with a capital letter, and this one begins with `{word}`",
        Label(span),
        notes=("so that a line with a keyword, moved by mistake, is never printed as advice",),
        help="begin the line with a capital letter, or move it to the left if it is a keyword",
    )


def glued(span: Span, word: str, keyword: str) -> Diagnostic:
    """A keyword without a blank behind it."""
    return Diagnostic(
        GLUED,
        f"`{word}` runs the keyword `{keyword}` into what follows",
        Label(span),
        help=f"put a blank behind `{keyword}`",
        fix=Fix(span, f"{keyword} {word[len(keyword) :]}"),
    )


def twice(span: Span, word: str, parent: str, first: Span) -> Diagnostic:
    """A keyword that may stand once in its container and stands there again."""
    return Diagnostic(
        TWICE,
        f"`{word}` stands twice under `{parent}`",
        Label(span, "again"),
        (Label(first, "first here"),),
        help="keep one of the two lines",
        args={"word": word},
    )


def missing_line(span: Span, parent: str, name: str, word: str, example: str) -> Diagnostic:
    """A container without a line it cannot do without."""
    return Diagnostic(
        MISSING_LINE,
        f"{parent} `{name}` has no `{word}`" if name else f"`{parent}` has no `{word}`",
        Label(span),
        help=f"add a line, such as `{example}`",
        args={"word": word},
    )


def not_utf_8(span: Span, line: int, byte: int) -> Diagnostic:
    """A byte in a line that belongs to no letter in UTF-8."""
    return Diagnostic(
        NOT_UTF_8,
        "this file is not saved as UTF-8",
        Label(span),
        notes=(f"the first place is in line {line}, byte {byte:#04x}",),
        help="open it in the program that wrote it and save it again with the encoding UTF-8",
    )


def binary(span: Span) -> Diagnostic:
    """Bytes that are no text at all."""
    return Diagnostic(
        BINARY,
        "this file is not plain text",
        Label(span),
        help="save the text itself, not a word processor's document or a picture",
    )


def empty(span: Span) -> Diagnostic:
    """A file without a line."""
    return Diagnostic(EMPTY, "this file is empty", Label(span), help="write something in it, or delete it")


def too_large(span: Span, size: int, limit: int) -> Diagnostic:
    """A file over the limit, both in bytes."""
    return Diagnostic(
        TOO_LARGE,
        f"this file has {size / 1e6:.1f} million bytes, and a protocol has at most {limit / 1e6:.0f} million",
        Label(span),
        help="look whether it is a protocol at all, or divide it and bring the parts together with `use`",
    )


def line_too_long(span: Span, length: int, limit: int) -> Diagnostic:
    """A line over the limit, both in characters."""
    return Diagnostic(
        LINE_TOO_LONG,
        f"this line has {length:,} characters, and a line has at most {limit:,}",
        Label(span),
        help="divide it into several lines",
    )


def unseen(span: Span, signs: Sequence[str], breaks: bool) -> Diagnostic:
    """Characters of a line that nobody sees; `breaks` tells whether one of them breaks the line or page."""
    named = ", ".join(f"U+{ord(sign):04X} ({unicodedata.name(sign, 'a control character').lower()})" for sign in signs)
    where = "begin a new line there, or put a blank" if breaks else "delete it, or write the line anew by hand"
    return Diagnostic(
        UNSEEN,
        f"a character that nobody sees stands in this line: {named}",
        Label(span),
        notes=("such a character can hide or turn round what is printed",),
        help=where,
        args={"characters": tuple(signs)},
    )


def wrong_file(span: Span, word: str, case: bool) -> Diagnostic:
    """A statement of a case in a protocol file, or the reverse; `case` tells whether the file is a case."""
    here, there = ("a case file", "a protocol file") if case else ("a protocol file", "a case file")
    ending = ".protocol" if case else ".case"
    return Diagnostic(
        WRONG_FILE,
        f"`{word}` stands in {here} and belongs in {there}",
        Label(span),
        help=f"move it to a file whose name ends in {ending}",
        args={"word": word},
    )


def hopeless(span: Span, wrong: int) -> Diagnostic:
    """A text in which every second line is wrong is not read further than here."""
    return Diagnostic(
        HOPELESS,
        f"{wrong} mistakes so far, in at least every second line: the rest of this file was not read",
        Label(span),
        help="look whether this is a protocol or a case at all; if it is, mend what is told above and check again",
    )


def capital(span: Span, word: str, keyword: str) -> Diagnostic:
    """A keyword with capital letters."""
    return Diagnostic(
        CAPITAL,
        f"`{word}` is written with a capital, and keywords are not",
        Label(span),
        help=f"write `{keyword}`",
        fix=Fix(span, keyword),
    )


def deeper_prose(span: Span, meant: int) -> Diagnostic:
    """A line of text that stands further to the right than the one above."""
    return Diagnostic(
        DEEPER_PROSE,
        "this line of text stands further to the right than the one above it",
        Label(_seen(span)),
        help=f"begin the line with {_blanks(meant)}, in line with the text above",
        fix=Fix(span, " " * meant),
    )


def _seen(span: Span) -> Span:
    """The place of an indent to be shown: the first character of the line where it has none."""
    return Span(span.path, span.start, max(span.end, span.start + 1))


def _blanks(count: int) -> str:
    """`1 blank`, `2 blanks`."""
    return f"{count} blank" if count == 1 else f"{count} blanks"


CODES: tuple[Code, ...] = tuple(value for value in vars().values() if isinstance(value, Code))
