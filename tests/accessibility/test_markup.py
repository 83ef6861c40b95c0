"""The HTML itself: valid, its heads in order, its tables headed, its languages said, nothing that points nowhere."""

from __future__ import annotations

import itertools
import json
import re
import subprocess
from collections import Counter
from pathlib import Path
from xml.etree.ElementTree import Element, fromstring

import pytest

from protodsl.formats import CLINICIAN
from tests.accessibility.pages import DEMO, Wanted, protocols
from tests.accessibility.screens import PICTURED, SCREENS, screen
from tests.accessibility.tools import jar_of_vnu

ALL = (*SCREENS, PICTURED)
all_screens = pytest.mark.parametrize("wanted", ALL, ids=lambda one: one.name)
# Attributes that name other elements by their ids (HTML Living Standard; WAI-ARIA 1.2).
_REFERRING = ("for", "headers", "list", "form", "aria-labelledby", "aria-describedby", "aria-controls", "aria-owns")
# What is not translated on purpose: digests, units, names of files, versions; two letters tell nothing of a language.
_WORDS = re.compile(r"[A-Za-z]{3,}(?:[ ,]+[A-Za-z]{2,})+")
# A name stays as it is in every language (WCAG 2.2, 3.1.2, except "proper names").
_NAMES = ("Alder Quay clinic", "Physiotherapy, 2 Harbour Steps", *protocols())
# Who reviewed a protocol is a name to the language: it stands as it was written.
_REVIEWER = re.compile(r"^  review \S+ by ([^,\n]+)", re.MULTILINE)


def test_all_are_valid_html(tmp_path: Path) -> None:
    """Not one error by the Nu HTML checker, style sheets included; on the demo's pages not one warning either."""
    jar = jar_of_vnu()
    for number, wanted in enumerate(ALL):
        (tmp_path / f"{number:02d}.html").write_text(screen(wanted), encoding="utf-8")
    said = checked(jar, tmp_path)
    named = [(ALL[int(Path(one["url"]).stem)], one) for one in said]
    kept = [(wanted.name, one["message"]) for wanted, one in named if wanted != PICTURED or one["type"] == "error"]
    assert kept == []


def test_the_checker_finds_a_fault(tmp_path: Path) -> None:
    """A caption inside a division inside its figure (HTML Living Standard, 4.4.12 and 4.4.13)."""
    jar = jar_of_vnu()
    body = "<figure><div><p>x</p><figcaption>y</figcaption></div></figure>"
    text = f'<!DOCTYPE html><html lang="en"><head><title>x</title></head><body>{body}</body></html>'
    (tmp_path / "00.html").write_text(text, encoding="utf-8")
    assert any("figcaption" in one["message"] for one in checked(jar, tmp_path))


def checked(jar: Path, folder: Path) -> list[dict[str, str]]:
    """The errors and warnings of all files of a folder; notes on style (a slash in `<br/>`) are none."""
    command = ["java", "-Xss2m", "-jar", str(jar), "--format", "json", "--exit-zero-always", "--stdout"]
    files = sorted(str(path) for path in folder.glob("*.html"))
    run = subprocess.run([*command, *files], capture_output=True, text=True, check=True)
    found: list[dict[str, str]] = json.loads(run.stdout)["messages"]
    return [one for one in found if one["type"] == "error" or one.get("subType") == "warning"]


@all_screens
def test_heads_are_in_order(wanted: Wanted) -> None:
    """One h1, the first; no level is skipped on the way down (WCAG 2.2, 1.3.1, technique G141)."""
    levels = [int(one.tag[1]) for one in tree(wanted).iter() if re.fullmatch(r"h[1-6]", one.tag)]
    assert levels.count(1) == 1 and levels[0] == 1
    assert all(after - before <= 1 for before, after in itertools.pairwise(levels))


@all_screens
def test_every_table_has_heads_with_a_scope(wanted: Wanted) -> None:
    """WCAG 2.2, 1.3.1, technique H63; a head has words, and no cell is left over at the end of a row."""
    for table in tree(wanted).iter("table"):
        heads = list(table.iter("th"))
        assert heads
        for head in heads:
            assert head.get("scope") in ("col", "row", "colgroup")
            assert words(head)
        widths = {sum(int(cell.get("colspan") or 1) for cell in row) for row in table.iter("tr")}
        assert len(widths) == 1


@all_screens
def test_ids_are_there_once_and_everything_that_names_one_finds_it(wanted: Wanted) -> None:
    root = tree(wanted)
    ids = Counter(one.get("id") for one in root.iter() if one.get("id"))
    assert [name for name, count in ids.items() if count > 1] == []
    named = [name for one in root.iter() for part in _REFERRING for name in (one.get(part) or "").split()]
    named += [href[1:] for one in root.iter() if (href := one.get("href") or "").startswith("#")]
    assert [name for name in named if name not in ids] == []


@all_screens
def test_words_of_another_language_say_so(wanted: Wanted) -> None:
    """WCAG 2.2, 3.1.1 and 3.1.2. On an Arabic page, several words in a row in Latin letters are of another language."""
    root = tree(wanted)
    assert root.get("lang") == wanted.language
    assert (root.get("dir") == "rtl") == (wanted.language == "ar")
    # What a clinician reads names findings and lines of a protocol as they were written.
    if wanted.language != "ar" or wanted.kind == CLINICIAN:
        return
    for text, language in spoken(root.find("body") or root, wanted.language):
        for name in (*_NAMES, *reviewers()):
            text = text.replace(name, "")
        assert language != "ar" or not _WORDS.search(text), text


def reviewers() -> list[str]:
    """Who reviewed the demo's protocols."""
    return [name for path in DEMO.glob("*.protocol") for name in _REVIEWER.findall(path.read_text(encoding="utf-8"))]


def spoken(element: Element, language: str) -> list[tuple[str, str]]:
    """Every piece of text with the language it is said to be in."""
    own = element.get("lang") or language
    found = [(element.text or "", own)]
    for child in element:
        found += [*spoken(child, own), (child.tail or "", own)]
    return found


def words(element: Element) -> str:
    """The words in an element."""
    return " ".join("".join(element.itertext()).split())


def tree(wanted: Wanted) -> Element:
    """The page as elements; handouts are written as XML."""
    return fromstring(screen(wanted))
