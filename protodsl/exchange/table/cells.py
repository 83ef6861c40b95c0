"""Rows of cells to bytes (RFC 4180): CRLF, quotes where they are needed, and no cell that a spreadsheet would run.

A spreadsheet takes a cell that begins with `=`, `+`, `-` or `@`, also behind a tab or a line end, for a formula, and a
formula can read other cells and send them away (OWASP, CSV Injection). Such a cell gets an apostrophe in front.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence

# With their full-width forms, which some spreadsheets read alike.
_FORMULA = re.compile(r"\s*[=+\-@＝＋－＠]|[\t\r\n]")
# What neither a spreadsheet nor a person can see in a cell; a line end would part a row for a simple reader.
_CONTROL = re.compile(r"[\x00-\x1f\x7f]+")


def table(header: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    """A header and its rows; every row has as many cells as the header."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, dialect="excel", lineterminator="\r\n", strict=True)
    for row in (header, *rows):
        assert len(row) == len(header), row
        writer.writerow([cell(text) for text in row])
    return out.getvalue().encode()


def cell(text: str) -> str:
    """The text of a cell, guarded where it could be taken for a formula."""
    guarded = f"'{text}" if _FORMULA.match(text) else text
    return _CONTROL.sub(" ", guarded)
