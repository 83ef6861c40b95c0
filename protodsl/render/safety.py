"""After rendering: every safety line of the handout is looked for on the page."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass
from xml.etree.ElementTree import Element

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.render import safety_hidden, safety_missing
from protodsl.handout.blocks import Handout, Item, Station, Stop
from protodsl.render.markdown import plain

_HIDING = re.compile(
    r"display\s*:\s*none|visibility\s*:\s*(?:hidden|collapse)|opacity\s*:\s*0(?![.]?\d)|font-size\s*:\s*0(?![.]?\d)",
    re.IGNORECASE,
)
_IGNORED_SIGNS = re.compile(r"[\s\u200b-\u200f\u2060-\u2069]+")


@dataclass(frozen=True, slots=True)
class SafetyLine:
    """A line that must be read: its id, its words without marks, and where the protocol has it."""

    id: str
    words: str
    origin: str = ""


def safety_lines(page: Handout[str]) -> tuple[SafetyLine, ...]:
    """Every safety line of a handout, in order: what carries an id, and the word, heads and numbers of STOP."""
    return tuple(_lines(page))


def lost_in_document(
    page: Handout[str], root: Element, hidden: frozenset[Element] = frozenset()
) -> tuple[Diagnostic, ...]:
    """A diagnostic for each safety line that no element shows, or only one hidden by an attribute or among `hidden`."""
    return compare(page, _shown(root, hidden, seen=True))


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


def _lines(block: object) -> Iterator[SafetyLine]:
    """Walks every field, so that a new kind of block is looked at without being named here."""
    if isinstance(block, tuple):
        for one in block:
            yield from _lines(one)
    elif isinstance(block, Stop):
        yield SafetyLine("stop/head", f"{plain(block.word)} {plain(block.head)}")
        for number, group in enumerate(block.groups, 1):
            for words in (group.head, group.phone, group.other_hours, group.other_phone):
                if words:
                    yield SafetyLine(f"stop/group/{number}", plain(words))
            yield from _lines(group.lines)
    elif isinstance(block, Item):
        if block.safety:
            yield SafetyLine(block.safety, plain(block.text), block.origin)
        yield from _lines(block.under)
    elif isinstance(block, Station):
        if block.safety:
            yield SafetyLine(block.safety, " ".join(plain(part) for part in (block.what, block.when) if part))
    elif is_dataclass(block):
        for one in fields(block):
            yield from _lines(getattr(block, one.name))


def _shown(element: Element, hidden: frozenset[Element], seen: bool) -> Iterator[tuple[str, str, bool]]:
    """Every marked element with its words, in the document as the templates left it."""
    seen = seen and element not in hidden and not _hides(element)
    safety = element.get("data-safety")
    if safety:
        visible = "".join(_seen_words(element, hidden))
        yield safety, "".join(element.itertext()), seen and _squeezed(visible) == _squeezed("".join(element.itertext()))
    for child in element:
        yield from _shown(child, hidden, seen)


def _seen_words(element: Element, hidden: frozenset[Element]) -> Iterator[str]:
    yield element.text or ""
    for child in element:
        if child not in hidden and not _hides(child):
            yield from _seen_words(child, hidden)
        yield child.tail or ""


def _hides(element: Element) -> bool:
    return (
        element.get("hidden") is not None
        or element.get("aria-hidden") == "true"
        or element.tag in ("template", "script", "noscript", "details", "title", "style")
        or bool(_HIDING.search(element.get("style", "")))
    )


def _squeezed(words: str) -> str:
    """Without spaces and marks of direction, which layout may change."""
    return _IGNORED_SIGNS.sub("", words)
