"""The text of a safety line in its one spelling: by it an inherited line is known again."""

from __future__ import annotations

from protodsl.source import Source
from protodsl.syntax import line_of, parse_protocol, tree

# Where a safety line may stand; the first that reads it will do.
_PLACES = ("exercise x\n  {}\n", "protocol x\n  {}\n", "protocol x\n  phase y\n    {}\n")


def line_text(line: tree.Statement) -> str:
    """The line without what stands under it."""
    return line_of(line)


def lifted_text(words: tree.Words) -> str:
    """The line that a `lift` names, spelled as `line_text` would spell it; as written where it cannot be read."""
    text = " ".join(words.text.split())
    for place in _PLACES:
        found = parse_protocol(Source("", place.format(text))).value
        line = _innermost(found) if found else None
        if line is not None:
            return line_text(line)
    return text


def _innermost(file: tree.File) -> tree.Statement | None:
    """The one line under the declarations of a text, or None where it was not understood."""
    lines: tuple[tree.Statement, ...] = file.statements
    while len(lines) == 1 and isinstance(lines[0], tree.Declaration):
        lines = lines[0].lines
    return lines[0] if len(lines) == 1 else None
