"""The drawing whole: valid, small, the same each time, mirrored as in a mirror, and legible in print."""

from __future__ import annotations

import re
from functools import cache
from xml.etree import ElementTree

import pytest
from tinyhtml5.parser import HTMLParser

from protodsl.figure.draw import ink
from protodsl.figure.draw.curve import UNITS
from protodsl.figure.draw.draw import Drawing, draw
from protodsl.figure.draw.panels import sheet
from protodsl.figure.drawn import SCALE
from protodsl.figure.posture import STATURE, PlacedProp
from protodsl.model.lists import POSITIONS
from tests.unit.figure.draw.bodies import EXAMPLES, figure, pose, still
from tests.unit.figure.draw.paths import paths, places, sampled

_SVG = "{http://www.w3.org/2000/svg}"
# Bytes: of a panel with its props, and of a figure of two panels without any.
_A_PANEL, _TWO_PANELS = 4600, 8200


@cache
def _drawn(name: str, prefix: str = "x", mirror: bool = False) -> Drawing:
    figure, works = EXAMPLES[name]
    return draw(figure(), works, prefix, mirror)


def _viewbox(svg: str) -> tuple[int, ...]:
    found = re.search(r'viewBox="([^"]*)"', svg)
    assert found is not None
    return tuple(int(number) for number in found[1].split())


@pytest.mark.parametrize("name", EXAMPLES)
def test_well_formed_with_nothing_but_paths(name: str) -> None:
    """XML that parses, its title first, no style, class, script, text or link that leads outside."""
    root = ElementTree.fromstring(_drawn(name).svg)
    assert root[0].tag == f"{_SVG}title"
    assert {element.tag.removeprefix(_SVG) for element in root.iter()} <= {"svg", "title", "g", "path", "use"}
    assert not any(
        key in ("class", "style") or key.startswith("on") for element in root.iter() for key in element.attrib
    )
    assert all(element.get("href", "#x").startswith("#x") for element in root.iter())


@pytest.mark.parametrize("name", EXAMPLES)
def test_small(name: str) -> None:
    """No panel takes more than its share of bytes, no number a decimal point within a path."""
    drawing = _drawn(name)
    assert len(drawing.svg) < _A_PANEL * len(drawing.roles)
    assert all("." not in data for data, _ in paths(drawing.svg))


def test_two_panels_are_eight_kilobytes_on_the_whole() -> None:
    """The figures of two panels are about 8 kB or less, taken together."""
    sizes = [len(_drawn(name).svg) for name in EXAMPLES if len(_drawn(name).roles) == 2]
    assert sum(sizes) / len(sizes) < _TWO_PANELS


def test_the_same_bytes_each_time() -> None:
    """Nothing in a drawing comes from chance, a clock or what was drawn before."""
    figure, works = EXAMPLES["bridge"]
    first = draw(figure(), works).svg
    draw(EXAMPLES["reach"][0](), ("buttocks",))
    assert draw(figure(), works).svg == first


def test_a_page_of_figures_has_no_id_twice() -> None:
    """Twelve figures on one page: every id once, every reference to its own figure, and HTML finds no fault."""
    names = (list(EXAMPLES) * 2)[:12]
    svgs = [_drawn(name, f"figure-{at}").svg for at, name in enumerate(names)]
    page = "<!DOCTYPE html><html lang=en><title>x</title><body>" + "".join(svgs)
    ids = re.findall(r' id="([^"]*)"', page)
    assert len(ids) == len(set(ids)) >= 12
    assert set(re.findall(r'href="#([^"]*)"', page)) <= set(ids)
    for at, svg in enumerate(svgs):
        assert all(ref.startswith(f"figure-{at}-") for ref in re.findall(r'href="#([^"]*)"', svg))
    parser = HTMLParser(namespace_html_elements=False)
    parser.parse(page)
    assert parser.errors == []


@pytest.mark.parametrize("position", POSITIONS)
@pytest.mark.parametrize("view", ["side", "front"])
def test_mirrored_is_the_mirror_image(position: str, view: str) -> None:
    """One panel for the left is one for the right in a mirror, place for place and path for path."""
    plain, mirrored = (draw(still(position, view), ("quadriceps",), mirror=mirror).svg for mirror in (False, True))
    width = _viewbox(plain)[2]
    assert _viewbox(plain) == _viewbox(mirrored)
    for (data, look), (other, other_look) in zip(paths(plain), paths(mirrored), strict=True):
        assert look == other_look
        if "a" not in data:
            assert [(width - x, y) for x, y in places(data)] == places(other)


def test_panels_stay_in_order_when_mirrored() -> None:
    """A left prescription turns each body round and leaves the start on the left."""
    plain, mirrored = _drawn("knee extension"), _drawn("knee extension", "x", True)
    assert plain.roles == mirrored.roles == ("start", "end")
    arrow = [places(data) for data, look in paths(plain.svg) if f'"{ink.BOLD}"' in look]
    turned = [places(data) for data, look in paths(mirrored.svg) if f'"{ink.BOLD}"' in look]
    half = _viewbox(plain.svg)[2] / 2
    assert min(x for x, _ in arrow[0]) > half and min(x for x, _ in turned[0]) > half


def test_panels_from_right_to_left_mirror_no_body() -> None:
    """On a page that is read from the right the first panel stands right, and every body looks where it looked."""
    figure, works = EXAMPLES["knee extension"]
    plain, leftward = draw(figure(), works).svg, draw(figure(), works, leftward=True).svg
    bodies = [places(data) for data, look in paths(plain) if 'fill="#fff"' in look]
    others = [places(data) for data, look in paths(leftward) if 'fill="#fff"' in look]
    shifts = [
        {(b[0] - a[0], b[1] - a[1]) for a, b in zip(one, other, strict=True)}
        for one, other in zip(bodies, others, strict=True)
    ]
    assert all(len(shift) == 1 for shift in shifts)
    assert len({next(iter(shift)) for shift in shifts}) == 2


@pytest.mark.parametrize("name", EXAMPLES)
def test_nothing_lies_outside_the_drawing(name: str) -> None:
    """Every line of every path lies within the view box."""
    svg = _drawn(name).svg
    _, _, width, height = _viewbox(svg)
    for data, _ in paths(svg):
        for x, y in sampled(data):
            assert -1 <= x <= width + 1 and -1 <= y <= height + 1


@pytest.mark.parametrize("name", EXAMPLES)
def test_outlines_are_closed(name: str) -> None:
    """A path that is filled ends with a closed piece."""
    for data, look in paths(_drawn(name).svg):
        if "fill=" in look:
            assert data.endswith("z")


def test_one_scale_whatever_the_figure() -> None:
    """A unit of every drawing is the same length on paper, and somebody who stands as high as is said."""
    for name in EXAMPLES:
        drawing = _drawn(name)
        assert drawing.width_mm / _viewbox(drawing.svg)[2] == pytest.approx(SCALE / (STATURE * UNITS), rel=0.01)
    standing = draw(still("standing", "front"))
    assert standing.height_mm == pytest.approx(SCALE, abs=1.7)
    assert draw(still("standing", "front"), scale=2 * SCALE).height_mm == pytest.approx(2 * standing.height_mm, abs=0.2)


def test_where_panels_do_not_fit_there_is_one_with_a_shadow() -> None:
    """Room for one panel only: the last pose over the shadow of the first."""
    figure, works = EXAMPLES["bridge"]
    wide, narrow = draw(figure(), works), draw(figure(), works, room=50.0)
    assert wide.roles == ("start", "end") and narrow.roles == ("end",)
    assert narrow.width_mm < 50 < wide.width_mm
    assert draw(figure(), works, overlaid=True).svg == narrow.svg


@pytest.mark.parametrize("name", [name for name in EXAMPLES if name != "stick raise"])
def test_an_arrow_keeps_off_the_face(name: str) -> None:
    """No arrow comes near a head, and each is long enough to be seen: 4 mm on paper with its point."""
    figure, works = EXAMPLES[name]
    for panel in sheet(figure(), works, False).panels:
        head = panel.body.parts["head"].solid
        for line in panel.arrows:
            assert all(head.distance(x, y) > 3 for x, y in line)
            (ax, ay), (bx, by) = line[0], line[-1]
            assert ((ax - bx) ** 2 + (ay - by) ** 2) ** 0.5 * SCALE / STATURE > 4


def test_what_is_not_shaded_is_said() -> None:
    """A target that is no place, and one that faces away, are named."""
    figure, _ = EXAMPLES["abduction"]
    assert draw(figure(), ("outer hip", "balance", "buttocks")).unshaded == ("balance", "buttocks")


def test_tones_differ_in_grey() -> None:
    """Relative luminance (WCAG 2.2, definition): neighbours on a body differ when printed without colour."""
    light = {name: _luminance(tone) for name, tone in vars_of(ink.NEAR).items()}
    assert light["skin"] - light["garment"] > 0.3
    assert light["garment"] - light["shoe"] > 0.3
    assert light["works"] - _luminance(ink.RUST) > 0.5
    assert abs(light["skin"] - _luminance(ink.FAR.skin)) > 0.15
    assert light["line"] < 0.05 < _luminance(ink.FAR.line) < 0.3


def test_lines_are_wide_enough_for_print() -> None:
    """In usual print no line is finer than .15 mm, common practice in print without a source."""
    unit = SCALE / (STATURE * UNITS)
    assert min(ink.LINE, ink.THIN, ink.HATCH) * unit > 0.15


def vars_of(tones: ink.Tones) -> dict[str, str]:
    """The colours of a set of tones by name."""
    return {name: getattr(tones, name) for name in ("skin", "garment", "shoe", "hair", "works", "line")}


def _luminance(colour: str) -> float:
    digits = colour[1:] if len(colour) == 7 else "".join(2 * digit for digit in colour[1:])
    parts = [int(digits[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def test_a_band_from_both_hands_to_a_fixed_point_is_two_strips_that_meet_there() -> None:
    hands = PlacedProp("band", (0.0, 0.0, 0.0), (-1.0, 0.0, 0.0), 0.0, ("hand", "anchor"))
    reaching = pose("start", "standing", {"shoulder flexion": 80.0})
    without = set(paths(draw(figure(reaching, view="front")).svg))
    band = set(paths(draw(figure(reaching, props=[hands], view="front")).svg)) - without
    strips = [data for data, rest in band if 'fill="' not in rest]
    assert len({places(data)[0] for data in strips}) == 2 and len({places(data)[-1] for data in strips}) == 1
