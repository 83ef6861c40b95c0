"""From page to the formats a person reads: HTML, PDF, plain text and documents."""

from protodsl.render.archival import SOURCE, SUPPLEMENT, Attachment
from protodsl.render.outputs import make
from protodsl.render.style import Style
from protodsl.render.stylesheet import template_digest
from protodsl.render.to_html import html
from protodsl.render.to_pdf import pdf

__all__ = ["SOURCE", "SUPPLEMENT", "Attachment", "Style", "html", "make", "pdf", "template_digest"]
