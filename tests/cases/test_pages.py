"""Every page's wrong example is wrong in the way the page is about, and its right example is right."""

import json
import re
from pathlib import Path

import pytest

from protodsl.compiler import check_project
from protodsl.diagnostics.diagnostic import Diagnostic, Severity
from protodsl.diagnostics.registry import codes, page
from protodsl.project import open_project
from protodsl.translate.tags import locale_of
from tests.cases.running import AS_OF, CASES
from tests.cases.test_bad import SHOWN_BY_TEST

SHAPE = re.compile(
    r"# (?P<code>[A-Z][0-9]{3}) (?P<slug>[a-z0-9-]+)\n\n"
    r"(?P<meaning>.+?)\n\n"
    r"## Wrong\n\n```(?P<wrong_kind>[a-z]+)\n(?P<wrong>.*?)```\n\n"
    r"## Right\n\n```(?P<right_kind>[a-z]+)\n(?P<right>.*?)```\n\n"
    r"## What to do\n\n(?P<advice>.+?)\n",
    re.DOTALL,
)
FILES = {"protocol": "example.protocol", "case": "example.case", "toml": "clinic.toml"}


def parts(code: str) -> re.Match[str]:
    match = SHAPE.fullmatch(page(code))
    assert match, f"the page of {code} has another shape than the others"
    return match


def files_of(text: str, name: str) -> list[tuple[str, str]]:
    """The files of an example: a comment that is only a path begins the next file."""
    parts = re.split(r"^# ([\w/-]+\.(?:protocol|po))\n", text, flags=re.MULTILINE)
    files = [(name, parts[0])] if parts[0].strip() else []
    return files + list(zip(parts[1::2], parts[2::2], strict=True))


def checked(kind: str, text: str, code: str, place: Path) -> tuple[Diagnostic, ...]:
    """What is found in an example alone; an empty `clinic.toml` example means that there is none."""
    if text:
        for name, part in files_of(text, FILES[kind]):
            (place / name).parent.mkdir(parents=True, exist_ok=True)
            (place / name).write_text(part, encoding="utf-8")
    if kind != "toml":
        (place / "clinic.toml").write_text(clinic(place), encoding="utf-8")
    project = open_project(place)
    found = check_project(project, [place] if kind != "toml" else [], AS_OF).diagnostics
    # The words of the clinic itself are none of the example's.
    return tuple(one for one in found if kind == "toml" or one.primary.span.path != "clinic.toml")


def clinic(place: Path) -> str:
    """The clinic of all examples, handing out the languages that an example is translated into."""
    tags = sorted(folder.name for folder in place.glob("translations/*") if locale_of(folder.name) is not None)
    sheet = f"\n[sheet]\nlanguages = {json.dumps(['en', *tags])}\n" if tags else ""
    return (CASES / "clinic.toml").read_text(encoding="utf-8") + sheet


@pytest.mark.parametrize("code", codes())
def test_the_head_names_the_code(code: str) -> None:
    assert (parts(code)["code"], parts(code)["slug"]) == (code, codes()[code].slug)


@pytest.mark.parametrize("code", sorted(set(codes()) - set(SHOWN_BY_TEST)))
def test_the_wrong_example_has_the_code(code: str, tmp_path: Path) -> None:
    match = parts(code)
    found = checked(match["wrong_kind"], match["wrong"], code, tmp_path)
    assert code in {one.code.id for one in found}


@pytest.mark.parametrize("code", sorted(set(codes()) - set(SHOWN_BY_TEST)))
def test_the_right_example_is_right(code: str, tmp_path: Path) -> None:
    match = parts(code)
    found = checked(match["right_kind"], match["right"], code, tmp_path)
    assert code not in {one.code.id for one in found}
    assert not [one for one in found if one.severity is Severity.ERROR]
