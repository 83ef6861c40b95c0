"""What is said on the words that a patient reads."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

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

CODES: tuple[Code, ...] = (
    LONG_SENTENCE,
    SEVERAL_ACTIONS,
    HARD_TO_READ,
    BARE_SIDE,
    MISSING_CHARACTER,
    UNMATCHED_EMPHASIS,
    STAR_IN_WORD,
)


def long_sentence(words: int, most: int, at: Span) -> Diagnostic:
    """A sentence with more words than the clinic wants."""
    return Diagnostic(
        LONG_SENTENCE,
        f"this sentence has {words} words, and this clinic wants at most {most}",
        Label(at),
        help="make two sentences of it",
        args={"words": words, "most": most},
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


def hard_to_read(
    name: str, grade: Decimal, most: Decimal, hardest: Sequence[str], at: Span, sentence: Span | None
) -> Diagnostic:
    """Prose above the school grade that the clinic wants; `hardest` are its longest words."""
    words = ", ".join(f"`{word}`" for word in hardest)
    return Diagnostic(
        HARD_TO_READ,
        f"the words of `{name}` are of school grade {plain(grade)}, and this clinic wants at most {plain(most)}",
        Label(at),
        (Label(sentence, "the hardest line"),) if sentence else (),
        notes=(
            *((f"its longest words: {words}",) if words else ()),
            "grade by Flesch and Kincaid (Kincaid et al. 1975), for English",
        ),
        help="use shorter sentences and shorter words",
        args={"name": name, "grade": grade, "most": most},
    )


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
