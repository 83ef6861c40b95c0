"""A safety line that does not reach the reader stops the handout."""

from dataclasses import replace
from pathlib import Path

import pytest

from protodsl.handout.blocks import Handout, Item, Paragraphs, Section
from protodsl.render import Style, html, pdf
from protodsl.render.safety import safety_lines
from tests.unit.render import clinic, sample

BASE = '{% extends "protodsl/sheet.html.j2" %}'
ROW = "<h3>{{ block.head | md }}</h3>{% for line in block.lines %}<p>{{ line.text | md }}</p>{% endfor %}"


def one_line(words: str = "Stop at once.") -> Handout[str]:
    """A handout with one safety line in a paragraph."""
    section = Section("only", "Only", (Paragraphs((Item(words, "only/1", "knee.protocol:7"),)),))
    return replace(sample.sheet(), sections=(section,))


def test_every_kind_of_safety_line_is_known() -> None:
    """Lines in lists, rows, bands, cards and stations, and the word, heads and numbers of STOP."""
    ids = {line.id for line in safety_lines(sample.sheet())}
    assert {
        "stop/head", "stop/group/1", "stop/group/2", "stop/emergency/1", "stop/red-flag/5", "pain/3/1", "flare/1/1",
        "Step up/stop/1", "Step up/down", "not-yet/2",
    } <= ids  # fmt: skip
    assert sum(line.id == "stop/group/2" for line in safety_lines(sample.sheet())) == 4


@pytest.mark.parametrize(
    "files",
    [
        {"blocks_in_row__html__j2": ROW},
        {"blocks_in_stop__html__j2": ""},
        {"blocks_in_stations__html__j2": ""},
        {"sections_in_flare-up__html__j2": ""},
        {"sheet__html__j2": BASE + "{% block main %}{% endblock %}"},
        {"blocks_in_paragraphs__html__j2": "", "blocks_in_row__html__j2": ""},
    ],
)
def test_a_template_that_drops_a_block_is_caught(tmp_path: Path, files: dict[str, str]) -> None:
    """P951, one for each line, with where the protocol has it; nothing is written."""
    style = clinic.style(tmp_path, **files)
    for made in (html(sample.sheet(), style), pdf(sample.sheet(), style)):
        assert made.value is None
        assert set(clinic.codes(made)) == {"P951"}


def test_a_number_left_out_of_stop_is_caught(tmp_path: Path) -> None:
    shipped = (Path(sample.__file__).parents[3] / "templates" / "blocks" / "stop.html.j2").read_text("utf-8")
    own = shipped.replace("{{ group.phone | phone }}", "")
    made = html(sample.sheet(), clinic.style(tmp_path, blocks_in_stop__html__j2=own))
    assert [one.args["words"] for one in made.diagnostics] == ["112", sample.CLINIC_PHONE]


def test_other_words_under_the_right_id_are_caught(tmp_path: Path) -> None:
    own = "{% for line in block.lines %}<p{{ line | safety }}>{{ line.text[:-1] }}</p>{% endfor %}"
    made = html(one_line(), clinic.style(tmp_path, blocks_in_paragraphs__html__j2=own))
    assert clinic.codes(made) == ["P951"]
    assert made.diagnostics[0].notes == ("it is written in knee.protocol:7",)


def test_a_line_wanted_twice_is_wanted_twice() -> None:
    """The same line on two cards is looked for on both."""
    twice = one_line().sections * 2
    shown_once = html(one_line(), Style())
    assert shown_once.value is not None
    from xml.etree.ElementTree import fromstring

    from protodsl.render.safety import lost_in_document

    root = fromstring('<p data-safety="only/1">Stop at once.</p>')
    assert not lost_in_document(one_line(), root)
    assert lost_in_document(replace(one_line(), sections=twice), root)


@pytest.mark.parametrize(
    "attribute", ['hidden="hidden"', 'style="display:none"', 'style="visibility: hidden"', 'aria-hidden="true"']
)
def test_a_template_that_hides_a_line_is_caught(tmp_path: Path, attribute: str) -> None:
    """P952, for the attribute on the line itself, around it, or inside it."""
    for line in (
        "<p ATTRIBUTE{{ line | safety }}>{{ line.text | md }}</p>",
        "<div ATTRIBUTE><p{{ line | safety }}>{{ line.text | md }}</p></div>",
        "<p{{ line | safety }}><i ATTRIBUTE>{{ line.text }}</i></p>",
    ):
        own = "{% for line in block.lines %}" + line.replace("ATTRIBUTE", attribute) + "{% endfor %}"
        made = html(one_line(), clinic.style(tmp_path, blocks_in_paragraphs__html__j2=own))
        assert made.value is None
        assert clinic.codes(made) == ["P952"]


@pytest.mark.parametrize(
    "rule",
    [
        "main p { display: none }",
        "@media screen and (max-width: 40rem) { .section { display: none } }",
        "p[data-safety] { visibility: hidden }",
        ".section p { font-size: 0 }",
    ],
)
def test_a_rule_that_hides_a_line_is_caught_in_html(tmp_path: Path, rule: str) -> None:
    made = html(one_line(), clinic.style(tmp_path, clinic__css=rule))
    assert made.value is None
    assert clinic.codes(made) == ["P952"]


@pytest.mark.parametrize(
    ("rule", "code"),
    [
        ("main p { display: none }", "P951"),
        ("main p { visibility: hidden }", "P952"),
        ("main p { position: absolute; left: -900px }", "P952"),
        ("main p { color: transparent }", "P952"),
        ("main p { font-size: .2px }", "P952"),
    ],
)
def test_a_rule_that_hides_a_line_is_caught_on_the_laid_out_page(tmp_path: Path, rule: str, code: str) -> None:
    made = pdf(one_line(), clinic.style(tmp_path, clinic__css=rule))
    assert made.value is None
    assert clinic.codes(made) == [code]


def test_emphasis_and_links_do_not_lose_a_line() -> None:
    made = html(one_line("Up to **3 out of 10** is _fine_ \\*; call 01632 960 142 & wait < 1 day."), Style())
    assert made.value is not None
