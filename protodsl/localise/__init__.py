"""From handout to page in a language: words, numbers, units, plurals and direction."""

from protodsl.localise.catalogue import direction, languages
from protodsl.localise.localise import localise

__all__ = ["direction", "languages", "localise"]
