"""The digest on a sheet: ten characters that change when anything it was made from changes."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping

_GROUP = 5
_GROUPS = 2


def digest(sources: Mapping[str, str], inputs: Mapping[str, str]) -> str:
    """Two groups of five hexadecimal digits: the first forty bits of a SHA-256.

    It covers the path and text of every source file read, and every other input by its name: the protocol, the
    language, the paper and other options, the digests of the templates and of the fonts, and the product's version.
    Each name and each text goes in with its length before it, so that no two sets of inputs run into one. The order in
    which they are given does not count.
    """
    state = hashlib.sha256()
    for kind, table in (("source", sources), ("input", inputs)):
        for name in sorted(table):
            for part in (kind, name, table[name]):
                data = part.encode()
                state.update(len(data).to_bytes(8, "big"))
                state.update(data)
    digits = state.hexdigest()
    return "-".join(digits[at : at + _GROUP] for at in range(0, _GROUP * _GROUPS, _GROUP))
