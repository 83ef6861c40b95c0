"""How hard the translations of a project are to read, said at their places in the catalogues."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import partial

from protodsl.check import check_translated
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.languages import Languages
from protodsl.model.clinic import Clinic
from protodsl.model.protocol import Entry
from protodsl.model.text import Prose
from protodsl.source import Source, Span
from protodsl.translate.entries import Entry as Translation
from protodsl.translate.tags import is_same, locale_of

_STRING = re.compile(r'^msgstr(?:\[0\])?[ \t]+"(.*)"[ \t]*$', re.MULTILINE)


def said_of_translations(entries: Iterable[Entry], languages: Languages, clinic: Clinic) -> Iterator[Diagnostic]:
    """What the rules on words say of every translation there is of these entries."""
    own = clinic.languages[0]
    tags = tuple(tag for tag in languages.tags() if locale_of(tag) is not None and not is_same(tag, own))
    places = Places(languages)
    for entry in entries if tags else ():
        spoken = {tag: partial(places.translated, tag) for tag in tags if places.has_any(tag, entry.files)}
        if spoken:
            yield from check_translated(entry, clinic, spoken)


@dataclass(slots=True)
class Places:
    """Translations by language and file, each with the place of its words, looked up once."""

    languages: Languages
    _found: dict[tuple[str, str], dict[tuple[str, str], Prose]] = field(default_factory=dict)

    def has_any(self, language: str, files: Iterable[str]) -> bool:
        """Whether any of the files has a translation in the language."""
        return any(self._of(language, file) for file in files)

    def translated(self, language: str, prose: Prose) -> Prose | None:
        """The words of a line, as far as they are made for this very text, at their place in the catalogue."""
        return self._of(language, prose.span.path).get((prose.key, prose.text))

    def _of(self, language: str, file: str) -> dict[tuple[str, str], Prose]:
        if (language, file) not in self._found:
            read = self.languages.catalogue(language, file) if file else None
            entries = read.value.entries if read is not None and read.value is not None else ()
            found = {one.id: self._prose(one) for one in entries if one.is_translated}
            self._found[language, file] = found
        return self._found[language, file]

    def _prose(self, one: Translation) -> Prose:
        return Prose(one.target[0], one.key, _words_of(one, self.languages.sources[one.span.path]))


def _words_of(one: Translation, source: Source) -> Span:
    """Where the words stand between their quotes; the line of their keyword where they are broken or escaped."""
    found = _STRING.search(source.text, one.span.start)
    if found is None:
        return one.span
    exact = found[1] == one.target[0]
    return Span(source.path, *(found.span(1) if exact else found.span()))
