"""From page to the formats a person reads: HTML, PDF and plain text."""

from protodsl.render.style import Style
from protodsl.render.stylesheet import template_digest
from protodsl.render.to_html import html
from protodsl.render.to_pdf import pdf

__all__ = ["Style", "html", "pdf", "template_digest"]
