"""Prints how fast the parser is, as ratios measured in one interleaved run: goals C2, C3 and C4, and lines a second.

    python tests/benchmarks/bench_parse.py

The text is the demo's, repeated with other names. PyYAML's C loader reads the same information twice over: once as
the finished tree (every condition and dose taken apart, as the parser hands it on), once as plain nested lines whose
text nobody has taken apart yet. The goal is set against the first; the second is a lower bound.
"""

from __future__ import annotations

import gc
import re
import statistics
import time
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from datetime import date
from decimal import Decimal
from enum import Enum
from pathlib import Path
from typing import Any

import yaml

from protodsl.source import Source, Span
from protodsl.syntax import parse_protocol, tree

ROOT = Path(__file__).resolve().parents[2]
ROUNDS = 7


def main() -> None:
    """Measure and print."""
    demo = demo_text()
    texts = {lines: grown(demo, lines) for lines in (1_000, 10_000, 100_000)}
    broken = with_mistakes(texts[10_000], 0.02)
    structured = yaml.dump(plain_data(statements(texts[10_000])), sort_keys=False, allow_unicode=True)
    nested = nested_yaml(texts[10_000])
    times = interleaved(
        {
            "1,000 lines": lambda: parse(texts[1_000]),
            "10,000 lines": lambda: parse(texts[10_000]),
            "10,000 lines, 2 % bad": lambda: parse(broken),
            "yaml of the tree": lambda: yaml.load(structured, yaml.CSafeLoader),
            "yaml of the lines": lambda: yaml.load(nested, yaml.CSafeLoader),
        }
    )
    times |= interleaved({"100,000 lines": lambda: parse(texts[100_000])}, 3)
    for name, seconds in times.items():
        print(f"{name:24} {seconds * 1000:9.1f} ms")
    whole = times["10,000 lines"]
    print(f"lines a second           {10_000 / whole:9.0f}")
    print(f"C2 against yaml          {whole / times['yaml of the tree']:9.2f}   goal at most 2.0")
    print(f"   against plain lines   {whole / times['yaml of the lines']:9.2f}")
    print(f"C3 100,000 over 1,000    {times['100,000 lines'] / 100 / times['1,000 lines']:9.2f}   goal at most 1.3")
    print(f"C4 2 % bad lines         {times['10,000 lines, 2 % bad'] / whole:9.2f}   goal at most 1.3")


def interleaved(jobs: dict[str, Callable[[], object]], rounds: int = ROUNDS) -> dict[str, float]:
    """Median seconds of each job, the jobs taken in turn."""
    taken: dict[str, list[float]] = {name: [] for name in jobs}
    for _ in range(rounds):
        for name, job in jobs.items():
            gc.collect()
            start = time.perf_counter()
            job()
            taken[name].append(time.perf_counter() - start)
    return {name: statistics.median(seconds) for name, seconds in taken.items()}


def parse(text: str) -> int:
    """Parse, and say how many diagnostics there were."""
    return len(parse_protocol(Source("bench.protocol", text)).diagnostics)


def statements(text: str) -> tuple[tree.Statement, ...]:
    """The tree of a text without mistakes."""
    outcome = parse_protocol(Source("bench.protocol", text))
    assert outcome.value is not None and not outcome.diagnostics, outcome.diagnostics[:3]
    return outcome.value.statements


def demo_text() -> str:
    """All protocol files of the demo as one text."""
    paths = sorted((ROOT / "protocols_demo").rglob("*.protocol"))
    return "".join(path.read_text(encoding="utf-8") + "\n" for path in paths)


def grown(text: str, lines: int) -> str:
    """The text repeated until it has so many lines, each copy with its own names of exercises."""
    copies = []
    number = count = 0
    while count < lines:
        copy = re.sub(r"(?m)^(exercise|question|test|progression|protocol) ([^\n:]*)", rf"\1 \2 v{number}", text)
        copies.append(copy)
        count += copy.count("\n")
        number += 1
    kept = "".join(copies).split("\n")[:lines]
    while kept and (kept[-1].startswith(" ") or not kept[-1].strip()):
        kept.pop()
    return "\n".join(kept[:-1]) + "\n"


def with_mistakes(text: str, share: float) -> str:
    """The text with a letter lost in the first word of some lines, evenly spread."""
    lines = text.split("\n")
    step = int(1 / share)
    for at in range(step // 2, len(lines), step):
        found = re.match(r"( *)([a-z-]{3,})(.*)", lines[at])
        if found:
            cut = at % len(found[2])
            lines[at] = found[1] + found[2][:cut] + found[2][cut + 1 :] + found[3]
    return "\n".join(lines)


def plain_data(node: Any) -> Any:
    """A tree as dictionaries, lists and strings, without places and without what was not written."""
    if isinstance(node, tuple | list):
        return [plain_data(one) for one in node]
    if is_dataclass(node):
        pairs = ((one.name, getattr(node, one.name)) for one in fields(node))
        return {name: plain_data(value) for name, value in pairs if _said(value)}
    return str(node) if isinstance(node, Decimal | Enum) else node


def _said(value: object) -> bool:
    """Whether a field holds something that was written."""
    return isinstance(value, date) or (not isinstance(value, Span) and value not in (None, (), False))


def nested_yaml(text: str) -> str:
    """Every line as a one-entry mapping of its first word to its text, with the lines below as a list."""
    lines = [line for line in text.split("\n") if line.strip() and not line.lstrip().startswith("#")]
    out = []
    for at, line in enumerate(lines):
        indent = len(line) - len(line.lstrip())
        word, _, rest = line.strip().partition(" ")
        deeper = at + 1 < len(lines) and len(lines[at + 1]) - len(lines[at + 1].lstrip()) > indent
        quoted = '"' + f"{word} {rest}".strip().replace("\\", "\\\\").replace('"', '\\"') + '"'
        out.append(f"{' ' * indent}- {quoted}:" if deeper else f"{' ' * indent}- {quoted}")
    return "\n".join(out) + "\n"


if __name__ == "__main__":
    main()
