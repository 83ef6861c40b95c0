"""No sentence that a patient reads is longer than the clinic wants."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.words.sentences import part, sentences, words
from protodsl.diagnostics import words as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry


def long_sentence(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """More words than `words-in-a-sentence`; fault and cure of a `fix` are two sentences."""
    most = context.clinic.limits.words_in_a_sentence
    if most is None:
        return
    for text in context.texts:
        prose = text.prose
        # Cheaper than taking words apart, and most lines are short.
        if prose.text.count(" ") < most:
            continue
        line = prose.text.replace(": ", ". ", 1) if text.keyword == "fix" else prose.text
        for start, sentence in sentences(line):
            count = len(words(sentence))
            if count > most:
                yield say.long_sentence(count, most, part(prose, start, start + len(sentence)))
