"""A tree of HTML elements as XHTML, written so that simple readers understand it too: no prefixes for namespaces."""

from __future__ import annotations

from collections.abc import Iterator
from xml.etree.ElementTree import Element
from xml.sax.saxutils import escape, quoteattr

XHTML = "http://www.w3.org/1999/xhtml"
_XML = "{http://www.w3.org/XML/1998/namespace}"
# Marks that only the setting of pages needs.
_UNWANTED = ("data-part",)


def written(element: Element) -> str:
    """The element and all in it, to stand in a document of XHTML; an element without a namespace is one of XHTML."""
    return "".join(_parts(element, XHTML))


def _parts(element: Element, around: str) -> Iterator[str]:
    namespace, name = _split(element.tag)
    yield f"<{name}"
    if namespace != around:
        yield f' xmlns="{namespace}"'
    for key, value in element.attrib.items():
        if key not in _UNWANTED:
            yield f" {key.replace(_XML, 'xml:')}={quoteattr(value)}"
    if not element.text and not len(element):
        yield "/>"
        return
    yield f">{escape(element.text or '')}"
    for child in element:
        yield from _parts(child, namespace)
        yield escape(child.tail or "")
    yield f"</{name}>"


def _split(tag: str) -> tuple[str, str]:
    namespace, _, name = tag.rpartition("}")
    return namespace.removeprefix("{") or XHTML, name
