"""Drawings on the pages of a handout: in HTML, and tagged in a PDF with their words."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from typing import Any

from pypdf import PdfReader

from protodsl.figure.draw.draw import draw
from protodsl.handout.blocks import ExerciseCard, Handout, Picture
from protodsl.render.style import Style
from protodsl.render.to_html import html
from protodsl.render.to_pdf import pdf
from tests.unit.figure.draw.bodies import EXAMPLES
from tests.unit.render import sample

_NAMES = ("knee extension", "bridge", "heel raise")


def _card(number: int, name: str) -> ExerciseCard[str]:
    figure, works = EXAMPLES[name]
    drawing = draw(figure(), works, f"figure-{number}")
    captions = tuple(f"{at} {role}" for at, role in enumerate(drawing.roles, 1))
    return replace(sample.card(number, name), picture=Picture(f"The words for {name}.", captions, drawing.svg))


def _handout() -> Handout[str]:
    return sample.sheet(tuple(_card(number, name) for number, name in enumerate(_NAMES, 1)))


def test_every_figure_is_tagged_with_its_words() -> None:
    """PDF/UA-1 (ISO 14289-1:2014, 7.3): a figure is tagged as one and has an alternative."""
    made = pdf(_handout(), Style())
    assert made.value is not None and made.diagnostics == ()
    reader = PdfReader(io.BytesIO(made.value))
    root: Any = reader.trailer["/Root"]
    found = [str(node.get("/Alt")) for node in _nodes(root["/StructTreeRoot"]) if node.get("/S") == "/Figure"]
    assert [words for words in found if words.startswith("The words for")] == [
        f"The words for {name}." for name in _NAMES
    ]


def test_captions_are_as_wide_as_the_drawing() -> None:
    """The width of a drawing and of its captions is one, so that each caption stands under its panel."""
    made = html(_handout(), Style())
    assert made.value is not None
    text = made.value.decode() if isinstance(made.value, bytes) else str(made.value)
    drawings = re.findall(r"<svg[^>]* role=\"img\"[^>]*style=\"(width:[^\"]*)\"", text)
    captions = re.findall(r"<div class=\"captions[^>]*style=\"(width:[^\"]*)\"", text)
    assert drawings == captions and len(drawings) == len(_NAMES)


def _nodes(node: Any) -> Any:
    node = node.get_object() if hasattr(node, "get_object") else node
    if not isinstance(node, dict):
        return
    yield node
    kids = node.get("/K")
    for kid in kids if isinstance(kids, list) else [kids] if kids is not None else []:
        yield from _nodes(kid)
