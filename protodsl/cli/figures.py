"""`protodsl figures`: every figure on one page, for somebody to look at, and the approval of those that are right."""

from __future__ import annotations

import argparse
import sys
from datetime import date
from pathlib import Path

from protodsl.checking import exercises_with_figures
from protodsl.cli.files import write_all
from protodsl.cli.gallery import Gallery
from protodsl.cli.report import from_here, say, show, status, wants_colour
from protodsl.cli.status import ERRORS, WRONG_USE
from protodsl.cli.work import in_parallel, open_projects
from protodsl.compiler import check_files, draw_ahead, open_run
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.project import unwritable
from protodsl.diagnostics.suggest import nearest
from protodsl.figure.approval import APPROVED, FILE, Approvals, approve, written
from protodsl.figure.approval_state import IMPOSSIBLE, sights
from protodsl.project import Project, shown
from protodsl.source import Source

_STEM = "figures"
_SUFFIXES = (".html", ".pdf")


def run(arguments: argparse.Namespace) -> int:
    """Approve what is asked for, then write the page; with nothing to approve, the page alone."""
    wrong = _wrong_use(arguments)
    if wrong:
        say(f"protodsl: {wrong}")
        return WRONG_USE
    found: list[Diagnostic] = []
    sources: dict[str, Source] = {}
    galleries = [_gallery(project, paths) for project, paths in open_projects(arguments.paths)]
    unknown = _unknown(arguments.approve, galleries)
    if unknown:
        say(f"protodsl: {unknown}")
        return WRONG_USE
    refused = False
    for gallery in galleries:
        said: list[Diagnostic] = []
        if arguments.approve or arguments.approve_all:
            refused |= _approve(gallery, arguments, said)
        else:
            _write_page(gallery, arguments, said)
        everything = (*_of_figures(gallery), *said)
        diagnostics, texts = from_here(everything, gallery.run.sources(), gallery.project.root)
        found.extend(diagnostics)
        sources.update(texts)
    show(tuple(found), sources, "text", sys.stderr, wants_colour(sys.stderr, arguments.no_color))
    return ERRORS if refused else status(found, arguments.strict)


def _wrong_use(arguments: argparse.Namespace) -> str:
    """What is wrong with the options together; "" for nothing."""
    approving = arguments.approve or arguments.approve_all
    if approving and not (arguments.by or "").strip():
        return "who has looked at them? `--by physiotherapist`, a role and no name"
    if arguments.by and not approving:
        return "`--by` goes with `--approve NAME` or `--approve-all`"
    if arguments.output and arguments.output.suffix not in _SUFFIXES:
        return f"`{arguments.output}` is neither .html nor .pdf"
    return ""


def _gallery(project: Project, paths: tuple[Path, ...]) -> Gallery:
    run = open_run(project, date.today(), parallel=in_parallel)
    checked = check_files(run, paths, with_cases=False)
    draw_ahead(checked)
    approvals = run.approvals().value or Approvals()
    found = sights(exercises_with_figures(checked.entries), approvals, run.figures(), draw_all=True)
    return Gallery(run, checked, found, project.is_whole(paths))


def _unknown(names: list[str], galleries: list[Gallery]) -> str:
    """The first name that no figure has; "" where all are known."""
    known = {name for gallery in galleries for sight in gallery.sights for name in sight.names}
    for name in names:
        if name not in known:
            meant = nearest(name, sorted(known))
            return f"no exercise `{name}` with a figure{f'; did you mean `{meant}`?' if meant else ''}"
    return ""


def _of_figures(gallery: Gallery) -> tuple[Diagnostic, ...]:
    """What is said of figures themselves; whether they are approved stands on the page."""
    return (*gallery.said, *gallery.run.approvals().diagnostics)


def _approve(gallery: Gallery, arguments: argparse.Namespace, said: list[Diagnostic]) -> bool:
    """Write the approvals; True where one that was asked for cannot be given."""
    before = gallery.run.approvals().value
    if before is None:
        say(f"protodsl: {FILE} cannot be read, so nothing was approved")
        return True
    wanted = [one for one in gallery.sights if arguments.approve_all or set(one.names) & set(arguments.approve)]
    refused = [one for one in wanted if one.state == IMPOSSIBLE]
    for one in refused:
        say(f"protodsl: `{one.exercise.name}` cannot be approved: no body can do what its figure says")
    fresh = [one for one in wanted if one.state not in (IMPOSSIBLE, APPROVED)]
    drawings: dict[str, set[str]] = {}
    for one in gallery.sights:
        if one.exercise.name in {sight.exercise.name for sight in fresh} and (one in fresh or one.state == APPROVED):
            drawings.setdefault(one.exercise.name, set()).add(one.digest)
    by = " ".join(arguments.by.split())
    after = approve(before, drawings, arguments.on or date.today(), by, gallery.whole)
    path = gallery.project.root / FILE
    if fresh:
        try:
            write_all({path: written(after).encode()})
        except OSError as error:
            said.append(unwritable(shown(path), error.strerror or "It cannot be opened"))
            return True
    for one in fresh:
        print(f"approved: {one.exercise.name} ({one.digest})")
    already = sum(one.state == APPROVED for one in wanted)
    if already:
        print(f"approved before and unchanged: {already}")
    return bool(refused)


def _write_page(gallery: Gallery, arguments: argparse.Namespace, said: list[Diagnostic]) -> None:
    """Write the page, in both formats or the one that was named."""
    from protodsl.cli.figures_page import page_of
    from protodsl.render.contact_sheet import contact_sheet
    from protodsl.render.style import Style

    if not gallery.sights:
        say("protodsl: there is no figure here")
        return
    folder = Path(".") / gallery.project.root / gallery.project.clinic.output
    places = [arguments.output] if arguments.output else [folder / f"{_STEM}{suffix}" for suffix in _SUFFIXES]
    forms = tuple(place.suffix.removeprefix(".") for place in places)
    made = contact_sheet(page_of(gallery), Style(paper=gallery.project.clinic.paper), forms)
    said.extend(made.diagnostics)
    files = {
        place: (made.value or {})[form] for place, form in zip(places, forms, strict=True) if form in (made.value or {})
    }
    try:
        write_all(files)
    except OSError as error:
        said.append(unwritable(shown(Path(error.filename or folder)), error.strerror or "It cannot be opened"))
        return
    for path in files:
        print(shown(path), flush=True)
