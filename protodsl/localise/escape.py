"""What inline Markdown would read in words that are not meant as Markdown."""

from __future__ import annotations

import re

# Inline CommonMark reads these; emphasis (`*`) is left to authored prose.
_READ = re.compile(r"([\\`_\[\]<&])")
_READ_ALL = re.compile(r"([\\`*_\[\]<&])")


def literal(text: str) -> str:
    """Every character as it stands, emphasis too."""
    return _READ_ALL.sub(r"\\\1", text)


def authored(text: str) -> str:
    """Authored prose, which knows emphasis and strong only: everything else stands for itself."""
    return _READ.sub(r"\\\1", text)
