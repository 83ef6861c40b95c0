"""From page to the formats a person reads: HTML, PDF, plain text and documents."""

from protodsl.render.outputs import make
from protodsl.render.style import Style
from protodsl.render.stylesheet import template_digest
from protodsl.render.to_html import html
from protodsl.render.to_pdf import pdf

__all__ = ["Style", "html", "make", "pdf", "template_digest"]
