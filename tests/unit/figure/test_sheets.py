"""Figures on the cards of sheets: whose side they show, at what scale, and what is there when one cannot be."""

from __future__ import annotations

import io
import re
import zipfile
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from protodsl.asked import Asked
from protodsl.case_compiler import decide_case, make_case
from protodsl.compiler import make_handout
from protodsl.diagnostics.diagnostic import Severity
from protodsl.figure.draw.curve import UNITS
from protodsl.figure.drawn import SCALE, SMALLEST, Look
from protodsl.figure.mirror import is_mirrored, shown_side
from protodsl.figure.pictures import Plate, drawings
from protodsl.handout.blocks import Picture
from protodsl.handout.phrase import Phrase
from protodsl.model.exercise import Exercise
from protodsl.model.figure_sides import moves_left_alone, names_a_side
from protodsl.render import Style
from protodsl.run import Run
from tests.unit.figure.clinic import CASE, LIBRARY, PROTOCOL, checked, project, sheet
from tests.unit.figure.solve.reading import figure

ONE_SIDED = "start sitting, trunk upright, hands on chair\nend lift right foot, right knee 0"
BOTH = "start standing, arms forward\nend knees 60"
IMPOSSIBLE = LIBRARY.replace(
    "start standing, arms forward\n    end knees 60\n    arrow pelvis down",
    "start lying face down, forearms on floor, elbows under shoulders\n    end hips 0",
)


def test_a_figure_stands_on_its_card(tmp_path: Path) -> None:
    """The drawing with its words, a caption a panel, what the stripes mark, and the side that it shows."""
    page, _ = sheet(project(tmp_path / "p"))
    drawn = re.findall(r'<svg[^>]*role="img"[^>]*><title>(.*?)</title>', page)
    assert len(drawn) == 2
    assert "the right foot lifts off" in drawn[0] and "both knees bend to 60 degrees" in drawn[1]
    assert page.count("<span>1 Start</span><span>2 End</span>") == 2
    notes = re.findall(r'<p class="note">(.*?)</p>', page)
    assert notes[0].endswith("Shown for the right side.")
    assert not any("right side" in note for note in notes[1:])


def test_a_project_without_figures_has_none(tmp_path: Path) -> None:
    """No plate, no word on approvals, and nothing that a digest would have to cover."""
    bare = re.sub(r"  figure\n(    .*\n)+", "", LIBRARY)
    page, found = sheet(project(tmp_path / "p", bare))
    assert "<figure" not in page and "<svg" not in page
    assert not [one for one in found.diagnostics if one.code.id.startswith("F")]
    assert not (tmp_path / "kept").exists()


def test_a_figure_that_cannot_be_is_said_and_not_drawn(tmp_path: Path) -> None:
    """An error at its place, in one run with all else that is wrong; nothing is shown or said of it on a sheet."""
    protocol = PROTOCOL.format(side="each side, ")
    folder = project(tmp_path / "p", IMPOSSIBLE, protocol.replace("  source", "  sources"))
    _, found = checked(folder)
    said = {one.code.id: one for one in found.diagnostics if one.severity is Severity.ERROR}
    assert said["F201"].primary.span.path == "library.protocol"
    assert {one.primary.span.path for one in said.values()} == {"library.protocol", "knee.protocol"}
    run, found = checked(project(tmp_path / "p", IMPOSSIBLE, protocol))
    entry = run.entry("knee.protocol")
    assert entry.value is not None and "F201" in {one.code.id for one in entry.diagnostics}
    made = make_handout(found, entry, entry.value.protocols[0], Asked(formats=("html",)))
    assert made.value is not None
    page = made.value["html"].decode()
    assert page.count('role="img"') == page.count("<figcaption") == 1


@pytest.mark.parametrize("affected", ["right", "left", None])
@pytest.mark.parametrize("sides", ["affected", "each", None])
@pytest.mark.parametrize("lines", [ONE_SIDED, BOTH])
def test_whose_side_is_drawn(affected: str | None, sides: str | None, lines: str) -> None:
    """Turned round for the left side of a person, where one side is shown and the dose is not for each."""
    drawn = figure(lines)
    one_sided = lines == ONE_SIDED
    expected = one_sided and affected == "left" and sides != "each"
    assert is_mirrored(drawn, sides, affected) is expected
    open_question = one_sided and (affected is None or sides == "each")
    assert shown_side(drawn, sides, affected) == ("right" if open_question else None)


@pytest.mark.parametrize("side", ["right", "left", "both, worse left", "none"])
@pytest.mark.parametrize("dose", ["affected side, ", "each side, ", ""])
@pytest.mark.parametrize("language", ["en", "ar"])
def test_a_persons_sheet_shows_their_side(side: str, dose: str, language: str, tmp_path: Path) -> None:
    """The words say the side that is drawn; the language that is read from right to left turns no body round."""
    folder = project(
        tmp_path / "p", protocol=PROTOCOL.format(side=dose), case=CASE.format(side=side, language=language)
    )
    run, found = checked(folder)
    (case,) = found.cases
    assert case.person is not None
    plan = replace(Asked(formats=("html",)), language=language)
    decided = decide_case(case.person, run).value
    assert decided is not None and decided.plan is not None
    pictured = run.pictured_for(decided.plan, plan).pictures
    picture = pictured["straighten the knee"]
    left = side in ("left", "both, worse left") and dose != "each side, "
    assert ("figure.part.foot.left" in str(picture.alternative)) is left
    assert ("figure.part.foot.right" in str(picture.alternative)) is not left
    plain = run.figures()
    exercise = decided.plan.protocol.scope.exercises["straighten the knee"]
    assert exercise.figure is not None
    look = Look(mirror=left, leftward=language == "ar")
    expected = plain.drawn(exercise.figure, exercise.works, look)
    assert expected is not None and picture.svg == expected.named("f1")
    open_question = dose == "each side, " or side == "none"
    assert ("figure.shown.right" in str(picture.note)) is open_question


def test_a_page_from_right_to_left_turns_the_panels_and_no_body(tmp_path: Path) -> None:
    """The path of a body is the same in both directions but for where it is put."""
    run, found = checked(project(tmp_path / "p"))
    exercise = next(iter(found.entries[0].value.scope.exercises.values()))  # type: ignore[union-attr]
    assert exercise.figure is not None
    figures = run.figures()
    there, back, turned = (
        figures.drawn(exercise.figure, exercise.works, look)
        for look in (Look(), Look(leftward=True), Look(mirror=True))
    )
    assert there and back and turned
    shapes = [re.sub(r"M-?[\d.]+[ ,]-?[\d.]+", "M", one.svg) for one in (there, back, turned)]
    paths = [sorted(re.findall(r'd="([^"]*)"', one)) for one in shapes]
    assert paths[0] == paths[1] != paths[2]
    assert there.svg != back.svg


def test_a_persons_sheet_is_made_with_their_figures(tmp_path: Path) -> None:
    """As HTML and as a tagged PDF whose figures have their words; no safety line is lost."""
    folder = project(tmp_path / "p", case=CASE.format(side="left", language="en"))
    run, found = checked(folder)
    made = make_case(found.cases[0], run, {"sheet": Asked(formats=("html", "pdf"))})
    assert made.value is not None and made.diagnostics == ()
    pages = made.value.pages["sheet"]
    assert pages["html"].decode().count('role="img"') == 2
    reader = PdfReader(io.BytesIO(pages["pdf"]))
    words = [str(node["/Alt"]) for node in _figures(reader.trailer["/Root"]["/StructTreeRoot"])]  # type: ignore[index]
    assert any("the left foot lifts off" in one for one in words)
    assert "Does your knee hurt?" in "".join(page.extract_text() for page in reader.pages)


def test_a_figure_changed_for_one_person_is_held_against_the_same(tmp_path: Path) -> None:
    """What no body can do is an error of the case; what can be done is drawn on the sheet, and asks for no approval."""
    change = "  from 2026-11-02 change bend both knees\n    figure\n      {lines}\n    because it hurts less so\n"
    case = CASE.format(side="left", language="en")
    impossible = "start lying face down, forearms on floor, elbows under shoulders\n      end hips 0"
    changed = case + change.format(lines=impossible)
    _, found = checked(project(tmp_path / "p", case=changed))
    assert [one.code.id for one in found.cases[0].diagnostics if one.severity is Severity.ERROR] == ["F201"]
    changed = case + change.format(lines="start standing, arms forward\n      end knees 30")
    run, found = checked(project(tmp_path / "p", case=changed))
    assert not [one for one in found.cases[0].diagnostics if one.code.id.startswith("F5")]
    made = make_case(found.cases[0], run, {"sheet": Asked(formats=("html",))})
    assert made.value is not None
    assert "both knees bend to 30 degrees" in made.value.pages["sheet"]["html"].decode()


def test_documents_and_text_have_the_words_or_the_picture(tmp_path: Path) -> None:
    """What shows no picture says in words what is drawn; what shows it carries the note."""
    run, found = checked(project(tmp_path / "p"))
    entry = run.entry("knee.protocol")
    assert entry.value is not None
    made = make_handout(found, entry, entry.value.protocols[0], Asked(formats=("txt", "md", "docx", "epub")))
    assert made.value is not None and made.diagnostics == ()
    for name in ("txt", "md"):
        assert "the right foot lifts off" in " ".join(made.value[name].decode().split())
    word = zipfile.ZipFile(io.BytesIO(made.value["docx"]))
    assert sum(name.startswith("word/media/") for name in word.namelist()) == 2
    assert "Shown for the right side." in word.read("word/document.xml").decode()
    book = zipfile.ZipFile(io.BytesIO(made.value["epub"]))
    assert sum(book.read(name).count(b"<svg") for name in book.namelist() if name.endswith(".xhtml")) >= 2


def test_one_scale_on_a_sheet(tmp_path: Path) -> None:
    """Where one figure lacks room all are drawn smaller; where that is too small, one panel with a shadow is drawn."""
    run, found = checked(project(tmp_path / "p"))
    assert UNITS == 3
    value = found.entries[0].value
    assert value is not None
    exercises = {name: one for name, one in value.scope.exercises.items() if one.figure is not None}
    wide = max(_width(one.svg) for one in _pictures(exercises, Plate(500, 500), run).values())
    narrow = _pictures(exercises, Plate(wide * 0.8, wide * 0.8), run)
    heights = [_stature(one.svg) for one in narrow.values()]
    assert max(heights) - min(heights) < 0.01 * max(heights)
    assert SMALLEST <= heights[0] < SCALE
    assert all(_width(one.svg) <= wide * 0.8 + 0.1 for one in narrow.values())
    least = _pictures(exercises, Plate(30, 30), run)
    assert all(len(one.captions) == 1 for one in least.values())


def test_the_plates_are_as_wide_as_the_style_sheets_have_them() -> None:
    """Paper less its margins; large print takes of it what its letters do."""
    assert Style().plate == Style().wide_plate == 178
    assert round(Style(paper="Letter").plate, 1) == 183.9
    assert round(Style(large_print=True).plate, 1) == 125.6
    compact = Style(compact=True)
    assert compact.plate < compact.wide_plate < 178
    css = (Path(__file__).parents[3] / "templates/compact.css").read_text()
    assert "width: 16.2rem" in css and "width: 21rem" in css and "padding: .1rem .2rem" in css


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        (BOTH, False),
        (ONE_SIDED, True),
        ("start standing\nend right knee 60, left knee 60, lift right heel, lift left heel", False),
        ("start lying on left side", True),
        ("start half-kneeling right foot forward", True),
        ("start standing\nend trunk rotation 20 to right", True),
        (
            "band from right hand to left hand\nstart standing\nend elbows 90\n"
            "arrow right hand out\narrow left hand out",
            False,
        ),
    ],
)
def test_which_figures_show_one_side(lines: str, expected: bool) -> None:
    """What says the same of both sides shows none, however it is written."""
    assert names_a_side(figure(lines)) is expected


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        (ONE_SIDED, False),
        (BOTH, False),
        ("start lying on right side, knees 90\nend left hip external rotation 40\narrow left knee up", True),
        ("start standing\nend lift left foot, left knee 60", True),
        ("start standing\nend lift left foot, left knee 60, right knee 10", False),
        ("start standing, left hand on table\ntable 90 cm on left\nend knees 40\narrow pelvis down", False),
    ],
)
def test_which_figures_move_the_left_alone(lines: str, expected: bool) -> None:
    """By the arrows, and without any by what a later pose says; a hand that holds on does not move."""
    assert moves_left_alone(figure("\n".join(sorted(lines.split("\n"), key=_props_first)))) is expected


def _props_first(line: str) -> bool:
    return not line.startswith("table")


def _pictures(exercises: Mapping[str, Exercise], plate: Plate, run: Run) -> dict[str, Picture[Phrase]]:
    return drawings(exercises, {}, {}, plate, run.figures())


def _width(svg: str) -> float:
    found = re.search(r'width="([\d.]+)mm"', svg)
    assert found is not None
    return float(found[1])


def _stature(svg: str) -> float:
    """Millimetres a stature, from the size on paper and the units of the drawing (three a centimetre)."""
    box = re.search(r'viewBox="0 0 (\d+)', svg)
    assert box is not None
    return _width(svg) / int(box[1]) * 3 * 170


def _figures(node: Any) -> Iterator[Any]:
    node = node.get_object()
    if isinstance(node, dict):
        if node.get("/S") == "/Figure":
            yield node
        kids = node.get("/K")
        for kid in kids if isinstance(kids, list) else [kids] if kids is not None else []:
            if hasattr(kid, "get_object"):
                yield from _figures(kid)
