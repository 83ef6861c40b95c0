"""What a page is called besides the name of its protocol or case, so that no page is ever written over another."""

from __future__ import annotations

import argparse
import re
from collections.abc import Iterable

from protodsl.languages import is_translated_product

LARGE_PRINT = "-large-print"
COMPACT = "-compact"
CLINICIAN_PAGE = "-clinician"
QUESTIONS_PAGE = "-questions"
DRAFT = "-draft"
BESIDE = "-side-by-side"
FOR_REVIEWERS = (DRAFT, BESIDE)
# How a page is set: what may stand between the name of a protocol or case and the language.
SETTING = re.compile(rf"(?:{LARGE_PRINT})?(?:{COMPACT})?(?:-a4|-letter)?")
_ENDS = re.compile(rf"(?:{LARGE_PRINT}|{COMPACT}|-a4|-letter|{CLINICIAN_PAGE}|{QUESTIONS_PAGE})+\Z")


def setting(arguments: argparse.Namespace, paper: str) -> str:
    """How the pages asked for are set, where it is not as usual; `paper` is the clinic's own."""
    large = LARGE_PRINT if arguments.large_print else ""
    compact = COMPACT if arguments.compact else ""
    other = f"-{arguments.paper.lower()}" if arguments.paper and arguments.paper != paper else ""
    return large + compact + other


def in_language(language: str, usual: str, arguments: argparse.Namespace, own: str) -> str:
    """What ends the name of a page in another language than usual, and of one for the reviewer of a translation.

    In the clinic's `own` language the product's words alone are a translation, and in English nothing is.
    """
    if arguments.side_by_side and language != own:
        return f".{language}{BESIDE}"
    if arguments.draft and (language != own or is_translated_product(language)):
        return f".{language}{DRAFT}"
    return "" if language == usual else f".{language}"


def clashing(names: Iterable[str]) -> list[tuple[str, str]]:
    """Pairs of names that a page of the one could share with a page of the other, in any setting.

    Capitals make no difference, as on many disks: `knee` and `Knee-clinician` are a pair.
    """
    given = list(dict.fromkeys(names))
    by_fold: dict[str, list[str]] = {}
    for name in given:
        by_fold.setdefault(name.casefold(), []).append(name)
    found = [(same[0], other) for same in by_fold.values() for other in same[1:]]
    for name in given:
        fold = name.casefold()
        cuts = (hyphen.start() for hyphen in re.finditer("-", fold))
        shorter = (fold[:cut] for cut in cuts if _ENDS.match(fold, cut))
        found += [(by_fold[other][0], name) for other in shorter if other in by_fold]
    return found
