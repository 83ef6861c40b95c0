"""A template that does not work is a diagnostic with its name and line, and nothing is printed."""

from pathlib import Path

import pytest

from protodsl.render import html, pdf
from tests.unit.render import clinic, sample

BASE = '{% extends "protodsl/sheet.html.j2" %}\n'


@pytest.mark.parametrize(
    ("source", "line", "reason"),
    [
        (BASE + "{% block masthead %}\n{{ page.masthead.name }}{% endblock %}", 3, "name"),
        (BASE + "{% block masthead %}\n{{ nobody }}{% endblock %}", 3, "nobody"),
        (BASE + "{% block masthead %}{% endfor %}", 2, "endfor"),
        (BASE + "{% block masthead %}{{ page.title | shout }}{% endblock %}", 2, "shout"),
        (BASE + "{% block masthead %}\n\n{{ 1 // 0 }}{% endblock %}", 4, "zero"),
        (BASE + "{% block masthead %}{{ page.__class__.__mro__ }}{% endblock %}", 2, "unsafe"),
        (BASE + "{% block masthead %}{% include 'gone.html.j2' %}{% endblock %}", None, "no such template"),
        (BASE + "{% block masthead %}<p>{% endblock %}", None, "closed"),
    ],
)
def test_a_template_that_fails_is_named_with_its_line(
    tmp_path: Path, source: str, line: int | None, reason: str
) -> None:
    """P950, whatever the template did; sandboxed, so that it cannot reach into the program either."""
    style = clinic.style(tmp_path, sheet__html__j2=source)
    for made in (html(sample.sheet(), style), pdf(sample.sheet(), style)):
        assert made.value is None
        assert clinic.codes(made) == ["P950"]
        said = made.diagnostics[0]
        assert said.args["line"] == line
        assert reason in said.notes[0]
        assert said.args["template"] == ("gone.html.j2" if "gone" in source else "sheet.html.j2")


def test_a_fault_in_a_partial_names_the_partial(tmp_path: Path) -> None:
    made = html(sample.sheet(), clinic.style(tmp_path, blocks_in_row__html__j2="\n<p>{{ block.heading }}</p>"))
    assert made.diagnostics[0].args["template"] == "blocks/row.html.j2"
    assert made.diagnostics[0].args["line"] == 2


def test_a_style_sheet_that_is_not_utf8(tmp_path: Path) -> None:
    (tmp_path / "clinic.css").write_bytes(b"/* caf\xe9 */")
    for made in (html(sample.sheet(), clinic.style(tmp_path)), pdf(sample.sheet(), clinic.style(tmp_path))):
        assert clinic.codes(made) == ["P950"]
        assert made.diagnostics[0].args["template"] == "clinic.css"


@pytest.mark.parametrize(
    "files",
    [
        {"sheet__html__j2": BASE + '{% block foot %}<img alt="" src="https://example.org/a.png"/>{% endblock %}'},
        {"sheet__html__j2": BASE + '{% block foot %}<img alt="" src="file:///etc/passwd"/>{% endblock %}'},
        {"sheet__html__j2": BASE + '{% block head %}{{ super() }}<link rel="stylesheet" href="a.css"/>{% endblock %}'},
        {"sheet__html__j2": BASE + "{% block foot %}<p style=\"background: url('a.png')\"/>{% endblock %}"},
        {"clinic__css": "p { background: url(//example.org/a.png) }"},
        {"clinic__css": '@import "more.css";'},
    ],
)
def test_nothing_is_fetched(tmp_path: Path, files: dict[str, str]) -> None:
    """P957: a handout is whole without a network."""
    style = clinic.style(tmp_path, **files)
    for made in (html(sample.sheet(), style), pdf(sample.sheet(), style)):
        assert made.value is None
        assert clinic.codes(made) == ["P957"]


def test_a_link_for_the_reader_may_stay(tmp_path: Path) -> None:
    own = BASE + '{% block foot %}<p><a href="https://example.org/">{{ page.title }}</a></p>{% endblock %}'
    assert html(sample.sheet(), clinic.style(tmp_path, sheet__html__j2=own)).value
