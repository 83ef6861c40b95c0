"""Pages in words and in every format that was asked for, and beside them the formats that are made of data."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING

from protodsl.asked import Asked, style
from protodsl.checking import CheckedEntry
from protodsl.diagnostics.diagnostic import Severity, in_order
from protodsl.formats import DATA, HANDOUT, PROTOCOL, USUAL, Format, made_for
from protodsl.model.protocol import Scope
from protodsl.outcome import Outcome
from protodsl.project import CASE_SUFFIX, Project
from protodsl.source import Source

if TYPE_CHECKING:
    from protodsl.exchange import Translation
    from protodsl.handout.blocks import Handout
    from protodsl.handout.phrase import Phrase
    from protodsl.languages import Words
    from protodsl.render import Attachment


def make_pages(
    composed: Handout[Phrase],
    scope: Scope,
    project: Project,
    asked: Asked,
    words: Words,
    subject: str = PROTOCOL,
    attached: tuple[Attachment, ...] = (),
) -> Outcome[dict[str, bytes]]:
    """Localise and render what was composed: its bytes by format, without a format that could not be made.

    Without words for everything on it, reviewed, there is no page but a draft. `attached` are the files inside a PDF
    that is asked for to be kept.
    """
    from protodsl import localise, render

    forms = made_for(asked.formats, asked.kind, subject, HANDOUT)
    if not forms and not words.is_translation:
        return Outcome({}, ())
    look = style(project, asked)
    speak = localise.beside if asked.beside else localise.speak
    spoken = speak(composed, scope, project.clinic, asked.language, words.texts, words.written_in, words.spoken)
    if spoken.value is None:
        return Outcome({}, spoken.diagnostics)
    draft = asked.draft or asked.beside
    said = spoken.diagnostics + words.gaps(spoken.value.used, draft)
    page = spoken.value.page
    if draft and words.is_translation:
        forms = tuple(form for form in forms if form.name in USUAL)
        page = localise.as_draft(page, look.language, asked.language, project.clinic.languages[0], words.spoken)
    elif any(one.severity is Severity.ERROR for one in said):
        return Outcome({}, said)
    made: dict[str, bytes] = {}
    for form in forms:
        data = render.make(form.name, page, look, attached if asked.archive else None)
        said += data.diagnostics
        if data.value is not None:
            made[form.name] = data.value
    return Outcome(made, in_order(said))


def data_forms(asked: Asked, subject: str, words: Words, pages: Outcome[dict[str, bytes]]) -> tuple[Format, ...]:
    """The formats made of data: none in a language without a page, and none of a draft, which could not say so."""
    held_back = asked.draft or asked.beside or any(one.severity is Severity.ERROR for one in pages.diagnostics)
    return () if words.is_translation and held_back else made_for(asked.formats, asked.kind, subject, DATA)


def with_data(
    pages: Outcome[dict[str, bytes]], forms: Iterable[Format], export: Callable[[str], Outcome[bytes]]
) -> Outcome[dict[str, bytes]]:
    """Pages with the formats beside them that are made from the plan or the protocol itself."""
    made = dict(pages.value or {})
    said = pages.diagnostics
    for form in forms:
        data = export(form.name)
        said += data.diagnostics
        if data.value is not None:
            made[form.name] = data.value
    return Outcome(made, in_order(said))


def translation(words: Words) -> Translation:
    """What there is in a language, for formats made of data: they are judged by what they themselves say."""
    from protodsl import exchange

    return exchange.Translation(words.texts, words.written_in, lambda used: words.gaps(used, False), words.spoken)


def sources_of(asked: Asked, entry: CheckedEntry, sources: Mapping[str, Source]) -> tuple[Attachment, ...]:
    """The texts of a protocol and of the libraries it uses, for a PDF that is to be kept; never those of a case."""
    if not asked.archive:
        return ()
    from protodsl.render import SOURCE, Attachment

    files = [path for path in entry.files if path in sources and not path.endswith(CASE_SUFFIX)]
    return tuple(Attachment(path, "text/plain", SOURCE, sources[path].text.encode()) for path in files)
