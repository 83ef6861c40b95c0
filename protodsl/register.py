"""The protocols of a project by their names: a case says a name, and the whole root is looked through for it."""

from __future__ import annotations

from dataclasses import dataclass, field

from protodsl.project import Shelf
from protodsl.resolve import Cache
from protodsl.resolve.case_protocol import Followed, protocols_in
from protodsl.syntax import tree


@dataclass(slots=True)
class Register:
    """The protocols of one run; files are read when the first name is asked for, each protocol made when it is."""

    shelf: Shelf
    cache: Cache
    _files: dict[str, tuple[str, ...]] | None = None
    _found: dict[str, tuple[Followed, ...]] = field(default_factory=dict)

    def find(self, name: str) -> tuple[Followed, ...]:
        """Every protocol of that name in the root."""
        if name not in self._found:
            every = (one for path in self.files(name) for one in protocols_in(path, self.shelf, self.cache))
            self._found[name] = tuple(one for one in every if one.protocol.name == name)
        return self._found[name]

    def files(self, name: str) -> tuple[str, ...]:
        """The files in the root that declare a protocol of that name."""
        return self._by_name().get(name, ())

    def known(self) -> tuple[str, ...]:
        """Every name there is, sorted."""
        return tuple(sorted(self._by_name()))

    def _by_name(self) -> dict[str, tuple[str, ...]]:
        if self._files is None:
            files: dict[str, dict[str, None]] = {}
            for path in self.shelf.protocol_files():
                read = self.shelf.tree(path)
                for one in read.statements if read else ():
                    if isinstance(one, tree.Declaration) and one.keyword == "protocol":
                        files.setdefault(one.name.text, {})[path] = None
            self._files = {name: tuple(paths) for name, paths in files.items()}
        return self._files
