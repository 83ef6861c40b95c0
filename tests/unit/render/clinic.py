"""A clinic's own templates folder, written for one test."""

from pathlib import Path
from typing import Any

from protodsl.outcome import Outcome
from protodsl.render import Style


def style(folder: Path, **files: str) -> Style:
    """The style with a templates folder that holds these files; `__` in a name stands for `.`, `_in_` for a folder."""
    for name, text in files.items():
        path = folder / name.replace("_in_", "/").replace("__", ".")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return Style(template_folder=folder)


def codes(outcome: Outcome[Any]) -> list[str]:
    """The codes of what was said."""
    return [one.code.id for one in outcome.diagnostics]
