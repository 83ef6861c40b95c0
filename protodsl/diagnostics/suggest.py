"""Did you mean: the nearest known word, if it is near enough to be one."""

from __future__ import annotations

from collections.abc import Iterable


def nearest(word: str, known: Iterable[str]) -> str | None:
    """The known word within a third of the length of `word` (Damerau-Levenshtein), or None.

    Beyond a slip of one letter, a name that `word` is the beginning of goes before one that looks like it: `arm slides`
    means `arm slides on table` and not `wall slides`.
    """
    limit = max(1, len(word) // 3)
    best: tuple[int, str] | None = None
    candidates = sorted(set(known))
    for candidate in candidates:
        if abs(len(candidate) - len(word)) > limit or candidate == word:
            continue
        far = 0 if candidate.lower() == word.lower() else _distance(word, candidate)
        if far <= limit and (best is None or far < best[0]):
            best = (far, candidate)
    begun = [candidate for candidate in candidates if candidate.startswith(f"{word} ")]
    if len(begun) == 1 and (best is None or best[0] > 1):
        return begun[0]
    return best[1] if best else None


def _distance(left: str, right: str) -> int:
    """Edits between two words: insert, drop, replace, or swap two neighbours."""
    before: list[int] = []
    row = list(range(len(right) + 1))
    for i, a in enumerate(left, 1):
        before, last, row = row, before, [i]
        for j, b in enumerate(right, 1):
            cost = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (a != b))
            if i > 1 and j > 1 and a == right[j - 2] and left[i - 2] == b:
                cost = min(cost, last[j - 2] + 1)
            row.append(cost)
    return row[-1]
