"""What a document would fetch from outside itself: a handout is one file, and fetches nothing."""

from __future__ import annotations

import re
from collections.abc import Iterator
from xml.etree.ElementTree import Element

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.render import not_self_contained

_CSS_ADDRESS = re.compile(r"url\(\s*[\"']?([^\"')\s]*)|@import\s+[\"']([^\"']*)", re.IGNORECASE)
_FETCHING = ("src", "srcset", "poster", "data", "background")
# An `href` of these fetches; that of a link is followed by a person only.
_FETCHING_BY_HREF = frozenset(("link", "image", "use", "feImage", "base"))


def addresses(root: Element, rules: tuple[str, ...] = ()) -> tuple[Diagnostic, ...]:
    """A diagnostic for each address that the document, or one of the style sheets, would fetch."""
    found = [*_in_elements(root), *(address for text in rules for address in _in_rules(text))]
    return tuple(not_self_contained(address[:80]) for address in dict.fromkeys(found) if not _is_inside(address))


def _in_elements(root: Element) -> Iterator[str]:
    for element in root.iter():
        tag = element.tag.rpartition("}")[2]
        for name, value in element.attrib.items():
            name = name.rpartition("}")[2]
            if name in _FETCHING or (name == "href" and tag in _FETCHING_BY_HREF):
                yield value.strip()
            elif name == "style":
                yield from _in_rules(value)
        if tag == "style":
            yield from _in_rules(element.text or "")


def _in_rules(text: str) -> Iterator[str]:
    for one, other in _CSS_ADDRESS.findall(text):
        yield one or other


def _is_inside(address: str) -> bool:
    return not address or address.startswith(("data:", "#"))
