"""`protodsl translate`: catalogues of what a patient reads, for those who translate it and those who read it again."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path

from protodsl import resources
from protodsl.case_checking import check_cases
from protodsl.cli.files import write_all
from protodsl.cli.report import from_here, say, show, status, wants_colour
from protodsl.cli.status import WRONG_USE
from protodsl.cli.translate_table import table
from protodsl.cli.work import open_projects
from protodsl.compiler import Checked, check_files, open_run
from protodsl.diagnostics.diagnostic import Diagnostic, Severity
from protodsl.diagnostics.project import unreadable, unwritable
from protodsl.languages import PO_SUFFIX, PRODUCT_FILE, Languages, catalogue_path, file_of, is_translated_product
from protodsl.localise.catalogue import SOURCE_LANGUAGE
from protodsl.project import CLINIC_FILE, TRANSLATIONS, Project, shown
from protodsl.run import Run
from protodsl.source import Source, Span
from protodsl.translate.entries import Catalogue, Entry
from protodsl.translate.mark import reviewed
from protodsl.translate.merge import merged
from protodsl.translate.overlay import brought_up_to_date
from protodsl.translate.po import write_po
from protodsl.translate.product import FOLDER, PACKAGE, product_catalogue, product_path, product_texts
from protodsl.translate.review import Review
from protodsl.translate.state import state_of
from protodsl.translate.tags import is_same, locale_of
from protodsl.translate.texts import Text, clinic_texts, texts_of


@dataclass(slots=True)
class _Work:
    """One project while its catalogues are worked on."""

    run: Run
    checked: Checked
    languages: Languages
    said: list[Diagnostic] = field(default_factory=list)

    @property
    def project(self) -> Project:
        """The project."""
        return self.checked.project


def run(arguments: argparse.Namespace) -> int:
    """Do what is asked with every project that the paths belong to."""
    if arguments.action == "review" and not arguments.by:
        say('protodsl: who has read it? `--by "physiotherapist, native speaker"`, a role and no name')
        return WRONG_USE
    if arguments.language and locale_of(arguments.language) is None:
        say(f"protodsl: `{arguments.language}` is no language tag; write it as `es`, `pt-BR` or `zh-Hans`")
        return WRONG_USE
    found: list[Diagnostic] = []
    sources: dict[str, Source] = {}
    for project, paths in open_projects(arguments.paths):
        opened = open_run(project, date.today())
        # A catalogue is no file to be checked; what is reviewed is named by its catalogue.
        files = () if arguments.action == "review" else paths
        checked = check_files(opened, files, with_cases=False)
        work = _Work(opened, checked, Languages(project))
        _ACTIONS[arguments.action](work, arguments)
        texts = {**checked.sources, **opened.sources(), **work.languages.sources}
        diagnostics, texts = from_here((*project.diagnostics, *work.said), texts, project.root)
        found.extend(diagnostics)
        sources.update(texts)
    show(tuple(found), sources, "text", sys.stderr, wants_colour(sys.stderr, arguments.no_color))
    return status(found, arguments.strict)


def _extract(work: _Work, arguments: argparse.Namespace) -> None:
    """Make or bring up to date the catalogue of every file, in every language asked for."""
    _bring_up_to_date(work, arguments, make=True)


def _update(work: _Work, arguments: argparse.Namespace) -> None:
    """Bring up to date the catalogues there are."""
    _bring_up_to_date(work, arguments, make=False)


def _bring_up_to_date(work: _Work, arguments: argparse.Namespace, make: bool) -> None:
    wanted = _languages(work, arguments)
    if not wanted:
        say("protodsl: which language? `--language es`, or `languages` in `clinic.toml` with more than one")
        return
    if arguments.product and any(map(_is_shipped, arguments.paths)):
        for language in wanted:
            _shipped(work, language)
        return
    files = list(_texts(work))
    own = work.project.clinic.languages[0]
    for language in wanted:
        _product(work, language, make and arguments.product)
        memory = _memory(work, language)
        for path, texts in files if not is_same(language, own) else ():
            _one(work, language, path, texts, memory, make)


def _one(
    work: _Work, language: str, file: str, texts: tuple[Text, ...], memory: tuple[Entry, ...], make: bool
) -> None:
    read = work.languages.catalogue(language, file)
    if read is None and (not make or not texts):
        return
    path = catalogue_path(language, file)
    old = Catalogue(path, language) if read is None else read.value
    if read is not None:
        work.said.extend(read.diagnostics)
    if old is not None:
        _write(work, work.project.root / path, merged(texts, old, memory))


def _product(work: _Work, language: str, make: bool) -> None:
    """The clinic's own catalogue of the product's words in a language."""
    read = work.languages.catalogue(language, PRODUCT_FILE)
    if read is None and not make:
        return
    if not is_translated_product(language):
        say(f"protodsl: the product's own words are written in `{SOURCE_LANGUAGE}`; there is nothing to translate")
        return
    path = catalogue_path(language, PRODUCT_FILE)
    old = Catalogue(path, language) if read is None else read.value
    if read is not None:
        work.said.extend(read.diagnostics)
    if old is not None:
        made = brought_up_to_date(product_texts(), old, work.languages.shipped(language))
        _write(work, work.project.root / path, made)


def _is_shipped(path: Path) -> bool:
    """Whether a path is the folder of the shipped catalogues, for those who work on the program itself."""
    return path.resolve() == resources.path(PACKAGE, FOLDER).resolve()


def _shipped(work: _Work, language: str) -> None:
    """The product's own catalogue of a language, where this program lies."""
    read = product_catalogue(language)
    old = Catalogue(product_path(language), language) if read is None else read.value
    if read is not None:
        work.said.extend(read.diagnostics)
    if old is not None:
        _write(work, resources.path(PACKAGE, f"{FOLDER}/{language}.po"), merged(product_texts(), old))


def _write(work: _Work, path: Path, catalogue: Catalogue) -> None:
    """Write a catalogue that has changed, and say how far it is."""
    data = write_po(catalogue).encode()
    try:
        changed = not path.is_file() or path.read_bytes() != data
        if changed:
            write_all({path: data})
    except OSError as error:
        work.said.append(unwritable(shown(path), error.strerror or "It cannot be opened"))
        return
    translated = sum(entry.is_translated for entry in catalogue.entries)
    reviewed = sum(entry.is_reviewed for entry in catalogue.entries)
    state = "" if changed else ", unchanged"
    print(f"{shown(path)}: {len(catalogue.entries)} strings, {translated} translated, {reviewed} reviewed{state}")


def _texts(work: _Work) -> Iterator[tuple[str, tuple[Text, ...]]]:
    """What is to be translated of each file; a file with an error is passed over, so that nothing of it is lost."""
    clinic = work.project.clinic_source
    if clinic is not None:
        yield CLINIC_FILE, clinic_texts(work.project.clinic, clinic.path, Span(clinic.path, 0, 0))
    for entry in work.checked.entries:
        if entry.value is None or any(one.severity is Severity.ERROR for one in entry.diagnostics):
            say(f"{entry.path}: passed over, because there are errors in it; `protodsl check` names them")
        else:
            yield entry.path, texts_of(entry.value, entry.path)
    for path in work.checked.case_files:
        persons = [case.person for case in check_cases(path, work.run) if case.person is not None]
        yield path, texts_of(tuple(person.versions for person in persons), path)


def _memory(work: _Work, language: str) -> tuple[Entry, ...]:
    """Every entry of the language, from which words come along when a text moves to another file."""
    files = (path for path in work.languages.files(language) if file_of(path) != PRODUCT_FILE)
    read = (work.languages.read(path, language) for path in files)
    return tuple(entry for one in read if one.value for entry in (*one.value.obsolete, *one.value.entries))


def _languages(work: _Work, arguments: argparse.Namespace) -> tuple[str, ...]:
    """The language asked for, else those of the clinic, and those that have a folder.

    Of the clinic's own there are the product's words alone, where these are a translation.
    """
    if arguments.language:
        return (arguments.language,)
    own, *others = work.project.clinic.languages
    tags = (tag for tag in (own, *others, *work.languages.tags()) if locale_of(tag) is not None)
    return tuple(tag for tag in dict.fromkeys(tags) if not is_same(tag, own) or _has_product(work, arguments, tag))


def _has_product(work: _Work, arguments: argparse.Namespace, own: str) -> bool:
    """Whether the product's words in the clinic's own language are asked for, or are there."""
    there = work.languages.catalogue(own, PRODUCT_FILE) is not None
    return is_translated_product(own) and (bool(arguments.product) or there)


def _check(work: _Work, arguments: argparse.Namespace) -> None:
    """Everything that is wrong with the catalogues of the files, and with the product's own words where asked for."""
    wanted = _languages(work, arguments)
    texts = {path: found for path, found in _texts(work) if found}
    whole = work.project.is_whole(arguments.paths)
    said = work.languages.check(texts, wanted, whole)
    if arguments.language:
        # The language asked for alone, and what is wrong with a folder as a whole.
        said = (one for one in said if _language_of(one) in ("", arguments.language))
    work.said.extend(said)
    if arguments.product:
        for language in wanted:
            if work.languages.catalogue(language, PRODUCT_FILE) is None:
                work.said.extend(work.languages.check_product(language))


def _language_of(one: Diagnostic) -> str:
    """The language whose catalogue a diagnostic points into; "" for a folder that is named for none."""
    parts = one.primary.span.path.split("/")
    if len(parts) > 1 and parts[0] == TRANSLATIONS and locale_of(parts[1]) is not None:
        return parts[1]
    return str(one.args.get("language", ""))


def _status(work: _Work, arguments: argparse.Namespace) -> None:
    """How far each catalogue is, as a table; the product's own words come last."""
    rows = []
    texts = {path: found for path, found in _texts(work) if found}
    own = work.project.clinic.languages[0]
    # No page of the clinic's own is made either while the product's words in its language are not reviewed.
    wanted = _languages(work, arguments) if arguments.language else (own, *_languages(work, arguments))
    for language in dict.fromkeys(wanted):
        for path, strings in texts.items() if not is_same(language, own) else ():
            read = work.languages.catalogue(language, path)
            if read is not None:
                work.said.extend(read.diagnostics)
            state = state_of(strings, read.value if read else None)
            rows.append((catalogue_path(language, path), state))
        laid = work.languages.catalogue(language, PRODUCT_FILE) is not None
        if is_translated_product(language):
            path = catalogue_path(language, PRODUCT_FILE) if laid else product_path(language)
            rows.append((path, work.languages.product(language).laid.state))
    if rows:
        print(table(rows))


def _review(work: _Work, arguments: argparse.Namespace) -> None:
    """Mark what is translated in the catalogues named as read by somebody; what is outdated or wrong is left out."""
    for path in arguments.paths:
        name = work.project.name(path)
        language, texts = _catalogue_named(work, name)
        read = work.languages.read(name, language) if language else None
        if read is None:
            say(f"protodsl: {shown(path)} is no catalogue of this project; name one as `translate extract` printed it")
            work.said.append(unreadable(shown(path), "No such catalogue"))
            continue
        work.said.extend(read.diagnostics)
        if read.value is not None:
            own = SOURCE_LANGUAGE if texts is None else work.project.clinic.languages[0]
            on = arguments.on or date.today()
            done = reviewed(read.value, Review(on, arguments.by, ""), own)
            work.said.extend(done.diagnostics)
            assert done.value is not None
            _write(work, path, done.value)


def _catalogue_named(work: _Work, name: str) -> tuple[str, str | None]:
    """The language of a catalogue, and the file it is for (None: the product's own words); "" for no catalogue."""
    parts = name.split("/")
    if parts[0] == TRANSLATIONS and len(parts) > 2 and name.endswith(PO_SUFFIX) and locale_of(parts[1]):
        file = file_of(name)
        return parts[1], None if file == PRODUCT_FILE else file
    if (work.project.root / name).parent == resources.path(PACKAGE, FOLDER) and name.endswith(PO_SUFFIX):
        return parts[-1].removesuffix(PO_SUFFIX), None
    return "", None


_ACTIONS = {"extract": _extract, "update": _update, "check": _check, "status": _status, "review": _review}
