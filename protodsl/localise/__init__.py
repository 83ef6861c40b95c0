"""From handout to page in a language: words, numbers, units, plurals and direction."""

from protodsl.localise.catalogue import direction, languages
from protodsl.localise.drafts import as_draft, beside
from protodsl.localise.localise import Spoken, localise, speak

__all__ = ["Spoken", "as_draft", "beside", "direction", "languages", "localise", "speak"]
