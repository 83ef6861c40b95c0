"""A handout as one HTML document: the templates are run, and whatever goes wrong in them is said."""

from __future__ import annotations

from dataclasses import dataclass
from types import TracebackType
from xml.etree.ElementTree import Element, ParseError, fromstring

from jinja2 import TemplateError, TemplateNotFound, TemplateSyntaxError

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.render import template_fails
from protodsl.handout.blocks import Handout, Stop
from protodsl.outcome import Outcome
from protodsl.render.environment import context, environment
from protodsl.render.style import Style


@dataclass(frozen=True, slots=True)
class Document:
    """A document as text and as the same tree; `kind` is that of its handout."""

    text: str
    root: Element
    kind: str


def document(page: Handout[str], style: Style, **values: object) -> Outcome[Document]:
    """The document of a handout; `values` are what the templates are given besides (see environment.context)."""
    jinja = environment(style.template_folder)
    try:
        template = jinja.select_template([f"{page.kind}.html.j2", "sheet.html.j2"])
        text = template.render(context(style, page=page, phones=_phones(page), **values))
    except TemplateSyntaxError as error:
        return Outcome(None, (template_fails(error.name or "", error.lineno, _reason(error)),))
    except TemplateNotFound as error:
        return Outcome(None, (template_fails(error.name or "", None, "There is no such template."),))
    except Exception as error:  # a template is somebody else's program: whatever it raises is a fault in it
        return Outcome(None, (_failed(error),))
    return _read(text, page.kind)


def _read(text: str, kind: str) -> Outcome[Document]:
    try:
        return Outcome(Document(text, fromstring(text), kind))
    except ParseError as error:
        line = text.splitlines()[error.position[0] - 1].strip()[:160]
        return Outcome(None, (template_fails("sheet.html.j2", None, f"An element is not closed near `{line}`: {error}."),))


def _phones(page: Handout[str]) -> tuple[str, ...]:
    """The telephone numbers of the handout, so that they can be dialled wherever they are mentioned."""
    groups = (
        group
        for section in page.sections
        for block in section.blocks
        if isinstance(block, Stop)
        for group in block.groups
    )
    return tuple(dict.fromkeys(number for group in groups for number in (group.phone, group.other_phone) if number))


def _failed(error: Exception) -> Diagnostic:
    """Where in the templates an exception was raised: the innermost frame that is one of a template."""
    name, line = "sheet.html.j2", None
    step: TracebackType | None = error.__traceback__
    while step is not None:
        template = step.tb_frame.f_globals.get("name")
        if step.tb_frame.f_code.co_filename.endswith(".j2"):
            name, line = str(template or step.tb_frame.f_code.co_filename), step.tb_lineno
        step = step.tb_next
    return template_fails(name, line, _reason(error))


def _reason(error: Exception) -> str:
    words = error.message if isinstance(error, TemplateError) else str(error)
    return f"{words or type(error).__name__}.".replace("..", ".")
