"""What was built before: cases whose files are all as they were are known by their content and not made again."""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from protodsl import __version__, fonts, resources
from protodsl.cli.files import write_all
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.project import TRANSLATIONS, Project, Shelf, read_bytes

FILE = ".protodsl-built.json"
_FORMAT = 1


@dataclass(slots=True)
class Built:
    """The cases of one output folder as they were made last, by case file and kind of output."""

    folder: Path
    _known: dict[str, dict[str, object]] = field(default_factory=dict)
    _changed: bool = False
    _by_page: dict[str, list[tuple[str, object]]] | None = None

    def is_unchanged(self, key: str, inputs: str) -> bool:
        """Whether the same inputs were made without a word before, and all of it is still there as it was written."""
        found = self._known.get(key)
        if found is None or found.get("inputs") != inputs or found.get("quiet") is not True:
            return False
        outputs = found.get("outputs")
        return isinstance(outputs, dict) and all(
            _state(f"{self.folder}/{name}") == state for name, state in outputs.items()
        )

    def is_current(self, path: Path, content: str) -> bool:
        """Whether a page is as it was written when something was made of the same content, in whatever form."""
        if self._by_page is None:
            self._by_page = {}
            for one in self._known.values():
                outputs, made_of = one.get("outputs"), one.get("content")
                for name, state in outputs.items() if isinstance(outputs, dict) else ():
                    self._by_page.setdefault(name, []).append((str(made_of), state))
        known = self._by_page.get(path.relative_to(self.folder).as_posix(), ())
        return (content, _state(path)) in known

    def remember(self, key: str, inputs: str, content: str, outputs: Iterable[Path], quiet: bool) -> None:
        """Note what was written just now; what was not `quiet` is made again each time, to say it again."""
        states = {path.relative_to(self.folder).as_posix(): _state(path) for path in outputs}
        self._known[key] = {"inputs": inputs, "content": content, "quiet": quiet, "outputs": states}
        self._changed = True

    def forget(self, key: str) -> None:
        """What is no longer so must not be taken for it."""
        self._changed |= self._known.pop(key, None) is not None

    def save(self) -> None:
        """Write it beside the outputs; OSError where that cannot be."""
        if self._changed:
            data = {"format": _FORMAT, "cases": {key: self._known[key] for key in sorted(self._known)}}
            write_all({self.folder / FILE: json.dumps(data, indent=0).encode()})


def open_built(folder: Path) -> Built:
    """What is known of an output folder; nothing where that cannot be read, which costs time and no more."""
    try:
        data = json.loads((folder / FILE).read_bytes())
        known = data["cases"] if data["format"] == _FORMAT else {}
        return Built(folder, {key: dict(one) for key, one in known.items()})
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return Built(folder)


def digest_of(parts: Mapping[str, bytes]) -> str:
    """A SHA-256 over named parts, each with its length before it."""
    state = hashlib.sha256()
    for name in sorted(parts):
        for data in (name.encode(), parts[name]):
            state.update(len(data).to_bytes(8, "big"))
            state.update(data)
    return state.hexdigest()


def project_digest(project: Project, shelf: Shelf) -> str:
    """A digest of all that every case of a project is made from: protocols, clinic, templates, the program."""
    parts = {f"protocol/{name}": data for name, data in shelf.protocol_bytes()}
    parts["clinic"] = project.clinic_source.text.encode() if project.clinic_source else b""
    parts["program"] = f"{__version__} {_newest(resources.path('protodsl'))}".encode()
    for path in sorted((project.root / TRANSLATIONS).rglob("*.po")):
        data = read_bytes(path)
        parts[f"translation/{path}"] = b"" if isinstance(data, Diagnostic) else data
    parts["fonts"] = fonts.digest().encode()
    for folder in (resources.path("protodsl.templates"), project.template_folder):
        for path in folder.rglob("*") if folder else ():
            if path.is_file() and path.suffix in (".j2", ".css"):
                parts[f"template/{path}"] = path.read_bytes()
    return digest_of(parts)


def _newest(folder: Path) -> str:
    """When the program was last changed: a version alone does not tell while somebody works on it."""
    files = (os.path.join(at, name) for at, _, names in os.walk(folder) for name in names)
    times = [os.stat(file).st_mtime_ns for file in files if file.endswith((".py", ".po"))]
    return f"{len(times)} {max(times, default=0)}"


def _state(path: Path | str) -> list[int]:
    """Size and time of change in nanoseconds; empty where there is no such file."""
    try:
        found = os.stat(path)
    except OSError:
        return []
    return [found.st_size, found.st_mtime_ns]
