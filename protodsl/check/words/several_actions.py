"""A step is one thing to do."""

from __future__ import annotations

import re
from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.diagnostics import words as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry

# Two that belong together (hold and breathe, lower and count) are read at one glance; three are not.
_MOST = 2
_JOINT = re.compile(r"[.;,:]\s+(?:and |then |or )*|\s+(?:and|then)\s+(?:then\s+)?", re.IGNORECASE)
# What an English step begins with when it asks for something.
_VERBS = """
bend breathe bring catch change clench climb close come count crawl cross curl draw drop face fasten fold
glide go grip hang hold hop jump keep kneel land lay lean let lie lift look lower march move open place
point press prop pull push put raise reach relax release repeat return ride rise rock roll rotate run set
sit slide spread squeeze stand start step stop straighten stretch swap swing take tap throw tighten tilt
touch tuck turn twist walk
"""
_ACTIONS = frozenset(_VERBS.split())


def several_actions(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """A line of `do` with three verbs or more that each ask for something; English only."""
    if not context.clinic.languages[0].startswith("en"):
        return
    for text in context.texts:
        if text.keyword == "do":
            actions = _actions(text.prose.text)
            if len(actions) > _MOST:
                yield say.several_actions(actions, text.prose.span)


def _actions(step: str) -> list[str]:
    begun = (part.split(maxsplit=1)[:1] for part in _JOINT.split(step))
    first = [words[0].strip(".,;:!*").lower() for words in begun if words]
    return [word for word in first if word in _ACTIONS]
