"""No sentence that a patient reads is longer than the clinic wants."""

from __future__ import annotations

from collections.abc import Iterator

from protodsl.check.context import Context
from protodsl.check.words.place import part
from protodsl.diagnostics import words as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry
from protodsl.readability import counted, is_spaced, sentences


def long_sentence(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """More words than `words-in-a-sentence`; fault and cure of a `fix` are two sentences.

    Where the script puts no blanks between words, more letters than `characters-in-a-sentence`.
    """
    language = context.clinic.languages[0]
    limits, spaced = context.clinic.limits.reading(language), is_spaced(language)
    most = limits.words_in_a_sentence if spaced else limits.characters_in_a_sentence
    if most is None:
        return
    for text in context.texts:
        prose = text.prose
        # Cheaper than taking words apart, and most lines are short.
        if (prose.text.count(" ") if spaced else len(prose.text)) < most:
            continue
        line = _with_two_sentences(prose.text) if text.keyword == "fix" else prose.text
        for start, sentence in sentences(line, language):
            counts = counted(sentence, language)
            count = counts.words if spaced else counts.characters
            if count > most:
                yield say.long_sentence(count, most, part(prose, start, start + len(sentence)), spaced)


def _with_two_sentences(fix: str) -> str:
    """The first colon as a line end, so that every sign keeps its place."""
    at = next((at for at in (fix.find(": "), fix.find("：")) if at >= 0), -1)
    return fix if at < 0 else f"{fix[:at]}\n{fix[at + 1 :]}"
