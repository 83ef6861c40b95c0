"""Every folder `bad/CODE-slug/CASE/` holds what is wrong and, in `expected.txt`, all that a person sees of it.

`PROTODSL_WRITE_EXPECTED=1 python -m pytest tests/cases/test_bad.py` writes `expected.txt` anew; read the difference
before it is committed. A case brings its own `clinic.toml` or has the one that lies here; a case that is about having
none holds an empty file `no-clinic`.
"""

import os
import re
from pathlib import Path

import pytest

from protodsl.diagnostics.registry import codes
from tests.cases.running import CASES, EXPECTED, as_seen, check_folder

BAD = CASES / "bad"
FOLDERS = sorted(path for path in BAD.glob("*/*") if path.is_dir())
WRITE = bool(os.environ.get("PROTODSL_WRITE_EXPECTED"))

# Codes that no folder of input can show; the test that does, by file and name.
SHOWN_BY_TEST = {
    "G104": "tests/unit/translate/test_sheets.py::test_no_sheet_without_words_for_all_of_it",
    "G105": "tests/unit/translate/test_sheets.py::test_a_draft_says_so_on_every_page",
    "G106": "tests/unit/translate/test_sheets.py::test_a_referral_is_not_kept_back_for_want_of_words",
    "G121": "tests/unit/translate/test_bad_catalogues.py::test_bytes_that_are_not_utf_8",
    "G123": "tests/unit/translate/test_bad_catalogues.py::test_a_byte_order_mark_is_named_and_read",
    "F302": "tests/unit/figure/test_images.py::test_a_picture_that_is_too_large",
    "F303": "tests/unit/figure/test_images.py::test_what_is_no_picture",
    "F304": "tests/unit/figure/test_images.py::test_a_picture_of_an_absurd_size",
    "F305": "tests/unit/figure/test_images.py::test_an_svg_that_is_not_safe",
    "F501": "tests/unit/figure/test_approval.py::test_a_figure_that_nobody_approved",
    "F502": "tests/unit/figure/test_approval.py::test_a_figure_that_changed_since",
    "F503": "tests/unit/figure/test_approval.py::test_a_file_that_a_merge_broke",
    "L122": "tests/unit/cli/test_cases.py::test_a_sheet_without_an_exercise_is_told",
    "L120": "tests/unit/decide/test_cases.py::test_a_date_before_the_start",
    "T128": "tests/unit/syntax/test_decode.py::test_what_is_not_utf_8",
    "T129": "tests/unit/syntax/test_decode.py::test_what_is_no_text",
    "T130": "tests/unit/syntax/test_decode.py::test_an_empty_file",
    "T131": "tests/unit/syntax/test_decode.py::test_a_file_that_is_too_large",
    "T132": "tests/unit/syntax/test_decode.py::test_a_line_that_is_too_long",
    "T147": "tests/unit/syntax/test_recovery.py::test_a_text_that_is_no_protocol_is_not_read_to_its_end",
    "W808": "tests/unit/readability/test_sheets.py::test_a_sheet_past_its_limit",
    "P909": "tests/unit/cli/test_check.py::test_a_path_that_is_not_there",
    "P918": "tests/unit/cli/test_build.py::test_a_folder_that_cannot_be_read_stops_no_other",
    "P910": "tests/unit/cli/test_check.py::test_a_folder_with_nothing_to_check",
    "P911": "tests/unit/cli/test_bad_input.py::test_an_output_folder_that_cannot_be_written",
    "P912": "tests/unit/cli/test_build.py::test_two_protocols_for_one_file",
    "P913": "tests/unit/cli/test_cases.py::test_an_unknown_red_flag_makes_no_sheet",
    "P914": "tests/unit/cli/test_cases.py::test_a_red_flag_makes_the_referral_page_and_nothing_else",
    "P915": "tests/unit/cli/test_cases.py::test_a_red_flag_makes_the_referral_page_and_nothing_else",
    "P916": "tests/unit/cli/test_cases.py::test_one_case_that_fails_stops_no_other",
    "P917": "tests/unit/cli/test_cases.py::test_pages_of_a_case_with_an_error_are_named",
    "P919": "tests/unit/cli/test_cases.py::test_an_earlier_page_in_another_format_is_overtaken",
    "P950": "tests/unit/render/test_template_faults.py::test_a_template_that_fails_is_named_with_its_line",
    "P951": "tests/unit/render/test_safety.py::test_a_template_that_drops_a_block_is_caught",
    "P952": "tests/unit/render/test_safety.py::test_a_template_that_hides_a_line_is_caught",
    "P953": "tests/pdf/test_machine.py::test_a_machine_without_the_library",
    "P954": "tests/pdf/test_machine.py::test_a_font_that_is_missing",
    "P955": "tests/pdf/test_machine.py::test_a_character_without_a_glyph",
    "P956": "tests/pdf/test_machine.py::test_what_the_library_complains_of_is_said",
    "P957": "tests/unit/render/test_template_faults.py::test_nothing_is_fetched",
    "P958": "tests/pdf/test_machine.py::test_rules_that_the_library_breaks_down_over",
    "P959": "tests/unit/cli/test_formats.py::test_a_machine_without_the_library_of_one_format",
    "P961": "tests/documents/test_safety.py::test_a_line_that_is_lost_makes_no_document",
    "P960": "tests/unit/exchange/test_refused.py::test_no_calendar_and_no_table",
}


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda folder: f"{folder.parent.name}/{folder.name}")
def test_a_person_sees_what_is_expected(folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The code that the folder is named for is among the diagnostics, and all of them read as pinned."""
    monkeypatch.chdir(tmp_path)
    checked = check_folder(folder, tmp_path / "project")
    seen = as_seen(checked)
    code = folder.parent.name.partition("-")[0]
    assert code in {one.code.id for one in checked.diagnostics}, seen
    expected = folder / EXPECTED
    if WRITE:
        expected.write_text(seen, encoding="utf-8")
    assert expected.is_file(), f"{EXPECTED} is missing; the module says how it is written"
    assert seen == expected.read_text(encoding="utf-8")


def test_every_file_below_bad_belongs_to_a_case_that_runs() -> None:
    """An expectation that no test reads is no expectation."""
    read = {path for folder in FOLDERS for path in folder.rglob("*") if path.is_file() or path.is_symlink()}
    there = {path for path in BAD.rglob("*") if path.is_file() or path.is_symlink()}
    assert there == read
    stray = {path for path in CASES.rglob(EXPECTED) if not path.is_relative_to(BAD)}
    nested = {path for path in BAD.rglob(EXPECTED) if path.parent not in FOLDERS}
    assert not stray | nested


def test_every_folder_is_named_for_a_code() -> None:
    names = {f"{code.id}-{code.slug}" for code in codes().values()}
    assert {folder.name for folder in BAD.iterdir()} <= names


@pytest.mark.parametrize("code", codes())
def test_every_code_has_a_bad_case(code: str) -> None:
    """A folder of input, or for what no input can show a test of its own that names the code."""
    if code not in SHOWN_BY_TEST:
        assert [folder for folder in FOLDERS if folder.parent.name.startswith(f"{code}-")]
        return
    file, _, name = SHOWN_BY_TEST[code].partition("::")
    text = (CASES.parents[1] / file).read_text("utf-8")
    body = re.search(rf"^def {name}\(.*?(?=^def |^@|\Z)", text, re.DOTALL | re.MULTILINE)
    assert body, f"{SHOWN_BY_TEST[code]} is not there"
    assert code in body.group()


def test_a_code_is_shown_in_one_way() -> None:
    assert not {folder.parent.name.partition("-")[0] for folder in FOLDERS} & set(SHOWN_BY_TEST)
