"""The one spelling of the words of a pose: `the right knee` is `right knee`, `both feet` and `foot` are `feet`."""

from __future__ import annotations

from functools import cache

# Parts and joints that come in pairs: singular and plural. No side means both, so that no side takes the plural.
PLURALS: dict[str, str] = {
    "foot": "feet", "heel": "heels", "forefoot": "forefeet", "toes": "toes", "instep": "insteps",
    "outer foot": "outer feet", "ankle": "ankles", "shin": "shins", "calf": "calves", "knee": "knees",
    "thigh": "thighs", "leg": "legs", "hip": "hips", "shoulder": "shoulders", "upper arm": "upper arms",
    "elbow": "elbows", "forearm": "forearms", "wrist": "wrists", "hand": "hands", "fingers": "fingers", "arm": "arms",
}  # fmt: skip
# What else is said for a part, and how the language says it.
SAME: dict[str, str] = {
    "toe": "toes", "finger": "fingers", "palm": "hand", "palms": "hands", "ball of foot": "forefoot",
    "balls of feet": "forefeet", "lower leg": "shin", "lower legs": "shins", "low back": "lower back",
    "lumbar spine": "lower back", "thoracic spine": "upper back", "cervical spine": "neck", "bottom": "seat",
    "buttocks": "seat", "stomach": "belly", "abdomen": "belly", "torso": "trunk", "top of foot": "instep",
}  # fmt: skip
# Whole phrases.
PHRASES: dict[str, str] = {
    "stand": "standing", "sit": "sitting", "kneel": "kneeling", "sitting on chair": "sitting",
    "supine": "lying on back", "lying supine": "lying on back", "lying face up": "lying on back",
    "prone": "lying face down", "lying prone": "lying face down", "lying on front": "lying face down",
    "lying on stomach": "lying face down", "lying on belly": "lying face down", "all fours": "on all fours",
    "hands and knees": "on all fours", "on hands and knees": "on all fours", "long-sitting": "long sitting",
    "four-point kneeling": "on all fours", "half kneeling": "half-kneeling", "high kneeling": "kneeling",
    "arms by side": "arms by sides", "arms at sides": "arms by sides", "back straight": "trunk straight",
    "straight back": "trunk straight", "upright": "trunk upright", "back upright": "trunk upright",
    "upright trunk": "trunk upright", "head up": "look ahead", "looking ahead": "look ahead",
    "edge of step": "step edge", "edge of chair": "chair edge", "edge of table": "table edge", "ground": "floor",
}  # fmt: skip
# Movements as they are said beside their names.
MOVEMENTS: dict[str, str] = {
    "bent": "flexion", "flexed": "flexion", "extended": "extension", "abducted": "abduction", "adducted": "adduction",
    "side bend": "side bending", "side flexion": "side bending", "lateral flexion": "side bending",
    "dorsiflexed": "dorsiflexion", "plantarflexed": "plantarflexion", "outward rotation": "external rotation",
    "inward rotation": "internal rotation", "lateral rotation": "external rotation",
    "medial rotation": "internal rotation", "pronated": "pronation", "supinated": "supination", "rotated": "rotation",
}  # fmt: skip
SIDES = ("right", "left")
_SKIPPED = frozenset(("the", "both", "a", "an", "your"))


def spelled(text: str) -> str:
    """The one spelling of what is said of the body: a part, a joint with its movement, a position, a posture."""
    words = [word for word in text.lower().split() if word not in _SKIPPED]
    phrase = " ".join(words) or text.lower()
    if phrase in PHRASES:
        return PHRASES[phrase]
    side, rest = split_side(phrase)
    noun, behind = split_noun(rest)
    if noun in PLURALS:
        noun = noun if side else PLURALS[noun]
    whole = " ".join(part for part in (side, noun, behind) if part)
    return PHRASES.get(whole, whole)


def movement(text: str) -> str:
    """As `spelled`, for a joint with its movement: `knees bent` are `knees flexion`."""
    words = spelled(text)
    for other, name in MOVEMENTS.items():
        if words.endswith(f" {other}"):
            return words[: -len(other)] + name
    return words


def singular(text: str) -> str:
    """As `spelled`, with a part named alone in the singular: the height of a shoulder."""
    side, rest = split_side(spelled(text))
    noun, behind = split_noun(rest)
    return " ".join(part for part in (side, noun, behind) if part)


def split_side(phrase: str) -> tuple[str, str]:
    """The side in front of a phrase ("" where none is), and the rest."""
    first, _, rest = phrase.partition(" ")
    return (first, rest) if first in SIDES and rest else ("", phrase)


def split_noun(phrase: str) -> tuple[str, str]:
    """The part or joint that a phrase without a side begins with, in the singular, and what stands behind it.

    Where none is known the whole phrase is what stands behind, and the noun is "".
    """
    words = phrase.split()
    for count in range(min(3, len(words)), 0, -1):
        noun = _nouns().get(" ".join(words[:count]))
        if noun is not None:
            return noun, " ".join(words[count:])
    return "", phrase


@cache
def _nouns() -> dict[str, str]:
    """The singular of every way to write a paired part, and the one spelling of the others."""
    found = {form: one for one, many in PLURALS.items() for form in (one, many)}
    return found | {other: found.get(word, word) for other, word in SAME.items()}
