"""A picture file: whether it is one, whether it may be shown, and its bytes as they go into a page."""

from __future__ import annotations

from base64 import b64encode
from dataclasses import dataclass

from protodsl.diagnostics import images as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.figure.picture_file import LARGEST, Unread
from protodsl.figure.raster import JPEG, PNG, Size, jpeg_size, png_size
from protodsl.figure.svg_image import Clean, NoPicture, Unsafe, clean
from protodsl.model.exercise import Image
from protodsl.outcome import Outcome

# Pixels along a side, and how much longer one side may be. Common practice, no source.
FEWEST, MOST = 40, 10_000
MOST_PIXELS = 25_000_000
LONGEST = 10


@dataclass(frozen=True, slots=True)
class ImageFile:
    """A picture as a data URI, an SVG with nothing in it but drawing, and its width over its height."""

    uri: str
    ratio: float


def picture_of(image: Image, data: bytes | Unread) -> Outcome[ImageFile]:
    """The picture of an `image` line from the bytes of its file; None with the reason where it may not be shown."""
    made = _refused(image, data) if isinstance(data, Unread) or len(data) > LARGEST else _made(image, data)
    return Outcome(None, (made,)) if isinstance(made, Diagnostic) else Outcome(made)


def _refused(image: Image, data: bytes | Unread) -> Diagnostic:
    if data is Unread.MISSING:
        return say.not_found(image.path, image.span)
    if data is Unread.OUTSIDE:
        return say.outside(image.path, image.span)
    return say.too_large(image.path, LARGEST, image.span)


def _made(image: Image, data: bytes) -> ImageFile | Diagnostic:
    if data.startswith(PNG):
        return _raster(image, "png", data, png_size(data))
    if data.startswith(JPEG):
        return _raster(image, "jpeg", data, jpeg_size(data))
    if data.lstrip(b"\xef\xbb\xbf \t\r\n").startswith(b"<"):
        return _svg(image, data)
    return say.not_an_image(image.path, "it is no PNG, no JPEG and no SVG, whatever its name says", image.span)


def _raster(image: Image, kind: str, data: bytes, size: Size | None) -> ImageFile | Diagnostic:
    if size is None:
        return say.not_an_image(image.path, f"its {kind.upper()} is broken or breaks off", image.span)
    if not (FEWEST <= size.width <= MOST and FEWEST <= size.height <= MOST) or size.width * size.height > MOST_PIXELS:
        return say.absurd_size(image.path, f"{size.width} by {size.height} pixels", FEWEST, MOST, image.span)
    return _shaped(image, size.width, size.height) or ImageFile(_uri(f"image/{kind}", data), size.width / size.height)


def _svg(image: Image, data: bytes) -> ImageFile | Diagnostic:
    try:
        made: Clean = clean(data)
    except NoPicture as reason:
        return say.not_an_image(image.path, str(reason), image.span)
    except Unsafe as reason:
        return say.unsafe(image.path, str(reason), image.span)
    if not (0 < made.width < float("inf") and 0 < made.height < float("inf")):
        return say.absurd_size(image.path, f"{made.width:g} by {made.height:g}", FEWEST, MOST, image.span)
    found = _shaped(image, made.width, made.height)
    return found or ImageFile(_uri("image/svg+xml", made.text.encode()), made.width / made.height)


def _shaped(image: Image, width: float, height: float) -> Diagnostic | None:
    """What is wrong with a picture so narrow that nothing can be seen on it."""
    if max(width, height) <= LONGEST * min(width, height):
        return None
    return say.absurd_size(image.path, f"{width:g} by {height:g}", FEWEST, MOST, image.span)


def _uri(kind: str, data: bytes) -> str:
    return f"data:{kind};base64,{b64encode(data).decode('ascii')}"
