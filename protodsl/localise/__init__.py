"""From handout to page in a language: words, numbers, units, plurals and direction."""

from protodsl.localise.localise import localise

__all__ = ["localise"]
