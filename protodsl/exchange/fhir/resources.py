"""What every resource has: its name, its language, a narrative, and its place in a bundle."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Sequence
from html import escape

from protodsl.exchange.fhir.release import Json
from protodsl.exchange.identity import identity
from protodsl.exchange.speech import Speech
from protodsl.model.protocol import Protocol

# The system of identifiers that are URIs themselves (hl7.org/fhir/R5/identifier-registry.html).
URI = "urn:ietf:rfc:3986"
_LONGEST_NAME = 255


def protocol_id(speech: Speech, protocol: Protocol, *parts: str) -> str:
    """The UUID of something of a protocol; it stays the same from version to version."""
    return identity(speech.clinic, "protocol", protocol.name, *parts)


def canonical(id: str, version: str) -> str:
    """How another resource names a definition with its version."""
    return f"urn:uuid:{id}|{version}"


def resource(kind: str, id: str, speech: Speech, title: str, lines: Sequence[str], /, **content: object) -> Json:
    """A resource with its narrative: a title and lines, so that a reader who knows none of its elements sees it all."""
    head: Json = {"resourceType": kind, "id": id, "language": speech.language}
    return {**head, "text": _narrative(speech, title, lines), **content}


def bundle(id: str, resources: Iterable[Json], /, **content: object) -> Json:
    """Resources as a collection: they belong together, and nobody is asked to do anything with them."""
    entries = [{"fullUrl": f"urn:uuid:{one['id']}", "resource": one} for one in resources]
    identifier = {"system": URI, "value": f"urn:uuid:{id}"}
    head: Json = {"resourceType": "Bundle", "id": id, "identifier": identifier, "type": "collection"}
    return {**head, **content, "entry": entries}


def computable_name(title: str) -> str:
    """A title as a name for a program: a capital, then letters, digits and underscores of ASCII (invariant cnl-0)."""
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode()
    words = [word[:1].upper() + word[1:] for word in re.findall(r"[A-Za-z0-9]+", plain)]
    name = "".join(words)
    return (name if re.match(r"[A-Z].", name) else f"Protocol{name}")[:_LONGEST_NAME]


def defined(speech: Speech, protocol: Protocol, id: str, title: str) -> Json:
    """What every definition of a protocol has: it is a draft until somebody takes it into use where it arrives."""
    content: Json = {
        "url": f"urn:uuid:{id}",
        "version": protocol.version,
        "name": computable_name(title),
        "title": title,
        "status": "draft",
        "publisher": speech.clinic.name,
        "contact": [{"telecom": [{"system": "phone", "value": speech.clinic.contact.phone}]}],
    }
    if protocol.review is not None:
        content["date"] = content["lastReviewDate"] = protocol.review.date.isoformat()
    return content


def text_of(lines: Iterable[str]) -> str:
    """Lines as Markdown: a line stays a line, and no sign in it is read as a mark."""
    return "\n\n".join(re.sub(r"([\\`*_\[\]<>#])", r"\\\1", line) for line in lines if line)


def _narrative(speech: Speech, title: str, lines: Sequence[str]) -> Json:
    direction = speech.voice.catalogue.direction
    said = "".join(f"<p>{escape(line, quote=False)}</p>" for line in (title, *lines) if line.strip())
    attributes = f'xmlns="http://www.w3.org/1999/xhtml" lang="{speech.language}" dir="{direction}"'
    return {"status": "generated", "div": f"<div {attributes}>{said}</div>"}
