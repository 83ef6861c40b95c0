"""A zip file with the same bytes for the same parts."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterable

# The first moment that a zip file can name; a document holds no clock.
_MOMENT = (1980, 1, 1, 0, 0, 0)
_READABLE = 0o644 << 16


def zipped(parts: Iterable[tuple[str, bytes]], stored: tuple[str, ...] = ()) -> bytes:
    """The parts by name, in this order; those `stored` are not compressed."""
    whole = io.BytesIO()
    with zipfile.ZipFile(whole, "w") as archive:
        for name, data in parts:
            entry = zipfile.ZipInfo(name, _MOMENT)
            entry.create_system = 0
            entry.external_attr = _READABLE
            entry.compress_type = zipfile.ZIP_STORED if name in stored else zipfile.ZIP_DEFLATED
            archive.writestr(entry, data, compresslevel=9)
    return whole.getvalue()
