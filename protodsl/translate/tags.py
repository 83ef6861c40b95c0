"""Language tags: which there are, and when two of them mean one written language."""

from __future__ import annotations

import re
from functools import cache

from babel import Locale, UnknownLocaleError
from babel.core import get_global

# A language, perhaps a script, a region, variants (RFC 5646), as they are used for written languages.
_TAG = re.compile(r"[A-Za-z]{2,3}(-[A-Za-z]{4})?(-([A-Za-z]{2}|[0-9]{3}))?(-[A-Za-z0-9]{5,8})*")


@cache
def locale_of(tag: str) -> Locale | None:
    """What CLDR knows of a language tag (BCP 47); None for a tag that is none, or a language that CLDR has not."""
    if not _TAG.fullmatch(tag):
        return None
    for part in chain(tag):
        try:
            return Locale.parse(part.replace("-", "_"))
        except (UnknownLocaleError, ValueError):
            continue
    return None


def chain(tag: str) -> tuple[str, ...]:
    """Where words of a language are looked for: `es-MX`, then `es`; never from one script to another."""
    found = [tag]
    while "-" in found[-1]:
        found.append(found[-1].rpartition("-")[0])
    return tuple(one for one in found if _script(one) == _script(tag))


def is_same(one: str, other: str) -> bool:
    """Whether two tags name one written language, so that what is written in one is read in the other: en, en-GB."""
    return one.split("-")[0].lower() == other.split("-")[0].lower() and _script(one) == _script(other)


def gettext_name(tag: str) -> str:
    """The tag as gettext's header `Language` has it: `pt_BR`."""
    return tag.replace("-", "_")


def _script(tag: str) -> str:
    """The script of a tag, by CLDR's likely subtags where it says none."""
    parts = tag.split("-")
    if len(parts) > 1 and len(parts[1]) == 4:
        return parts[1].title()
    likely = get_global("likely_subtags")
    for key in ("_".join(parts[:2]), parts[0]):
        whole = str(likely.get(key, "")).split("_")
        if len(whole) > 1:
            return whole[1]
    return ""
