"""From handout to page in a language: words, numbers, units, plurals and direction."""

from protodsl.localise.catalogue import direction
from protodsl.localise.localise import localise

__all__ = ["direction", "localise"]
