"""A project on the disk: its root, its clinic, its files, and which of them a `use` may reach; no others are read."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from protodsl import fonts, resources
from protodsl.clinic_file import UNKNOWN_CLINIC, place_of, read_clinic
from protodsl.diagnostics import project as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.words import missing_character
from protodsl.figure.picture_file import LARGEST as LARGEST_PICTURE
from protodsl.figure.picture_file import Unread
from protodsl.model.clinic import Clinic
from protodsl.outcome import Outcome
from protodsl.resolve.library import OUTSIDE, Outside
from protodsl.source import Source
from protodsl.syntax.tree import File

CLINIC_FILE = "clinic.toml"
PROTOCOL_SUFFIX = ".protocol"
CASE_SUFFIX = ".case"
TRANSLATIONS = "translations"
# The product's own words in a language, as the clinic has reviewed or made them.
PRODUCT_WORDS = "protodsl.po"
PICTURE_SUFFIXES = (".png", ".svg", ".jpg", ".jpeg")
LARGEST_FILE = 32 * 1024 * 1024


@dataclass(frozen=True, slots=True)
class Project:
    """The root (links followed), the clinic, the text of `clinic.toml` (None where there is none) and its mistakes."""

    root: Path
    clinic: Clinic
    clinic_source: Source | None
    diagnostics: tuple[Diagnostic, ...] = ()

    def name(self, path: Path) -> str:
        """How a file of this project is known: its path below the root with `/`, links followed."""
        return self._name(os.path.realpath(path))

    def _name(self, real: str) -> str:
        root = os.path.join(self.root, "")
        below = real[len(root) :] if real.startswith(root) else os.path.relpath(real, self.root)
        return below.replace(os.sep, "/")

    def folders(self) -> tuple[Path, ...]:
        """Where a `use` may look, in this order: the root, then the library folders that are there."""
        libraries = (Path(os.path.realpath(self.root / folder)) for folder in self.clinic.libraries)
        return (self.root, *(folder for folder in libraries if os.path.isdir(folder)))

    def is_whole(self, paths: Iterable[Path]) -> bool:
        """Whether the root itself is among the paths."""
        return any(Path(os.path.realpath(path)) == self.root for path in paths)

    @property
    def template_folder(self) -> Path | None:
        """The clinic's own templates; None where it names none, or none that may be read."""
        folder = Path(os.path.realpath(self.root / self.clinic.templates)) if self.clinic.templates else None
        return folder if folder and os.path.isdir(folder) and folder.is_relative_to(self.root) else None

    def picture(self, path: str) -> bytes | Unread:
        """The bytes of a picture, one more than a picture may have at most; its path leads from where a `use` looks."""
        parts = path.replace("\\", "/").split("/")
        if ".." in parts or not parts[0] or parts[0].endswith(":") or "\0" in path:
            return Unread.OUTSIDE
        for file in (folder.joinpath(*parts) for folder in self.folders()):
            if not os.path.isfile(file):
                continue
            if not self.reaches(file):
                return Unread.OUTSIDE
            try:
                with open(file, "rb") as opened:
                    return opened.read(LARGEST_PICTURE + 1)
            except OSError:
                return Unread.MISSING
        return Unread.MISSING

    def reaches(self, path: Path) -> bool:
        """Whether a file, links followed, lies below the root or a library folder."""
        real = Path(os.path.realpath(path))
        return any(real.is_relative_to(folder) for folder in self.folders())


def open_project(path: Path) -> Project:
    """The project that a file or folder belongs to: the nearest folder upward with a `clinic.toml`, else its own."""
    real = Path(os.path.realpath(path))
    folder = real if os.path.isdir(real) else real.parent
    root = next((one for one in (folder, *folder.parents) if os.path.isfile(one / CLINIC_FILE)), None)
    if root is None:
        return Project(folder, UNKNOWN_CLINIC, None, (say.no_clinic_file(shown(folder)),))
    data = read_bytes(root / CLINIC_FILE)
    if isinstance(data, Diagnostic):
        return Project(root, UNKNOWN_CLINIC, None, (data,))
    try:
        source = Source(CLINIC_FILE, data.decode("utf-8-sig").replace("\r\n", "\n"))
    except UnicodeDecodeError as error:
        source = Source(CLINIC_FILE, data.decode("utf-8", "replace"))
        reason = f"byte {error.start + 1} is not UTF-8"
        place = place_of(source, "", "")
        return Project(root, UNKNOWN_CLINIC, source, (say.not_toml(place, reason),))
    outcome = read_clinic(source)
    clinic = outcome.value or UNKNOWN_CLINIC
    said = (*outcome.diagnostics, *_folders(root, clinic, source), *_languages(root, clinic, source))
    return Project(root, clinic, source, (*said, *_characters(clinic, source)))


def find_files(project: Project, paths: Iterable[Path]) -> Outcome[tuple[Path, ...]]:
    """Protocols and cases among the paths and below the folders among them, each once, sorted by name."""
    found = files_by_name(project, paths)
    return Outcome(tuple((found.value or {}).values()), found.diagnostics)


def files_by_name(project: Project, paths: Iterable[Path]) -> Outcome[Mapping[str, Path]]:
    """The same by the name of each."""
    found: dict[str, Path] = {}
    folders = tuple(os.path.join(folder, "") for folder in project.folders())
    diagnostics: list[Diagnostic] = []
    for path in paths:
        refused: list[OSError] = []
        here = tuple(_walk(path, refused.append)) if os.path.isdir(path) else (path,)
        kept = [one for one in here if one.suffix in (PROTOCOL_SUFFIX, CASE_SUFFIX)]
        for error in refused:
            tell = say.unreadable if Path(error.filename) == path else say.folder_skipped
            diagnostics.append(tell(shown(Path(error.filename)), error.strerror or ""))
        if not os.path.exists(path):
            diagnostics.append(say.unreadable(shown(path), "Nothing is there that you may read"))
        elif not kept and not refused:
            diagnostics.append(say.nothing_found(shown(path)))
        else:
            for one in kept:
                real = os.path.realpath(one)
                if real.startswith(folders):
                    found.setdefault(project._name(real), one)
                else:
                    diagnostics.append(say.unreadable(shown(one), "The link leads out of the project"))
    return Outcome({name: found[name] for name in sorted(found)}, tuple(diagnostics))


def shown(path: Path) -> str:
    """A path as the person can use it: below the working folder where it lies there."""
    relative = os.path.relpath(path)
    return path.as_posix() if relative.startswith("..") else Path(relative).as_posix()


def read_bytes(path: Path) -> bytes | Diagnostic:
    """The bytes of a regular file of at most LARGEST_FILE bytes, or why there are none."""
    try:
        if not os.path.isfile(path):
            reason = "It is not a file" if os.path.exists(path) else "Nothing is there that you may read"
            return say.unreadable(shown(path), reason)
        if path.stat().st_size > LARGEST_FILE:
            return say.unreadable(shown(path), f"It is larger than {LARGEST_FILE // 1024**2} MB")
        return path.read_bytes()
    except OSError as error:
        return say.unreadable(shown(path), error.strerror or "It cannot be opened")


Parse = Callable[[str, bytes], tuple[Source | None, Outcome[File]]]


@dataclass(slots=True)
class Shelf:
    """The library of one run (see `resolve.library`): each file is read and parsed once, by its real path.

    `texts` are bytes by the name of a file, which are taken for those on the disk.
    """

    project: Project
    parse: Parse
    texts: Mapping[str, bytes] = field(default_factory=dict)
    sources: dict[str, Source] = field(default_factory=dict)
    _said: dict[str, tuple[Diagnostic, ...]] = field(default_factory=dict)
    _trees: dict[str, File | None] = field(default_factory=dict)
    _located: dict[str, str | Outside | None] = field(default_factory=dict)

    def locate(self, use_path: str, from_file: str) -> str | Outside | None:
        """The name of the file that a `use` means; OUTSIDE where it leaves the project, None where nothing is there."""
        if use_path not in self._located:
            self._located[use_path] = self._locate(use_path)
        return self._located[use_path]

    def tree(self, path: str) -> File | None:
        """The tree of a file by its name; None where it could not be read."""
        if path not in self._trees:
            self._trees[path] = self._read(path)
        return self._trees[path]

    def said(self, path: str) -> tuple[Diagnostic, ...]:
        """What reading and parsing a file had to say; nothing where it was not read."""
        return self._said.get(path, ())

    def use_paths(self) -> Iterable[str]:
        """Every path a `use` could name."""
        for folder in self.project.folders():
            for file in _walk(folder):
                if file.suffix == PROTOCOL_SUFFIX and self.project.reaches(file):
                    yield file.relative_to(folder).with_suffix("").as_posix()

    def protocol_files(self) -> Iterator[str]:
        """Every protocol file below the root, by name; a folder in it with a clinic of its own is another project."""
        files = tuple(_walk(self.project.root))
        others = [one.parent for one in files if one.name == CLINIC_FILE and one.parent != self.project.root]
        for file in files:
            inside = self.project.reaches(file) and not any(file.is_relative_to(other) for other in others)
            if file.suffix == PROTOCOL_SUFFIX and inside:
                yield self.project.name(file)

    def protocol_bytes(self) -> Iterator[tuple[str, bytes]]:
        """Every protocol, library and picture that any entry may draw on, with its bytes; unreadable ones are empty."""
        for folder in self.project.folders():
            for file in _walk(folder):
                if file.suffix == PROTOCOL_SUFFIX or file.suffix.lower() in PICTURE_SUFFIXES:
                    data = read_bytes(file)
                    yield file.as_posix(), b"" if isinstance(data, Diagnostic) else data

    def _locate(self, use_path: str) -> str | Outside | None:
        parts = use_path.replace("\\", "/").split("/")
        if ".." in parts or not parts[0] or parts[0].endswith(":") or "\0" in use_path:
            return OUTSIDE
        left = False
        for folder in self.project.folders():
            file = folder.joinpath(*parts[:-1], parts[-1] + PROTOCOL_SUFFIX)
            if os.path.isfile(file):
                if self.project.reaches(file):
                    return self.project.name(file)
                left = True
        return OUTSIDE if left else None

    def _read(self, path: str) -> File | None:
        data = self.texts[path] if path in self.texts else read_bytes(self.project.root / path)
        if isinstance(data, Diagnostic):
            self._said[path] = (data,)
            return None
        source, outcome = self.parse(path, data)
        if source is not None:
            self.sources[path] = source
        self._said[path] = outcome.diagnostics
        return outcome.value


def _folders(root: Path, clinic: Clinic, source: Source) -> Iterator[Diagnostic]:
    """Folders that are named and not there, and those that leave the project though only libraries may."""
    for folder in clinic.libraries:
        if not os.path.isdir(root / folder):
            yield say.no_folder(place_of(source, "folders", "libraries"), "libraries", folder)
    for key, named in (("templates", clinic.templates), ("output", clinic.output)):
        if named and not Path(os.path.realpath(root / named)).is_relative_to(root):
            yield say.folder_outside(place_of(source, "folders", key), key, named)
        elif named and key == "templates" and not os.path.isdir(root / named):
            yield say.no_folder(place_of(source, "folders", key), key, named)


def _languages(root: Path, clinic: Clinic, source: Source) -> Iterator[Diagnostic]:
    """Languages that no sheet can be made in; `pt-BR` is spoken where `pt` is, and what the clinic has words for."""
    shipped = resources.path("protodsl", "localise/messages").glob("*.po")
    own = (root / TRANSLATIONS).glob(f"*/{PRODUCT_WORDS}")
    known = tuple(sorted({*(catalogue.stem for catalogue in shipped), *(catalogue.parent.name for catalogue in own)}))
    for language in clinic.languages:
        if not any(language == one or language.startswith(f"{one}-") for one in known):
            yield say.no_such_language(language, known, place_of(source, "sheet", "languages"))


def _characters(clinic: Clinic, source: Source) -> Iterator[Diagnostic]:
    """What of the clinic's own words, names and numbers no font has; every sheet would need it."""
    contacts = (("emergency", "", clinic.emergency), ("contact", "", clinic.contact))
    after = (("contact", "after-hours-", clinic.after_hours),) if clinic.after_hours else ()
    printed = {("clinic", "name"): clinic.name, ("clinic", "address"): clinic.address}
    for table, before, contact in (*contacts, *after):
        printed |= {(table, f"{before}text"): contact.text, (table, f"{before}phone"): contact.phone}
    for (table, key), text in printed.items():
        lacking = fonts.missing_characters(text)
        if lacking:
            yield missing_character(lacking, place_of(source, table, key))


def _walk(folder: Path, refused: Callable[[OSError], object] | None = None) -> Iterator[Path]:
    """Every file below a folder in the order of names; hidden ones and links to folders are left alone."""
    for here, folders, files in os.walk(folder, onerror=refused):
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        yield from (Path(here, name) for name in sorted(files) if not name.startswith("."))
