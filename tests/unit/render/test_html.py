"""The HTML handout: one file, valid, readable without script, and it says what the handout says."""

import itertools
import re

import pytest
from tinyhtml5.parser import HTMLParser

from protodsl.handout.blocks import Handout
from protodsl.render import Style, html
from tests.unit.render import others, sample

KINDS = (sample.sheet, others.clinician, others.arabic)


def made(page: Handout[str], style: Style | None = None) -> str:
    outcome = html(page, style or Style())
    assert outcome.value is not None, outcome.diagnostics
    return outcome.value


@pytest.mark.parametrize("make", KINDS)
def test_it_is_html_without_a_parse_error(make: type) -> None:
    """HTML Living Standard, 13.2: the errors of the parser, as tinyhtml5 implements it."""
    parser = HTMLParser(namespace_html_elements=False)
    parser.parse(made(make()))
    assert not parser.errors


@pytest.mark.parametrize("make", KINDS)
def test_it_fetches_nothing_and_runs_nothing(make: type) -> None:
    text = made(make())
    assert "<script" not in text
    assert not re.search(r"\bon\w+=", re.sub(r"<style>.*?</style>", "", text, flags=re.DOTALL))
    assert not re.findall(r'(?:src|href)="(?!data:|tel:|mailto:|#)[^"]*"', text)
    assert not re.findall(r"url\((?!\"data:)", text)


@pytest.mark.parametrize("make", KINDS)
def test_heads_skip_no_level_and_every_reference_has_its_target(make: type) -> None:
    text = made(make())
    levels = [int(level) for level in re.findall(r"<h([1-6])", text)]
    assert levels[0] == 1 and levels.count(1) == 1
    assert all(later - before <= 1 for before, later in itertools.pairwise(levels))
    ids = re.findall(r'\bid="([^"]*)"', text)
    assert len(ids) == len(set(ids))
    assert set(re.findall(r'aria-labelledby="([^"]*)"', text)) <= set(ids)


def test_every_head_of_a_table_has_a_scope_and_every_table_is_even() -> None:
    text = made(sample.sheet())
    assert all("scope=" in head for head in re.findall(r"<th\b[^>]*>", text.replace("<thead>", "")))
    for table in re.findall(r"<table.*?</table>", text, re.DOTALL):
        rows = re.findall(r"<tr>(.*?)</tr>", table, re.DOTALL)
        widths = {
            sum(int(span or 1) for span in re.findall(r'<t[hd](?:[^>]*?colspan="(\d+)")?[^>]*>', row)) for row in rows
        }
        assert len(widths) == 1


def test_stop_comes_first_after_the_masthead_and_its_numbers_dial() -> None:
    text = made(sample.sheet()).split("<body>")[1]
    assert text.index("</header>") < text.index("STOP") < text.index("What changed")
    assert 'href="tel:112"' in text
    assert text.count('href="tel:01632960142"') >= 4


def test_language_and_direction_are_said() -> None:
    text = made(others.arabic(), Style(language="ar", direction="rtl"))
    assert '<html lang="ar" dir="rtl" class="sheet arabic">' in text


def test_an_exercise_without_a_picture_leaves_no_hole() -> None:
    text = made(sample.sheet((sample.card(1, "Step up"),)))
    assert "<figure" not in text
    assert "<svg" not in text.split("<body>")[1]


def test_a_drawing_carries_its_alternative_as_its_title() -> None:
    """Scalable Vector Graphics 2, 5.7: the title is the first child."""
    text = made(sample.sheet((sample.card(1, "Step up", picture=2),)))
    assert re.search(r"<svg[^>]*><title>A person does the exercise Step up in 2 pictures.</title>", text)
    assert "<title>figure</title>" not in text


def test_digits_follow_the_style() -> None:
    text = made(others.arabic(), Style(language="ar", direction="rtl", digits="٠١٢٣٤٥٦٧٨٩"))
    assert '<td class="tone-2">١٠</td>' in text


def test_the_same_handout_is_the_same_file() -> None:
    assert made(sample.sheet()) == made(sample.sheet())
