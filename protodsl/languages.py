"""The catalogues of a project: where each lies, what it holds, and the words that a sheet takes from them."""

from __future__ import annotations

import os
import re
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from protodsl import fonts
from protodsl.diagnostics.catalogues import case_language, no_such_file, unknown_tag
from protodsl.diagnostics.diagnostic import Diagnostic, Severity
from protodsl.diagnostics.translation import HOW_FAR, sheet_is_a_draft, sheet_not_translated
from protodsl.diagnostics.words import missing_character
from protodsl.localise.catalogue import SOURCE_LANGUAGE, catalogue, laid_over, languages
from protodsl.localise.catalogue import Catalogue as Spoken
from protodsl.model.case import Versions
from protodsl.model.protocol import Entry
from protodsl.model.text import Prose, is_translated
from protodsl.outcome import Outcome
from protodsl.project import CLINIC_FILE, PROTOCOL_SUFFIX, TRANSLATIONS, Project, read_bytes
from protodsl.source import NOWHERE, Source, Span
from protodsl.translate.entries import Catalogue
from protodsl.translate.header import header_differs
from protodsl.translate.judge import judge
from protodsl.translate.overlay import Laid, laid
from protodsl.translate.po import read_po
from protodsl.translate.product import product_catalogue, product_source, product_texts
from protodsl.translate.state import State, counted, judged
from protodsl.translate.tags import chain, is_same, locale_of
from protodsl.translate.text import decoded
from protodsl.translate.texts import Text, clinic_texts, texts_of

PO_SUFFIX = ".po"
PRODUCT_FILE = "protodsl"
"""What the product's own words stand for where a catalogue is named by its file: `translations/es/protodsl.po`."""
# A library folder may lie beside the project; its catalogues do not.
_OUTSIDE = "outside-the-project/"
_LANGUAGE = re.compile(r"^[ \t]+language[ \t]+(\S+)", re.MULTILINE)


def catalogue_path(language: str, file: str) -> str:
    """Where the catalogue of a file lies: `translations/es/library/leg.po`; what is no protocol keeps its ending."""
    # A protocol that is called as the product's words are keeps its ending, too.
    bare = file if file == PRODUCT_FILE + PROTOCOL_SUFFIX else file.removesuffix(PROTOCOL_SUFFIX)
    inside = bare.replace("../", _OUTSIDE)
    return f"{TRANSLATIONS}/{language}/{inside}{PO_SUFFIX}"


def file_of(path: str) -> str:
    """The file that a catalogue is for: what `catalogue_path` was given."""
    inner = path.split("/", 2)[2].removesuffix(PO_SUFFIX).replace(_OUTSIDE, "../")
    if inner in (PRODUCT_FILE, PRODUCT_FILE + PROTOCOL_SUFFIX):
        return inner
    return inner if inner.endswith((".toml", ".case")) else inner + PROTOCOL_SUFFIX


@dataclass(frozen=True, slots=True)
class Words:
    """What there is in a language for one page.

    `written_in` is the language of the authored prose ("": the page's own), `texts` its translations by key and text,
    `reviewed` those that may be printed. `product` counts the product's own words that are missing and unreviewed.
    `sources` are the texts of the catalogues, by path; `diagnostics` what is wrong with them. What is `wrong` for a
    string keeps it out of `texts`. `spoken` are the product's own words (None: there are none in the language).
    """

    language: str
    written_in: str = ""
    texts: Mapping[tuple[str, str], str] = field(default_factory=dict)
    reviewed: frozenset[tuple[str, str]] = frozenset()
    product: tuple[int, int] = (0, 0)
    sources: Mapping[str, str] = field(default_factory=dict)
    diagnostics: tuple[Diagnostic, ...] = ()
    wrong: Mapping[tuple[str, str], tuple[Diagnostic, ...]] = field(default_factory=dict)
    spoken: Spoken | None = None

    @property
    def is_translation(self) -> bool:
        """Whether anything on the page is a translation: the authored prose, or the product's own words."""
        return bool(self.written_in) or is_translated_product(self.language)

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


def is_translated_product(language: str) -> bool:
    """Whether the product's own words are a translation in a language, also where that is the clinic's own."""
    return not is_same(language, SOURCE_LANGUAGE)


def spoken_in(language: str, source: Source, case: Span, known: Languages) -> Iterator[Diagnostic]:
    """A case that asks for a language of which there are no words; `case` is its head in the text."""
    if known.product(language).spoken is None:
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


def _characters(catalogue: Catalogue | None, wanted: Container[tuple[str, str]]) -> Iterator[Diagnostic]:
    """Words that no font can print, of the entries that are wanted; no page is made with one."""
    for entry in catalogue.entries if catalogue else ():
        lacking = fonts.missing_characters("".join(entry.target)) if entry.id in wanted else ()
        if lacking:
            yield missing_character(lacking, entry.span)


def _has_error(said: Iterable[Diagnostic]) -> bool:
    return any(one.severity is Severity.ERROR for one in said)


def _texts(proses: Iterable[Prose]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(prose.text for prose in proses))


@dataclass(frozen=True, slots=True)
class Product:
    """The product's own words in a language: how they are said (None: not at all), and how far they may be printed.

    `said` is what is wrong with the clinic's catalogues of them and with messages that are not used; `sources` are
    the texts of these catalogues, by path.
    """

    spoken: Spoken | None
    laid: Laid
    said: tuple[Diagnostic, ...] = ()
    sources: Mapping[str, str] = field(default_factory=dict)


@dataclass(slots=True)
class Languages:
    """The catalogues of one run, each read once."""

    project: Project
    sources: dict[str, Source] = field(default_factory=dict)
    _read: dict[str, Outcome[Catalogue]] = field(default_factory=dict)
    _words: dict[tuple[str, tuple[str, ...]], Words] = field(default_factory=dict)
    _products: dict[str, Product] = field(default_factory=dict)

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
        product = self.product(language)
        if is_same(own, language):
            return Words(
                language, "", {}, frozenset(), product.laid.gaps, product.sources, product.said, spoken=product.spoken
            )
        texts: dict[tuple[str, str], str] = {}
        wrong: dict[tuple[str, str], tuple[Diagnostic, ...]] = {}
        reviewed: set[tuple[str, str]] = set()
        sources = dict(product.sources)
        said = list(product.said)
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
        return Words(
            language, own, texts, frozenset(reviewed), product.laid.gaps, sources, tuple(said), wrong, product.spoken
        )

    def product(self, language: str) -> Product:
        """The product's own words in a language, as shipped and as the clinic has laid its own over them."""
        if language not in self._products:
            self._products[language] = self._product(language)
        return self._products[language]

    def _product(self, language: str) -> Product:
        if not is_translated_product(language):
            return Product(catalogue(language), Laid(State()))
        read = [one for tag in chain(language) if (one := self.catalogue(tag, PRODUCT_FILE)) is not None]
        said = tuple(one for each in read for one in each.diagnostics if one.severity is Severity.ERROR)
        # In a catalogue with a mistake of its own, forms could be taken for others: nothing of it is used.
        sound = [each.value for each in read if each.value is not None and not _has_error(each.diagnostics)]
        found = laid(product_texts(), sound, self.shipped(language))
        laid_ = replace(found, broken=found.broken + len(said))
        spoken = catalogue(language) if not found.own else laid_over(language, found.own)
        if spoken is None and read:
            spoken = laid_over(language, {})
        sources = {one.path: self.sources[one.path].text for one in sound}
        return Product(spoken, laid_, (*said, *found.wrong), sources)

    def shipped(self, language: str) -> Catalogue | None:
        """The shipped catalogue of the product's own words; None where there is none."""
        shipped = (product_catalogue(tag) for tag in chain(language))
        return next((one.value for one in shipped if one is not None), None)

    def _check_overlay(self, language: str) -> Iterator[Diagnostic]:
        """What is wrong with the product's own words as the clinic has them, in this very language."""
        read = self.catalogue(language, PRODUCT_FILE)
        if read is None:
            return
        yield from read.diagnostics
        if read.value is None or not is_translated_product(language):
            return
        wanted = {text.id for text in product_texts()}
        found = laid(product_texts(), (read.value,), self.shipped(language))
        yield from counted(found.state, Span(read.value.path, 0, 0), language)
        for entry in read.value.entries:
            if entry.id in wanted:
                yield from judge(entry, language, SOURCE_LANGUAGE)
        yield from _characters(read.value, wanted)

    def check_product(self, language: str) -> Iterator[Diagnostic]:
        """What is wrong with the product's own words as they are shipped in a language."""
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
        """What is wrong with the catalogues of these files: in others than `wanted`, not how far they are.

        `texts` are those to be translated, by the file they stand in; `whole`: all files of the project are among them.
        """
        own = self.project.clinic.languages[0]
        for tag in self.tags():
            if locale_of(tag) is None:
                yield unknown_tag(Span(f"{TRANSLATIONS}/{tag}", 0, 0), tag)
        there = [tag for tag in self.tags() if locale_of(tag) is not None]
        # In what the product does not speak no page is made, whatever is translated; that is said elsewhere.
        asked = tuple(tag for tag in dict.fromkeys(wanted) if self.product(tag).spoken is not None)
        for language in dict.fromkeys((*asked, *there)):
            said = self._check_overlay(language)
            yield from (one for one in said if language in asked or language == own or one.code not in HOW_FAR)
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
            said = judged(strings, value, at, language, self.project.clinic.languages[0])
            # How far a catalogue is holds up nobody who does not hand it out; `translate check` asks for all.
            yield from (one for one in said if asked or one.code not in HOW_FAR)
            yield from _characters(value, {text.id for text in strings})

    def _without_a_file(self, language: str) -> Iterator[Diagnostic]:
        for path in self.files(language):
            if file_of(path) != PRODUCT_FILE and not os.path.isfile(self.project.root / file_of(path)):
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
