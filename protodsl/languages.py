"""The catalogues of a project: where each lies, what it holds, and the words that a sheet takes from them."""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from protodsl.diagnostics.catalogues import case_language, no_such_file, unknown_tag
from protodsl.diagnostics.diagnostic import Diagnostic, Severity
from protodsl.diagnostics.translation import sheet_is_a_draft, sheet_not_translated
from protodsl.localise.catalogue import SOURCE_LANGUAGE, catalogue, languages
from protodsl.model.case import Versions
from protodsl.model.protocol import Entry
from protodsl.model.text import Prose, is_translated
from protodsl.outcome import Outcome
from protodsl.project import CLINIC_FILE, PROTOCOL_SUFFIX, TRANSLATIONS, Project, read_bytes
from protodsl.source import NOWHERE, Source, Span
from protodsl.translate.entries import Catalogue
from protodsl.translate.header import header_differs
from protodsl.translate.judge import judge
from protodsl.translate.po import read_po
from protodsl.translate.product import product_catalogue, product_source, product_texts
from protodsl.translate.state import State, judged, state_of
from protodsl.translate.tags import chain, is_same, locale_of
from protodsl.translate.text import decoded
from protodsl.translate.texts import Text, clinic_texts, texts_of

PO_SUFFIX = ".po"
# A library folder may lie beside the project; its catalogues do not.
_OUTSIDE = "outside-the-project/"
_LANGUAGE = re.compile(r"^[ \t]+language[ \t]+(\S+)", re.MULTILINE)


def catalogue_path(language: str, file: str) -> str:
    """Where the catalogue of a file lies: `translations/es/library/leg.po`; what is no protocol keeps its ending."""
    inside = file.removesuffix(PROTOCOL_SUFFIX).replace("../", _OUTSIDE)
    return f"{TRANSLATIONS}/{language}/{inside}{PO_SUFFIX}"


def file_of(path: str) -> str:
    """The file that a catalogue is for: what `catalogue_path` was given."""
    inner = path.split("/", 2)[2].removesuffix(PO_SUFFIX).replace(_OUTSIDE, "../")
    return inner if inner.endswith((".toml", ".case")) else inner + PROTOCOL_SUFFIX


@dataclass(frozen=True, slots=True)
class Words:
    """What there is in a language for one page.

    `written_in` is the language of the authored prose ("": the page's own), `texts` its translations by key and text,
    `reviewed` those that may be printed. `product` counts the product's own words that are missing and unreviewed.
    `sources` are the texts of the catalogues, by path; `diagnostics` what is wrong with them. What is `wrong` for a
    string keeps it out of `texts`.
    """

    language: str
    written_in: str = ""
    texts: Mapping[tuple[str, str], str] = field(default_factory=dict)
    reviewed: frozenset[tuple[str, str]] = frozenset()
    product: tuple[int, int] = (0, 0)
    sources: Mapping[str, str] = field(default_factory=dict)
    diagnostics: tuple[Diagnostic, ...] = ()
    wrong: Mapping[tuple[str, str], tuple[Diagnostic, ...]] = field(default_factory=dict)

    @property
    def is_translation(self) -> bool:
        """Whether anything on the page is a translation: the authored prose, or the product's own words."""
        return bool(self.written_in) or not is_same(self.language, SOURCE_LANGUAGE)

    def gaps(self, used: Iterable[Prose], is_draft: bool) -> tuple[Diagnostic, ...]:
        """What stands between a page that used this prose and a patient: an error, or of a draft a warning."""
        needed = [prose for prose in used if is_translated(prose.key)]
        missing = [prose for prose in needed if (prose.key, prose.text) not in self.texts]
        unread = [
            prose for prose in needed
            if (prose.key, prose.text) in self.texts and (prose.key, prose.text) not in self.reviewed
        ]  # fmt: skip
        is_draft = is_draft and self.is_translation
        if not (missing or unread or any(self.product) or is_draft):
            return ()
        said = () if is_draft else self.diagnostics
        for prose in missing if not is_draft else ():
            said += self.wrong.get((prose.key, prose.text), ())
        at = next((prose.span for prose in (*missing, *unread) if prose.span.path), NOWHERE)
        tell = sheet_is_a_draft if is_draft else sheet_not_translated
        return (*dict.fromkeys(said), tell(at, self.language, _texts(missing), _texts(unread), self.product))


def spoken_in(language: str, source: Source, case: Span) -> Iterator[Diagnostic]:
    """A case that asks for a language of which the product has no words; `case` is its head in the text."""
    if catalogue(language) is None:
        found = _LANGUAGE.search(source.text, case.start)
        at = Span(source.path, *found.span(1)) if found else case
        yield case_language(at, language, languages())


def texts_by_file(project: Project, entries: Mapping[str, Entry | Versions | None]) -> dict[str, tuple[Text, ...]]:
    """What is to be translated, by the file it stands in: of the clinic, of entries, and what a case changes in one."""
    found: dict[str, tuple[Text, ...]] = {}
    if project.clinic_source is not None:
        at = Span(project.clinic_source.path, 0, 0)
        found[CLINIC_FILE] = clinic_texts(project.clinic, CLINIC_FILE, at)
    return found | {path: texts_of(entry, path) for path, entry in entries.items() if entry is not None}


def _texts(proses: Iterable[Prose]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(prose.text for prose in proses))


@dataclass(slots=True)
class Languages:
    """The catalogues of one run, each read once."""

    project: Project
    sources: dict[str, Source] = field(default_factory=dict)
    _read: dict[str, Outcome[Catalogue]] = field(default_factory=dict)
    _words: dict[tuple[str, tuple[str, ...]], Words] = field(default_factory=dict)
    _products: dict[str, tuple[int, int]] = field(default_factory=dict)

    def catalogue(self, language: str, file: str) -> Outcome[Catalogue] | None:
        """The catalogue of a file in a language (of this very tag); None where there is none."""
        path = catalogue_path(language, file)
        return self.read(path, language) if os.path.isfile(self.project.root / path) else None

    def read(self, path: str, language: str) -> Outcome[Catalogue]:
        """A catalogue by its path below the root."""
        if path not in self._read:
            self._read[path] = self._parsed(path, language)
        return self._read[path]

    def files(self, language: str) -> tuple[str, ...]:
        """The paths of all catalogues of a language, sorted."""
        return tuple(path for path in self.paths() if path.split("/")[1] == language)

    def tags(self) -> tuple[str, ...]:
        """The folders of languages there are, whether or not their tags are right."""
        folder = self.project.root / TRANSLATIONS
        names = sorted(os.listdir(folder)) if os.path.isdir(folder) else []
        return tuple(name for name in names if os.path.isdir(folder / name) and not name.startswith("."))

    def paths(self) -> Iterator[str]:
        """The paths of all catalogues, sorted."""
        for tag in self.tags():
            folder = self.project.root / TRANSLATIONS / tag
            found = sorted(one for one in folder.rglob(f"*{PO_SUFFIX}") if one.is_file() and self.project.reaches(one))
            yield from (Path(os.path.relpath(one, self.project.root)).as_posix() for one in found)

    def words(self, language: str, files: tuple[str, ...]) -> Words:
        """What there is in a language for a page made from these files; nothing is needed in the clinic's own."""
        if (language, files) not in self._words:
            self._words[language, files] = self._gathered(language, files)
        return self._words[language, files]

    def _gathered(self, language: str, files: tuple[str, ...]) -> Words:
        own = self.project.clinic.languages[0]
        product = self._product(language)
        if is_same(own, language):
            return Words(language, "", product=product)
        texts: dict[tuple[str, str], str] = {}
        wrong: dict[tuple[str, str], tuple[Diagnostic, ...]] = {}
        reviewed: set[tuple[str, str]] = set()
        sources: dict[str, str] = {}
        said: list[Diagnostic] = []
        # The nearest words last, so that they take the place of others: of the file itself, of the very tag.
        for tag in reversed(chain(language)):
            for file in reversed((CLINIC_FILE, *files)):
                read = self.catalogue(tag, file)
                if read is None:
                    continue
                said += [one for one in read.diagnostics if one.severity is Severity.ERROR]
                if read.value is None:
                    continue
                sources[read.value.path] = self.sources[read.value.path].text
                for entry in read.value.entries:
                    errors = tuple(one for one in judge(entry, tag, own) if one.severity is Severity.ERROR)
                    if errors:
                        wrong[entry.id] = errors
                        texts.pop(entry.id, None)
                    elif entry.is_translated:
                        texts[entry.id] = entry.target[0]
                        wrong.pop(entry.id, None)
                        (reviewed.add if entry.is_reviewed else reviewed.discard)(entry.id)
        return Words(language, own, texts, frozenset(reviewed), product, sources, tuple(said), wrong)

    def _product(self, language: str) -> tuple[int, int]:
        """How many of the product's own words are missing and how many not reviewed; none in its source language."""
        if language not in self._products:
            state = self.product_state(language) or State()
            wrong = sum(one.severity is Severity.ERROR for one in self.check_product(language))
            self._products[language] = (len(state.missing) + len(state.outdated) + wrong, len(state.unread))
        return self._products[language]

    def product_state(self, language: str) -> State | None:
        """How far the product's own words are; None in their source language, and where there are none at all."""
        shipped = (product_catalogue(tag) for tag in chain(language))
        read = next((one for one in shipped if one is not None), None)
        return None if is_same(language, SOURCE_LANGUAGE) or read is None else state_of(product_texts(), read.value)

    def check_product(self, language: str) -> Iterator[Diagnostic]:
        """What is wrong with the product's own words in a language."""
        read = product_catalogue(language)
        source = product_source(language)
        if read is None or source is None or is_same(language, SOURCE_LANGUAGE):
            return
        self.sources[source.path] = source
        yield from read.diagnostics
        if read.value is not None:
            yield from header_differs(read.value, source)
            yield from judged(product_texts(), read.value, Span(source.path, 0, 0), language, SOURCE_LANGUAGE)

    def check(self, texts: Mapping[str, Sequence[Text]], wanted: Iterable[str], whole: bool) -> Iterator[Diagnostic]:
        """What is wrong with the catalogues of these files, in the languages `wanted` and in every other there is.

        `texts` are those to be translated, by the file they stand in; `whole`: all files of the project are among them.
        """
        own = self.project.clinic.languages[0]
        for tag in self.tags():
            if locale_of(tag) is None:
                yield unknown_tag(Span(f"{TRANSLATIONS}/{tag}", 0, 0), tag)
        there = [tag for tag in self.tags() if locale_of(tag) is not None]
        # In what the product does not speak no page is made, whatever is translated; that is said elsewhere.
        asked = tuple(tag for tag in dict.fromkeys(wanted) if catalogue(tag) is not None)
        for language in dict.fromkeys((*asked, *there)):
            if is_same(language, own):
                continue
            for file, strings in texts.items():
                yield from self._check_file(language, file, strings, language in asked)
            if whole:
                yield from self._without_a_file(language)

    def _check_file(self, language: str, file: str, strings: Sequence[Text], asked: bool) -> Iterator[Diagnostic]:
        read = self.catalogue(language, file)
        if read is not None:
            yield from read.diagnostics
        # What `es` has, `es-MX` need not have.
        if read is None and (not asked or any(self.catalogue(tag, file) for tag in chain(language)[1:])):
            return
        if strings and (read is None or read.value is not None):
            value = read.value if read else None
            at = Span(value.path if value else file, 0, 0)
            yield from judged(strings, value, at, language, self.project.clinic.languages[0])

    def _without_a_file(self, language: str) -> Iterator[Diagnostic]:
        for path in self.files(language):
            if not os.path.isfile(self.project.root / file_of(path)):
                self.read(path, language)
                yield no_such_file(Span(path, 0, 0), file_of(path))

    def _parsed(self, path: str, language: str) -> Outcome[Catalogue]:
        data = read_bytes(self.project.root / path)
        if isinstance(data, Diagnostic):
            return Outcome(None, (data,))
        text = decoded(path, data)
        if text.value is None:
            return Outcome(None, text.diagnostics)
        self.sources[path] = text.value
        read = read_po(text.value, language)
        header = header_differs(read.value, text.value) if read.value else ()
        return Outcome(read.value, (*text.diagnostics, *read.diagnostics, *header))
