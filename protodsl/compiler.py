"""Every stage in its order: from the files of a project to what is wrong with them, and on to the handouts."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from protodsl import __version__, fonts
from protodsl.check import check
from protodsl.diagnostics.diagnostic import Diagnostic, Label, Severity, in_order
from protodsl.diagnostics.registry import codes_of
from protodsl.formats import CLINICIAN, DATA, HANDOUT, PROTOCOL, QUESTIONS, SHEET, USUAL, Format, made_for
from protodsl.joint_loads import joint_loads_of, said_of_joint_loads
from protodsl.model.exercise import Exercise
from protodsl.model.figure import Figure
from protodsl.model.protocol import Entry, Protocol, Scope
from protodsl.model.shown import Shown
from protodsl.outcome import Outcome
from protodsl.pictured import (
    Parallel,
    Pictured,
    approvals_of,
    drawn_ahead,
    exercises_of,
    pictures_for,
    pictures_of,
    said_of_approvals,
    said_of_figures,
    said_of_pictures,
    solved_ahead,
    without_mistakes,
)
from protodsl.project import CASE_SUFFIX, CLINIC_FILE, TRANSLATIONS, Project, Shelf, files_by_name
from protodsl.resolve import Cache, resolve, unused
from protodsl.source import Source, Span
from protodsl.syntax import parse_case, parse_protocol, read_source, tree

if TYPE_CHECKING:
    from protodsl.decide.plan import Plan
    from protodsl.exchange import Translation
    from protodsl.figure.approval import Approvals
    from protodsl.figure.figures import Figures
    from protodsl.figure.pictures import Plate
    from protodsl.handout import Options
    from protodsl.handout.blocks import Handout
    from protodsl.handout.phrase import Phrase
    from protodsl.languages import Languages, Words
    from protodsl.register import Register
    from protodsl.render import Attachment, Style
    from protodsl.resolve.case import Person

__all__ = ["CLINICIAN", "QUESTIONS", "SHEET"]
HTML, PDF = USUAL
# What tells one diagnostic from another: its code, its words, its place.
Problem = tuple[str, str, Span]
# The exercises of a sheet that have a figure, with the sides of their dose and the affected side of the person.
Drawings = tuple[tuple[str, str | None, str | None], ...]


@dataclass(frozen=True, slots=True)
class CheckedEntry:
    """One file, all that it reached, and what is wrong there; `value` is None where nothing could be made of it."""

    path: str
    value: Entry | None
    diagnostics: tuple[Diagnostic, ...]


@dataclass(frozen=True, slots=True)
class CheckedCase:
    """One case: the person it speaks of (None where that cannot be told), the file of its protocol, what is wrong.

    `entry` is None where no protocol, or more than one, has that name. Errors of the entry are errors of the case.
    """

    path: str
    id: str
    person: Person | None
    entry: CheckedEntry | None
    diagnostics: tuple[Diagnostic, ...]


@dataclass(frozen=True, slots=True)
class Checked:
    """A project after all checks: what is wrong with the project itself, each file, and every text by its path."""

    project: Project
    own: tuple[Diagnostic, ...]
    entries: tuple[CheckedEntry, ...]
    sources: Mapping[str, Source]
    cases: tuple[CheckedCase, ...] = ()
    case_files: tuple[str, ...] = ()
    run: Run | None = field(default=None, compare=False, repr=False)

    @property
    def diagnostics(self) -> tuple[Diagnostic, ...]:
        """Everything that is wrong, by file and place, each problem once."""
        found = [one for entry in self.entries for one in entry.diagnostics]
        found += [one for case in self.cases for one in case.diagnostics]
        return in_order((*self.own, *found))


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of a handout: its kind (SHEET, CLINICIAN or QUESTIONS), its formats and its look.

    `draft`: a translation that is not whole or not reviewed is made all the same, and says so on every page. `beside`:
    not the page itself but its text beside the translation, for the reviewer; that is a draft, too. `archive`: the PDF
    is one to be kept, with what it was made from inside.
    """

    kind: str = SHEET
    language: str = "en"
    formats: tuple[str, ...] = USUAL
    paper: str = "A4"
    large_print: bool = False
    compact: bool = False
    draft: bool = False
    beside: bool = False
    archive: bool = False


@dataclass(slots=True)
class Run:
    """What is known in one run: each file is checked once, whether it was asked for or a case follows it."""

    project: Project
    shelf: Shelf
    cache: Cache
    as_of: date
    parallel: Parallel | None = None
    _register: Register | None = None
    _languages: Languages | None = None
    _entries: dict[str, CheckedEntry] = field(default_factory=dict)
    _alone: dict[int, frozenset[Problem]] = field(default_factory=dict)
    # By identity; a protocol that is kept here cannot give its place to another.
    _pictured: dict[tuple[int, Plate], tuple[Protocol, Pictured]] = field(default_factory=dict)
    _pictured_for: dict[tuple[int, Plate, Drawings], tuple[Protocol, Pictured]] = field(default_factory=dict)
    _figures: Figures | None = None
    _approvals: tuple[Source | None, Outcome[Approvals]] | None = None
    _templates: str = ""
    _resolved: dict[str, tuple[Outcome[Entry], tuple[Diagnostic, ...], tuple[Exercise, ...]]] = field(
        default_factory=dict
    )

    def entry(self, path: str) -> CheckedEntry:
        """A protocol file or library with all that is wrong in it."""
        if path not in self._entries:
            self._entries[path] = _check_entry(path, self)
        return self._entries[path]

    def resolved(self, path: str) -> tuple[Outcome[Entry], tuple[Diagnostic, ...], tuple[Exercise, ...]]:
        """A file resolved, all that was said up to then, and its exercises with figures that can be solved."""
        if path not in self._resolved:
            resolved = resolve(path, self.shelf, self.cache)
            files = resolved.value.files if resolved.value else (path,)
            said = tuple(one for file in files for one in self.shelf.said(file)) + resolved.diagnostics
            drawn = without_mistakes(exercises_of(resolved.value), said) if resolved.value else ()
            self._resolved[path] = resolved, said, drawn
        return self._resolved[path]

    def solve_ahead(self, paths: Iterable[str]) -> None:
        """Solve the figures of files on all processors, where there is something to hand them out with."""
        if self.parallel is not None:
            drawn = [one for path in paths for one in self.resolved(path)[2]]
            if drawn:
                solved_ahead(drawn, self.approvals(), self.figures(), self.parallel)

    def is_broken(self, path: str) -> bool:
        """Whether some line of a file could not be read."""
        return any(one.severity is Severity.ERROR for one in self.shelf.said(path))

    def problems(self, protocol: Protocol) -> frozenset[Problem]:
        """What the rules have to say of a protocol as it stands in its file; the register keeps it alive."""
        if id(protocol) not in self._alone:
            self._alone[id(protocol)] = frozenset(map(_problem, _check_alone(protocol, self)))
        return self._alone[id(protocol)]

    def pictured(self, protocol: Protocol, asked: Asked) -> Pictured:
        """The pictures of a protocol for anybody, drawn and read once for all who follow it."""
        plate = plate_of(self.project, asked)
        found = self._pictured.get((id(protocol), plate))
        if found is None:
            made = pictures_of(protocol, self.project, self.figures(), plate)
            found = self._pictured[id(protocol), plate] = protocol, made
        return found[1]

    def pictured_for(self, plan: Plan, asked: Asked) -> Pictured:
        """The pictures of one person's sheet; drawn once for all whose sheets show the same."""
        protocol, plate = plan.protocol, plate_of(self.project, asked)
        drawn = tuple(
            (item.exercise.name, item.dose.sides, plan.side.worse) for item in plan.items if item.exercise.figure
        )
        if not drawn:
            return self.pictured(protocol, asked)
        found = self._pictured_for.get((id(protocol), plate, drawn))
        if found is None:
            made = pictures_for(plan, self.project, self.figures(), plate)
            found = self._pictured_for[id(protocol), plate, drawn] = protocol, made
        return found[1]

    def figures(self) -> Figures:
        """The figures of this run, solved and drawn once."""
        # Most protocols draw nothing.
        from protodsl.figure.figures import Figures

        self._figures = self._figures or Figures()
        return self._figures

    def approvals(self) -> Outcome[Approvals]:
        """Which drawings somebody has approved, read once."""
        self._approvals = self._approvals or approvals_of(self.project)
        return self._approvals[1]

    def register(self) -> Register:
        """The protocols of the project by name."""
        # Most checks are of protocols alone.
        from protodsl.register import Register

        self._register = self._register or Register(self.shelf, self.cache)
        return self._register

    def languages(self) -> Languages:
        """The catalogues of the project."""
        # A project in one language has none.
        from protodsl.languages import Languages

        self._languages = self._languages or Languages(self.project)
        return self._languages

    def words(self, asked: Asked, files: Iterable[str]) -> Words:
        """What there is in a language for a page that is made from these files."""
        return self.languages().words(asked.language, tuple(files))

    def templates(self, asked: Asked) -> str:
        """The digest of the templates, read once."""
        from protodsl import render

        self._templates = self._templates or render.template_digest(style(self.project, asked))
        return self._templates

    def sources(self) -> dict[str, Source]:
        """Every text read so far, by its path."""
        clinic = self.project.clinic_source
        catalogues = self._languages.sources if self._languages else {}
        approvals = self._approvals[0] if self._approvals else None
        others = {source.path: source for source in (clinic, approvals) if source is not None}
        return {**self.shelf.sources, **catalogues, **others}


def check_project(
    project: Project,
    paths: Iterable[Path],
    as_of: date,
    texts: Mapping[str, bytes] | None = None,
    cases_as_of: date | None = None,
    parallel: Parallel | None = None,
) -> Checked:
    """Find, read, parse, resolve and check; every file is read once, whoever uses it.

    `texts` are bytes to take for those of a file, by its name, before they are written. `as_of` is held against review
    dates; cases are decided as of `cases_as_of` (None: the latest line of each).
    """
    run, asked = open_run(project, as_of, texts, parallel), tuple(paths)
    checked = check_files(run, asked)
    cases = tuple(_decided(case, run, cases_as_of) for case in checked.cases)
    said = tuple(_translated(checked, run, project.is_whole(asked)))
    return replace(checked, own=checked.own + said, cases=cases, sources=run.sources())


def _translated(checked: Checked, run: Run, whole: bool) -> Iterator[Diagnostic]:
    """What is wrong with the catalogues of the files, where there are to be any, and with the languages of cases."""
    own, *others = checked.project.clinic.languages
    persons = {case.path: case.person for case in checked.cases if case.person is not None}
    others += [person.case.language for person in persons.values() if person.case.language != own]
    if others or (checked.project.root / TRANSLATIONS).is_dir():
        from protodsl.languages import spoken_in, texts_by_file
        from protodsl.translated_words import said_of_translations

        entries = {entry.path: entry.value for entry in checked.entries}
        changes = {path: person.versions for path, person in persons.items() if person.case.changed}
        texts = texts_by_file(checked.project, {**entries, **changes})
        yield from run.languages().check(texts, others, whole)
        found = (entry for entry in entries.values() if entry is not None)
        yield from said_of_translations(found, run.languages(), checked.project.clinic)
        for path, person in persons.items():
            yield from spoken_in(person.case.language, run.shelf.sources[path], person.case.span, run.languages())


def open_run(
    project: Project, as_of: date, texts: Mapping[str, bytes] | None = None, parallel: Parallel | None = None
) -> Run:
    """A run in which nothing was read yet; `parallel` hands out work to all processors (None: there is one)."""
    return Run(project, Shelf(project, parse, texts or {}), Cache(), as_of, parallel)


def check_files(run: Run, paths: Iterable[Path], with_cases: bool = True) -> Checked:
    """The files at the paths and below, checked; the cases among them are named only, without `with_cases`."""
    project, shelf, asked = run.project, run.shelf, tuple(paths)
    files = files_by_name(project, (path for path in asked if project.name(path) not in shelf.texts))
    names = tuple(sorted({*shelf.texts, *(files.value or ())}))
    case_files = tuple(name for name in names if name.endswith(CASE_SUFFIX))
    run.solve_ahead(name for name in names if not name.endswith(CASE_SUFFIX))
    entries = tuple(run.entry(name) for name in names if not name.endswith(CASE_SUFFIX))
    cases = tuple(case for name in case_files for case in check_cases(name, run)) if with_cases else ()
    own = project.diagnostics + files.diagnostics
    idle = unused((entry.value for entry in entries if entry.value), project.is_whole(asked))
    # A line that could not be read may have named it.
    own += tuple(one for one in idle if not run.is_broken(one.primary.span.path))
    return Checked(project, own, entries, run.sources(), cases, case_files, run)


def exercises_with_figures(checked: Checked) -> tuple[Exercise, ...]:
    """Every exercise with a figure in whose words there is no mistake, also as protocols changed it, each once."""
    poses = codes_of("poses")
    found: dict[int, Exercise] = {}
    for entry in checked.entries:
        if entry.value is not None:
            # What is said of poses that cannot be is no mistake in their words.
            said = tuple(one for one in entry.diagnostics if one.code not in poses)
            found |= {id(one): one for one in without_mistakes(exercises_of(entry.value), said)}
    return tuple(found.values())


def draw_ahead(checked: Checked) -> None:
    """Draw what sheets will show on all processors, where there is something to hand them out with."""
    run = checked.run
    if run is not None and run.parallel is not None:
        shown = [one.value for one in checked.entries if one.value is not None and one.value.protocols]
        drawn = [one for entry in shown for one in run.resolved(entry.path)[2]]
        if drawn:
            drawn_ahead(drawn, run.figures(), run.parallel)


def protocols_by_name(project: Project) -> dict[str, tuple[str, ...]]:
    """The files in the whole root that declare each protocol, by its name."""
    from protodsl.register import Register

    register = Register(Shelf(project, parse), Cache())
    return {name: register.files(name) for name in register.known()}


def parse(path: str, data: bytes) -> tuple[Source | None, Outcome[tree.File]]:
    """The text of a file, None where its bytes are none, and its tree."""
    read = read_source(path, data)
    if read.value is None:
        return None, Outcome(None, read.diagnostics)
    parsed = (parse_case if path.endswith(CASE_SUFFIX) else parse_protocol)(read.value)
    return read.value, Outcome(parsed.value, read.diagnostics + parsed.diagnostics)


def make_handout(checked: Checked, entry: CheckedEntry, protocol: Protocol, asked: Asked) -> Outcome[dict[str, bytes]]:
    """Compose, localise and render one handout: its bytes by format, without a format that could not be made."""
    # A check has no use for these stages, and what they draw on takes longer to load than a check to run.
    from protodsl import exchange, handout, render

    clinic = checked.project.clinic
    look = style(checked.project, asked)
    run = checked.run or open_run(checked.project, date.min)
    words = run.words(asked, entry.value.files if entry.value else ())
    texts = {**_texts(checked, entry), **words.sources}
    pictured = run.pictured(protocol, asked)
    inputs = {**_inputs(protocol, asked, render.template_digest(look), fonts.digest()), **pictured.inputs}
    digest = handout.digest(texts, inputs)
    options = options_of(asked, digest, checked.sources, pictured)
    said: tuple[Diagnostic, ...] = ()
    if asked.kind == CLINICIAN:
        from protodsl.sheet_reading import read_sheet, said_of_sheet

        read = read_sheet(protocol, clinic, options, words).value
        said = tuple(said_of_sheet(protocol, clinic, read)) if read else ()
        reading = read.summary(clinic.limits) if read else None
        options = replace(options, joint_loads=joint_loads_of(protocol, run.figures()), reading=reading)
        composed = handout.compose_clinician(protocol, clinic, (*entry.diagnostics, *said), options)
    elif asked.kind == QUESTIONS:
        composed = handout.compose_questions(protocol, clinic, options)
    else:
        composed = handout.compose_sheet(protocol, clinic, options)
    attached = sources_of(asked, entry, checked.sources)
    pages = make_pages(composed, protocol.scope, checked.project, asked, words, attached=attached)
    forms = data_forms(asked, PROTOCOL, words, pages)
    told = translation(words)
    made = with_data(pages, forms, lambda name: exchange.export_protocol(name, protocol, clinic, options, told))
    return replace(made, diagnostics=in_order(made.diagnostics + said))


def translation(words: Words) -> Translation:
    """What there is in a language, for formats made of data: they are judged by what they themselves say."""
    from protodsl import exchange

    return exchange.Translation(words.texts, words.written_in, lambda used: words.gaps(used, False), words.spoken)


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


def sources_of(asked: Asked, entry: CheckedEntry, sources: Mapping[str, Source]) -> tuple[Attachment, ...]:
    """The texts of a protocol and of the libraries it uses, for a PDF that is to be kept; never those of a case."""
    if not asked.archive or entry.value is None:
        return ()
    from protodsl.render import SOURCE, Attachment

    files = [path for path in entry.value.files if path in sources and not path.endswith(CASE_SUFFIX)]
    return tuple(Attachment(path, "text/plain", SOURCE, sources[path].text.encode()) for path in files)


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


def style(project: Project, asked: Asked) -> Style:
    """How a page asked for is set."""
    from protodsl import localise, render

    # The text beside its translation is a page in the language of the text.
    language = project.clinic.languages[0] if asked.beside else asked.language
    return render.Style(
        paper=asked.paper,
        large_print=asked.large_print,
        compact=asked.compact,
        language=language,
        direction=localise.direction(language),
        template_folder=project.template_folder,
    )


def plate_of(project: Project, asked: Asked) -> Plate:
    """The room that figures have on a page asked for."""
    from protodsl.figure.pictures import Plate

    look = style(project, asked)
    return Plate(look.plate, look.wide_plate, look.direction == "rtl")


def options_of(asked: Asked, digest: str, sources: Mapping[str, Source], pictured: Pictured) -> Options:
    """What a handout asked for is composed with."""
    from protodsl import handout

    return handout.Options(
        language=asked.language,
        paper=asked.paper,
        large_print=asked.large_print,
        compact=asked.compact,
        digest=digest,
        version=__version__,
        sources=sources,
        pictures=pictured.pictures,
    )


def _check_entry(path: str, run: Run) -> CheckedEntry:
    resolved, said, drawn = run.resolved(path)
    if resolved.value:
        said += _checked(resolved.value, run, run.as_of, drawn)
        said += tuple(said_of_pictures(exercises_of(resolved.value), run.project))
        if drawn:
            said += tuple(said_of_approvals(drawn, run.approvals(), run.figures()))
        said += tuple(said_of_joint_loads(resolved.value, drawn, run.figures()))
    return CheckedEntry(path, resolved.value, in_order(said))


def check_cases(path: str, run: Run) -> Iterator[CheckedCase]:
    """Each case of a file; one without a person where the file holds none that can be read."""
    from protodsl.resolve.case import resolve_case

    register = run.register()
    file = run.shelf.tree(path)
    cases = [one for one in file.statements if isinstance(one, tree.CaseDeclaration)] if file else []
    if file is None or not cases:
        yield CheckedCase(path, "", None, None, run.shelf.said(path))
    for case in cases:
        assert file is not None
        resolved = resolve_case(replace(file, statements=(case,)), register.find, register.known())
        line = next((one for one in case.lines if isinstance(one, tree.CaseProtocol)), None)
        followed = register.files(line.name.text) if line else ()
        entry = run.entry(followed[0]) if len(followed) == 1 else None
        errors = tuple(one for one in entry.diagnostics if one.severity is Severity.ERROR) if entry else ()
        changed = _changed(resolved.value, path, run) if resolved.value else ()
        said = in_order(run.shelf.said(path) + resolved.diagnostics + errors + changed)
        yield CheckedCase(path, case.name.text, resolved.value, entry, said)


def _changed(person: Person, path: str, run: Run) -> tuple[Diagnostic, ...]:
    """What a person's own changes make of the protocol is held against the same rules; what they bring in is said."""
    case = person.case
    if not case.changed:
        return ()
    (followed,) = run.register().find(case.protocol)
    known = run.problems(followed.protocol)
    said: dict[Problem, Diagnostic] = {}
    for start, protocol in person.versions.spans:
        if protocol is followed.protocol:
            continue
        places = [one.span for one in case.changed if one.date <= start and (one.until is None or start <= one.until)]
        for one in _check_alone(protocol, run):
            if _problem(one) not in known:
                said.setdefault(_problem(one), _at_change(one, places, path))
    return tuple(said.values())


def _check_alone(protocol: Protocol, run: Run) -> tuple[Diagnostic, ...]:
    alone = Entry(protocol.span.path, (), protocol.scope, (protocol,))
    return _checked(alone, run, None, without_mistakes(protocol.scope.exercises.values(), ()))


def _checked(entry: Entry, run: Run, as_of: date | None, drawn: tuple[Exercise, ...]) -> tuple[Diagnostic, ...]:
    """What the rules have to say, and what is to be said of the bodies of exercises that can be drawn."""
    clinic, lacks = run.project.clinic, fonts.missing_characters
    if not drawn:
        return check(entry, clinic, as_of, lacks)
    figures = run.figures()
    sound = {id(one.figure) for one in drawn}

    def shown(figure: Figure) -> tuple[Shown, ...]:
        return figures.shown(figure) if id(figure) in sound else ()

    return (*check(entry, clinic, as_of, lacks, shown), *said_of_figures(drawn, figures))


def _problem(one: Diagnostic) -> Problem:
    return one.code.id, one.message, one.primary.span


def _at_change(one: Diagnostic, changes: list[Span], path: str) -> Diagnostic:
    """With the lines of the case that brought it about, where it points to none."""
    if any(label.span.path == path for label in (one.primary, *one.secondary)):
        return one
    return replace(one, secondary=(*one.secondary, *(Label(span, "as changed for this person") for span in changes)))


def _decided(case: CheckedCase, run: Run, as_of: date | None) -> CheckedCase:
    """With what comes out only when the case is replayed up to its sheet."""
    if case.person is None or any(one.severity is Severity.ERROR for one in case.diagnostics):
        return case
    # A check of protocols alone has nothing to decide.
    from protodsl.decide import decide

    said = decide(case.person.versions, case.person.case, run.project.clinic, as_of).diagnostics
    return replace(case, diagnostics=in_order(case.diagnostics + said)) if said else case


def _texts(checked: Checked, entry: CheckedEntry) -> dict[str, str]:
    """The text of every file that a handout of the entry is made from."""
    files = (*(entry.value.files if entry.value else ()), CLINIC_FILE)
    return {path: checked.sources[path].text for path in files if path in checked.sources}


def _inputs(protocol: Protocol, asked: Asked, templates: str, faces: str) -> dict[str, str]:
    """Everything besides the texts that a handout is made from, for its digest."""
    return {
        "protocol": protocol.name,
        "language": asked.language,
        "draft": "beside" if asked.beside else "draft" if asked.draft else "",
        "paper": asked.paper,
        "print": "large" if asked.large_print else "compact" if asked.compact else "normal",
        "templates": templates,
        "fonts": faces,
        "version": __version__,
    }
