"""A catalogue brought up to date with the texts of today; no translation is ever lost.

An entry is known again by its key and its text, wherever either was moved. Where the text under a key has changed, the
translation stays and is fuzzy, with the text it was made for. What is gone becomes obsolete, and comes back with its
text.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from difflib import SequenceMatcher

from babel import Locale

from protodsl.translate.entries import Catalogue, Entry
from protodsl.translate.notes import notes_of
from protodsl.translate.plurals import plural_header
from protodsl.translate.tags import gettext_name, locale_of
from protodsl.translate.texts import Text

# Texts as like as this, under one key, are one text that was changed; gettext's own programs ask for 0.6 without a key.
_ALIKE = 0.5


def merged(texts: Sequence[Text], old: Catalogue, others: Iterable[Entry] = ()) -> Catalogue:
    """The catalogue for these texts; words may move there from `others`, the language's entries in other catalogues."""
    known = {entry.id: entry for entry in (*others, *old.obsolete, *old.entries) if any(entry.target)}
    wanted = {text.id for text in texts}
    left = [entry for entry in old.entries if entry.id not in wanted and any(entry.target)]
    made: list[Entry] = []
    fresh = [text for text in texts if text.id not in known]
    changed = _changed(fresh, [*left, *(one for one in old.obsolete if one.id not in wanted)])
    by_text = {entry.source[0]: entry for entry in known.values()}
    own = {entry.id: entry for entry in old.entries}
    for text in texts:
        before = known.get(text.id)
        if before is not None:
            made.append(_kept(text, before))
        elif text.id in changed:
            made.append(_outdated(text, changed[text.id]))
        elif text.forms[0] in by_text:
            made.append(_borrowed(text, by_text[text.forms[0]]))
        else:
            made.append(replace(_new(text), comments=own[text.id].comments if text.id in own else ()))
    taken = {id(one) for one in changed.values()}
    obsolete = [one for one in (*left, *old.obsolete) if one.id not in wanted and id(one) not in taken]
    unique = tuple({one.id: one for one in reversed(obsolete)}.values())
    return with_headers(replace(old, entries=tuple(made), obsolete=tuple(sorted(unique, key=lambda one: one.id))))


def with_headers(catalogue: Catalogue) -> Catalogue:
    """The catalogue with the headers that follow from its language and its entries; any other header is kept."""
    locale = locale_of(catalogue.language) or Locale.parse("en")
    by = _reviewed_by(catalogue.entries)
    own = {
        "Project-Id-Version": "protodsl 1",
        "Language": gettext_name(catalogue.language),
        "MIME-Version": "1.0",
        "Content-Type": "text/plain; charset=UTF-8",
        "Content-Transfer-Encoding": "8bit",
        "Plural-Forms": plural_header(locale),
        **({"X-Reviewed-By": by} if by else {"X-Reviewed": "no"}),
    }
    more = {name: value for name, value in catalogue.headers if name not in (*own, "X-Reviewed", "X-Reviewed-By")}
    return replace(catalogue, headers=tuple({**own, **more}.items()))


def _reviewed_by(entries: Sequence[Entry]) -> str:
    """`ROLE, DATE` of the latest review where every entry is reviewed; empty where one is not."""
    marks = [entry.review for entry in entries if entry.review is not None and entry.is_reviewed]
    if not marks or len(marks) < len(entries):
        return ""
    last = max(marks, key=lambda mark: mark.on)
    return f"{last.by}, {last.on.isoformat()}"


def _new(text: Text) -> Entry:
    return Entry(text.key, text.forms, notes=notes_of(text), places=(text.path,))


def _kept(text: Text, before: Entry) -> Entry:
    """The same text: everything a translator did to it stays; a mark of review goes where it no longer holds."""
    plurals_changed = text.forms != before.source
    entry = replace(
        _new(text),
        target=before.target if len(text.forms) == len(before.source) else (),
        fuzzy=before.fuzzy or plurals_changed,
        previous=before.source if plurals_changed else before.previous,
        comments=before.comments,
        review=before.review,
        flags=before.flags,
    )
    return entry if entry.is_reviewed else replace(entry, review=None)


def _outdated(text: Text, before: Entry) -> Entry:
    """Words for a text that has changed since."""
    previous = before.previous if before.fuzzy and before.previous else before.source
    return replace(_borrowed(text, before), previous=previous)


def _borrowed(text: Text, before: Entry) -> Entry:
    """Words that were made for another place: to be looked at before they are used."""
    target = before.target if len(text.forms) == len(before.source) else ()
    return replace(_new(text), target=target, fuzzy=bool(target), comments=before.comments, flags=before.flags)


def _changed(fresh: Sequence[Text], left: Sequence[Entry]) -> dict[tuple[str, str], Entry]:
    """For each new text the old entry that it was made from: of the same key, the most alike first."""
    pairs = [
        (SequenceMatcher(None, entry.source[0], text.forms[0], autojunk=False).ratio(), -at, -n, text, entry)
        for n, text in enumerate(fresh)
        for at, entry in enumerate(left)
        if entry.key == text.key
    ]
    found: dict[tuple[str, str], Entry] = {}
    taken: set[int] = set()
    alone = _alone(fresh, left)
    for ratio, _, _, text, entry in sorted(pairs, key=lambda pair: pair[:3], reverse=True):
        if text.id in found or id(entry) in taken or (ratio < _ALIKE and text.key not in alone):
            continue
        found[text.id] = entry
        taken.add(id(entry))
    return found


def _alone(fresh: Sequence[Text], left: Sequence[Entry]) -> set[str]:
    """Keys under which one text came and one went: however unlike, the one took the place of the other."""
    came, went = [text.key for text in fresh], [entry.key for entry in left]
    return {key for key in came if came.count(key) == 1 and went.count(key) == 1}
