"""What is said about the text of a file: its letters, lines, indents, keywords and what stands behind them."""

from __future__ import annotations

from collections.abc import Sequence

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Fix, Label, Severity
from protodsl.source import Span

TAB = Code("T101", "tab-in-indent", Severity.ERROR)
CROOKED_INDENT = Code("T102", "crooked-indent", Severity.ERROR)
WRONG_INDENT = Code("T103", "wrong-indent", Severity.ERROR)
UNKNOWN_KEYWORD = Code("T104", "unknown-keyword", Severity.ERROR)
MISPLACED = Code("T105", "misplaced-keyword", Severity.ERROR)
MISSING_BLOCK = Code("T106", "missing-lines-below", Severity.ERROR)
NO_BLOCK = Code("T107", "lines-below-not-allowed", Severity.ERROR)
MISSING_IF = Code("T108", "missing-if", Severity.ERROR)
MISSING_COLON = Code("T109", "missing-colon", Severity.ERROR)
EXTRA_COLON = Code("T110", "extra-colon", Severity.ERROR)
MIXED_AND_OR = Code("T111", "mixed-and-or", Severity.ERROR)
LOWER_CASE_PROSE = Code("T112", "lower-case-prose", Severity.ERROR)
GLUED = Code("T113", "glued-keyword", Severity.ERROR)
UNKNOWN_UNIT = Code("T114", "unknown-unit", Severity.ERROR)
WRONG_UNIT = Code("T115", "unit-of-another-kind", Severity.ERROR)
NO_SUCH_DATE = Code("T116", "no-such-date", Severity.ERROR)
DATE_FORM = Code("T117", "date-form", Severity.ERROR)
COMMA_DECIMAL = Code("T118", "comma-decimal", Severity.ERROR)
NOT_WHOLE = Code("T119", "not-a-whole-number", Severity.ERROR)
BACKWARDS = Code("T120", "range-backwards", Severity.ERROR)
JOINING_WORD = Code("T121", "joining-word-in-name", Severity.ERROR)
NAME_OPENING = Code("T122", "name-opening", Severity.ERROR)
NOT_UNDERSTOOD = Code("T123", "not-understood", Severity.ERROR)
STOPS_SHORT = Code("T124", "line-stops-short", Severity.ERROR)
TWICE = Code("T125", "keyword-twice", Severity.ERROR)
MISSING_LINE = Code("T126", "missing-line", Severity.ERROR)
FIX_WITHOUT_COLON = Code("T127", "fix-without-colon", Severity.ERROR)
NOT_UTF_8 = Code("T128", "not-utf-8", Severity.ERROR)
BINARY = Code("T129", "binary-file", Severity.ERROR)
EMPTY = Code("T130", "empty-file", Severity.ERROR)
TOO_LARGE = Code("T131", "file-too-large", Severity.ERROR)
LINE_TOO_LONG = Code("T132", "line-too-long", Severity.ERROR)
WRONG_FILE = Code("T133", "wrong-kind-of-file", Severity.ERROR)
CAPITAL = Code("T134", "capital-keyword", Severity.ERROR)
EARLY_SIDE = Code("T135", "side-before-comparison", Severity.ERROR)
HYPHEN_RANGE = Code("T136", "range-with-hyphen", Severity.ERROR)
DEEPER_PROSE = Code("T137", "indent-inside-text", Severity.ERROR)
SIDE_WITHOUT_NAME = Code("T138", "side-without-name", Severity.ERROR)
SIDE_TWICE = Code("T139", "side-twice", Severity.ERROR)
COMPARISON = Code("T140", "comparison-sign", Severity.ERROR)
LIST_FORM = Code("T141", "list-form", Severity.ERROR)
BRACKET = Code("T142", "bracket", Severity.ERROR)
UNKNOWN_WORD = Code("T143", "unknown-word", Severity.ERROR)
MISSING_COMMA = Code("T144", "missing-comma", Severity.ERROR)
LONG_NUMBER = Code("T145", "long-number", Severity.ERROR)
MANY_BRACKETS = Code("T146", "many-brackets", Severity.ERROR)


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
    words = f"under {_or(under)}" if under else ""
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


def missing_colon(span: Span, after: str) -> Diagnostic:
    """A name that a value follows, without a colon between them."""
    return Diagnostic(
        MISSING_COLON,
        f"a colon is missing after `{after}`",
        Label(span),
        help="write the name, a colon, and then what belongs to it",
    )


def extra_colon(span: Span, word: str) -> Diagnostic:
    """A colon behind a keyword."""
    return Diagnostic(
        EXTRA_COLON, f"no colon stands after `{word}`", Label(span), help="take the colon out", fix=Fix(span, "")
    )


def mixed_and_or(span: Span) -> Diagnostic:
    """`and` and `or` side by side."""
    return Diagnostic(
        MIXED_AND_OR,
        "`and` and `or` stand side by side, and it is not clear which goes first",
        Label(span),
        help="put brackets round what belongs together: `a or (b and c)`",
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


def unknown_unit(span: Span, word: str, near: str | None) -> Diagnostic:
    """A word where a unit stands that is no unit; `near` is the one probably meant."""
    return Diagnostic(
        UNKNOWN_UNIT,
        f"`{word}` is not a unit",
        Label(span),
        help=f"write `{near}`" if near else "write a unit such as deg, cm, m, kg, s, min, days, weeks, reps or %",
        fix=Fix(span, near) if near else None,
        args={"word": word},
    )


def wrong_unit(span: Span, what: str, unit: str, allowed: Sequence[str]) -> Diagnostic:
    """A unit that does not measure what it stands behind; an empty one is missing."""
    said = f"{what} is not measured in `{unit}`" if unit else f"{what} needs a unit"
    return Diagnostic(WRONG_UNIT, said, Label(span), help=f"use {_or(allowed)}", args={"unit": unit})


def no_such_date(span: Span, written: str) -> Diagnostic:
    """A date that the calendar does not have."""
    return Diagnostic(NO_SUCH_DATE, f"there is no day `{written}`", Label(span), help="look at the day and the month")


def date_form(span: Span, written: str) -> Diagnostic:
    """A date in another form."""
    return Diagnostic(
        DATE_FORM,
        f"`{written}` is not a date as this language writes it",
        Label(span),
        help="write year, month and day with hyphens: `2026-11-02` is the 2nd of November",
    )


def comma_decimal(span: Span, written: str) -> Diagnostic:
    """A decimal comma."""
    point = written.replace(",", ".")
    return Diagnostic(
        COMMA_DECIMAL,
        f"`{written}` could be one number or two",
        Label(span),
        help=f"write `{point}` with a point, or put a blank behind the comma if they are two",
        fix=Fix(span, point),
    )


def not_a_whole_number(span: Span, number: str) -> Diagnostic:
    """A count that is not a whole number from 0."""
    return Diagnostic(
        NOT_WHOLE,
        f"`{number}` counts something, so it must be a whole number",
        Label(span),
        help="write a whole number",
    )


def range_backwards(span: Span, low: str, high: str) -> Diagnostic:
    """A range whose end lies before its start."""
    return Diagnostic(
        BACKWARDS, f"`{low} to {high}` runs backwards", Label(span), help=f"write `{high} to {low}`, or mend a number"
    )


def joining_word(span: Span, word: str) -> Diagnostic:
    """One of the seven words inside a name."""
    return Diagnostic(
        JOINING_WORD,
        f"`{word}` joins two things, so it cannot stand in a name",
        Label(span),
        help="put hyphens in the name, as in `pins-and-needles`",
        args={"word": word},
    )


def name_opening(span: Span, word: str) -> Diagnostic:
    """A name that begins with words that mean something else."""
    return Diagnostic(
        NAME_OPENING,
        f"a name cannot begin with `{word}`",
        Label(span),
        help="put the word elsewhere in the name, or a hyphen behind it",
        args={"word": word},
    )


def not_understood(span: Span, word: str, expected: Sequence[str], may_end: bool) -> Diagnostic:
    """Something that cannot stand where it stands; `expected` are the things that can, if the line may not end."""
    help_ = f"write {_or(expected)} here" if expected else ""
    if may_end:
        help_ = f"{help_}, or end the line before it" if help_ else "end the line before it"
    return Diagnostic(
        NOT_UNDERSTOOD,
        f"`{word}` cannot stand here",
        Label(span),
        help=help_ or "look at the form of this line with `protodsl reference`",
        args={"word": word},
    )


def stops_short(span: Span, expected: Sequence[str]) -> Diagnostic:
    """A line that ends where more has to follow."""
    return Diagnostic(
        STOPS_SHORT,
        "the line stops too soon",
        Label(span),
        help=f"go on with {_or(expected)}" if expected else "finish the line",
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


def fix_without_colon(span: Span) -> Diagnostic:
    """A fault without its cure."""
    return Diagnostic(
        FIX_WITHOUT_COLON,
        "`fix` names a fault without saying what to do about it",
        Label(span),
        help="write the fault, a colon, and then the cure",
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


def capital(span: Span, word: str, keyword: str) -> Diagnostic:
    """A keyword with capital letters."""
    return Diagnostic(
        CAPITAL,
        f"`{word}` is written with a capital, and keywords are not",
        Label(span),
        help=f"write `{keyword}`",
        fix=Fix(span, keyword),
    )


def early_side(span: Span) -> Diagnostic:
    """A side between a finding and its comparison."""
    return Diagnostic(
        EARLY_SIDE,
        "the side stands before the comparison",
        Label(span),
        help="put it behind, as in `heel raises >= 15 on the affected side`",
    )


def hyphen_range(span: Span, low: str, high: str) -> Diagnostic:
    """`8-12`."""
    return Diagnostic(
        HYPHEN_RANGE,
        f"`{low}-{high}` is not a range as this language writes it",
        Label(span),
        help=f"write `{low} to {high}`",
        fix=Fix(span, f"{low} to {high}"),
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


def side_without_name(span: Span) -> Diagnostic:
    """A value for a side without a name."""
    return Diagnostic(
        SIDE_WITHOUT_NAME,
        "a value for one side stands here, but nothing says what was measured",
        Label(span),
        help="write the name before it, as in `stiffness left 2, right 3`",
    )


def side_twice(span: Span, side: str) -> Diagnostic:
    """Two values for one side."""
    return Diagnostic(SIDE_TWICE, f"the {side} side has two values", Label(span), help="write one for each side")


def comparison(span: Span, written: str, meant: str | None) -> Diagnostic:
    """A sign of comparison in another spelling."""
    return Diagnostic(
        COMPARISON,
        f"`{written}` is not a sign of comparison",
        Label(span),
        help=f"write `{meant}`" if meant else "write >=, <=, <, > or =, or `is not` for words",
        fix=Fix(span, meant) if meant else None,
    )


def list_form(span: Span, written: str, separator: str) -> Diagnostic:
    """A list with the wrong word or sign between its items."""
    return Diagnostic(
        LIST_FORM,
        f"`{written}` stands between two items of a list",
        Label(span),
        help=f"put {'a comma' if separator == ',' else f'`{separator}`'} between them",
    )


def bracket(span: Span, missing: bool) -> Diagnostic:
    """A bracket without its partner."""
    return Diagnostic(
        BRACKET,
        "a bracket is opened and not closed" if missing else "a bracket is closed that was never opened",
        Label(span),
        help="put in `)` where the bracket ends" if missing else "take it out, or put in `(` where it begins",
    )


def unknown_word(span: Span, word: str, near: str) -> Diagnostic:
    """A word inside a line that is close to one that can stand there."""
    return Diagnostic(
        UNKNOWN_WORD,
        f"`{word}` cannot stand here",
        Label(span),
        help=f"did you mean `{near}`?",
        fix=Fix(span, near),
        args={"word": word, "near": near},
    )


def missing_comma(span: Span, word: str) -> Diagnostic:
    """Two parts of a line without a comma between them."""
    return Diagnostic(
        MISSING_COMMA,
        f"a comma is missing before `{word}`",
        Label(span),
        help=f"write `, {word}`",
        args={"word": word},
    )


def long_number(span: Span) -> Diagnostic:
    """A number with too many digits."""
    return Diagnostic(
        LONG_NUMBER, "this number has too many digits", Label(span), help="look whether a digit is held down"
    )


def many_brackets(span: Span, limit: int) -> Diagnostic:
    """Too many brackets inside brackets."""
    return Diagnostic(
        MANY_BRACKETS,
        f"more than {limit} brackets stand inside one another",
        Label(span),
        help="declare part of the condition as a `finding` of its own",
    )


def _seen(span: Span) -> Span:
    """The place of an indent to be shown: the first character of the line where it has none."""
    return Span(span.path, span.start, max(span.end, span.start + 1))


def _blanks(count: int) -> str:
    """`1 blank`, `2 blanks`."""
    return f"{count} blank" if count == 1 else f"{count} blanks"


def _or(words: Sequence[str]) -> str:
    """`a`, `a or b`, `a, b or c`."""
    return f"{', '.join(words[:-1])} or {words[-1]}" if len(words) > 1 else "".join(words)


CODES: tuple[Code, ...] = tuple(value for value in vars().values() if isinstance(value, Code))
