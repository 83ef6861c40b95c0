"""The product's words as a clinic has reviewed them: its own catalogue over the shipped one, message by message."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from protodsl.diagnostics.diagnostic import Diagnostic, Severity
from protodsl.localise.catalogue import SOURCE_LANGUAGE
from protodsl.translate.entries import Catalogue, Entry
from protodsl.translate.judge import judge
from protodsl.translate.merge import merged
from protodsl.translate.state import State, state_of
from protodsl.translate.texts import Text


@dataclass(frozen=True, slots=True)
class Laid:
    """What there is of the product's words in a language, and how far it may be printed.

    `own` are the forms of the messages that the clinic has, by key; `wrong` what keeps a message of either catalogue
    from being used. A message that is wrong where it is nearest counts as missing, whatever lies below it.
    """

    state: State
    own: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    wrong: tuple[Diagnostic, ...] = ()
    broken: int = 0

    @property
    def gaps(self) -> tuple[int, int]:
        """How many messages have no words that may be used, and how many have words that nobody has read."""
        return len(self.state.missing) + len(self.state.outdated) + self.broken, len(self.state.unread)


def laid(texts: Sequence[Text], overlays: Sequence[Catalogue], shipped: Catalogue | None) -> Laid:
    """Each message from the nearest catalogue that has words for it, made for its text of today."""
    nearest = [_by_id(one) for one in overlays]
    below = _by_id(shipped)
    language = overlays[0].language if overlays else shipped.language if shipped else SOURCE_LANGUAGE
    chosen: dict[tuple[str, str], Entry] = dict(below)
    own: dict[str, tuple[str, ...]] = {}
    wrong: list[Diagnostic] = []
    broken: set[tuple[str, str]] = set()
    for text in texts:
        found = (*(one for known in nearest if (one := known.get(text.id))), below.get(text.id))
        nearby = [one for one in found if one is not None]
        if nearby:
            chosen[text.id] = nearby[0]
        for at, entry in enumerate(one for one in nearby if one.is_translated):
            errors = errors_in(entry, language)
            if not errors:
                chosen[text.id] = entry
                if entry is not below.get(text.id):
                    own[text.key] = entry.target
                break
            wrong += errors
            if at == 0:
                broken.add(text.id)
    effective = Catalogue("", language, entries=tuple(chosen.values()))
    return Laid(state_of(texts, effective), own, tuple(wrong), len(broken))


def errors_in(entry: Entry, language: str) -> tuple[Diagnostic, ...]:
    """What keeps the words of an entry from being used."""
    return tuple(one for one in judge(entry, language, SOURCE_LANGUAGE) if one.severity is Severity.ERROR)


def brought_up_to_date(texts: Sequence[Text], old: Catalogue, shipped: Catalogue | None) -> Catalogue:
    """The clinic's catalogue for the messages of today: its own words, and where it has none those that are shipped.

    Where the shipped words differ from the clinic's, a note says so: the difference may be a mistake that was mended.
    """
    below = _by_id(shipped)
    made = merged(texts, old, below.values())
    entries = tuple(_noted(entry, below.get(entry.id)) for entry in made.entries)
    return replace(made, entries=entries)


def _noted(entry: Entry, below: Entry | None) -> Entry:
    if below is None or not below.is_translated or below.target == entry.target:
        return entry
    return replace(entry, notes=(*entry.notes, f"as it is shipped: {' | '.join(below.target)}"))


def _by_id(catalogue: Catalogue | None) -> dict[tuple[str, str], Entry]:
    entries: Iterable[Entry] = catalogue.entries if catalogue else ()
    return {entry.id: entry for entry in entries if any(entry.target)}
