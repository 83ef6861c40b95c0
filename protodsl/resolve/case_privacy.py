"""Words in a case that look as if they said who somebody is: a name, a date of birth, a telephone number."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date

from protodsl.diagnostics import cases as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.source import Span
from protodsl.syntax import tree

_UPPER, _LOWER = "A-ZÀ-ÖØ-ÞĀČĎĚĽŁŇŘŠŤŮŽŻŚŹĆŃ", "a-zà-öø-ÿāčďěľłňřšťůžżśźćńąęı"
_WORD = f"[{_UPPER}][{_LOWER}]+(?:[-'’][{_UPPER}]?[{_LOWER}]+)*"
_TITLED = re.compile(
    rf"\b(?:Mr|Mrs|Ms|Miss|Mx|Herr|Frau|Señora?|Sra?|Mme|Madame|Monsieur|pan|paní|pani)\b\.? +{_WORD}"
    rf"|\b[Nn]ame *: *{_WORD}"
)
_TWO_WORDS = re.compile(rf"\b{_WORD} +{_WORD}\b")
_TELEPHONE = re.compile(r"(?<![\w.-])\+?\d(?:[ ()/.-]{0,2}\d){6,}(?![\w])")
_DATE = re.compile(r"\b(?:(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})|(\d{1,2})[./-] ?(\d{1,2})[./-] ?(\d{4}))\b")
_BORN = re.compile(r"\b(?:born|birth|birthday|dob|d\.o\.b|geboren|nacid[oa]|née?|naroz\w*)\b", re.IGNORECASE)
# Words that are often written with a capital and are no names: days and months, and first words of a sentence.
_OTHER_WORDS = re.compile(
    r"\b(?:(?:Mon|Tues|Wednes|Thurs|Fri|Satur|Sun)day|January|February|March|April|May|June|July|August|September"
    r"|October|November|December|The|This|That|On|In|At|After|Before|With|From|For|Her|His|Their|Our|No|Not|Saw|Had"
    r"|Left|Right|Both|Since|Until|When)\b"
)
_ID_NAME = re.compile(rf"[{_UPPER}][{_LOWER}]{{2,}}(?:[-_. ]*[{_UPPER}][{_LOWER}]{{2,}})+|[{_UPPER}]?[{_LOWER}]{{4,}}")
_ID_DATE = re.compile(r"(?:19|20)\d\d[-_.]?(?:0[1-9]|1[0-2])[-_.]?(?:0[1-9]|[12]\d|3[01])")

NAME, BIRTH, TELEPHONE = "a person's name", "a date of birth", "a telephone number"
_CHILDHOOD = 5


def who_it_is(
    case: tree.CaseDeclaration, comments: tuple[tree.Comment, ...], started: date | None
) -> Iterator[Diagnostic]:
    """A warning for each place that may say who it is: the id, notes, reasons and comments."""
    id_ = case.name
    if _ID_NAME.fullmatch(id_.text):
        yield say.who_it_is(NAME, id_.text, id_.span)
    elif _ID_DATE.search(id_.text):
        yield say.who_it_is(BIRTH, id_.text, id_.span)
    for words, span in _texts(case, comments):
        yield from _in_text(words, span, started)


def _texts(case: tree.CaseDeclaration, comments: tuple[tree.Comment, ...]) -> Iterator[tuple[str, Span]]:
    for comment in comments:
        yield comment.text, comment.span
    for line in case.lines:
        if isinstance(line, tree.Note):
            yield line.words.text, line.words.span
        words = getattr(line, "because", None)
        if words is not None:
            yield words.text, words.span


def _in_text(text: str, span: Span, started: date | None) -> Iterator[Diagnostic]:
    covered: list[tuple[int, int]] = []
    for what, matches in (
        (BIRTH, _births(text, started)),
        (TELEPHONE, _TELEPHONE.finditer(_DATE.sub(lambda date: "x" * len(date[0]), text))),
        (NAME, _TITLED.finditer(text)),
        (NAME, (one for one in _TWO_WORDS.finditer(text) if not _OTHER_WORDS.search(one[0]))),
    ):
        for match in matches:
            if any(start < match.end() and match.start() < end for start, end in covered):
                continue
            covered.append(match.span())
            place = Span(span.path, span.start + match.start(), span.start + match.end())
            yield say.who_it_is(what, text[match.start() : match.end()], place)


def _births(text: str, started: date | None) -> Iterator[re.Match[str]]:
    """Dates beside a word for birth, and dates so long ago that they are hardly of this episode."""
    told = _BORN.search(text) is not None
    for match in _DATE.finditer(text):
        year = int(match[1] or match[6])
        if told or (started is not None and year <= started.year - _CHILDHOOD):
            yield match
