"""Whatever a file holds, it is said what is wrong and where; other catalogues and languages go on."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from protodsl.languages import Languages, catalogue_path, file_of
from protodsl.project import open_project
from protodsl.source import Source
from protodsl.translate.po import read_po
from protodsl.translate.text import decoded
from tests.unit.cli.conftest import Cli
from tests.unit.translate.catalogues import fill
from tests.unit.translate.conftest import CASE

GOOD = """msgid ""
msgstr "Language: es\\n"

#. a step
#, fuzzy
#| msgid "Up."
msgctxt "a/b/do"
msgid "Rise."
msgstr "Suba."
"""


def codes(text: str, language: str = "es") -> list[str]:
    return [one.code.id for one in read_po(Source("x.po", text), language).diagnostics]


def test_bytes_that_are_not_utf_8() -> None:
    """G121, with the line, and what the header says it would be."""
    data = 'msgid ""\nmsgstr "Content-Type: text/plain; charset=ISO-8859-1\\n"\n\nmsgstr "talón"\n'.encode("latin-1")
    read = decoded("x.po", data)
    assert read.value is None and [one.code.id for one in read.diagnostics] == ["G121"]
    assert "line 4" in read.diagnostics[0].message and "ISO-8859-1" in read.diagnostics[0].notes[0]


def test_a_byte_order_mark_is_named_and_read() -> None:
    """G123 is a warning: the catalogue is read all the same."""
    read = decoded("x.po", b"\xef\xbb\xbf" + GOOD.encode())
    assert [one.code.id for one in read.diagnostics] == ["G123"]
    assert read.value is not None and read.value.text == GOOD and codes(read.value.text) == []


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [
        ('msgstr "Suba."', 'msgstr "Suba.', 9),
        ('msgid "Rise."', "msgid Rise.", 8),
        ('msgid "Rise."', 'msgid "Ri"se."', 8),
        ('msgid "Rise."', 'msgid "Rise.\\"', 8),
        ('msgctxt "a/b/do"\n', 'msgctxt "a/b/do"\nmsgctxt "c"\n', 8),
        ('msgid "Rise."\n', "", 8),
        ('msgstr "Suba."\n', "", 9),
        ('msgid "Rise."', 'msgid_plural "Rise."', 8),
        ('msgstr "Suba."', 'msgstr[1] "Suba."', 9),
        ('msgid "Rise."', '"Rise."\nmsgid "Rise."\nmsgstr ""\nmsgstr ""', 11),
        ("#. a step", "a step", 4),
        ("#. a step", '"a step"\nx', 5),
    ],
)
def test_a_line_that_cannot_stand_there_is_named(old: str, new: str, line: int) -> None:
    assert old in GOOD
    text = GOOD.replace(old, new)
    outcome = read_po(Source("x.po", text), "es")
    assert outcome.value is None and [one.code.id for one in outcome.diagnostics] == ["G120"]
    assert Source("x.po", text).position(outcome.diagnostics[0].primary.span.start)[0] == line


def test_a_good_one_is_read() -> None:
    read = read_po(Source("x.po", GOOD), "es")
    assert read.value is not None and not read.diagnostics
    assert read.value.entries[0].previous == ("Up.",) and read.value.entries[0].fuzzy


ODD = ['"', "msgid", "#~", '#~| msgid "x"', '#~ msgid "x"', "#: a:b:c", "#:", "\x00"]
LINES = some.sampled_from([*GOOD.split("\n"), *ODD])
DAMAGED = some.lists(LINES | some.text(max_size=20), max_size=14).map("\n".join)


@settings(max_examples=400, deadline=None)
@given(DAMAGED)
def test_no_text_makes_it_raise(text: str) -> None:
    """Lines of a catalogue in any order, with anything between: a value, or a diagnostic that says why not."""
    outcome = read_po(Source("x.po", text), "es")
    assert outcome.value is not None or outcome.diagnostics


@settings(max_examples=100, deadline=None)
@given(some.binary(max_size=200))
def test_no_bytes_make_it_raise(data: bytes) -> None:
    outcome = decoded("x.po", data)
    assert outcome.value is not None or outcome.diagnostics


def test_one_broken_catalogue_stops_no_other(cli: Cli, project: Path) -> None:
    """The Spanish sheet cannot be made, and the English one is."""
    _speaks(project, "en", "es")
    cli("translate", "extract")
    (project / "translations/es/tobillo.po").write_text('msgid "\n', encoding="utf-8")
    result = cli("build", "--to", "html")
    assert result.status == 1 and "G120" in result.err and "translations/es/tobillo.po:1" in result.err
    assert result.out.splitlines() == ["handouts/tobillo.html", "handouts/tobillo-clinician.html"]


def test_a_language_that_is_not_there_stops_no_other(cli: Cli, project: Path) -> None:
    _speaks(project, "en", "tlh")
    result = cli("build", "--to", "html")
    assert result.status == 1 and "P920" in result.err
    assert result.out.splitlines() == ["handouts/tobillo.html", "handouts/tobillo-clinician.html"]


def _speaks(project: Path, *languages: str) -> None:
    """The clinic's languages, its own first."""
    clinic = project / "clinic.toml"
    listed = ", ".join(f'"{one}"' for one in languages)
    clinic.write_text(clinic.read_text("utf-8").replace('"es", "en"', listed), encoding="utf-8")


def test_update_leaves_a_broken_catalogue_alone(cli: Cli, project: Path) -> None:
    cli("translate", "extract")
    path = project / "translations/en/tobillo.po"
    path.write_text('msgid "\n', encoding="utf-8")
    result = cli("translate", "update")
    assert result.status == 1 and "G120" in result.err and path.read_text("utf-8") == 'msgid "\n'


@pytest.mark.parametrize("name", ["spanish", "e", "en_GB!", "12"])
def test_folders_of_no_language_are_named(cli: Cli, project: Path, name: str) -> None:
    (project / "translations" / name).mkdir(parents=True)
    result = cli("check")
    assert result.status == 1 and "G128" in result.out and "Traceback" not in result.err


@pytest.mark.parametrize(
    "file", ["a.protocol", "library/leg.protocol", "../shared/x.protocol", "clinic.toml", "cases/P-1.case"]
)
def test_a_file_has_one_catalogue_and_a_catalogue_one_file(file: str) -> None:
    path = catalogue_path("es", file)
    assert path.startswith("translations/es/") and path.endswith(".po") and ".." not in path
    assert file_of(path) == file


def test_a_link_out_of_the_project_is_not_followed(project: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere.po").write_text(GOOD, encoding="utf-8")
    (project / "translations/en").mkdir(parents=True)
    (project / "translations/en/x.po").symlink_to(tmp_path / "elsewhere.po")
    assert Languages(open_project(project)).files("en") == ()


def test_a_case_in_a_language_that_is_not_there(cli: Cli, project: Path) -> None:
    (project / "cases/P-0417.case").write_text(CASE.replace("language en", "language tlh"), encoding="utf-8")
    result = cli("check")
    assert result.status == 1 and "G129" in result.out and "P-0417.case:4:12" in result.out


def test_wrong_plural_forms_in_prose_are_named_and_do_no_harm(cli: Cli, project: Path) -> None:
    cli("translate", "extract")
    path = project / "translations/en/tobillo.po"
    fill(path)
    path.write_text(path.read_text("utf-8").replace("nplurals=2", "nplurals=3"), encoding="utf-8")
    assert "G124" in cli("translate", "check").err
    cli("translate", "update")
    assert "G124" not in cli("translate", "check").err
