"""Which projects the paths on the command line belong to, and what spreads work over all processors."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any

from protodsl.project import Project, open_project


def in_parallel(jobs: Sequence[int], work: Callable[[int], Any]) -> Iterator[Any]:
    """What `work` makes of each job, on all processors; loaded only where there is something to do."""
    from protodsl.batch import in_parallel as spread

    return spread(jobs, work)


def open_projects(paths: Iterable[Path]) -> list[tuple[Project, tuple[Path, ...]]]:
    """Each project once, in the order first met, with the paths that lie in it."""
    projects: dict[Path, Project] = {}
    belonging: dict[Path, list[Path]] = {}
    for path in paths:
        project = open_project(path)
        projects.setdefault(project.root, project)
        belonging.setdefault(project.root, []).append(path)
    return [(project, tuple(belonging[root])) for root, project in projects.items()]
