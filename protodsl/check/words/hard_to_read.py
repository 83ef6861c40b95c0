"""What a patient reads is no harder than the clinic wants."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from protodsl.check.context import Context
from protodsl.check.texts import Text
from protodsl.check.words.limits import TooHard, too_hard
from protodsl.check.words.place import part_of
from protodsl.diagnostics import words as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry
from protodsl.readability import Hard, Line, hardest, longest_words, total
from protodsl.source import Span

# Below this a formula says more of one word than of the text. Their authors measured passages of 100 words and more;
# an exercise has about 50 to 100.
FEWEST_WORDS = 40


def hard_to_read(entry: Entry, context: Context) -> Iterator[Diagnostic]:
    """The prose of an exercise or a protocol, taken together, past a limit of its language."""
    language = context.clinic.languages[0]
    for _, group in groupby(context.texts, key=lambda text: id(text.owner)):
        texts = list(group)
        proses = [text.prose for text in texts]
        counts = total((prose.text for prose in proses), language)
        found = too_hard(counts, context.clinic.limits, language) if counts.words >= FEWEST_WORDS else None
        if found is not None:
            owner = texts[0].owner
            hard = hardest((Line(prose.text, prose.span) for prose in proses), language)
            longest = longest_words((prose.text for prose in proses), language)
            yield say.hard_to_read(owner.name, past(found), longest, _at(texts, owner.span, hard), sentences_at(hard))


def past(found: TooHard) -> say.Past:
    """The value past its limit, as it is said."""
    measure = found.level.measure
    return say.Past(measure.kind.value, measure.name, measure.published, found.level.shown, found.limit, found.reason)


def sentences_at(hard: tuple[Hard, ...]) -> tuple[tuple[Span, int, tuple[str, ...]], ...]:
    """The place of each hard sentence, its words and its longest words."""
    return tuple(
        (part_of(one.line.span, one.line.text, one.start, one.start + len(one.text)), one.counts.words, one.longest)
        for one in hard
    )


def _at(texts: list[Text], owner: Span, hard: tuple[Hard, ...]) -> Span:
    """The name of what the words belong to; of a translation, which stands elsewhere, its hardest sentence."""
    paths = {text.prose.span.path for text in texts}
    if owner.path in paths or not hard:
        return owner
    return sentences_at(hard)[0][0]
