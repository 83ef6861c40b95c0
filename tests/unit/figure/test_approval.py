"""Approvals of drawings: what they hold on to, how they are kept, and what is said without one."""

from __future__ import annotations

import datetime
import re
import subprocess
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.figure.approval import (
    APPROVED,
    CHANGED,
    FILE,
    NEVER,
    Approval,
    Approvals,
    approve,
    drawing_digest,
    read_approvals,
    written,
)
from protodsl.figure.approval_state import sights
from protodsl.figure.cache import Store
from protodsl.figure.draw.draw import draw
from protodsl.figure.figures import Figures
from protodsl.source import Source
from tests.unit.figure.clinic import LIBRARY, checked, project
from tests.unit.figure.draw.bodies import heel_raise

DAY = datetime.date(2026, 11, 25)


def said(folder: Path) -> list[Diagnostic]:
    """What is said on approvals."""
    return [one for one in checked(folder)[1].diagnostics if one.code.id.startswith("F5")]


def approvals_for(folder: Path, library: str | None = None) -> Approvals:
    """Approvals of all figures of the project as it is."""
    run, found = checked(folder)
    value = found.entries[-1].value
    assert value is not None
    seen = sights(value.scope.exercises.values(), Approvals(), run.figures(), draw_all=True)
    return approve(Approvals(), {one.exercise.name: [one.digest] for one in seen}, DAY, "physiotherapist")


@pytest.fixture
def folder(tmp_path: Path) -> Iterator[Path]:
    """A library with two figures."""
    yield project(tmp_path / "p", protocol="")


def test_a_figure_that_nobody_approved(folder: Path) -> None:
    """F501 at the figure, for each; none once it is approved. Nothing is drawn to say so."""
    found = said(folder)
    assert [one.code.id for one in found] == ["F501", "F501"]
    assert found[0].args["exercise"] == "straighten the knee"
    assert not any("drawn" in file.read_text() for file in (folder.parent / "kept").iterdir())
    (folder / FILE).write_text(written(approvals_for(folder)))
    assert said(folder) == []


def test_a_figure_that_changed_since(folder: Path) -> None:
    """F502, with who approved it when; what draws the same is the same, whatever its words."""
    (folder / FILE).write_text(written(approvals_for(folder)))
    (folder / "library.protocol").write_text(LIBRARY.replace("end knees 60", "end knees 60 # a remark"))
    assert said(folder) == []
    (folder / "library.protocol").write_text(LIBRARY.replace("end knees 60", "end knees 61"))
    (found,) = said(folder)
    assert found.code.id == "F502" and "2026-11-25 by physiotherapist" in found.notes[0]


def test_who_has_not_looked_is_told_what_to_look_for(folder: Path) -> None:
    """A figure that moves the left alone may be a slip: its drawing would be turned round the wrong way."""
    assert all(one.notes == () for one in said(folder))
    left = LIBRARY.replace("right foot", "left foot").replace("right knee", "left knee")
    (folder / "library.protocol").write_text(left)
    noted = {one.args["exercise"]: one.notes for one in said(folder)}
    assert noted["straighten the knee"] and not noted["bend both knees"]


def test_what_works_is_part_of_the_drawing(folder: Path) -> None:
    """Stripes elsewhere are another drawing."""
    (folder / FILE).write_text(written(approvals_for(folder)))
    both = LIBRARY.replace("target front", "target calf: calf\n\ntarget front", 1).replace(
        "  works front of the thigh", "  works calf"
    )
    (folder / "library.protocol").write_text(both)
    assert {one.code.id for one in said(folder)} <= {"F502"}


def test_a_variant_needs_no_approval_of_its_own(folder: Path) -> None:
    """A figure that is taken over unchanged is looked at once; one with a change of its own is another."""
    (folder / FILE).write_text(written(approvals_for(folder)))
    variant = "\nexercise squat at the sink like bend both knees\n  title At the sink\n"
    (folder / "library.protocol").write_text(LIBRARY + variant)
    assert said(folder) == []
    (folder / "library.protocol").write_text(
        LIBRARY + variant + "  figure like bend both knees\n    end but knees 40\n"
    )
    (found,) = said(folder)
    assert found.code.id == "F501" and found.args["exercise"] == "squat at the sink"


def test_a_file_that_a_merge_broke(folder: Path) -> None:
    """F503 at its line, and nothing of single figures: it is not known."""
    text = written(approvals_for(folder)).replace("approved = [\n", "approved = [\n<<<<<<< ours\n")
    (folder / FILE).write_text(text)
    (found,) = said(folder)
    assert found.code.id == "F503"
    assert text[found.primary.span.start : found.primary.span.end] == "<<<<<<< ours"


@pytest.mark.parametrize(
    "text",
    ["", "format = 2\napproved = []", "format = 1\napproved = 3", "format = 1\napproved = [{ exercise = 1 }]", "\x00"],
)
def test_a_file_of_another_kind_is_said(text: str) -> None:
    assert [one.code.id for one in read_approvals(Source(FILE, text)).diagnostics] == ["F503"]


@pytest.mark.parametrize("name", ['a "b" \\ c', "ćwiczenie", "calf\traise", "calf raise"])
def test_what_is_written_is_read(name: str) -> None:
    """As TOML 1.0 by Python's own reader, and back by ours."""
    one = Approvals((Approval(name, "00ff", DAY, 'lead "of" \\ the ward'),))
    text = written(one)
    assert tomllib.loads(text)["approved"][0]["exercise"] == name
    assert read_approvals(Source(FILE, text)).value == one


def test_one_line_a_figure_sorted() -> None:
    """Whoever wrote it, the same figures make the same text, and one approval more is one line more."""
    lines = [Approval(name, "aa", DAY, "lead") for name in ("squat", "bridge", "heel raise")]
    first = written(Approvals(tuple(lines)))
    assert first == written(Approvals(tuple(reversed(lines))))
    names = re.findall(r'exercise = "(.*?)"', first)
    assert names == sorted(names) and first.count("\n  {") == 3
    more = written(approve(Approvals(tuple(lines)), {"clam": ["bb"]}, DAY, "lead"))
    assert len(set(more.splitlines()) - set(first.splitlines())) == 1
    assert set(first.splitlines()) <= set(more.splitlines())


def test_two_colleagues_merge(tmp_path: Path) -> None:
    """Both approve on their own branch, one the same figure; git with `merge=union` keeps the lines of both, and the
    file is read."""
    base = Approvals(tuple(Approval(name, "aa", DAY, "lead") for name in ("bridge", "squat")))
    ours = approve(base, {"clam": ["bb"], "squat": ["cc"]}, DAY, "lead")
    theirs = approve(base, {"curl": ["dd"], "squat": ["ee"]}, DAY, "physiotherapist")

    def git(*words: str) -> None:
        subprocess.run(
            ["git", "-c", "user.name=x", "-c", "user.email=x@example.org", *words],
            cwd=tmp_path,
            check=True,
            capture_output=True,
        )

    git("init", "-q", "-b", "main")
    (tmp_path / ".gitattributes").write_text(f"{FILE} merge=union\n")
    for branch, content in (("main", base), ("theirs", theirs), ("main", ours)):
        if branch == "theirs":
            git("checkout", "-q", "-b", branch)
        elif content is ours:
            git("checkout", "-q", branch)
        (tmp_path / FILE).write_text(written(content))
        git("add", ".")
        git("commit", "-q", "-m", "approve")
    git("merge", "-q", "theirs")
    merged = read_approvals(Source(FILE, (tmp_path / FILE).read_text())).value
    assert merged is not None
    for name, digest in (("bridge", "aa"), ("clam", "bb"), ("curl", "dd"), ("squat", "cc"), ("squat", "ee")):
        assert merged.state(name, digest) == APPROVED
    tidy = approve(merged, {"squat": ["ee"]}, DAY, "lead")
    assert tidy.state("squat", "cc") == CHANGED and tidy.state("lunge", "ff") == NEVER


def test_an_approval_of_a_part_drops_no_other_drawing() -> None:
    """Where not the whole project was looked at, another protocol may still draw the exercise otherwise."""
    base = Approvals((Approval("squat", "aa", DAY, "lead"),))
    assert len(approve(base, {"squat": ["bb"]}, DAY, "lead", whole=False).lines) == 2
    assert len(approve(base, {"squat": ["bb"]}, DAY, "lead").lines) == 1


def test_the_digest_is_of_the_geometry() -> None:
    """Not of names in the file, colours, widths of lines or the size on paper; of every outline."""
    svg = draw(heel_raise()).svg
    same = draw(heel_raise(), prefix="other").svg
    recoloured = re.sub(r"#[0-9a-f]{3,6}", "#123456", re.sub(r'stroke-width="\d+"', 'stroke-width="1"', svg))
    resized = re.sub(r'(width|height)="[\d.]+mm"', r'\1="9mm"', svg)
    assert drawing_digest(svg) == drawing_digest(same) == drawing_digest(recoloured) == drawing_digest(resized)
    assert drawing_digest(svg) != drawing_digest(draw(heel_raise(), mirror=True).svg)
    moved = re.sub(r'd="M(-?\d+)', lambda found: f'd="M{int(found[1]) + 1}', svg, count=1)
    assert drawing_digest(svg) != drawing_digest(moved)


def test_an_impossible_figure_has_no_state(folder: Path) -> None:
    """It has an error; that nobody approved it is not worth a word."""
    (folder / "library.protocol").write_text(
        LIBRARY.replace(
            "start standing, arms forward", "start lying face down, forearms on floor, elbows under shoulders"
        )
        .replace("end knees 60", "end hips 0")
        .replace("    arrow pelvis down\n", "")
    )
    assert [one.args["exercise"] for one in said(folder)] == ["straighten the knee"]
    _, found = checked(folder)
    value = found.entries[0].value
    assert value is not None
    seen = sights(value.scope.exercises.values(), Approvals(), Figures(Store(None)), draw_all=True)
    assert [one.digest == "" for one in seen] == [False, True]
