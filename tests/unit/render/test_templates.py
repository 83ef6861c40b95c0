"""The shipped templates hold no words, no numbers and no rules: everything a person reads comes from the handout."""

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest
from jinja2 import Environment

from protodsl import resources
from protodsl.handout import blocks
from protodsl.render import Style, html, template_digest
from protodsl.render.environment import template_of
from tests.unit.render import clinic, sample

FOLDER = resources.path("protodsl.templates")
TEMPLATES = sorted(FOLDER.rglob("*.html.j2"))
SHEETS = sorted([*FOLDER.rglob("*.css"), *FOLDER.rglob("*.css.j2")])
JINJA = re.compile(r"\{#.*?#\}|\{%.*?%\}|\{\{.*?\}\}", re.DOTALL)
READ_ALOUD = ("alt", "title", "aria-label", "placeholder", "summary")


class Words(HTMLParser):
    """Collects the text of a page, and of the attributes that a person reads or hears."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found += [value or "" for name, value in attrs if name in READ_ALOUD]

    def handle_data(self, data: str) -> None:
        self.found.append(data)


def words(source: str) -> str:
    reader = Words()
    # A name of an element that Jinja chooses is still one: `<{{ "ol" if numbered else "ul" }}>`.
    reader.feed(JINJA.sub(" ", re.sub(r"<(/?)\{\{.*?\}\}", r"<\1x", source)))
    return " ".join(" ".join(reader.found).split())


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.name)
def test_a_template_holds_no_words_and_no_numbers(path: Path) -> None:
    assert not re.search(r"\w", words(path.read_text("utf-8")))


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.name)
def test_a_template_prints_no_text_of_its_own(path: Path) -> None:
    """A string that Jinja prints is a class, an element or a place in the list of templates, never a word to read."""
    printed = re.findall(r"\{\{(.*?)\}\}", path.read_text("utf-8"), re.DOTALL)
    strings = [one for part in printed for one in re.findall(r'"([^"]*)"', part)]
    assert all(re.fullmatch(r"[a-z /-]*", one) for one in strings)


def test_the_word_test_finds_words() -> None:
    assert words('<p class="a">{{ x }} Stop</p><img alt="knee"/>') == "Stop knee"


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.name)
def test_generated_content_holds_no_letters(path: Path) -> None:
    contents = re.findall(r"content:\s*([^;}]*)", JINJA.sub(" ", path.read_text("utf-8")))
    strings = [one for part in contents for one in re.findall(r'"([^"]*)"', part)]
    assert not re.search(r"[^\W_]", " ".join(strings).replace("\\A", ""))


def test_every_block_has_a_template() -> None:
    for block in blocks.Block.__args__:
        cls = block.__origin__
        assert (FOLDER / template_of(cls.__new__(cls))).is_file(), cls.__name__


@pytest.mark.parametrize("path", TEMPLATES, ids=lambda path: path.name)
def test_a_template_is_read_by_jinja(path: Path) -> None:
    Environment(autoescape=True).parse(path.read_text("utf-8"))


def test_no_text_is_set_under_12_points() -> None:
    """Common practice for older readers, no source; a rem is 12 pt on paper and 16 px on a screen."""
    for path in SHEETS:
        sizes = re.findall(r"font(?:-size)?:\s*(?:600 )?([\d.]+)(rem|pt|px|em)", path.read_text("utf-8"))
        assert all(float(size) >= {"rem": 1, "em": 1, "pt": 12, "px": 16}[unit] for size, unit in sizes), path.name


def test_a_clinic_replaces_one_block_and_keeps_the_rest(tmp_path: Path) -> None:
    own = '{% extends "protodsl/sheet.html.j2" %}{% block masthead %}<p id="quay">{{ page.title }}</p>{% endblock %}'
    made = html(sample.sheet(), clinic.style(tmp_path, sheet__html__j2=own)).value
    assert made is not None
    assert '<p id="quay">' in made
    assert "<h1>" not in made
    assert made.count('class="card"') == 5


def test_a_clinic_replaces_a_section_and_a_partial_by_name(tmp_path: Path) -> None:
    style = clinic.style(
        tmp_path,
        sections_in_ask__html__j2='<section id="ours"><h2>{{ section.head }}</h2></section>',
        blocks_in_lines__html__j2="",
        clinic__css=".section { border-color: #000 }",
    )
    made = html(sample.sheet(), style).value
    assert made is not None
    assert '<section id="ours"><h2>What I want to ask at my visit</h2></section>' in made
    assert ".section { border-color: #000 }" in made


def test_the_digest_covers_templates_and_rules(tmp_path: Path) -> None:
    """A change to any file of the clinic's changes the digest; none changes nothing."""
    shipped = template_digest(Style())
    assert shipped == template_digest(Style(large_print=True))
    first = template_digest(clinic.style(tmp_path, clinic__css="p { margin: 0 }"))
    second = template_digest(clinic.style(tmp_path, clinic__css="p { margin: 1px }"))
    assert len({shipped, first, second}) == 3
