"""About this sheet: as on the general sheet, with this person's sides."""

from __future__ import annotations

from dataclasses import replace

from protodsl.decide.plan import Plan
from protodsl.handout.about import about as general
from protodsl.handout.blocks import Block, Item, Row, Section
from protodsl.handout.draft import Draft
from protodsl.handout.person.voice import other_side, side_of
from protodsl.handout.phrase import Message, Phrase
from protodsl.handout.words import say


def about(plan: Plan, on: Draft) -> Section[Phrase]:
    """The rows of the general sheet; what is meant by the sides stands in the words of the person's own."""
    section = general(on)
    worse = plan.side.worse
    if worse is None:
        return section
    key = "person.sides.both" if plan.side.both else "person.sides"
    text = Item(say(key, side=side_of(worse), other=side_of(other_side(worse))))
    return replace(section, blocks=tuple(_own(block, text) for block in section.blocks))


def _own(block: Block[Phrase], text: Item[Phrase]) -> Block[Phrase]:
    if isinstance(block, Row) and isinstance(block.head, Message) and block.head.key == "about.sides.head":
        return replace(block, lines=(text,))
    return block
