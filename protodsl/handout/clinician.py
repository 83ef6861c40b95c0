"""The clinician's page: what is open, every rule in words with its line, the chains, the totals and the sources."""

from __future__ import annotations

import re
from collections.abc import Sequence

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.handout.blocks import Bullets, Cell, Footer, Framed, Handout, Item, Masthead, Section, Table
from protodsl.handout.chains import chains
from protodsl.handout.changes import changes
from protodsl.handout.draft import Draft, draft
from protodsl.handout.masthead import version
from protodsl.handout.options import Options
from protodsl.handout.parts import parts
from protodsl.handout.phrase import AUTHOR, PROGRAM, Literal, Measure, Phrase, Written
from protodsl.handout.places import files, places
from protodsl.handout.reading import reading
from protodsl.handout.rule_tables import rule_tables
from protodsl.handout.totals import totals
from protodsl.handout.words import NOTHING, counted, line, one_after_the_other, say
from protodsl.model.clinic import Clinic
from protodsl.model.protocol import Protocol, Setting

_TAKEN = re.compile(r"`([^`]*)`")


def compose_clinician(
    protocol: Protocol, clinic: Clinic, diagnostics: Sequence[Diagnostic], options: Options
) -> Handout[Phrase]:
    """The parts in order: open points, the rules, the parts of the plan, the lines of progress, the sums, sources."""
    on = draft(protocol, clinic, options)
    found: tuple[Section[Phrase] | None, ...] = (
        _open(on, diagnostics),
        *rule_tables(on),
        parts(on),
        chains(on),
        totals(on),
        changes(on),
        _settings(on),
        _sources(on),
    )
    sections = tuple(section for section in found if section is not None)
    title = say("name", name=Written(protocol.title))
    left = (title, say("footer.version", version=Literal(protocol.version)))
    page = say("footer.page", page=Literal("{page}"), pages=Literal("{pages}"))
    footer = Footer(left, say("clinician.not-for-patient"), page)
    return Handout("clinician", title, _masthead(on), sections, footer, options.digest)


def _masthead(on: Draft) -> Masthead[Phrase]:
    protocol = on.protocol
    said: list[Phrase] = [say("about.protocol", name=Literal(protocol.name, AUTHOR)), version(on)]
    if protocol.review is not None:
        said.append(say("about.by", by=Literal(protocol.review.by, AUTHOR)))
    key = files(on)
    lines = say("clinician.lines")
    found = [one_after_the_other(*said), lines if key is None else one_after_the_other(lines, key)]
    if on.options.reading is not None:
        found.append(reading(on.options.reading))
    if on.options.digest:
        found.append(say("about.digest", digest=Literal(on.options.digest)))
    clinic = Literal(on.clinic.name)
    return Masthead(clinic, say("clinician.for"), say("name", name=Written(protocol.title)), tuple(found))


def _open(on: Draft, diagnostics: Sequence[Diagnostic]) -> Section[Phrase]:
    """What the checks have to say, with its line; it is said too where nothing is open."""
    items = tuple(_point(on, one) for one in diagnostics)
    head = counted("clinician.open", len(items)) if items else say("clinician.open.none")
    return Section("open", None, (Framed(head, items),))


def _point(on: Draft, one: Diagnostic) -> Item[Phrase]:
    said: list[Phrase] = [say("line", text=_quoted(one.message))]
    if one.help:
        said.append(say("line", text=_quoted(one.help)))
    return Item(one_after_the_other(*said), "", on.origin(one.primary.span))


def _quoted(text: str) -> Phrase:
    """The words of a diagnostic; what it took from the author stands in quotes, as in print."""
    return Literal(_TAKEN.sub("“\\1”", text), PROGRAM)


def _settings(on: Draft) -> Section[Phrase] | None:
    settings = tuple(on.protocol.scope.settings.values())
    if not settings:
        return None
    heads = (say("settings.name"), say("settings.value"), say("settings.range"), say("clinician.line"))
    table = Table(None, heads, tuple(_setting(on, one) for one in settings))
    return Section("settings", say("settings.head"), (table,))


def _setting(on: Draft, one: Setting) -> tuple[Cell[Phrase], ...]:
    between: Phrase = NOTHING
    if one.low is not None and one.high is not None:
        between = say("number.range", low=Measure(one.low), high=Measure(one.high))
    cells: tuple[Phrase, ...] = (Literal(one.name, AUTHOR), Measure(one.value), between, places(on, (one.span,)))
    return tuple(Cell(cell) for cell in cells)


def _sources(on: Draft) -> Section[Phrase] | None:
    items: tuple[Item[Phrase], ...] = tuple(
        Item(line(source), "", on.origin(source.span)) for source in on.protocol.sources
    )
    return Section("sources", say("about.sources"), (Bullets(items),)) if items else None
