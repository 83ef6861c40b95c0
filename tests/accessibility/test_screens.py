"""What a phone, a desktop and a printer show, by axe-core and by the criteria of WCAG 2.2 that it cannot decide."""

from __future__ import annotations

import pytest

from protodsl.formats import CLINICIAN
from tests.accessibility import contrast
from tests.accessibility.browser import DESKTOP, NARROW, PAPER, PHONE, TWICE, View, shown, violations
from tests.accessibility.pages import Wanted
from tests.accessibility.screens import PICTURED, SCREENS, look, screen
from tests.evidence.rows import table

ALL = (*SCREENS, PICTURED)
all_screens = pytest.mark.parametrize("wanted", ALL, ids=lambda one: one.name)
# What axe-core cannot decide is looked at in the two directions of reading, and once in a language of long words.
LONG_WORDS = Wanted("P-0431", CLINICIAN, "de")
MOST = tuple(one for one in ALL if one.language in ("en", "ar") or one == LONG_WORDS)
most_screens = pytest.mark.parametrize("wanted", MOST, ids=lambda one: one.name)
# Lines of the pain scale's hatch (templates/marks.css), the darkest ground that text stands on.
HATCH = "#b9b29f"
# WCAG 2.2, 1.4.12: line height, space after paragraphs, between letters and between words, by the size of the font.
SPACED = "* { line-height: 1.5 !important; letter-spacing: .12em !important; word-spacing: .16em !important }"
SPACED_PARAGRAPHS = "p { margin-block-end: 2em !important }"


@pytest.mark.parametrize("row", table("09_contrast_pairs").values(), ids=lambda row: row["id"])
def test_the_formula(row: dict[str, str]) -> None:
    """Worked pairs by another's implementation of the formula of WCAG 2.2 (wcag-contrast-ratio 0.9)."""
    found = contrast.ratio(contrast.from_hex(row["fg"]), contrast.from_hex(row["bg"]))
    assert found == pytest.approx(float(row["ratio"]), abs=0.0001)
    assert (found >= 7) == (row["AAA_text"] == "1")


@pytest.mark.parametrize("view", [PHONE, DESKTOP, PAPER], ids=["phone", "desktop", "print"])
@all_screens
def test_axe_finds_nothing(wanted: Wanted, view: View) -> None:
    """Not one violation of any rule, of good practice and of level AAA for contrast too."""
    with shown(screen(wanted), view) as page:
        assert violations(page) == ()


def test_axe_finds_a_fault() -> None:
    """Grey words on white, and a picture without any (WCAG 2.2, 1.4.3 and 1.1.1)."""
    with shown('<html lang="en"><title>x</title><p style="color:#999">word<img src="data:,">', DESKTOP) as page:
        assert {one.split(" ")[0] for one in violations(page)} >= {"color-contrast", "image-alt"}


@pytest.mark.parametrize("view", [DESKTOP, PAPER], ids=["screen", "print"])
@most_screens
def test_every_text_stands_out_by_seven_to_one(wanted: Wanted, view: View) -> None:
    """WCAG 2.2, 1.4.6, for large text too; over a pattern, the colour of its lines counts as well."""
    with shown(screen(wanted), view) as page:
        texts = look(page, "texts")
    assert len(texts) > 10
    for one in texts:
        ink, opacity = contrast.from_css(one["colour"])
        assert opacity == 1, one
        for ground in grounds(one["behind"]):
            assert contrast.ratio(ink, ground) >= 7, one


def grounds(behind: list[list[str]]) -> list[contrast.Colour]:
    """The colours right behind a text."""
    found: list[contrast.Colour] = []
    for colour, image, opacity in behind:
        assert opacity == "1"
        if "b9b29f" in image:
            found.append(contrast.from_hex(HATCH))
        else:
            assert image == "none" or "svg" in image, image
        ground, share = contrast.from_css(colour)
        if share == 1:
            return [*found, ground]
        assert share == 0, colour
    return [*found, (255, 255, 255)]


@pytest.mark.parametrize("view", [NARROW, TWICE, PHONE], ids=["320 px", "200 %", "360 px"])
@most_screens
def test_nothing_is_lost_on_a_narrow_screen(wanted: Wanted, view: View) -> None:
    """WCAG 2.2, 1.4.10 and 1.4.4: no sideways scrolling of the page, nothing cut or covered. Tables may be moved."""
    with shown(screen(wanted), view) as page:
        assert page.evaluate("document.documentElement.scrollWidth") <= view.width
        assert look(page, "lost") == []
        assert look(page, "overlapping") == []


@most_screens
def test_nothing_is_lost_with_letters_twice_as_large(wanted: Wanted) -> None:
    """WCAG 2.2, 1.4.4: the letters alone at 200 %, in a window of a usual width."""
    with shown(screen(wanted), DESKTOP) as page:
        page.add_style_tag(content="html { font-size: 200% !important }")
        assert page.evaluate("document.documentElement.scrollWidth") <= DESKTOP.width
        assert look(page, "lost") == []


@pytest.mark.parametrize("view", [PHONE, DESKTOP], ids=["phone", "desktop"])
@most_screens
def test_nothing_is_lost_with_wider_spaces(wanted: Wanted, view: View) -> None:
    """WCAG 2.2, 1.4.12."""
    with shown(screen(wanted), view) as page:
        page.add_style_tag(content=SPACED + SPACED_PARAGRAPHS)
        assert page.evaluate("document.documentElement.scrollWidth") <= view.width
        assert look(page, "lost") == []


@most_screens
def test_the_keyboard_reaches_everything_and_shows_where_it_is(wanted: Wanted) -> None:
    """WCAG 2.2, 2.1.1, 2.4.3, 2.4.7 and 2.4.13: in the order of the page, no trap, an outline of 2 px and 3 to 1."""
    with shown(screen(wanted), PHONE) as page:
        count = look(page, "reachable")
        visited = []
        for _ in range(count):
            page.keyboard.press("Tab")
            one = look(page, "focused")
            assert one is not None
            assert one["outline"] >= 2, one
            assert contrast.ratio(contrast.from_css(one["colour"])[0], (255, 255, 255)) >= 3
            visited.append(one["number"])
        assert visited == list(range(count))
        page.keyboard.press("Tab")
        assert look(page, "focused") is None or count == 0


@most_screens
def test_nothing_hangs_on_colour_alone(wanted: Wanted) -> None:
    """WCAG 2.2, 1.4.1: what is tinted also says it in words, and a number to dial is bold."""
    with shown(screen(wanted), DESKTOP) as page:
        tinted = page.eval_on_selector_all(
            ".on, .scale [class^=tone-], .box:not(.none)", "all => all.map(one => one.textContent.trim())"
        )
        plain = page.eval_on_selector_all(
            ".kind-week tbody td:not(.on)", "all => all.map(one => one.textContent.trim())"
        )
        weights = page.eval_on_selector_all("a", "all => all.map(one => Number(getComputedStyle(one).fontWeight))")
    assert all(tinted)
    assert not {one for one in tinted if one in ("–", "-")}
    assert all(weight >= 700 for weight in weights)
    assert all(one in ("–", "") for one in plain)
