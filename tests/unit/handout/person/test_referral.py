"""The referral page: what is so and whom to call, and no exercise by any name."""

from __future__ import annotations

from dataclasses import replace

import pytest

from protodsl.decide.plan import REFER, UNANSWERED, FlagState
from protodsl.decide.truth import YES
from protodsl.handout import safety_items
from protodsl.handout.blocks import Stop
from protodsl.handout.person import compose_referral
from protodsl.render import Style, html, pdf
from tests.unit.handout import samples
from tests.unit.handout.person import plans


def test_only_the_flags_that_are_yes_stand_on_it() -> None:
    """Each under what to do, with the number to call; nothing else is a section."""
    page = compose_referral(plans.refused(REFER), samples.CLINIC, plans.OPTIONS)
    assert page is not None
    assert page.kind == "referral"
    assert [item.safety for item in safety_items(page)] == ["referral/red-flag/1"]
    (section,) = plans.words(page).sections
    (frame,) = section.blocks
    assert isinstance(frame, Stop)
    (group,) = frame.groups
    assert (group.head, group.phone) == ("Stop all exercises. Call us today", "01632 960 142")
    assert [item.text for item in group.lines] == [
        "You have torn your calf muscle in the last 6 weeks. Do not start. Call us today."
    ]


def test_an_emergency_comes_first() -> None:
    """The emergency number over the clinic's own."""
    plan = replace(
        plans.refused(REFER),
        emergencies=tuple(FlagState("emergency if", one, YES) for one in plans.PROTOCOL.emergencies),
    )
    page = compose_referral(plan, samples.CLINIC, plans.OPTIONS)
    assert page is not None
    frame = plans.words(page).sections[0].blocks[0]
    assert isinstance(frame, Stop)
    assert [(group.phone, group.urgent, len(group.lines)) for group in frame.groups] == [
        ("112", True, 2),
        ("01632 960 142", False, 1),
    ]


def test_no_exercise_is_named() -> None:
    """No name and no title of any exercise or progression that the protocol can reach, in any word of the page."""
    page = compose_referral(plans.refused(REFER), samples.CLINIC, plans.OPTIONS)
    assert page is not None
    text = " ".join(plans.strings(plans.words(page))).lower()
    scope = plans.PROTOCOL.scope
    assert scope.exercises and scope.progressions
    names = (*scope.exercises, *scope.progressions)
    titles = [one.title.text for one in scope.exercises.values()]
    titles += [one.title.text for one in scope.progressions.values()]
    for name in (*names, *titles):
        assert name.lower() not in text


@pytest.mark.parametrize("plan", [plans.plan(), plans.refused(UNANSWERED)])
def test_without_a_yes_there_is_none(plan: object) -> None:
    """An unknown flag is no referral: it has to be asked first."""
    assert compose_referral(plan, samples.CLINIC, plans.OPTIONS) is None  # type: ignore[arg-type]


def test_it_can_be_printed() -> None:
    """One page, as HTML and as PDF, with nothing to say about either."""
    page = compose_referral(plans.refused(REFER), samples.CLINIC, plans.OPTIONS)
    assert page is not None
    for made in (html(plans.words(page), Style()), pdf(plans.words(page), Style())):
        assert made.value is not None and made.diagnostics == ()
