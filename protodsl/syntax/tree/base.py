"""What every line of a tree is made of: places, names, words and numbers; statements, and the file they stand in."""

from __future__ import annotations

from dataclasses import field
from decimal import Decimal

from protodsl.frozen import frozen
from protodsl.source import NOWHERE, Span


@frozen
class Node:
    """Anything with a place."""

    span: Span = field(default=NOWHERE, compare=False, kw_only=True, repr=False)


@frozen
class Name(Node):
    """A name of one or more plain words, in NFC."""

    text: str


@frozen
class Words(Node):
    """One line of prose."""

    text: str


@frozen
class Comment(Node):
    """A comment line, with its `#`, and how deep it stands."""

    text: str
    depth: int = field(default=0, compare=False)


@frozen
class Amount(Node):
    """A number with the unit as written, or without one."""

    value: Decimal
    unit: str | None = None


@frozen
class Range(Node):
    """A number, or `low to high`; `high` equals `low` where one number was written."""

    low: Decimal
    high: Decimal


@frozen
class Statement(Node):
    """A line that begins with a keyword; `head` is the place of the line without what stands under it."""

    keyword: str
    head: Span = field(default=NOWHERE, compare=False, kw_only=True, repr=False)


@frozen
class File:
    """A whole file: its statements in order, and its comments.

    `damaged` are the names whose declarations could not be read, whole or in part, so that later stages stay silent
    about what may be missing. `gaps` are the offsets of the lines and comments with an empty line above them.
    """

    path: str
    statements: tuple[Statement, ...]
    comments: tuple[Comment, ...] = ()
    damaged: tuple[Name, ...] = field(default=(), compare=False)
    gaps: tuple[int, ...] = field(default=(), compare=False, repr=False)
