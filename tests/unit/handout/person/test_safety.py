"""Every line that keeps this person safe stands on the sheet, in its part, with its file and line."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

import pytest

from protodsl.decide.plan import Plan
from protodsl.handout import Options, safety_items
from protodsl.handout.person import compose_person, sheet
from protodsl.model.clinic import Clinic
from protodsl.render import Style, html
from protodsl.source import Span
from tests.unit.handout import samples
from tests.unit.handout.person import plans

# The parts that carry safety lines, by their name in the module that puts the sheet together, and what is left of them.
_PARTS: dict[str, Callable[..., object]] = {
    "stop": lambda on: samples.empty_section(),
    "pain": lambda on: None,
    "flare": lambda on: None,
    "care": lambda on: None,
    "cards": lambda plan, on: (),
    "daily": lambda plan, on: None,
    "part": lambda plan, on: None,
}


def _wanted(plan: Plan) -> Iterator[tuple[str, Span]]:
    """What must be on the sheet of a plan, from the model: how its id begins, and its place."""
    protocol, phase = plan.protocol, plan.phase
    yield from (("stop/emergency/", one.span) for one in protocol.emergencies)
    yield from (("stop/red-flag/", one.span) for one in protocol.red_flags)
    yield from (("stop/call/", one.span) for one in (*protocol.calls, *(phase.calls if phase else ())))
    yield from (("stop/stop/", one.span) for one in (*protocol.stop, *(phase.stop if phase else ())))
    yield from (("daily/not-yet/", one.span) for one in (*protocol.not_yet, *(phase.not_yet if phase else ())))
    yield from (("pain/", one.span) for one in protocol.zones)
    yield from (("flare/", one.span) for one in protocol.flare_up)
    yield from (("care/", one.line.span) for one in plan.cautions if one.stays)
    if phase is not None:
        yield from (("daily/limit/", one.span) for one in phase.limits)
        yield from (("daily/forbid/", one.span) for one in phase.forbids)
        yield from (("part/back/", one.span) for one in phase.back_to)
        if phase.bearing is not None:
            yield "daily/bearing", phase.span
    for item in plan.items:
        name = f"card/{item.exercise.name}"
        yield from ((f"{name}/stop/", one.span) for one in item.exercise.stop)
        yield from ((f"{name}/avoid/", one.line.span) for one in item.avoids if one.stays)
        yield from ((f"{name}/caution/", one.line.span) for one in item.cautions if one.stays)
        if item.supervised:
            yield f"{name}/supervised", item.exercise.span
        if item.level is not None:
            levels = plan.protocol.scope.progressions[item.level.progression].levels
            level = next(one for one in levels if one.name == item.level.printed)
            yield from ((f"{name}/line/", one.span) for one in level.down)


def missing(plan: Plan, clinic: Clinic = samples.CLINIC, options: Options = plans.OPTIONS) -> set[str]:
    """The safety lines that the sheet of a plan does not hold in the part where they belong."""
    page = compose_person(plan, clinic, options)
    assert page is not None
    there = [(item.safety, item.origin) for item in safety_items(page)]
    lost = set()
    for start, span in _wanted(plan):
        origin = f"{span.path}:{options.sources[span.path].position(span.start)[0]}"
        if not any(safety.startswith(start) and at == origin for safety, at in there):
            lost.add(f"{start} {origin}")
    return lost


def _all_stay(plan: Plan) -> Plan:
    """The plan of somebody for whom no line has gone."""
    items = tuple(
        replace(
            item,
            avoids=tuple(replace(one, stays=True) for one in item.avoids),
            cautions=tuple(replace(one, stays=True) for one in item.cautions),
        )
        for item in plan.items
    )
    return replace(plan, items=items)


_PLANS = {
    "build": plans.plan(),
    "settle": replace(plans.plan(), phase=plans.SETTLE),
    "all stay": _all_stay(plans.plan()),
    "nothing to do": replace(plans.plan(), items=()),
}


@pytest.mark.parametrize("name", _PLANS)
def test_every_safety_line_is_on_the_sheet(name: str) -> None:
    """For each plan, every line that the model holds for this person today."""
    assert len(list(_wanted(_PLANS[name]))) > 10
    assert missing(_PLANS[name]) == set()


@pytest.mark.parametrize("name", _PARTS)
def test_a_part_taken_away_is_missed(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The test above can fail: without any one part some lines are lost, and only lines of that part."""
    plan = replace(plans.plan(), phase=plans.SETTLE) if name == "daily" else plans.plan()
    monkeypatch.setattr(sheet, name, _PARTS[name])
    lost = missing(plan)
    start = {"cards": "card/"}.get(name, f"{name}/")
    assert lost and all(line.startswith(start) for line in lost)


@pytest.mark.parametrize("name", _PLANS)
def test_no_safety_id_stands_twice(name: str) -> None:
    """Each line is looked for on the page by its id, so two lines of one id would hide each other."""
    page = compose_person(_PLANS[name], samples.CLINIC, plans.OPTIONS)
    assert page is not None
    ids = [item.safety for item in safety_items(page)]
    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("name", _PLANS)
def test_the_page_shows_them(name: str) -> None:
    """Rendering looks for every one of them and has nothing to say."""
    page = compose_person(_PLANS[name], samples.CLINIC, plans.OPTIONS)
    assert page is not None
    made = html(plans.words(page), Style())
    assert made.value is not None and made.diagnostics == ()


def test_a_line_that_is_plainly_no_for_good_is_gone() -> None:
    """Only facts that cannot change disappear: the card without such a line is shorter by just it."""
    whole, today = (
        {item.safety for item in safety_items(page)}
        for plan in (_all_stay(plans.plan()), plans.plan())
        if (page := compose_person(plan, samples.CLINIC, plans.OPTIONS)) is not None
    )
    # Ids count the lines that stay, so the number of the last one tells.
    assert whole - today == {"card/heel raise both legs/avoid/2"}
