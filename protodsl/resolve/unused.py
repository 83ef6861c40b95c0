"""What is declared and never used, seen over all entries of a run."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from protodsl.diagnostics import names as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.condition import Placed
from protodsl.model.protocol import Declared, Entry

_KINDS = ("findings", "settings", "equipment", "targets", "exercises", "progressions")


def used_names(entry: Entry) -> frozenset[Declared]:
    """Every declaration that some line of an entry, or of a file it uses, names."""
    return entry.used


def unused(entries: Iterable[Entry], whole_project: bool) -> tuple[Diagnostic, ...]:
    """What no entry uses: a warning where it stands beside a protocol, a hint where it stands in a library.

    A library is shared, so nothing is said of it unless every file of the project is among the entries, and there are
    protocols that could use it.
    """
    everything = tuple(entries)
    whole_project = whole_project and any(entry.protocols for entry in everything)
    used = frozenset[Declared]().union(*(entry.used for entry in everything))
    said: list[Diagnostic] = []
    for entry in everything:
        library = not entry.protocols
        if library and not whole_project:
            continue
        for kind in _KINDS:
            declared: Mapping[str, Placed] = getattr(entry.scope, kind)
            for name, one in declared.items():
                if one.span.path == entry.path and Declared(kind, name, entry.path) not in used:
                    said.append(say.unused(kind, name, one.span, library))
    return tuple(said)
