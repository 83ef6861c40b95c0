"""How far a catalogue is: what of today's texts is missing, outdated, translated but unread, reviewed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from protodsl.diagnostics import translation as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.source import Span
from protodsl.translate.entries import Catalogue, Entry
from protodsl.translate.judge import judge
from protodsl.translate.texts import Text


@dataclass(frozen=True, slots=True)
class State:
    """Today's texts of one file, sorted by what a language has for them; `reviewed` needs nothing more."""

    missing: tuple[Text, ...] = ()
    outdated: tuple[Text, ...] = ()
    unread: tuple[Text, ...] = ()
    reviewed: tuple[Text, ...] = ()

    @property
    def total(self) -> int:
        """How many texts there are."""
        return len(self.missing) + len(self.outdated) + len(self.unread) + len(self.reviewed)


def state_of(texts: Sequence[Text], catalogue: Catalogue | None) -> State:
    """The state of a file's texts; of a file without a catalogue everything is missing."""
    entries = {entry.id: entry for entry in catalogue.entries} if catalogue else {}
    wanted = {text.id for text in texts}
    old_keys = {entry.key for entry in entries.values() if entry.id not in wanted and any(entry.target)}
    sorted_: dict[str, list[Text]] = {"missing": [], "outdated": [], "unread": [], "reviewed": []}
    for text in texts:
        sorted_[_state(entries.get(text.id), text.key in old_keys)].append(text)
    return State(**{name: tuple(found) for name, found in sorted_.items()})


def judged(
    texts: Sequence[Text], catalogue: Catalogue | None, at: Span, language: str, own: str
) -> Iterator[Diagnostic]:
    """Everything that is to be said of a file in a language; `at` is its catalogue, or the file where it has none."""
    yield from counted(state_of(texts, catalogue), at, language)
    wanted = {text.id for text in texts}
    for entry in catalogue.entries if catalogue else ():
        if entry.id in wanted:
            yield from judge(entry, language, own)


def counted(state: State, at: Span, language: str) -> Iterator[Diagnostic]:
    """What is missing, changed and unread, a diagnostic each."""
    for say_it, found in (
        (say.not_translated, state.missing),
        (say.outdated, state.outdated),
        (say.not_reviewed, state.unread),
    ):
        if found:
            yield say_it(at, language, tuple(text.forms[0] for text in found), state.total)


def _state(entry: Entry | None, had_other_words: bool) -> str:
    if entry is None:
        return "outdated" if had_other_words else "missing"
    if entry.fuzzy:
        return "outdated"
    if not entry.is_translated:
        return "missing"
    return "reviewed" if entry.is_reviewed else "unread"
