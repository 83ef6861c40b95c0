"""Where a danger sign is there or not known, nothing that is handed on holds an exercise."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from protodsl.cli import main
from protodsl.decide.plan import REFER, UNANSWERED
from protodsl.exchange.export import export_plan
from tests.unit.exchange import demo

WHYS = (REFER, UNANSWERED)


@pytest.mark.parametrize("why", WHYS)
@pytest.mark.parametrize("case", demo.CASES)
@pytest.mark.parametrize("form", demo.DATA)
def test_no_format_holds_an_exercise(form: str, case: str, why: str) -> None:
    """No title, no name and no step of any exercise, progression or phase of the protocol is in the file."""
    plan = demo.refused(case, why)
    made = (demo.plan_file(form, plan, demo.decided(case).previous) or b"").decode()
    scope = plan.protocol.scope
    for exercise in scope.exercises.values():
        assert f'"{exercise.name}"' not in made and exercise.title.text not in made
        assert not [step.text for step in exercise.do if step.text in made]
    assert not [one.name for one in scope.progressions.values() if f'"{one.name}"' in made]


@pytest.mark.parametrize("case", demo.CASES)
@pytest.mark.parametrize("form", demo.DATA)
def test_the_same_case_without_a_danger_sign_does(form: str, case: str) -> None:
    """The test above can fail: what is planned is in every format."""
    made = demo.case_file(form, case).decode().replace("\r\n ", "")
    for item in demo.decided(case).plan.items:
        assert item.exercise.title.text.replace(",", "\\,") in made or item.exercise.title.text in made


@pytest.mark.parametrize("why", WHYS)
@pytest.mark.parametrize("form", ["ics", "csv"])
def test_no_calendar_and_no_table(form: str, why: str) -> None:
    """P960: a format that cannot say why there is nothing is not made, and that is said."""
    made = export_plan(form, demo.refused("P-0417", why), demo.clinic(), demo.options())
    assert made.value is None
    assert [one.code.id for one in made.diagnostics] == ["P960"]


@pytest.mark.parametrize("why", WHYS)
def test_json_says_why_and_what_to_answer(why: str) -> None:
    """The document says that it is refused, which sign it is, and the questions that are open, without their uses."""
    made = json.loads(demo.plan_file("json", demo.refused("P-0417", why)) or b"")
    assert made["refused"] == why
    truths = {one["truth"] for one in made["emergencies"]}
    assert ("yes" if why == REFER else "unknown") in truths
    assert not any(question["uses"] for question in made["questions"])
    assert any("112" in one for one in made["stop"])


@pytest.mark.parametrize("why", WHYS)
@pytest.mark.parametrize("form", ["fhir-r5", "fhir-r4b"])
def test_a_care_plan_on_hold(form: str, why: str) -> None:
    """A care plan on hold with no activity and no goal; its note says what to do first."""
    bundle = json.loads(demo.plan_file(form, demo.refused("P-0417", why)) or b"")
    kinds = [entry["resource"]["resourceType"] for entry in bundle["entry"]]
    assert kinds == ["CarePlan", "Provenance"]
    care_plan = bundle["entry"][0]["resource"]
    assert care_plan["status"] == "on-hold"
    assert not care_plan.keys() & {"activity", "goal"}
    said = {REFER: "Do not exercise. Get help now.", UNANSWERED: "A flag is not known"}[why]
    assert care_plan["note"][0]["text"].startswith(said)


def test_the_command_line_moves_the_old_calendar_away(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A calendar from before does not stay; a page that a person can read is made although none was asked for."""
    case = _project(tmp_path)
    monkeypatch.chdir(tmp_path)
    assert main(["build", "cases", "--no-clinician", "--to", "ics,json"]) == 0
    assert (tmp_path / "handouts/P-0438.ics").exists()
    text = case.read_text("utf-8")
    assert "no: chest pain, sudden breathlessness, stroke signs, hit head, new numbness" in text
    case.write_text(text.replace("  next visit", "  on 2026-11-26\n    yes: chest pain\n  next visit"), "utf-8")
    main(["build", "cases", "--no-clinician", "--to", "ics,json"])
    assert "P960" in capsys.readouterr().err
    files = {path.name for path in (tmp_path / "handouts").iterdir() if not path.name.startswith(".")}
    assert files == {"P-0438.html", "P-0438.json", "P-0438.ics.withdrawn"}
    assert json.loads((tmp_path / "handouts/P-0438.json").read_bytes())["items"] == []


def test_the_command_line_where_a_sign_is_not_answered(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """What was there before is moved away; the document for programs says that the plan waits for an answer."""
    case = _project(tmp_path)
    monkeypatch.chdir(tmp_path)
    assert main(["build", "cases", "--no-clinician", "--to", "ics,csv,fhir-r5"]) == 0
    text = case.read_text("utf-8").replace("  next visit", "  on 2026-11-26\n    unknown: chest pain\n  next visit")
    case.write_text(text, "utf-8")
    main(["build", "cases", "--no-clinician", "--to", "ics,csv,fhir-r5"])
    assert capsys.readouterr().err.count("P960") >= 2
    files = {path.name for path in (tmp_path / "handouts").iterdir() if not path.name.startswith(".")}
    assert files == {"P-0438.fhir-r5.json", "P-0438.ics.withdrawn", "P-0438.csv.withdrawn"}
    bundle = json.loads((tmp_path / "handouts/P-0438.fhir-r5.json").read_bytes())
    assert bundle["entry"][0]["resource"]["status"] == "on-hold"


def _project(place: Path) -> Path:
    """A copy of what one case of the demo needs; the file of the case."""
    beside = [path for folder in ("library", "pictures") for path in (demo.DEMO / folder).iterdir() if path.is_file()]
    for name in (
        "clinic.toml",
        "falls.protocol",
        "cases/P-0438.case",
        *(f"{one.parent.name}/{one.name}" for one in beside),
    ):
        (place / name).parent.mkdir(exist_ok=True)
        (place / name).write_bytes((demo.DEMO / name).read_bytes())
    (place / "templates").mkdir()
    return place / "cases/P-0438.case"
