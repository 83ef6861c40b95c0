"""Names that nothing declares, each reported once with the further places where it stands."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from protodsl.diagnostics import names as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.suggest import nearest
from protodsl.resolve.names import KINDS, Missing, Tables
from protodsl.source import Span

_SHOWN = 3


def report(missing: Iterable[Missing], tables: Tables, damaged: frozenset[str]) -> Iterator[Diagnostic]:
    """One diagnostic for each name; none for a name whose declaration is there but could not be read."""
    found: dict[tuple[str, str, bool], dict[Span, Missing]] = {}
    for one in missing:
        if one.name.text in damaged:
            continue
        if one.pair is not None:
            yield from _pair(one.pair, tables)
        else:
            found.setdefault((one.kinds[0], one.name.text, one.placeholder), {}).setdefault(one.name.span, one)
    for (_, name, placeholder), places in found.items():
        first, *others = places
        kinds = max((one.kinds for one in places.values()), key=len)
        if placeholder:
            near = nearest(name, (*tables["settings"], "affected side", "other side"))
            for span in places:
                yield say.undeclared_placeholder(name, span, near)
        else:
            near = _near(name, kinds, tables)
            yield say.undeclared(kinds, name, first, others[:_SHOWN], near, _elsewhere(name, kinds, tables))


def _pair(pair: tuple[str, str, str, Span], tables: Tables) -> Iterator[Diagnostic]:
    """Two names around `and`: reported apart where each is near a declared one, else as one name with hyphens."""
    first, word, second, span = pair
    joined = f"{first}-{word}-{second}"
    findings = tables["findings"]
    if joined not in findings and (nearest(first, findings) or nearest(second, findings)):
        ends = (Span(span.path, span.start, span.start + len(first)), Span(span.path, span.end - len(second), span.end))
        for name, place in zip((first, second), ends, strict=True):
            yield say.undeclared(("findings",), name, place, (), nearest(name, findings), None)
    else:
        yield say.undeclared_pair(first, word, second, span)


def _near(name: str, kinds: tuple[str, ...], tables: Tables) -> str | None:
    known = {one for kind in kinds if kind in tables for one in tables[kind]}
    return nearest(name, known)


def _elsewhere(name: str, kinds: tuple[str, ...], tables: Tables) -> str | None:
    """Another kind of thing that has this name."""
    return next((kind for kind in KINDS if kind not in kinds and name in tables[kind]), None)
