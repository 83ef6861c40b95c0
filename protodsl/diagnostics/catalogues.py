"""Catalogues that cannot be read as they are: not UTF-8, no PO file, of no language, of no file."""

from __future__ import annotations

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Label, Severity
from protodsl.source import Span

NOT_A_CATALOGUE = Code("G120", "not-a-catalogue", Severity.ERROR)
NOT_UTF_8 = Code("G121", "catalogue-not-utf-8", Severity.ERROR)
OTHER_CHARSET = Code("G122", "catalogue-charset", Severity.ERROR)
BYTE_ORDER_MARK = Code("G123", "catalogue-byte-order-mark", Severity.WARNING)
PLURAL_HEADER = Code("G124", "catalogue-plural-forms", Severity.ERROR)
ENTRY_TWICE = Code("G125", "entry-twice", Severity.ERROR)
NO_SUCH_FILE = Code("G126", "catalogue-without-a-file", Severity.WARNING)
OTHER_LANGUAGE = Code("G127", "catalogue-of-another-language", Severity.ERROR)
UNKNOWN_TAG = Code("G128", "unknown-language-tag", Severity.ERROR)
CASE_LANGUAGE = Code("G129", "case-in-no-language", Severity.ERROR)


def not_a_catalogue(at: Span, reason: str) -> Diagnostic:
    """A catalogue that is no PO file from some line on; nothing of it is used."""
    return Diagnostic(
        NOT_A_CATALOGUE,
        "this catalogue cannot be read from this line on",
        Label(at),
        notes=(f"{reason[:1].lower()}{reason[1:]}", "nothing of it is used; other catalogues are"),
        help="mend the line, or bring back the catalogue as it was before",
        args={"reason": reason},
    )


def not_utf_8(at: Span, line: int, declared: str) -> Diagnostic:
    """Bytes that are no UTF-8; `declared` is the charset in the header, empty where there is none."""
    named = f"its header says `{declared}`" if declared and declared.lower() not in ("utf-8", "utf8") else ""
    return Diagnostic(
        NOT_UTF_8,
        f"this catalogue is not written in UTF-8: line {line} cannot be read",
        Label(at),
        notes=(*((named,) if named else ()), "nothing of it is used; other catalogues are"),
        help="save it as UTF-8; PO editors do so when the header says `charset=UTF-8`",
        args={"line": line, "declared": declared},
    )


def other_charset(at: Span, declared: str) -> Diagnostic:
    """A header that names another charset than UTF-8, over bytes that are UTF-8."""
    return Diagnostic(
        OTHER_CHARSET,
        f"the header says `charset={declared}`, and the catalogue is written in UTF-8",
        Label(at),
        notes=("a PO editor that believes the header shows wrong letters, and writes them",),
        help="write `charset=UTF-8`",
        args={"declared": declared},
    )


def byte_order_mark(at: Span) -> Diagnostic:
    """A byte order mark before a catalogue, which gettext's own programs refuse."""
    return Diagnostic(
        BYTE_ORDER_MARK,
        "this catalogue begins with a byte order mark",
        Label(at),
        notes=("it is read all the same; other programs for such files refuse it",),
        help="save it as UTF-8 without a byte order mark, or run `protodsl translate update`",
    )


def plural_header(at: Span, language: str, found: str, wanted: str) -> Diagnostic:
    """A `Plural-Forms` that is missing or not the language's: the forms would be taken for others."""
    return Diagnostic(
        PLURAL_HEADER,
        f"the plural forms in the header are not those of `{language}`",
        Label(at),
        notes=(
            f"the header says `{found}`" if found else "the header says nothing of them",
            "the forms stand in the order of Unicode CLDR: zero, one, two, few, many, other, as far as there are any",
        ),
        help=f"write `Plural-Forms: {wanted}`, or run `protodsl translate update`",
        args={"language": language, "found": found, "wanted": wanted},
    )


def entry_twice(at: Span, first: Span, key: str, text: str) -> Diagnostic:
    """Two entries for one string; nobody could tell which is meant."""
    return Diagnostic(
        ENTRY_TWICE,
        f"the string `{text}` of `{key}` is translated twice",
        Label(at, "this one"),
        secondary=(Label(first, "and this one"),),
        help="take one of the two out",
        args={"key": key, "text": text},
    )


def no_such_file(at: Span, file: str) -> Diagnostic:
    """A catalogue whose protocol is not there: moved, renamed, or never was."""
    return Diagnostic(
        NO_SUCH_FILE,
        f"this catalogue is for `{file}`, and there is no such file",
        Label(at),
        notes=("its words come along when it is renamed as the file was, or by `protodsl translate extract`",),
        help="rename it as the file was, or take it out",
        args={"file": file},
    )


def other_language(at: Span, said: str, folder: str) -> Diagnostic:
    """A header that names another language than the folder that the catalogue lies in."""
    return Diagnostic(
        OTHER_LANGUAGE,
        f"the header says `Language: {said}`, and the catalogue lies in `translations/{folder}`",
        Label(at),
        notes=("one of the two is wrong, and a sheet in the wrong language helps nobody",),
        help="move the catalogue, or mend the header",
        args={"said": said, "folder": folder},
    )


def unknown_tag(at: Span, tag: str) -> Diagnostic:
    """A folder that is named for no language; nothing in it is used."""
    return Diagnostic(
        UNKNOWN_TAG,
        f"`{tag}` is no language tag",
        Label(at),
        notes=("the folders in `translations` are named for languages: `es`, `pt-BR`, `zh-Hans`",),
        help="rename the folder",
        args={"tag": tag},
    )


def case_language(at: Span, tag: str, known: tuple[str, ...]) -> Diagnostic:
    """A case that asks for a language of which the product has no words."""
    return Diagnostic(
        CASE_LANGUAGE,
        f"no sheet can be made in the language `{tag}`",
        Label(at),
        notes=(f"sheets can be made in: {', '.join(known)}",),
        help="write one of these after `language`",
        args={"tag": tag, "known": known},
    )
