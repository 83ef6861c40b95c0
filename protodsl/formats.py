"""The formats that a handout can be had in: one entry each, known to the command line and to the compilers by name."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

SHEET, CLINICIAN, QUESTIONS = "sheet", "clinician", "questions"
# What a format is made from: the localised handout, or the plan and the protocol behind it.
HANDOUT, DATA = "handout", "data"
PROTOCOL, CASE = "protocol", "case"


@dataclass(frozen=True, slots=True)
class Format:
    """A format by its name after `--to`.

    `suffix` ends the file's name, without its dot; no two formats have the same one. `purpose` is a phrase for help.
    `kinds` are the pages it is made of (a referral page is a person's SHEET), `subjects` what those pages are of.
    `extra` names the optional dependencies it needs (`pip install "protodsl[docx]"`), "" for none.
    """

    name: str
    suffix: str
    purpose: str
    kinds: tuple[str, ...] = (SHEET, CLINICIAN, QUESTIONS)
    subjects: tuple[str, ...] = (PROTOCOL, CASE)
    is_text: bool = False
    made_from: str = HANDOUT
    extra: str = ""


_ALL = (
    Format("html", "html", "one file for every screen", is_text=True),
    Format("pdf", "pdf", "to print"),
    Format("txt", "txt", "a message to a phone", is_text=True),
    Format("md", "md", "Markdown (CommonMark)", is_text=True),
    Format("epub", "epub", "for e-readers (EPUB 3.3)"),
    Format("docx", "docx", "to go on writing in", extra="docx"),
    Format("ics", "ics", "exercise days for a calendar (iCalendar)", (SHEET,), (CASE,), True, DATA),
    Format("csv", "csv", "doses as a table", (SHEET,), is_text=True, made_from=DATA),
    Format("json", "json", "all of it for other programs", (SHEET,), is_text=True, made_from=DATA),
    Format("fhir-r5", "fhir-r5.json", "a bundle for a record (HL7 FHIR R5)", (SHEET,), is_text=True, made_from=DATA),
    Format("fhir-r4b", "fhir-r4b.json", "the same in FHIR R4B", (SHEET,), is_text=True, made_from=DATA),
)
FORMATS: Mapping[str, Format] = MappingProxyType({one.name: one for one in _ALL})
USUAL = HTML, PDF = "html", "pdf"

# Longest first, so that `x.fhir.json` is not taken for `x.fhir` with `json` behind it.
_SUFFIXES = sorted((one.suffix for one in _ALL), key=len, reverse=True)
SUFFIX_PATTERN = "|".join(map(re.escape, _SUFFIXES))


def made_for(names: Iterable[str], kind: str, subject: str, made_from: str) -> tuple[Format, ...]:
    """Those of the named formats that are made of this kind of page, of this subject, from this source."""
    wanted = (FORMATS[name] for name in dict.fromkeys(names))
    return tuple(one for one in wanted if kind in one.kinds and subject in one.subjects and one.made_from == made_from)


def read_names(text: str) -> tuple[str, ...] | None:
    """The names in a list with commas, each once; None where one of them is no format."""
    names = tuple(dict.fromkeys(part.strip() for part in text.split(",")))
    return names if all(name in FORMATS for name in names) else None


def file_suffix(name: str) -> str:
    """What ends the name of a file in this format, without the dot."""
    return FORMATS[name].suffix
