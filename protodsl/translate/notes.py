"""What a translator is told of a string: what it is, where it stands on the sheet, how long it may be."""

from __future__ import annotations

import re
from collections.abc import Iterable

from protodsl.model.text import PLACED_SIDES
from protodsl.translate.texts import Text

_KINDS = {
    "activity": "activity", "clinic": "clinic", "equipment": "equipment", "exercise": "exercise", "finding": "finding",
    "level": "step", "progression": "series of steps", "protocol": "protocol", "question": "question",
    "target": "part of the body", "test": "test",
}  # fmt: skip

# By the last word of a key: what it is; `{of}` is what it belongs to.
_WHAT = {
    "title": "a heading: the name of the {of}",
    "part": "a heading over some of the exercises of the {of}",
    "name": "the name of the {of}, a heading or a word in a sentence",
    "words": "the name of the {of}, a word in a list or a sentence",
    "question": "a question to the reader, of the {of}",
    "test": "what the clinician measures, of the {of}",
    "finding": "what the {of} is, a word in a sentence",
    "means": "completes “... is 7 or more”: what is measured, of the {of}; no full stop",
    "yes means": "completes “leave it out if ...” and “call us if ...”: the answer yes to the {of}; no full stop",
    "no means": "completes “leave it out if ...” and “call us if ...”: the answer no to the {of}; no full stop",
    "answer": "an answer to choose, of the {of}",
    "do": "a step of the {of}, an instruction to the reader",
    "why": "what the {of} is good for",
    "when": "where the {of} fits in the day",
    "feel": "where the reader should feel the {of}; stands under “Feel it here”",
    "normal": "what is normal in the {of}; stands under “This is normal”",
    "fix": "a fault in the {of}, a colon, and what to do about it; stands under “What to change”",
    "stop": "a reason to stop the {of}; stands under “When to stop”",
    "because": "the reason for a line of the {of}",
    "caution if": "what to heed in the {of}",
    "emergency if": "what to do in an emergency",
    "red flag if": "what to do when a danger sign is there",
    "call if": "when and why to call the clinic",
    "up when": "what to do when moving on, of the {of}",
    "down when": "what to do when going back, of the {of}",
    "back to": "what to do when going back to an earlier part, of the {of}",
    "for": "for whom the {of} is",
    "goal": "a goal of the {of}",
    "advice": "advice, its heading or a line of it, of the {of}",
    "flare-up": "what to do in a bad spell",
    "pain zones": "a band of the pain scale, its word or what to do",
    "may": "what the reader may do in daily life",
    "not yet": "what the reader must not do yet",
    "image": "describes a picture for those who cannot see it",
    "text": "words over a telephone number in the STOP part: when to call it",
    "after-hours-text": "words over a telephone number in the STOP part: when to call it",
}
# How long, for what stands in a heading or a cell: as a share of the text, and no less than this.
_TIGHT = frozenset(("title", "part", "name", "words", "answer", "text", "after-hours-text"))
_SHARE, _LEAST = 1.4, 20
_SLOT = re.compile(r"\[[^\[\]]*\]")


def notes_of(text: Text) -> tuple[str, ...]:
    """The extractor's comments of a string; the product's own words bring theirs along."""
    if "/" not in text.key:
        return text.notes
    *owner, keyword = text.key.split("/")
    what = _WHAT.get(keyword, "{of}").format(of=_owner(owner))
    said = [what + (f"; at most about {_room(text.forms[0])} letters" if keyword in _TIGHT else "")]
    slots = _SLOT.findall(text.forms[0])
    if slots:
        said.append(f"keep {_listed(slots)} as it stands: a value takes its place")
        said.extend(
            f"or [{placed}], for “on the left side”" for placed, side in PLACED_SIDES.items() if f"[{side}]" in slots
        )
    if "*" in text.forms[0]:
        said.append("keep the stars around the same words: *so* is emphasis, **so** is strong")
    return tuple(said)


def _owner(parts: list[str]) -> str:
    """`exercise “heel raise”`; of what is nested, the innermost."""
    if parts[:1] == ["clinic"] or len(parts) < 2:
        return "clinic"
    kind, name = parts[-2:]
    return f"{_KINDS.get(kind, kind)} “{name}”"


def _room(text: str) -> int:
    return max(_LEAST, round(len(text) * _SHARE / 5) * 5)


def _listed(slots: Iterable[str]) -> str:
    return " and ".join(dict.fromkeys(slots))
