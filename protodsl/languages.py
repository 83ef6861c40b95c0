"""The catalogues of a project: where each lies, what it holds, and the words that a sheet takes from them."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.outcome import Outcome
from protodsl.project import PROTOCOL_SUFFIX, Project, read_bytes
from protodsl.source import Source
from protodsl.translate.entries import Catalogue
from protodsl.translate.po import read_po
from protodsl.translate.text import decoded

FOLDER = "translations"
PO_SUFFIX = ".po"
# A library folder may lie beside the project; its catalogues do not.
_OUTSIDE = "outside-the-project/"


def catalogue_path(language: str, file: str) -> str:
    """Where the catalogue of a file lies: `translations/es/library/leg.po`; what is no protocol keeps its ending."""
    inside = file.removesuffix(PROTOCOL_SUFFIX).replace("../", _OUTSIDE)
    return f"{FOLDER}/{language}/{inside}{PO_SUFFIX}"


def file_of(path: str) -> str:
    """The file that a catalogue is for: what `catalogue_path` was given."""
    inner = path.split("/", 2)[2].removesuffix(PO_SUFFIX).replace(_OUTSIDE, "../")
    return inner if inner.endswith((".toml", ".case")) else inner + PROTOCOL_SUFFIX


@dataclass(slots=True)
class Languages:
    """The catalogues of one run, each read once."""

    project: Project
    sources: dict[str, Source] = field(default_factory=dict)
    _read: dict[str, Outcome[Catalogue]] = field(default_factory=dict)

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
        folder = self.project.root / FOLDER
        names = sorted(os.listdir(folder)) if os.path.isdir(folder) else []
        return tuple(name for name in names if os.path.isdir(folder / name) and not name.startswith("."))

    def paths(self) -> Iterator[str]:
        """The paths of all catalogues, sorted."""
        for tag in self.tags():
            folder = self.project.root / FOLDER / tag
            found = sorted(one for one in folder.rglob(f"*{PO_SUFFIX}") if one.is_file() and self.project.reaches(one))
            yield from (Path(os.path.relpath(one, self.project.root)).as_posix() for one in found)

    def _parsed(self, path: str, language: str) -> Outcome[Catalogue]:
        data = read_bytes(self.project.root / path)
        if isinstance(data, Diagnostic):
            return Outcome(None, (data,))
        text = decoded(path, data)
        if text.value is None:
            return Outcome(None, text.diagnostics)
        self.sources[path] = text.value
        read = read_po(text.value, language)
        return Outcome(read.value, (*text.diagnostics, *read.diagnostics))
