"""Where rules stand, in short: `leg:191`, with a key of the files."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import PurePosixPath

from protodsl.handout.draft import Draft
from protodsl.handout.phrase import Listed, Literal, Phrase
from protodsl.handout.rules import progressions, rules
from protodsl.handout.words import say
from protodsl.source import Span


def places(draft: Draft, spans: Iterable[Span]) -> Phrase:
    """The lines of several places, each file named once: `leg:191, 202, low-back:17`."""
    said: list[Phrase] = []
    last = ""
    for span in dict.fromkeys(spans):
        source = draft.options.sources.get(span.path)
        line = "" if source is None else str(source.position(span.start)[0])
        file = short_name(draft, span.path)
        said.append(Literal(line if line and file == last else f"{file}:{line}" if line else file))
        last = file
    return said[0] if len(said) == 1 else Listed(tuple(dict.fromkeys(said)), by="comma")


def files(draft: Draft) -> Phrase | None:
    """What the short names stand for: `leg (library/leg.protocol)`; None where no text is at hand."""
    named = tuple(
        say("clinician.file", short=Literal(short_name(draft, path)), path=Literal(path)) for path in _paths(draft)
    )
    return say("clinician.files", files=Listed(named, by="comma")) if named else None


def short_name(draft: Draft, path: str) -> str:
    """A file without its folder and suffix, where no other file of the protocol is called so."""
    stem = PurePosixPath(path).stem
    same = [one for one in {*_paths(draft), path} if PurePosixPath(one).stem == stem]
    return stem if len(same) <= 1 else str(PurePosixPath(path).with_suffix(""))


def _paths(draft: Draft) -> tuple[str, ...]:
    """The files that hold what the page names, of all that were read."""
    protocol = draft.protocol
    spans = [protocol.span, *(phase.span for phase in protocol.phases)]
    spans += [rule.span for rule in rules(draft)]
    spans += [one.span for one in (*draft.exercises(), *progressions(draft), *protocol.scope.settings.values())]
    spans += [prose.span for prose in (*protocol.stop, *protocol.not_yet)]
    return tuple(sorted({span.path for span in spans} & set(draft.options.sources)))
