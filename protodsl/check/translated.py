"""The rules on words asked of translations: each line as its translation stands in its catalogue."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from protodsl.check.context import Rule, context_of
from protodsl.check.texts import Text
from protodsl.check.words.hard_to_read import hard_to_read
from protodsl.check.words.long_sentence import long_sentence
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.clinic import Clinic
from protodsl.model.protocol import Entry
from protodsl.model.text import Prose

# The words of a line in a language, at their own place; None where it has none.
Translate = Callable[[Prose], Prose | None]
# What is asked of the words of any language.
_RULES: tuple[Rule, ...] = (long_sentence, hard_to_read)


def check_translated(entry: Entry, clinic: Clinic, languages: Mapping[str, Translate]) -> Iterator[Diagnostic]:
    """All that the rules on words have to say of an entry in each of the `languages`; of what is translated alone."""
    context = context_of(entry, clinic, None, None)
    for language, translate in languages.items():
        spoken = replace(
            context,
            clinic=replace(clinic, languages=(language,)),
            texts=tuple(_translated(context.texts, translate)),
        )
        for rule in _RULES:
            yield from rule(entry, spoken)


def _translated(texts: tuple[Text, ...], translate: Translate) -> Iterator[Text]:
    for text in texts:
        prose = translate(text.prose)
        if prose is not None:
            yield text._replace(prose=prose)
