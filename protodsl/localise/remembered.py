"""Words that were found before: most phrases of a thousand sheets of one protocol are the same."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

from protodsl.handout.phrase import DoseInWords, InWords, Listed, Message, Phrase, Written
from protodsl.localise.catalogue import Catalogue
from protodsl.localise.phrases import phrase
from protodsl.localise.voice import Voice
from protodsl.model.protocol import Scope

# Some ten sheets' worth of phrases that no other sheet has; then all is begun anew.
_MOST = 20_000


@dataclass(slots=True)
class Remembered:
    """The words of phrases in one language, over one scope; what a phrase is known by lives as long as its words."""

    _words: dict[Hashable, tuple[str, Phrase]] = field(default_factory=dict)

    def words(self, voice: Voice, one: Phrase) -> str:
        """The words of a phrase."""
        key = _key(one)
        found = self._words.get(key)
        if found is None:
            if len(self._words) >= _MOST:
                self._words.clear()
            found = self._words[key] = phrase(voice, one), one
        return found[0]


class _Same:
    """A scope or a catalogue known by what it is, not by all that it holds."""

    __slots__ = ("one",)

    def __init__(self, one: Scope | Catalogue) -> None:
        self.one = one

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and other.one is self.one

    def __hash__(self) -> int:
        return id(self.one)


def remembered(voice: Voice) -> Remembered | None:
    """What is remembered for a voice; None where what is asked for has to be gathered, or words are given."""
    if voice.written_in or voice.translations:
        return None
    return _of(_Same(voice.scope), _Same(voice.catalogue), voice.lengths)


@lru_cache(maxsize=16)
def _of(scope: _Same, product: _Same, lengths: str) -> Remembered:
    return Remembered()


def _key(one: Phrase) -> Hashable:
    """What tells a phrase from another: prose and numbers by their content, conditions by their identity."""
    keyed = _KEYS.get(type(one))
    return one if keyed is None else keyed(one)


def _message(one: Message) -> Hashable:
    values: Mapping[str, Phrase] = one.values
    if not values:
        return one.key, one.count
    return one.key, one.count, tuple([(name, _key(value)) for name, value in values.items()])


_KEYS: dict[type, Callable[[Any], Hashable]] = {
    Message: _message,
    Written: lambda one: (Written, one.prose.text, one.prose.key, one.side),
    InWords: lambda one: (InWords, id(one.condition), one.streak, one.negated, one.side),
    DoseInWords: lambda one: (DoseInWords, one.dose, one.group, one.side),
    Listed: lambda one: (one.by, tuple([_key(part) for part in one.of])),
}
