"""A PDF to be kept: PDF/A-3 and PDF/UA-1 in one file, with what it was made from attached."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from types import ModuleType
from typing import Any

# How an attached file belongs to the document (ISO 32000-2:2020, 7.11.3).
SOURCE, SUPPLEMENT = "Source", "Supplement"
# No file says when it was made; this is the first date that a zip file can name, and every format here says it.
_NO_DATE = datetime(1980, 1, 1)

# PDF/A lets a file say only what is described in it (ISO 19005-3:2012, 6.6.2.3), so the one property by which PDF/UA is
# claimed (ISO 14289-1:2014, 5) is described here, as in the PDF Association's note on one file for both standards.
_CLAIM = b"""
<rdf:Description rdf:about="" xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"><pdfuaid:part>1</pdfuaid:part>
</rdf:Description>
<rdf:Description rdf:about="" xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/"
 xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#" xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix><pdfaSchema:schema>PDF/UA identification schema</pdfaSchema:schema>
<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">
<pdfaProperty:category>internal</pdfaProperty:category>
<pdfaProperty:description>PDF/UA version identifier</pdfaProperty:description>
<pdfaProperty:name>part</pdfaProperty:name><pdfaProperty:valueType>Integer</pdfaProperty:valueType>
</rdf:li></rdf:Seq></pdfaSchema:property></rdf:li></rdf:Bag></pdfaExtension:schemas></rdf:Description>
"""
_END = b"</rdf:RDF>"


@dataclass(frozen=True, slots=True)
class Attachment:
    """A file inside the document: its name, what it is, how it belongs to it (SOURCE or SUPPLEMENT), its bytes."""

    name: str
    media_type: str
    relationship: str
    data: bytes


def named(attachments: Iterable[Attachment]) -> tuple[Attachment, ...]:
    """The files in order of their names, which hold no folder, each name once: readers know files by name alone."""
    found: dict[str, Attachment] = {}
    for one in attachments:
        name = one.name.replace("../", "").replace("/", "-")
        while name in found:
            name = f"other-{name}"
        found[name] = Attachment(name, one.media_type, one.relationship, one.data)
    return tuple(found[name] for name in sorted(found))


def options(library: ModuleType, attachments: tuple[Attachment, ...]) -> dict[str, Any]:
    """How the library is to write the file."""
    return {"pdf_variant": "pdf/a-3a", "attachments": [_attached(library, one) for one in named(attachments)]}


def claim_both(pages: Any) -> None:
    """Let the laid-out document claim PDF/UA besides PDF/A."""
    own = pages.metadata.generate_rdf_metadata

    def both(*arguments: Any) -> bytes:
        data: bytes = own(*arguments)
        return data.replace(_END, _CLAIM + _END, 1)

    pages.metadata.generate_rdf_metadata = both


def name_each_once(pdf: Any) -> None:
    """The library lists each attached file twice among those that belong to the document."""
    if "AF" in pdf.catalog:
        files = list(dict.fromkeys(pdf.catalog["AF"]))
        pdf.catalog["AF"].clear()
        pdf.catalog["AF"].extend(files)


def _attached(library: ModuleType, one: Attachment) -> Any:
    from weasyprint.urls import URLFetcher

    return library.Attachment(
        url=f"data:{one.media_type};base64,{b64encode(one.data).decode('ascii')}",
        url_fetcher=URLFetcher(allowed_protocols=("data",)),
        name=one.name,
        created=_NO_DATE,
        modified=_NO_DATE,
        relationship=one.relationship,
        description=one.name,
    )
