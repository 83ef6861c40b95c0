"""What is wrong with translations: catalogues that cannot be read, words that are missing, changed, unread or unlike."""

from __future__ import annotations

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Label, Severity
from protodsl.source import Span

NOT_A_CATALOGUE = Code("G120", "not-a-catalogue", Severity.ERROR)
NOT_UTF_8 = Code("G121", "catalogue-not-utf-8", Severity.ERROR)
OTHER_CHARSET = Code("G122", "catalogue-charset", Severity.ERROR)
BYTE_ORDER_MARK = Code("G123", "catalogue-byte-order-mark", Severity.WARNING)
ENTRY_TWICE = Code("G125", "entry-twice", Severity.ERROR)


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
