"""What is said about the picture files that `image` names."""

from __future__ import annotations

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Label, Severity
from protodsl.source import Span

NOT_FOUND = Code("F301", "picture-not-found", Severity.ERROR)
TOO_LARGE = Code("F302", "picture-too-large", Severity.ERROR)
NOT_AN_IMAGE = Code("F303", "not-a-picture", Severity.ERROR)
ABSURD_SIZE = Code("F304", "picture-of-an-absurd-size", Severity.ERROR)
UNSAFE = Code("F305", "picture-that-is-not-safe", Severity.ERROR)
OUTSIDE = Code("F306", "picture-outside-the-project", Severity.ERROR)
NO_WORDS = Code("F307", "picture-without-words", Severity.ERROR)


def not_found(path: str, at: Span) -> Diagnostic:
    """A picture file that is not there."""
    return Diagnostic(
        NOT_FOUND,
        f"there is no picture `{path}`",
        Label(at),
        notes=("the path is looked for below the project's folder, and below its library folders",),
        help="check the path, or put the file there",
        args={"path": path},
    )


def too_large(path: str, most: int, at: Span) -> Diagnostic:
    """A picture file of more bytes than a page should carry."""
    return Diagnostic(
        TOO_LARGE,
        f"the picture `{path}` is larger than {most // 1_000_000} MB",
        Label(at),
        notes=("every sheet carries its pictures, and it is printed and sent",),
        help="save it with fewer pixels: 1000 along the longer side are enough on paper",
        args={"path": path, "most": most},
    )


def not_an_image(path: str, reason: str, at: Span) -> Diagnostic:
    """A file that is no picture, or a broken one."""
    return Diagnostic(
        NOT_AN_IMAGE,
        f"`{path}` is no picture that can be shown",
        Label(at),
        notes=(reason,),
        help="save it again as PNG, JPEG or SVG",
        args={"path": path, "reason": reason},
    )


def absurd_size(path: str, size: str, least: int, most: int, at: Span) -> Diagnostic:
    """A picture of hardly any or far too many pixels, or a strip."""
    return Diagnostic(
        ABSURD_SIZE,
        f"the picture `{path}` measures {size}",
        Label(at),
        notes=(f"pictures have {least} to {most} pixels a side, and one side is at most ten times the other",),
        help="save it in another size",
        args={"path": path, "size": size},
    )


def unsafe(path: str, reason: str, at: Span) -> Diagnostic:
    """An SVG with something in it that runs or fetches."""
    return Diagnostic(
        UNSAFE,
        f"the picture `{path}` holds more than a drawing",
        Label(at),
        notes=(f"it has {reason}", "what runs or is fetched could change what a patient reads, or tell who reads it"),
        help="save it anew as a plain SVG, or as PNG",
        args={"path": path, "reason": reason},
    )


def outside(path: str, at: Span) -> Diagnostic:
    """A path that leads out of the project."""
    return Diagnostic(
        OUTSIDE,
        f"the picture `{path}` lies outside the project",
        Label(at),
        notes=("a protocol that a colleague hands on may not show files from anywhere else on a machine",),
        help="copy the picture into the project and name it by its path from there",
        args={"path": path},
    )


def no_words(path: str, at: Span) -> Diagnostic:
    """A picture without the words for those who cannot see it."""
    return Diagnostic(
        NO_WORDS,
        f"the picture `{path}` has no words for those who cannot see it",
        Label(at),
        notes=("they are read out by a screen reader, and printed where the picture cannot be",),
        help=f"write what is to be seen behind a colon: `image {path}: lying on the back, hips lifted`",
        args={"path": path},
    )
