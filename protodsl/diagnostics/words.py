"""What is said on the words that a patient reads."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import NamedTuple

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Label, Severity
from protodsl.source import Span
from protodsl.units import plain

LONG_SENTENCE = Code("W801", "long-sentence", Severity.WARNING)
SEVERAL_ACTIONS = Code("W802", "several-actions-in-a-step", Severity.HINT)
HARD_TO_READ = Code("W803", "hard-to-read", Severity.WARNING)
BARE_SIDE = Code("W804", "bare-left-or-right", Severity.WARNING)
MISSING_CHARACTER = Code("W805", "character-not-in-the-fonts", Severity.ERROR)
UNMATCHED_EMPHASIS = Code("W806", "emphasis-not-closed", Severity.WARNING)
STAR_IN_WORD = Code("W807", "star-inside-a-word", Severity.ERROR)
SHEET_HARD_TO_READ = Code("W808", "sheet-hard-to-read", Severity.WARNING)

CODES: tuple[Code, ...] = (
    LONG_SENTENCE,
    SEVERAL_ACTIONS,
    HARD_TO_READ,
    BARE_SIDE,
    MISSING_CHARACTER,
    UNMATCHED_EMPHASIS,
    STAR_IN_WORD,
    SHEET_HARD_TO_READ,
)


def long_sentence(count: int, most: int, at: Span, in_words: bool = True) -> Diagnostic:
    """A sentence with more words, or where the script has no blanks more characters, than the clinic wants."""
    return Diagnostic(
        LONG_SENTENCE,
        f"this sentence has {count} {'words' if in_words else 'characters'}, and this clinic wants at most {most}",
        Label(at),
        help="make two sentences of it",
        args={"words" if in_words else "characters": count, "most": most},
    )


def several_actions(actions: Sequence[str], at: Span) -> Diagnostic:
    """A step that asks for several things to do."""
    listed = ", ".join(f"`{action}`" for action in actions)
    return Diagnostic(
        SEVERAL_ACTIONS,
        f"this step asks for {len(actions)} things: {listed}",
        Label(at),
        notes=("each line of `do` is one step on the sheet, beside its picture",),
        help="write a line for each",
        args={"actions": tuple(actions)},
    )


class Past(NamedTuple):
    """A value past its limit; `kind` is grade, ease (at least) or lix, by the formula `name` and its publication.

    `reason` says why the limit counts where the clinic set none.
    """

    kind: str
    name: str
    published: str
    value: Decimal
    limit: Decimal
    reason: str


# The place of a sentence, how many words it has, the longest of them.
Sentence = tuple[Span, int, tuple[str, ...]]


def hard_to_read(name: str, past: Past, longest: Sequence[str], at: Span, hardest: Sequence[Sentence]) -> Diagnostic:
    """Prose past the limit; `longest` are its longest words, `hardest` its hardest sentences."""
    return Diagnostic(
        HARD_TO_READ,
        f"the words of `{name}` {_past(past, 'are', 'have')}",
        Label(at),
        _hardest(hardest),
        notes=(*((f"its longest words: {_listed(longest)}",) if longest else ()), *_by(past)),
        help="use shorter sentences and shorter words",
        args={"name": name, "measure": past.name, "value": past.value, "limit": past.limit},
    )


def sheet_hard_to_read(name: str, language: str, past: Past, at: Span, hardest: Sequence[Sentence]) -> Diagnostic:
    """The whole sheet past the limit, its conditions in words among it."""
    return Diagnostic(
        SHEET_HARD_TO_READ,
        f"the sheet of `{name}` in `{language}` {_past(past, 'is', 'has')}",
        Label(at),
        _hardest(hardest),
        notes=("everything the patient reads in sentences counts, conditions in words too", *_by(past)),
        help="use shorter sentences and shorter words, first in the sentences named",
        args={
            "name": name,
            "language": language,
            "measure": past.name,
            "value": past.value,
            "limit": past.limit,
        },
    )


def _past(past: Past, be: str, have: str) -> str:
    what = {"grade": f"{be} of school grade", "ease": f"{have} a reading ease of", "lix": f"{have} a reading index of"}
    bound = "least" if past.kind == "ease" else "most"
    limit = f"at {bound} {plain(past.limit)}"
    wanted = f"{limit} is usual" if past.reason else f"this clinic wants {limit}"
    return f"{what[past.kind]} {plain(past.value)}, and {wanted}"


def _by(past: Past) -> tuple[str, ...]:
    """By which formula, and where the limit comes from."""
    higher = {"grade": "", "ease": "; higher is easier", "lix": "; higher is harder"}[past.kind]
    by = f"by {past.name} ({past.published}){higher}"
    return (by, past.reason) if past.reason else (by,)


def _hardest(sentences: Sequence[Sentence]) -> tuple[Label, ...]:
    """The first is the hardest."""
    return tuple(
        Label(span, f"{'a hard sentence' if at else 'the hardest sentence'}: {_size(count, longest)}")
        for at, (span, count, longest) in enumerate(sentences)
        if span.path
    )


def _size(count: int, longest: Sequence[str]) -> str:
    size = f"{count} words" if count else "no blanks to tell words by"
    return f"{size}, the longest {_listed(longest)}" if longest else size


def _listed(words: Sequence[str]) -> str:
    return ", ".join(f"`{word}`" for word in words)


def bare_side(word: str, at: Span) -> Diagnostic:
    """Left or right in the prose of an exercise, which is the wrong side for half of all people."""
    return Diagnostic(
        BARE_SIDE,
        f"`{word}` is the wrong side for whoever is hurt on the other one",
        Label(at),
        notes=("the sheet puts in the person's own side for `[affected side]` and `[other side]`",),
        help="write `[affected side]` or `[other side]`, or words that need no side",
        args={"word": word},
    )


def missing_character(characters: Sequence[str], at: Span) -> Diagnostic:
    """Characters that would be printed as empty boxes."""
    named = ", ".join(f"`{sign}` (U+{ord(sign):04X})" for sign in characters)
    several = len(characters) > 1
    return Diagnostic(
        MISSING_CHARACTER,
        f"the fonts of the sheet do not have {named}",
        Label(at),
        notes=(f"{'they' if several else 'it'} would be printed as an empty box",),
        help="use another character, or say it in words",
        args={"characters": tuple(characters)},
    )


def unmatched_emphasis(at: Span) -> Diagnostic:
    """A star that opens or closes nothing."""
    return Diagnostic(
        UNMATCHED_EMPHASIS,
        "this star opens or closes nothing, so it would be printed",
        Label(at),
        notes=("`*word*` is emphasis and `**word**` is strong, with no blank inside the stars",),
        help="put the other star in, or take this one out",
    )


def star_in_word(at: Span) -> Diagnostic:
    """A star inside a word or between digits, which a second one would make vanish."""
    return Diagnostic(
        STAR_IN_WORD,
        "this star stands inside a word or between two numbers",
        Label(at),
        notes=("two such stars are read as emphasis and vanish: `2*10` would be printed as 210",),
        help="write `x` or `×` for times; emphasis begins before a word and ends behind one",
    )
