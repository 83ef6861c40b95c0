"""What becomes of bytes: text is read whatever program saved it, anything else is told with what to do."""

import time

import pytest

from protodsl.syntax import parse_protocol, read_source
from protodsl.syntax.decode import LARGEST_FILE, LONGEST_LINE

TEXT = "exercise heel raise\n  do\n    Rise as high as you can.\n"


def told(data: bytes) -> list[str]:
    """The codes of what is said about bytes."""
    return [one.code.id for one in read_source("x.protocol", data).diagnostics]


@pytest.mark.parametrize(
    "data",
    [
        pytest.param(TEXT.encode(), id="as it is"),
        pytest.param(b"\xef\xbb\xbf" + TEXT.encode(), id="byte order mark"),
        pytest.param(TEXT.replace("\n", "\r\n").encode(), id="CRLF"),
        pytest.param(TEXT.replace("\n", "\r").encode(), id="CR"),
        pytest.param(TEXT.rstrip("\n").encode(), id="no line end"),
    ],
)
def test_text_is_read_whatever_saved_it(data: bytes) -> None:
    source = read_source("x.protocol", data).value
    assert source is not None
    parsed = parse_protocol(source)
    assert parsed.diagnostics == ()
    assert parsed.value is not None
    assert parsed.value.statements == parse_protocol(type(source)("x.protocol", TEXT)).value.statements  # type: ignore[union-attr]


def test_places_are_places_in_the_text_that_was_read() -> None:
    """A byte order mark and CRLF move nothing: line and column are those an editor shows."""
    source = read_source("x.protocol", b"\xef\xbb\xbf# one\r\nexercise x\r\n  foo bar\r\n").value
    assert source is not None
    (unknown,) = [one for one in parse_protocol(source).diagnostics if one.code.id == "T104"]
    assert source.position(unknown.primary.span.start) == (3, 3)


@pytest.mark.parametrize("encoding", ["latin-1", "utf-16", "utf-16-le", "cp1252"])
def test_what_is_not_utf_8(encoding: str) -> None:
    """T128, or T129 where every other byte is a zero; the line of the first wrong byte is named."""
    data = "# Übung\nexercise x\n".encode(encoding)
    assert told(data) == (["T129"] if encoding == "utf-16-le" else ["T128"])
    assert read_source("x.protocol", data).value is None
    second = read_source("x.protocol", b"# one\n# \xe9\n").diagnostics[0]
    assert second.notes == ("the first place is in line 2, byte 0xe9",)


def test_what_is_no_text() -> None:
    """T129."""
    assert told(b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR") == ["T129"]
    assert told(b"exercise x\0\n") == ["T129"]


def test_an_empty_file() -> None:
    """T130; a file with nothing but a comment is not empty."""
    assert told(b"") == told(b"\n \n") == told(b"\xef\xbb\xbf") == ["T130"]
    assert told(b"# later\n") == []


def test_a_file_that_is_too_large() -> None:
    """T131, without reading it."""
    start = time.perf_counter()
    assert told(b"\xff" * (LARGEST_FILE + 1)) == ["T131"]
    assert time.perf_counter() - start < 0.1
    assert told(b"# " + b"a\n# " * (LARGEST_FILE // 4 - 2)) == []


def test_a_line_that_is_too_long() -> None:
    """T132; the other lines are checked all the same, at their places."""
    read = read_source("x.protocol", TEXT.encode() + b"  stop " + b"a" * LONGEST_LINE + b"\n  foo bar\n")
    assert [one.code.id for one in read.diagnostics] == ["T132"]
    assert read.value is not None
    assert [read.value.position(one.primary.span.start) for one in parse_protocol(read.value).diagnostics] == [(5, 3)]
