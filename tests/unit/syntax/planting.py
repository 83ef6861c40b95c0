"""Plants one mistake at a time into texts without any, and counts what the parser makes of it."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from protodsl.source import Source
from protodsl.syntax import parse_case, parse_protocol
from protodsl.syntax.keywords import entries

Mistake = Callable[[str, int], str | None]
_MEASURED = r"^( *(?:dose|moves|fresh|limit|setting|add|rest) .*?"
_KEYWORD = re.compile(r"( *)([a-z-]+)(.*)")


@dataclass
class Count:
    """How many mistakes of one kind were planted, told on their line, told elsewhere too, and not told at all."""

    planted: int = 0
    on_its_line: int = 0
    elsewhere: list[str] = field(default_factory=list)
    silent: list[str] = field(default_factory=list)


def plant(paths: list[Path], every: int) -> dict[str, Count]:
    """Plant every kind of mistake into every `every`-th line that can carry it."""
    counts: dict[str, Count] = {kind: Count() for kind in MISTAKES}
    turns: Counter[str] = Counter()
    for path in paths:
        lines = path.read_text(encoding="utf-8").splitlines()
        for start, end in _blocks(lines):
            block = lines[start:end]
            for at in range(len(block)):
                if not block[at].strip() or block[at].lstrip().startswith("#"):
                    continue
                for kind, mistake in MISTAKES.items():
                    if (changed := mistake(block[at], at)) is None or changed == block[at]:
                        continue
                    turns[kind] += 1
                    if turns[kind] % every == 0:
                        _try(path, start, block, at, changed, counts[kind])
    return counts


def _try(path: Path, offset: int, block: list[str], at: int, changed: str, count: Count) -> None:
    """Parse a block with one changed line, and count the lines that are told."""
    source = Source(str(path), "\n".join([*block[:at], changed, *block[at + 1 :]]) + "\n")
    told = {line for line, _ in complaints(source)}
    count.planted += 1
    where = f"{path.name}:{offset + at + 1}: {changed!r}"
    if told == {at + 1}:
        count.on_its_line += 1
    elif told:
        count.elsewhere.append(f"{where}: {[(n - at - 1, m) for n, m in complaints(source)][:4]}")
    else:
        count.silent.append(where)


def complaints(source: Source) -> list[tuple[int, str]]:
    """The lines that are told, with the messages."""
    outcome = (parse_case if source.path.endswith(".case") else parse_protocol)(source)
    return [(source.position(one.primary.span.start)[0], f"{one.code.id} {one.message}") for one in outcome.diagnostics]


def _blocks(lines: list[str]) -> Iterator[tuple[int, int]]:
    """Each declaration of a file with the one behind it, as line numbers."""
    heads = [at for at, line in enumerate(lines) if line[:1] not in ("", " ", "#")]
    for number, start in enumerate(heads):
        yield start, heads[number + 2] if number + 2 < len(heads) else len(lines)


def _on_keyword(change: Callable[[str, str, str, int], str | None]) -> Mistake:
    """A mistake in the first word of a line that begins with a keyword."""

    def mistake(line: str, at: int) -> str | None:
        found = _KEYWORD.fullmatch(line)
        if found is None or not any(f"{line.strip()} ".startswith(f"{one.keyword} ") for one in entries()):
            return None
        return change(found[1], found[2], found[3], at)

    return mistake


def _within(pattern: str, replacement: str) -> Mistake:
    """A mistake wherever a pattern occurs first."""
    compiled = re.compile(pattern)
    return lambda line, at: compiled.sub(replacement, line, count=1) if compiled.search(line) else None


def _first_letter_small(line: str, at: int) -> str | None:
    text = line.lstrip()
    return line.replace(text, text[0].lower() + text[1:]) if text[:1].isupper() and text[:1].isascii() else None


MISTAKES: dict[str, Mistake] = {
    "a letter dropped": _on_keyword(lambda i, w, r, at: i + w[: at % len(w)] + w[at % len(w) + 1 :] + r),
    "a letter doubled": _on_keyword(lambda i, w, r, at: i + w[: at % len(w)] + w[at % len(w)] + w[at % len(w) :] + r),
    "two letters swapped": _on_keyword(
        lambda i, w, r, at: i + w[: at % len(w)] + w[at % len(w) :][:2][::-1] + w[at % len(w) + 2 :] + r
    ),
    "a capital": _on_keyword(lambda i, w, r, at: i + w.capitalize() + r),
    "a colon": _on_keyword(lambda i, w, r, at: f"{i}{w}:{r}" if not r.startswith(":") else None),
    "no blank": _on_keyword(lambda i, w, r, at: i + w + r.lstrip() if r.startswith(" ") else None),
    "one blank less": lambda line, at: line[1:] if line.startswith(" ") else None,
    "one blank more": lambda line, at: " " + line,
    # Under a pose the next one and an arrow read as more of it; F101 tells of it when words of poses are looked up.
    "two blanks more": lambda line, at: None if re.match(r" +(arrow|then|end) ", line) else "  " + line,
    "to the margin": lambda line, at: line.lstrip() if line.startswith(" ") else None,
    "a tab": lambda line, at: "\t" + line[2:] if line.startswith("  ") else None,
    "no if": _within(r"^( *(?:avoid|allow|caution|emergency|red flag|call)) if ", r"\1 "),
    "no when": _within(r"^( *(?:up|down)) when ", r"\1 "),
    "and beside or": _within(r"^( *(?:\w+ )+if .*? (?:or|and) .*|.* until .* and .*)$", r"\1 or x and y"),
    "no colon": _within(r"^(question|test|equipment|target|  fix)( [^:]*):", r"\1\2"),
    "a unit of another kind": _within(r"^( *(?:dose|moves|fresh) .*) (?:deg|weeks|min|s)\b(?! a)", r"\1 bpm"),
    "a word for a unit": _within(r"^( *dose .*\d) s\b", r"\1 sec"),
    "an unknown unit": _within(_MEASURED + r"\d) (?:kg|cm|deg|min|weeks)\b", r"\1 blips"),
    "a decimal comma": _within(_MEASURED + r"\d)(?= (?:kg|cm|deg|min|s)\b)", r"\1,5"),
    "a hyphen for to": _within(r"^( *dose .*?\d+) to (\d+)", r"\1-\2"),
    "no such day": _within(r"\d{4}-\d\d-\d\d", "2026-02-30"),
    "another form of date": _within(r"(\d{4})-(\d\d)-(\d\d)", r"\3.\2.\1"),
    "a small letter": _first_letter_small,
    "a bracket too many": _within(r"^( *(?:until|up when|avoid if) .*)$", r"\1)"),
    "another container's line": _on_keyword(lambda i, w, r, at: f"{i}language es" if w == "stop" else None),
}


def table(counts: dict[str, Count]) -> str:
    """The numbers, one kind of mistake a line."""
    rows = [f"{'mistake':26}{'planted':>8}{'on line':>8}{'elsewhere':>10}{'silent':>8}"]
    for kind, count in counts.items():
        rows.append(f"{kind:26}{count.planted:8}{count.on_its_line:8}{len(count.elsewhere):10}{len(count.silent):8}")
    planted, good = sum(c.planted for c in counts.values()), sum(c.on_its_line for c in counts.values())
    rows.append(f"{'all':26}{planted:8}{good:8}   {100 * good / max(planted, 1):.2f} %")
    return "\n".join(rows)


if __name__ == "__main__":
    import sys

    root = Path(__file__).resolve().parents[3] / "protocols_demo"
    found = plant(sorted([*root.rglob("*.protocol"), *root.rglob("*.case")]), int(sys.argv[1]) if sys.argv[1:] else 5)
    print(table(found))
    for kind, one in found.items():
        for text in (*one.elsewhere[:4], *(f"silent {text}" for text in one.silent[:4])):
            print(f"{kind}: {text}")
