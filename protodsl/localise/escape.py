"""What inline Markdown would read in words that are not meant as Markdown."""

from __future__ import annotations

import re

# Inline CommonMark reads these; emphasis (`*`) is left to authored prose.
_READ = re.compile(r"([\\`_\[\]<&])")
_READ_ALL = re.compile(r"([\\`*_\[\]<&])")


# What stands in a place of another language than the page, and why: there are no words for it, or there should be none.
_MISSING, _FOREIGN = "missing", "lang"
MARK_END = re.compile(rf"\]\((?:{_MISSING}|{_FOREIGN}):[\w-]+\)\**$")


def in_language(text: str, language: str, missing: bool) -> str:
    """A phrase in another language than the page, marked as such: `[Do not run](missing:en)`, as inline Markdown.

    A phrase with a mark inside it is left as it is, since marks cannot stand in one another.
    """
    if not text.strip() or "](" in text:
        return text
    return f"[{text}]({_MISSING if missing else _FOREIGN}:{language})"


def literal(text: str) -> str:
    """Every character as it stands, emphasis too."""
    return _READ_ALL.sub(r"\\\1", text)


def authored(text: str) -> str:
    """Authored prose, which knows emphasis and strong only: everything else stands for itself."""
    return _READ.sub(r"\\\1", text)
