"""Which projects the paths on the command line belong to."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from protodsl.project import Project, open_project


def open_projects(paths: Iterable[Path]) -> list[tuple[Project, tuple[Path, ...]]]:
    """Each project once, in the order first met, with the paths that lie in it."""
    projects: dict[Path, Project] = {}
    belonging: dict[Path, list[Path]] = {}
    for path in paths:
        project = open_project(path)
        projects.setdefault(project.root, project)
        belonging.setdefault(project.root, []).append(path)
    return [(project, tuple(belonging[root])) for root, project in projects.items()]
