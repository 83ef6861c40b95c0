"""Where pages break: no exercise torn that fits a page, no page of a few lines, nothing printed twice or too small."""

from dataclasses import replace
from pathlib import Path

import pytest

from protodsl.handout.blocks import Handout, Paragraphs, Section, Stop, StopGroup
from protodsl.render import Style
from protodsl.render.pagination import nearly_empty
from tests.pdf.forms import FORMS, print_of
from tests.pdf.reading import Printed, printed, squeezed
from tests.unit.render import clinic, sample

forms = pytest.mark.parametrize("name", FORMS)


@forms
def test_no_page_holds_under_four_lines(name: str) -> None:
    assert not list(nearly_empty(print_of(name).layout, 4))


@forms
def test_no_text_is_under_12_points(name: str) -> None:
    """16 pt in large print; 12 pt is 16 px (CSS Values 4, 6.2)."""
    smallest = 16 / 12 * 16 if FORMS[name].style.large_print else 16
    for page in print_of(name).final.pages:
        for box in page._page_box.descendants():
            if type(box).__name__ == "TextBox" and box.text.strip():
                assert box.style["font_size"] >= smallest - 0.01, box.text


@forms
def test_no_text_is_printed_over_another(name: str) -> None:
    assert print_of(name).overlaps() == []


def test_a_long_number_has_room_in_the_margin_column() -> None:
    """Also where it is to be called at once."""
    group = StopGroup(
        "Call now", "+44 1632 960 142", sample.items(*["A sign that is long enough to fill a line." * 3] * 3), True
    )
    page = replace(sample.sheet(), sections=(Section("stop", None, (Stop("STOP", "now", (group,)),)),))
    for style in (Style(), Style(compact=True), Style(large_print=True)):
        assert printed(page, style).overlaps() == []


@pytest.mark.parametrize("picture", [0, 2])
def test_when_may_be_longer_than_how_much(picture: int) -> None:
    """In the compact form they stand beside each other, and what follows begins below the longer."""
    card = replace(sample.card(1, "Step up", picture=picture), when="word " * 40, dose="Do it once.")
    made = printed(sample.sheet((card,)), Style(compact=True))
    assert made.overlaps() == []
    heads = [box for box in made.texts() if box.text == "Step by step"]
    after = [box for box in made.texts() if box.text.startswith("word")]
    assert heads[0].position_y >= max(box.position_y for box in after) + after[0].style["font_size"]


@pytest.mark.parametrize("name", ["person", "person, Letter", "compact"])
def test_an_exercise_that_fits_a_page_is_whole(name: str) -> None:
    for card in sample.cards():
        assert len(print_of(name).pages_of(card.id)) == 1


def test_short_exercises_share_a_page() -> None:
    short = tuple(replace(sample.card(number, f"Exercise {number}"), rows=(), stations=()) for number in (1, 2))
    made = printed(replace(sample.sheet(), sections=(Section("exercises", None, short),)))
    assert made.pages_of("exercise-1") == made.pages_of("exercise-2")


def test_compact_has_two_exercises_on_a_page() -> None:
    pages = [print_of("compact").pages_of(card.id) for card in sample.cards()]
    assert pages[1] == pages[2]
    assert pages[3] == pages[4]


@pytest.mark.parametrize("rows", [3, 4, 6])
def test_an_exercise_longer_than_a_page_goes_on_overleaf_under_its_name(rows: int) -> None:
    """Parted between two rows; the line of stations never stands alone."""
    made = printed(sample.sheet((sample.card(1, "Step up", picture=2, long=rows),)))
    pieces = {number: piece.page for number, piece in made.layout.exercises["step-up"].items()}
    parts = len(set(pieces.values()))
    assert made.words.count("Stepup,continued") == parts - 1 > 0
    last = max(pieces)
    assert pieces[last] == pieces[last - 1]
    assert made.words.count("Yourline:whereyouare") == 1


@pytest.mark.parametrize("rows", range(3, 9))
def test_a_head_never_stays_behind(rows: int) -> None:
    """An exercise that fills a page has no room for the head of its section, so its end goes overleaf."""
    card = sample.card(1, "Step up", picture=2, long=2)
    section = Section("exercises", "Your exercises", (replace(card, rows=card.rows[:rows]),))
    pieces = printed(replace(sample.sheet(), sections=(section,))).layout.exercises["step-up"]
    assert pieces[-1].page == pieces[0].page


def filled(lines: int) -> Handout[str]:
    """An exercise under so many lines of text, so that it meets the end of the page at every height."""
    text = Section("text", "Text", (Paragraphs(sample.items(*[f"Line {number}." for number in range(lines)])),))
    return replace(sample.sheet(), sections=(text, Section("exercises", None, (sample.card(1, "Step up", picture=2),))))


@pytest.mark.parametrize("compact", [False, True])
@pytest.mark.parametrize("tenths", range(0, 70, 5))
def test_no_sign_parts_from_its_word_where_a_page_ends(tenths: int, compact: bool, tmp_path: Path) -> None:
    """Moved down half a millimetre at a time through the height of a line."""
    style = clinic.style(tmp_path, clinic__css=f".section-text {{ padding-top: {tenths / 10}mm }}")
    assert_whole(printed(filled(18), replace(style, compact=compact)))


@pytest.mark.parametrize("compact", [False, True])
@pytest.mark.parametrize("lines", range(2, 27, 2))
def test_nothing_is_printed_twice_or_apart_where_a_page_ends(lines: int, compact: bool) -> None:
    """A float that meets the end of a page must not leave a part of itself behind when its exercise moves on."""
    assert_whole(printed(filled(lines), Style(compact=compact)))


def assert_whole(made: Printed) -> None:
    """Every head of the exercise is printed once, and no page holds next to nothing."""
    card = sample.card(1, "Step up", picture=2)
    heads = (card.steps.head, *(row.head for row in card.rows), *(line.head for line in card.stations))
    for head in heads:
        assert made.words.count(squeezed(head)) == 1, head
    assert made.layout.strays == ()
    assert not list(nearly_empty(made.layout, 4))


def test_closer_setting_saves_a_last_page_of_a_few_lines() -> None:
    """Found by filling a page: at some length the ordinary setting needs a page for a head and a line."""
    for lines in range(18, 34):
        rows = tuple(Paragraphs((row,)) for row in sample.items(*[f"Line {number}." for number in range(lines)]))
        more = Section("more", "More", (Paragraphs(sample.items("The end.")),), whole=True)
        made = printed(replace(sample.sheet(), sections=(Section("text", "Text", rows), more)))
        if len(made.layouts) == 2 and len(made.layouts[1].pages) < len(made.layouts[0].pages):
            assert len(made.pages) == len(made.layouts[1].pages)
            return
    pytest.fail("no length was found at which closer setting saves a page")
