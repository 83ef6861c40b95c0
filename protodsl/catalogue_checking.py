"""What is wrong with the catalogues of the files that were checked, and with the languages that cases ask for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from protodsl.case_checking import CheckedCase
from protodsl.checking import CheckedEntry
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.project import TRANSLATIONS
from protodsl.run import Run


def check_catalogues(
    checked: Sequence[CheckedEntry], cases: Sequence[CheckedCase], run: Run, whole: bool
) -> Iterator[Diagnostic]:
    """What is to be said where there are to be catalogues; `whole` says that no file of the project was left out."""
    project = run.project
    own, *others = project.clinic.languages
    persons = {case.path: case.person for case in cases if case.person is not None}
    others += [person.case.language for person in persons.values() if person.case.language != own]
    if others or (project.root / TRANSLATIONS).is_dir():
        # A project in one language has none.
        from protodsl.languages import spoken_in, texts_by_file
        from protodsl.translated_words import said_of_translations

        entries = {entry.path: entry.value for entry in checked}
        changes = {path: person.versions for path, person in persons.items() if person.case.changed}
        texts = texts_by_file(project, {**entries, **changes})
        yield from run.languages().check(texts, others, whole)
        found = (entry for entry in entries.values() if entry is not None)
        yield from said_of_translations(found, run.languages(), project.clinic)
        for path, person in persons.items():
            yield from spoken_in(person.case.language, run.shelf.sources[path], person.case.span, run.languages())
