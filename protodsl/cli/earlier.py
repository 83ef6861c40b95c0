"""Pages of a case from earlier builds: which are there, which still hold, and how one that does not is moved aside."""

from __future__ import annotations

import re
from bisect import bisect_left
from dataclasses import dataclass, field
from pathlib import Path

from protodsl.cli.page_names import CLINICIAN_PAGE, SETTING
from protodsl.formats import SUFFIX_PATTERN

_ENDS = rf"(\.[A-Za-z0-9-]+)?({CLINICIAN_PAGE})?\.({SUFFIX_PATTERN})\Z"


@dataclass(slots=True)
class Earlier:
    """The pages that lay in an output folder when the build began; the folder is read once."""

    folder: Path
    _names: list[str] | None = field(default=None)

    def of(self, case: str) -> tuple[Path, ...]:
        """Those of one case that are still there: in every print, language and format."""
        names = self._listed()
        page = re.compile(re.escape(case) + SETTING.pattern + _ENDS)
        found = []
        for at in range(bisect_left(names, case), len(names)):
            if not names[at].startswith(case):
                break
            if page.match(names[at]) and (self.folder / names[at]).exists():
                found.append(self.folder / names[at])
        return tuple(found)

    def _listed(self) -> list[str]:
        if self._names is None:
            self._names = sorted(path.name for path in self.folder.iterdir()) if self.folder.is_dir() else []
        return self._names


def is_clinicians(path: Path) -> bool:
    """Whether a page is the clinician's, which nobody trains by."""
    return CLINICIAN_PAGE in path.stem


def move_aside(path: Path) -> Path:
    """Give a page a name that nothing has, and that no program opens as a page; OSError where that cannot be."""
    aside = path.with_name(f"{path.name}.withdrawn")
    number = 2
    while aside.exists():
        aside = path.with_name(f"{path.name}.withdrawn-{number}")
        number += 1
    path.rename(aside)
    return aside
