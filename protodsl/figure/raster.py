"""How large a PNG or a JPEG is, read from its own structure; a broken one has no size."""

from __future__ import annotations

import struct
from typing import NamedTuple
from zlib import crc32

# PNG, third edition (W3C 2025), 5.2 and 5.3; JPEG: ITU-T T.81, annex B.
PNG = b"\x89PNG\r\n\x1a\n"
JPEG = b"\xff\xd8\xff"
_END_OF_JPEG = b"\xff\xd9"
# Markers of frames (SOF0 to SOF15 without DHT, JPG and DAC), and markers that stand alone.
_FRAMES = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}
_ALONE = frozenset((0x01, *range(0xD0, 0xD8)))


class Size(NamedTuple):
    """Width and height in pixels."""

    width: int
    height: int


def png_size(data: bytes) -> Size | None:
    """The size of a PNG that is whole: every chunk with its check sum, the last one the end; else None."""
    at, size = len(PNG), None
    while at + 12 <= len(data):
        (length,) = struct.unpack_from(">I", data, at)
        kind, end = data[at + 4 : at + 8], at + 12 + length
        if end > len(data) or crc32(data[at + 4 : end - 4]) != struct.unpack_from(">I", data, end - 4)[0]:
            return None
        if size is None:
            if kind != b"IHDR" or length != 13:
                return None
            size = Size(*struct.unpack_from(">II", data, at + 8))
        if kind == b"IEND":
            return size
        at = end
    return None


def jpeg_size(data: bytes) -> Size | None:
    """The size that the first frame of a JPEG names, where the file has its end; else None."""
    if _END_OF_JPEG not in data[-1024:]:
        return None
    at = 2
    while at + 4 <= len(data):
        if data[at] != 0xFF:
            return None
        marker = data[at + 1]
        if marker == 0xFF:
            at += 1
            continue
        if marker in _ALONE:
            at += 2
            continue
        (length,) = struct.unpack_from(">H", data, at + 2)
        if marker in _FRAMES and at + 9 <= len(data):
            height, width = struct.unpack_from(">HH", data, at + 5)
            return Size(width, height)
        at += 2 + max(length, 2)
    return None
