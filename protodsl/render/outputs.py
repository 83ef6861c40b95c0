"""Each format by its name: what makes it, loaded only where it is asked for."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from protodsl.handout.blocks import Handout
from protodsl.outcome import Outcome
from protodsl.render.archival import Attachment
from protodsl.render.style import Style


def make(
    name: str, page: Handout[str], style: Style, attached: tuple[Attachment, ...] | None = None
) -> Outcome[bytes]:
    """A handout in one format that is made from handouts (KeyError for any other), checked for its safety lines.

    A PDF with files `attached`, be it none, is one to be kept; other formats hold none.
    """
    if name == "pdf" and attached is not None:
        from protodsl.render.to_pdf import pdf

        return pdf(page, style, attached)
    return _MAKERS[name](page, style)


def _html(page: Handout[str], style: Style) -> Outcome[bytes]:
    from protodsl.render.to_html import html

    made = html(page, style)
    return Outcome(None if made.value is None else made.value.encode(), made.diagnostics)


def _pdf(page: Handout[str], style: Style) -> Outcome[bytes]:
    from protodsl.render.to_pdf import pdf

    return pdf(page, style)


def _txt(page: Handout[str], style: Style) -> Outcome[bytes]:
    from protodsl.render.documents.to_text import text

    return text(page, style)


def _md(page: Handout[str], style: Style) -> Outcome[bytes]:
    from protodsl.render.documents.to_markdown import markdown

    return markdown(page, style)


def _epub(page: Handout[str], style: Style) -> Outcome[bytes]:
    from protodsl.render.documents.to_epub import epub

    return epub(page, style)


def _docx(page: Handout[str], style: Style) -> Outcome[bytes]:
    from protodsl.render.documents.to_docx import docx

    return docx(page, style)


_MAKERS: Mapping[str, Callable[[Handout[str], Style], Outcome[bytes]]] = {
    "html": _html,
    "pdf": _pdf,
    "txt": _txt,
    "md": _md,
    "epub": _epub,
    "docx": _docx,
}
