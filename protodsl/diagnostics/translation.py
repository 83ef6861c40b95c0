"""What is wrong with translations: words that are missing, changed, unread or unlike, and sheets made without them."""

from __future__ import annotations

from protodsl.diagnostics.diagnostic import Code, Diagnostic, Label, Severity
from protodsl.source import Span

NOT_TRANSLATED = Code("G101", "not-translated", Severity.WARNING)
OUTDATED = Code("G102", "translation-outdated", Severity.WARNING)
NOT_REVIEWED = Code("G103", "translation-not-reviewed", Severity.WARNING)
SHEET_NOT_TRANSLATED = Code("G104", "sheet-not-translated", Severity.ERROR)
SHEET_IS_A_DRAFT = Code("G105", "sheet-is-a-draft", Severity.WARNING)
REFERRAL_IN_OWN_LANGUAGE = Code("G106", "referral-in-own-language", Severity.WARNING)
NUMBER_DIFFERS = Code("G111", "translated-number-differs", Severity.ERROR)
UNIT_DIFFERS = Code("G112", "translated-unit-differs", Severity.ERROR)
PLACEHOLDER_DIFFERS = Code("G113", "translated-placeholder-differs", Severity.ERROR)
SIDES_SWAPPED = Code("G114", "translated-sides-swapped", Severity.ERROR)
SIDE_LOST = Code("G115", "translated-side-lost", Severity.WARNING)
SIDES_IN_ANOTHER_ORDER = Code("G116", "translated-sides-in-another-order", Severity.WARNING)
EMPHASIS_DIFFERS = Code("G117", "translated-emphasis-differs", Severity.WARNING)
IDENTICAL = Code("G118", "translation-identical", Severity.WARNING)

HOW_FAR = frozenset((NOT_TRANSLATED, OUTDATED, NOT_REVIEWED))
"""Those that say how far a catalogue is, and nothing of what is wrong in it."""

# So many strings are named in a list, so many signs of each; the catalogue itself shows the others.
_NAMED, _SHOWN = 4, 60


def not_translated(at: Span, language: str, texts: tuple[str, ...], total: int) -> Diagnostic:
    """Strings of a file that have no words in a language; `at` is the catalogue, or the file where there is none."""
    return Diagnostic(
        NOT_TRANSLATED,
        f"{_of(len(texts), total)} not translated into `{language}`",
        Label(at),
        notes=(*_named(texts), "no sheet that needs one of them is made, except as a draft"),
        help=f"run `protodsl translate extract --language {language}`, and have the catalogue translated",
        args={"language": language, "count": len(texts), "total": total},
    )


def outdated(at: Span, language: str, texts: tuple[str, ...], total: int) -> Diagnostic:
    """Strings whose text has changed since they were translated (fuzzy)."""
    return Diagnostic(
        OUTDATED,
        f"{_of(len(texts), total)} translated into `{language}` for a text that has changed since",
        Label(at),
        notes=(*_named(texts), "what they said before is not used: the change may be the one that matters"),
        help="have the translation brought up to date, then take the mark `fuzzy` off",
        args={"language": language, "count": len(texts), "total": total},
    )


def not_reviewed(at: Span, language: str, texts: tuple[str, ...], total: int) -> Diagnostic:
    """Strings that are translated and that nobody has read again, in these very words."""
    return Diagnostic(
        NOT_REVIEWED,
        f"{_of(len(texts), total)} translated into `{language}` and not reviewed",
        Label(at),
        notes=(*_named(texts), "a review holds for the very words that were read, and ends when they change"),
        help='have it read by somebody who knows language and trade, then `protodsl translate review FILE --by "ROLE"`',
        args={"language": language, "count": len(texts), "total": total},
    )


def sheet_not_translated(
    at: Span, language: str, missing: tuple[str, ...], unread: tuple[str, ...], product: tuple[int, int]
) -> Diagnostic:
    """A page that needs words which are missing, or which nobody has reviewed; it is not made."""
    return Diagnostic(
        SHEET_NOT_TRANSLATED,
        f"no page is made in `{language}`: {_gaps(missing, unread, product)}",
        Label(at),
        notes=_gap_notes(language, missing, unread, product),
        help="have them translated and reviewed; `--draft` makes a draft for the reviewer, marked on every page",
        args={"language": language, "missing": missing, "unread": unread, "product": product},
    )


def sheet_is_a_draft(
    at: Span, language: str, missing: tuple[str, ...], unread: tuple[str, ...], product: tuple[int, int]
) -> Diagnostic:
    """A page that was made as a draft, and says so on every page."""
    gaps = _gaps(missing, unread, product)
    return Diagnostic(
        SHEET_IS_A_DRAFT,
        f"this page in `{language}` is a draft, not to be given to a patient" + (f": {gaps}" if gaps else ""),
        Label(at),
        notes=(
            *_gap_notes(language, missing, unread, product),
            "drafts are made as HTML and PDF, where every page can say so",
        ),
        help="hand it to the reviewer; build without `--draft` for a patient",
        args={"language": language, "missing": missing, "unread": unread, "product": product},
    )


def referral_in_own_language(instead_of: Diagnostic, own: str) -> Diagnostic:
    """A referral page that could not be made in the person's language (`instead_of` says why) and is made in `own`."""
    return Diagnostic(
        REFERRAL_IN_OWN_LANGUAGE,
        f"the referral page is made in `{own}`, the clinic's own language",
        instead_of.primary,
        notes=(instead_of.message, *instead_of.notes),
        help="read it out to the person, in their language, or have somebody do so",
        args={"own": own},
    )


def number_differs(at: Span, translation: str, lost: tuple[str, ...], added: tuple[str, ...]) -> Diagnostic:
    """Numbers in digits that the translation does not have, or has and the text has not."""
    return Diagnostic(
        NUMBER_DIFFERS,
        _differ("the number", lost, added, "in the text"),
        Label(at),
        notes=(f"translated as `{translation}`", "what stands in digits in the text stands in digits everywhere"),
        help="write the numbers of the text, in the digits of the language or in these",
        args={"lost": lost, "added": added, "translation": translation},
    )


def unit_differs(at: Span, translation: str, unit: str, written: str) -> Diagnostic:
    """A number with another unit of the same kind."""
    return Diagnostic(
        UNIT_DIFFERS,
        f"the text says `{unit}` where the translation says `{written}`",
        Label(at),
        notes=(f"translated as `{translation}`",),
        help=f"write `{unit}` in the words of the language; a number is never converted in a translation",
        args={"unit": unit, "written": written, "translation": translation},
    )


def placeholder_differs(at: Span, translation: str, lost: tuple[str, ...], added: tuple[str, ...]) -> Diagnostic:
    """A placeholder that would print nothing, or print itself."""
    return Diagnostic(
        PLACEHOLDER_DIFFERS,
        _differ("the placeholder", lost, added, "in the text"),
        Label(at),
        notes=(f"translated as `{translation}`", "a placeholder is not translated: a value takes its place"),
        help="write it letter by letter as in the text, where the language wants it",
        args={"lost": lost, "added": added, "translation": translation},
    )


def sides_swapped(at: Span, translation: str, side: str, there: str) -> Diagnostic:
    """One side in the text, the other in the translation."""
    return Diagnostic(
        SIDES_SWAPPED,
        f"the text says {side}, and the translation says {there}",
        Label(at),
        notes=(f"translated as `{translation}`",),
        help=f"write the word for {side}",
        args={"side": side, "there": there, "translation": translation},
    )


def side_lost(at: Span, translation: str, side: str, in_text: bool) -> Diagnostic:
    """A side that only one of the two names, as far as the words for it are known."""
    where = "the text, and not in the translation" if in_text else "the translation, and not in the text"
    return Diagnostic(
        SIDE_LOST,
        f"{side} stands in {where}",
        Label(at),
        notes=(f"translated as `{translation}`",),
        help=f"name the side as the text does; where no side is meant by `{side}`, a review settles it",
        args={"side": side, "in text": in_text, "translation": translation},
    )


def sides_in_another_order(at: Span, translation: str) -> Diagnostic:
    """Both sides in both, and the one that comes first in the text comes second in the translation."""
    return Diagnostic(
        SIDES_IN_ANOTHER_ORDER,
        "left and right stand in another order than in the text",
        Label(at),
        notes=(f"translated as `{translation}`",),
        help="look whether each side goes with the same word as in the text; a review settles it",
        args={"translation": translation},
    )


def emphasis_differs(at: Span, translation: str, text: str) -> Diagnostic:
    """Stars of emphasis that are missing, too many, or do not close."""
    return Diagnostic(
        EMPHASIS_DIFFERS,
        "the stars of emphasis are not those of the text",
        Label(at),
        notes=(f"translated as `{translation}`", f"the text is `{text}`"),
        help="put `*` or `**` around the words that mean the same, with no blank inside",
        args={"translation": translation, "text": text},
    )


def identical(at: Span, text: str) -> Diagnostic:
    """A translation that is the text, letter by letter."""
    return Diagnostic(
        IDENTICAL,
        f"`{text}` is translated by itself",
        Label(at),
        help="translate it; where both languages say the same, a review settles it",
        args={"text": text},
    )


def _differ(what: str, lost: tuple[str, ...], added: tuple[str, ...], where: str) -> str:
    parts = []
    if lost:
        parts.append(f"{what} {_quoted(lost)} {where} is missing in the translation")
    if added:
        parts.append(f"{_quoted(added)} in the translation is not {where}")
    return ", and ".join(parts)


def _quoted(words: tuple[str, ...]) -> str:
    return ", ".join(f"`{word}`" for word in words)


def _of(count: int, total: int) -> str:
    return f"{count} of {total} strings {'is' if count == 1 else 'are'}"


def _named(texts: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(f"{'it is' if len(texts) == 1 else 'they are'} {words}" for words in _listed(texts))


def _listed(texts: tuple[str, ...]) -> tuple[str, ...]:
    """The first of them by their text, and how many more there are, as one note; none where there are none."""
    if not texts:
        return ()
    more = len(texts) - _NAMED
    shown = tuple(text if len(text) <= _SHOWN else f"{text[:_SHOWN].rstrip()} …" for text in texts[:_NAMED])
    return (_quoted(shown) + (f" and {more} more" if more > 0 else ""),)


def _gaps(missing: tuple[str, ...], unread: tuple[str, ...], product: tuple[int, int]) -> str:
    """What stands between the page and a patient, counted."""
    counts = (
        (len(missing), "of its texts not translated"),
        (len(unread), "of its texts not reviewed"),
        (product[0], "of the product's own words not translated"),
        (product[1], "of the product's own words not reviewed"),
    )
    return ", ".join(f"{count} {words}" for count, words in counts if count)


def _gap_notes(
    language: str, missing: tuple[str, ...], unread: tuple[str, ...], product: tuple[int, int]
) -> tuple[str, ...]:
    notes = [f"not translated: {note}" for note in _listed(missing)]
    notes += [f"not reviewed: {note}" for note in _listed(unread)]
    if any(product):
        notes.append("the product's own words are the headings and the sentences around what the clinic wrote")
        notes.append(
            f"`protodsl translate extract --product --language {language}` brings them into `translations/{language}`,"
            " to be reviewed there"
        )
    return tuple(notes)
