"""The registry of formats: names and suffixes are unique, each can be made, and what is written of them is true."""

import re
import tomllib
from pathlib import Path

import pytest

from protodsl import formats
from protodsl.formats import FORMATS, HANDOUT
from protodsl.render import outputs

CHECKOUT = Path(__file__).resolve().parents[3]


def test_no_two_files_of_a_page_have_one_name() -> None:
    suffixes = [one.suffix for one in FORMATS.values()]
    assert len({suffix.lower() for suffix in suffixes}) == len(suffixes)
    assert all(re.fullmatch(r"[a-z0-9]+([.-][a-z0-9]+)*", suffix) for suffix in suffixes)


@pytest.mark.parametrize("name", FORMATS)
def test_a_file_is_known_by_its_suffix(name: str) -> None:
    """The longest suffix is taken, so that none is read as a language with a shorter suffix behind it."""
    found = re.fullmatch(rf"(.+?)\.({formats.SUFFIX_PATTERN})", f"P-0417.{formats.file_suffix(name)}")
    assert found is not None
    assert found[1] == "P-0417"


def test_every_format_from_a_handout_has_a_maker() -> None:
    assert set(outputs._MAKERS) == {one.name for one in FORMATS.values() if one.made_from == HANDOUT}


def test_what_a_format_needs_can_be_installed() -> None:
    project = tomllib.loads((CHECKOUT / "pyproject.toml").read_text("utf-8"))["project"]
    extras = project["optional-dependencies"]
    assert {one.extra for one in FORMATS.values() if one.extra} <= extras.keys()
    for extra in {one.extra for one in FORMATS.values() if one.extra}:
        assert set(extras[extra]) <= set(extras["test"])


def test_the_readme_lists_each_format() -> None:
    readme = (CHECKOUT / "README.md").read_text("utf-8")
    assert [name for name in FORMATS if f"| `{name}` |" not in readme] == []


def test_names_are_read_from_a_list() -> None:
    assert formats.read_names("html, pdf,html") == ("html", "pdf")
    assert formats.read_names("html,word") is None
    assert formats.read_names("") is None


def test_formats_are_chosen_by_page_and_subject() -> None:
    """A calendar is made of a case's sheet and of nothing else; a name that is asked for twice is made once."""
    names = ("html", "ics", "html")
    of_case = formats.made_for(names, formats.SHEET, formats.CASE, formats.DATA)
    assert [one.name for one in of_case] == ["ics"]
    assert formats.made_for(names, formats.CLINICIAN, formats.CASE, formats.DATA) == ()
    assert formats.made_for(names, formats.SHEET, formats.PROTOCOL, formats.DATA) == ()
    assert [one.name for one in formats.made_for(names, formats.QUESTIONS, formats.PROTOCOL, HANDOUT)] == ["html"]
