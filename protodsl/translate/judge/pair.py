"""A text and its translation, as every rule looks at them."""

from __future__ import annotations

import re
from dataclasses import dataclass

from protodsl.translate.entries import Entry

# `[setting]` in authored prose; `{value}` in the product's own words.
SLOT = re.compile(r"\[[^\[\]]*\]|\{\w+\}")


@dataclass(frozen=True, slots=True)
class Pair:
    """An entry whose text is written in `own`, and its words in `language`."""

    entry: Entry
    language: str
    own: str

    @property
    def is_product(self) -> bool:
        """Whether these are words of the product's own, which have plural forms and `{values}`."""
        return "/" not in self.entry.key

    @property
    def sources(self) -> tuple[str, ...]:
        """The forms of the text without its placeholders."""
        return tuple(SLOT.sub(" ", form) for form in self.entry.source)

    @property
    def targets(self) -> tuple[str, ...]:
        """The forms of the translation without its placeholders."""
        return tuple(SLOT.sub(" ", form) for form in self.entry.target)
