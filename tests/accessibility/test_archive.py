"""A PDF to be kept: PDF/A-3a and PDF/UA-1 at once, holding what it was made from and nothing else."""

from __future__ import annotations

import io
from pathlib import Path
from typing import Any

import pypdf
import pytest

from protodsl.cli.main import main
from protodsl.render import SOURCE, Attachment, Style, pdf
from protodsl.render.archival import named
from tests.accessibility import verapdf
from tests.accessibility.pages import DEMO, REFERRED
from tests.unit.render import sample

CASE = "P-0423"


def kept(folder: Path, case: str | None = None) -> dict[str, bytes]:
    """What `build --archive` makes of one of the demo's cases, by the names of the files."""
    import shutil

    project = folder / "clinic"
    shutil.copytree(DEMO, project)
    path = project / "cases" / f"{CASE}.case"
    if case is not None:
        path.write_text(case, encoding="utf-8")
    main(["build", str(path), "--archive", "--to", "pdf", "--as-of", "2026-11-25", "--output", str(folder / "out")])
    return {one.name: one.read_bytes() for one in sorted((folder / "out").glob("*.pdf"))}


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> dict[str, bytes]:
    """Both pages of a person with a plan."""
    return kept(tmp_path_factory.mktemp("kept"))


@pytest.mark.parametrize("flavour", [verapdf.PDF_UA_1, verapdf.PDF_A_3A])
def test_it_is_both(made: dict[str, bytes], flavour: str) -> None:
    """ISO 14289-1:2014, and ISO 19005-3:2012 at level A, by veraPDF."""
    assert set(made) == {f"{CASE}.pdf", f"{CASE}-clinician.pdf"}
    for data in made.values():
        assert verapdf.validate(data, flavour).failures == ()


def test_with_figures_and_without_attachments_it_is_both() -> None:
    data = pdf(sample.sheet(), Style(), ()).value
    assert data is not None
    assert verapdf.validate(data, verapdf.PDF_UA_1).failures == ()
    assert verapdf.validate(data, verapdf.PDF_A_3A).failures == ()


def test_an_ordinary_pdf_is_not_meant_to_be_kept() -> None:
    """The validator tells the two apart: there is no claim of PDF/A (ISO 19005-3:2012, 6.6.4)."""
    data = pdf(sample.sheet(), Style()).value
    assert data is not None
    assert any(one.startswith("6.6.4-") for one in verapdf.validate(data, verapdf.PDF_A_3A).failures)


def test_a_person_takes_home_the_protocol_and_the_calendar(made: dict[str, bytes]) -> None:
    """Byte for byte as the files of the project, and the calendar as `--to ics` makes it."""
    files = attached(made[f"{CASE}.pdf"])
    assert list(files) == [f"{CASE}.ics", "achilles.protocol", "library-common.protocol", "library-leg.protocol"]
    assert files["achilles.protocol"] == (DEMO / "achilles.protocol").read_bytes()
    assert files["library-leg.protocol"] == (DEMO / "library" / "leg.protocol").read_bytes()
    assert files[f"{CASE}.ics"].startswith(b"BEGIN:VCALENDAR") and b"BEGIN:VEVENT" in files[f"{CASE}.ics"]


def test_nothing_of_the_case_file_is_inside(made: dict[str, bytes]) -> None:
    """No line of it: no answers, no reasons, no notes; and the clinician's page has no calendar."""
    lines = [line.strip() for line in (DEMO / "cases" / f"{CASE}.case").read_text(encoding="utf-8").splitlines()]
    assert len(lines) > 10
    for data in made.values():
        for file in attached(data).values():
            assert not [line for line in lines if line and line.encode() in file]
    assert not [name for name in attached(made[f"{CASE}-clinician.pdf"]) if name.endswith(".ics")]


def test_with_a_danger_sign_nothing_is_inside(tmp_path: Path) -> None:
    """No calendar, and no protocol with its exercises either: the page that sends somebody away names none."""
    text = (DEMO / "cases" / f"{CASE}.case").read_text(encoding="utf-8")
    before, day, after = text.rpartition("  on 2026-11-25\n")
    files = kept(tmp_path, before + day + REFERRED[1] + after.replace("fever, ", "", 1))
    assert list(files) == [f"{CASE}.pdf"]
    assert attached(files[f"{CASE}.pdf"]) == {}
    assert verapdf.validate(files[f"{CASE}.pdf"], verapdf.PDF_A_3A).failures == ()
    assert verapdf.validate(files[f"{CASE}.pdf"], verapdf.PDF_UA_1).failures == ()


def test_it_is_the_same_file_twice(made: dict[str, bytes], tmp_path: Path) -> None:
    assert kept(tmp_path) == made


def test_each_file_says_what_it_is_to_the_page(made: dict[str, bytes]) -> None:
    """ISO 32000-2:2020, 7.11.3 and 14.13: a source or a supplement, each once in the list of associated files."""
    root: Any = pypdf.PdfReader(io.BytesIO(made[f"{CASE}.pdf"])).root_object
    files = [one.get_object() for one in root["/AF"]]
    kinds = {str(one["/UF"]): str(one["/AFRelationship"]) for one in files}
    assert len(files) == len(kinds) == 4
    assert {name for name, kind in kinds.items() if kind == "/Supplement"} == {f"{CASE}.ics"}
    assert set(kinds.values()) == {"/Source", "/Supplement"}


def test_names_hold_no_folder_and_none_is_there_twice() -> None:
    """Also where a library lies beside the project."""
    paths = ("b/leg.protocol", "../b/leg.protocol", "a.protocol")
    files = named(Attachment(path, "text/plain", SOURCE, path.encode()) for path in paths)
    assert [one.name for one in files] == ["a.protocol", "b-leg.protocol", "other-b-leg.protocol"]


def attached(data: bytes) -> dict[str, bytes]:
    """The files inside, by name, in order."""
    return {name: contents[0] for name, contents in pypdf.PdfReader(io.BytesIO(data)).attachments.items()}
