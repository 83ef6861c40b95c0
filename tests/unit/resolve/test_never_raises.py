"""Nothing a person can write makes resolve raise: demo protocols with lines lost, moved, doubled and mixed up."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.resolve import Cache, resolve
from tests.unit.resolve.shelf import Files

DEMO = Path(__file__).resolve().parents[3] / "protocols_demo"
TEXTS = {path.relative_to(DEMO).as_posix(): path.read_text("utf-8") for path in sorted(DEMO.rglob("*.protocol"))}
PROTOCOLS = [path for path in TEXTS if "/" not in path]


def broken(text: str, chance: random.Random) -> str:
    """The text with a few lines lost, moved, doubled, or given words of other lines."""
    lines = text.splitlines()
    words = text.split()
    for _ in range(chance.randint(1, 8)):
        at, other = chance.randrange(len(lines)), chance.randrange(len(lines))
        match chance.randint(0, 5):
            case 0:
                del lines[at]
            case 1:
                lines.insert(other, lines[at])
            case 2:
                lines[at], lines[other] = lines[other], lines[at]
            case 3:
                parts = lines[at].split(" ")
                parts[chance.randrange(len(parts))] = chance.choice(words)
                lines[at] = " ".join(parts)
            case 4:
                lines[at] = "  " + lines[at]
            case _:
                lines[at] = lines[at].removeprefix("  ")
    return "\n".join(lines) + "\n"


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.sampled_from(PROTOCOLS), st.integers(0, 2**32))
def test_a_damaged_project_is_resolved_to_the_end(entry: str, seed: int) -> None:
    """There is a model, every diagnostic has its place in a file, and the same text says the same twice."""
    chance = random.Random(seed)
    files = Files({path: broken(text, chance) if chance.random() < 0.5 else text for path, text in TEXTS.items()})
    first = resolve(entry, files, Cache())
    assert first.value is not None
    assert all(placed(one, files) for one in first.diagnostics)
    assert resolve(entry, files, Cache()) == first


def placed(one: Diagnostic, files: Files) -> bool:
    """Whether a diagnostic and all its labels lie inside the texts."""
    spans = [one.primary.span, *(label.span for label in one.secondary), *([one.fix.span] if one.fix else [])]
    return all(0 <= span.start < span.end <= len(files.texts[span.path]) for span in spans)


@pytest.mark.parametrize("entry", PROTOCOLS)
def test_the_demo_is_without_mistakes(entry: str) -> None:
    files = Files(TEXTS)
    outcome = resolve(entry, files)
    assert not files.said
    assert not outcome.diagnostics
