"""After rendering: every safety line of the handout is looked for on the page."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, fields, is_dataclass
from functools import cache, lru_cache
from typing import Any
from xml.etree.ElementTree import Element

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.render import safety_hidden, safety_lost, safety_missing
from protodsl.handout.blocks import Handout, Item, Station, Stop
from protodsl.render.markdown import plain

_HIDING = re.compile(
    r"display\s*:\s*none|visibility\s*:\s*(?:hidden|collapse)|opacity\s*:\s*0(?![.]?\d)|font-size\s*:\s*0(?![.]?\d)",
    re.IGNORECASE,
)
_HIDING_TAGS = frozenset(("template", "script", "noscript", "details", "title", "style"))
# Stands in a text where a line was found; in no text, because no document may hold it (XML 1.0, 2.2).
_TAKEN = "\x00"
_IGNORED_SIGNS = re.compile(r"[\s\u200b-\u200f\u2060-\u2069]+")


@dataclass(frozen=True, slots=True)
class SafetyLine:
    """A line that must be read: its id, its words without marks, and where the protocol has it."""

    id: str
    words: str
    origin: str = ""


def safety_lines(page: Handout[str]) -> tuple[SafetyLine, ...]:
    """Every safety line of a handout, in order: what carries an id, and the word, heads and numbers of STOP."""
    found: list[SafetyLine] = []
    _gather(page, found)
    return tuple(found)


def lost_in_document(
    page: Handout[str], root: Element, hidden: frozenset[Element] = frozenset()
) -> tuple[Diagnostic, ...]:
    """A diagnostic for each safety line that no element shows, or only one hidden by an attribute or among `hidden`."""
    return compare(page, _shown(root, hidden))


def lost_in_text(page: Handout[str], text: str) -> tuple[Diagnostic, ...]:
    """A diagnostic for each safety line whose words are not in the text, read back from what was made.

    Words that were found count for one line only, the longest line first, so that none hides behind another.
    """
    left = _IGNORED_SIGNS.sub("", text)
    lost: list[SafetyLine] = []
    lines = [(_squeezed(line.words), line) for line in safety_lines(page)]
    for wanted, line in sorted(lines, key=lambda pair: len(pair[0]), reverse=True):
        if wanted not in left:
            lost.append(line)
        left = left.replace(wanted, _TAKEN, 1)
    missing = dict.fromkeys(line for line in safety_lines(page) if line in lost)
    return tuple(safety_lost(line.id, line.words, line.origin) for line in missing)


def compare(page: Handout[str], shown: Iterator[tuple[str, str, bool]]) -> tuple[Diagnostic, ...]:
    """What is wanted against what is shown: the id, the words and whether it can be seen of each marked element."""
    seen: dict[str, list[tuple[str, bool]]] = {}
    for safety, words, visible in shown:
        seen.setdefault(safety, []).append((_squeezed(words), visible))
    said: list[Diagnostic] = []
    for line, count in Counter(safety_lines(page)).items():
        wanted = _squeezed(line.words)
        found = [visible for words, visible in seen.get(line.id, []) if wanted in words]
        if len(found) < count:
            said.append(safety_missing(line.id, line.words, line.origin))
        elif sum(found) < count:
            said.append(safety_hidden(line.id, line.words, line.origin))
    return tuple(said)


def draft_not_said(page: Handout[str], margins: Iterable[str]) -> tuple[Diagnostic, ...]:
    """A diagnostic where a page of a draft does not say at its head that it is one."""
    shown = tuple(_squeezed(one) for one in margins)
    lost = (line for line in page.draft if not all(_squeezed(plain(line)) in one for one in shown))
    return tuple(safety_missing("draft/page", plain(line), "") for line in lost)


def _gather(block: object, found: list[SafetyLine]) -> None:
    """Walks every field, so that a new kind of block is looked at without being named here."""
    if isinstance(block, Stop):
        found.append(SafetyLine("stop/head", f"{_plain(block.word)} {_plain(block.head)}"))
        for number, group in enumerate(block.groups, 1):
            for words in (group.head, group.phone, group.other_hours, group.other_phone):
                if words:
                    found.append(SafetyLine(f"stop/group/{number}", _plain(words)))
    if isinstance(block, Item) and block.safety:
        found.append(SafetyLine(block.safety, _plain(block.text), block.origin))
    elif isinstance(block, Station) and block.safety:
        found.append(SafetyLine(block.safety, " ".join(_plain(part) for part in (block.what, block.when) if part)))
    kind: Any = type(block)
    for name in _fields(kind):
        value = getattr(block, name)
        for one in value if type(value) is tuple else (value,):
            if one is not None and type(one) is not str:
                _gather(one, found)


@cache
def _fields(kind: Any) -> tuple[str, ...]:
    """The fields of a block; none of what is no block."""
    return tuple(one.name for one in fields(kind)) if is_dataclass(kind) else ()


def _shown(root: Element, hidden: frozenset[Element]) -> Iterator[tuple[str, str, bool]]:
    """Every marked element with its words, in the document as the templates left it."""
    unseen = {element for element in root.iter() if element in hidden or _hides(element)}
    inside = {inner for element in unseen for inner in element.iter()}
    for element in root.iter():
        safety = element.get("data-safety")
        if safety:
            seen = element not in inside and not any(inner in unseen for inner in element.iter())
            yield safety, "".join(element.itertext()), seen


def _hides(element: Element) -> bool:
    attributes = element.attrib
    return (
        "hidden" in attributes
        or attributes.get("aria-hidden") == "true"
        or ("style" in attributes and bool(_HIDING.search(attributes["style"])))
        or element.tag in _HIDING_TAGS
    )


# Most lines of a sheet are those of the sheets before it.
_plain = lru_cache(maxsize=4096)(plain)


@lru_cache(maxsize=8192)
def _squeezed(words: str) -> str:
    """Without spaces and marks of direction, which layout may change."""
    return _IGNORED_SIGNS.sub("", words)
