"""A handout as one HTML document: the templates are run, and whatever goes wrong in them is said."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from types import TracebackType
from xml.etree.ElementTree import Element, ParseError, fromstring

from jinja2 import TemplateError, TemplateNotFound, TemplateSyntaxError

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.render import template_fails
from protodsl.handout.blocks import Handout, Stop
from protodsl.outcome import Outcome
from protodsl.render.environment import context, environment, folders
from protodsl.render.style import Style

# Signs that no XML document may hold (XML 1.0, 2.2); an editor can leave one in a text.
_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")


@dataclass(frozen=True, slots=True)
class Document:
    """A document as text and as the same tree; `kind` is that of its handout."""

    text: str
    root: Element
    kind: str


def document(page: Handout[str], style: Style, **values: object) -> Outcome[Document]:
    """The document of a handout; `values` are what the templates are given besides (see environment.context)."""
    jinja = environment(style)
    try:
        template = jinja.select_template([f"{page.kind}.html.j2", "sheet.html.j2"])
        text = template.render(context(style, page=page, phones=_phones(page), **values))
    except TemplateSyntaxError as error:
        return Outcome(None, (template_fails(error.name or "", error.lineno, _reason(error)),))
    except TemplateNotFound as error:
        return Outcome(None, (template_fails(str(error.name or ""), None, "There is no such template."),))
    except Exception as error:  # a template is somebody else's program: whatever it raises is a fault in it
        return Outcome(None, (_failed(error, folders(style.template_folder)),))
    return _read(text, page.kind)


def _read(text: str, kind: str) -> Outcome[Document]:
    text = _CONTROL.sub("", text)
    try:
        return Outcome(Document(text, fromstring(text), kind))
    except ParseError as error:
        line = "".join(text.splitlines()[error.position[0] - 1 :][:1]).strip()[:160]
        reason = f"Every element must be closed, and every attribute have a value: {error}, near `{line}`."
        return Outcome(None, (template_fails(f"{kind}.html.j2", None, reason),))


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


def _failed(error: Exception, folders: tuple[Path, ...]) -> Diagnostic:
    """Where in the templates an exception was raised: the innermost frame that is one of a template."""
    name, line = "sheet.html.j2", None
    step: TracebackType | None = error.__traceback__
    while step is not None:
        path = Path(step.tb_frame.f_code.co_filename)
        folder = next((one for one in folders if path.is_relative_to(one)), None)
        if folder is not None and path.suffix == ".j2":
            name, line = path.relative_to(folder).as_posix(), step.tb_lineno
        step = step.tb_next
    return template_fails(name, line, _reason(error))


def _reason(error: Exception) -> str:
    words = error.message if isinstance(error, TemplateError) else str(error)
    return f"{words or type(error).__name__}.".replace("..", ".")
