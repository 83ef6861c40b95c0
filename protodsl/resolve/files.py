"""The files that one entry reads: every `use` followed once, circles cut, `with` and `without` gathered."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from protodsl.diagnostics import names as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.suggest import nearest
from protodsl.resolve.index import Cache, FileIndex
from protodsl.resolve.library import Library, Outside
from protodsl.syntax import tree


@dataclass(slots=True)
class Program:
    """The indexes of an entry and all it uses, used files first; `uses` are the `use` lines that led somewhere."""

    files: dict[str, FileIndex] = field(default_factory=dict)
    uses: list[tuple[str, tree.Use, str]] = field(default_factory=list)
    said: list[Diagnostic] = field(default_factory=list)

    def closure(self, path: str) -> set[str]:
        """A file and every file it brings in."""
        found, waiting = {path}, [path]
        while waiting:
            here = waiting.pop()
            for importer, _, used in self.uses:
                if importer == here and used not in found:
                    found.add(used)
                    waiting.append(used)
        return found


def read_files(entry: str, library: Library, cache: Cache) -> Program | None:
    """The entry and every file it uses, each once; None where the entry itself cannot be read."""
    root = library.tree(entry)
    if root is None:
        return None
    program = Program()
    index = cache.index(root)
    open_: list[tuple[str, FileIndex, Iterator[tree.Use]]] = [(entry, index, iter(index.uses))]
    ways: list[tree.Use] = []  # the `use` that leads from each open file to the next
    started = {entry}
    while open_:
        path, index, uses = open_[-1]
        use = next(uses, None)
        del ways[len(open_) - 1 :]
        if use is None:
            program.files[path] = index
            open_.pop()
            continue
        found = _locate(use, path, library, program)
        if found is None:
            continue
        ways.append(use)
        chain = [one[0] for one in open_]
        if found in chain:
            at = chain.index(found)
            program.said.append(_circle(chain[at:], ways[at:]))
            continue
        program.uses.append((path, use, found))
        if found not in started:
            started.add(found)
            file = library.tree(found)
            if file is not None:
                used = cache.index(file)
                open_.append((found, used, iter(used.uses)))
    return program


def _circle(files: list[str], ways: list[tree.Use]) -> Diagnostic:
    """A circle of `use`, told from its first file by name, so that it is the same from whatever entry it is met."""
    start = min(range(len(files)), key=files.__getitem__)
    ordered = files[start:] + files[:start]
    return say.use_in_a_circle([*ordered, ordered[0]], ways[start - 1].path.span)


def _locate(use: tree.Use, path: str, library: Library, program: Program) -> str | None:
    found = library.locate(use.path.text, path)
    if found is None:
        near = nearest(use.path.text, library.use_paths())
        program.said.append(say.use_not_found(use.path.text, use.path.span, near))
        return None
    if isinstance(found, Outside):
        program.said.append(say.use_outside(use.path.text, use.path.span))
        return None
    return found
