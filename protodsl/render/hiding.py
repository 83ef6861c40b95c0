"""Whether a clinic's own rules hide a safety line: its HTML page has no layout to look at, so its rules are read."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import Any
from xml.etree.ElementTree import Element

_HIDDEN = {
    "display": ("none",),
    "visibility": ("hidden", "collapse"),
    "opacity": ("0", "0.0", ".0", "0%"),
    "font-size": ("0", "0px", "0em", "0rem", "0pt", "0%"),
    "color": ("transparent",),
    "content-visibility": ("hidden",),
    "max-height": ("0", "0px"),
    "height": ("0", "0px"),
    "clip-path": ("inset(50%)", "inset(100%)"),
}


def hidden_elements(root: Element, rules: tuple[str, ...]) -> frozenset[Element]:
    """The elements that a rule hides, for print or for a screen; any such rule counts, whatever comes after it."""
    import cssselect2

    matcher = cssselect2.Matcher()
    for text in rules:
        for selector in _hiding_selectors(text):
            matcher.add_selector(selector, None)
    wrapper = cssselect2.ElementWrapper.from_html_root(root)
    return frozenset(one.etree_element for one in wrapper.iter_subtree() if matcher.match(one))


# The rules of a clinic are the same on every page of a batch, and reading them takes longer than the page.
@lru_cache(maxsize=32)
def _hiding_selectors(text: str) -> tuple[Any, ...]:
    """The selectors of the rules in a style sheet that hide what they match."""
    import cssselect2
    import tinycss2

    found: list[Any] = []
    for rule in _qualified(tinycss2.parse_stylesheet(text, True, True), tinycss2):
        if _hides(tinycss2.parse_blocks_contents(rule.content, True, True)):
            try:
                selectors = cssselect2.compile_selector_list(rule.prelude)
            except cssselect2.SelectorError:
                continue  # a selector that this reader does not know; the layout of the PDF is looked at all the same
            found += [selector for selector in selectors if selector.pseudo_element is None]
    return tuple(found)


def _qualified(nodes: list[Any], tinycss2: Any) -> Iterator[Any]:
    """The rules, those inside `@media` and the like too."""
    for node in nodes:
        if node.type == "qualified-rule":
            yield node
        elif (
            node.type == "at-rule"
            and node.content
            and node.lower_at_keyword in ("media", "supports", "layer", "container")
        ):
            yield from _qualified(tinycss2.parse_rule_list(node.content, True, True), tinycss2)


def _hides(declarations: list[Any]) -> bool:
    for one in declarations:
        if one.type == "declaration":
            value = "".join(token.serialize() for token in one.value).strip().lower()
            if value in _HIDDEN.get(one.lower_name, ()):
                return True
    return False
