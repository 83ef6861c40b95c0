"""Protocols: their lines read, joined along `like`, and the whole built."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from protodsl.diagnostics import kinds as say_kinds
from protodsl.diagnostics import names as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.suggest import nearest
from protodsl.model.exercise import Give
from protodsl.model.protocol import Choose, Content, Part, Phase, Protocol, Review, Scope, Zone
from protodsl.model.reach import exercises_reached, gives_of, items_of
from protodsl.resolve.blocks import UNREADABLE, Form, Reader, damaged, every, first
from protodsl.resolve.gives import choose, give, part
from protodsl.resolve.inherit import inherit
from protodsl.resolve.layers import dosage, dose_line
from protodsl.resolve.lines import block_value, caution, flag, lift, prose_value
from protodsl.resolve.names import Block, Names
from protodsl.resolve.phases import (
    CONTENTS,
    PhaseLines,
    advice,
    build,
    join_contents,
    join_phase,
    leave_out,
    read_phase,
)
from protodsl.resolve.prose import default_title, prose, prose_lines
from protodsl.resolve.quantities import quantity
from protodsl.syntax import tree

# What may have given something, had it been understood.
_GIVING = frozenset(("give", "part", "choose", "phase", "change", UNREADABLE))


def _version(line: tree.VersionLine, names: Names) -> str:
    return line.version


def _review(line: tree.ReviewLine, names: Names) -> Review:
    if line.next_by < line.date:
        names.say(say_kinds.review_turned(line.head))
    return Review(line.date, line.by.text, line.next_by, span=line.head)


def _amount(line: tree.AmountLine, names: Names) -> Any:
    """`budget` or `lasts`, more than nothing; its unit was seen to by the parser."""
    if line.amount is None or line.amount.unit is None:
        return None
    if line.amount.value <= 0:
        why = "it has to be more than 0"
        help_ = "write the number that is meant"
        names.say(say_kinds.impossible_number(str(quantity(line.amount)), why, help_, line.head))
        return None
    return quantity(line.amount)


def _zones(line: tree.ZonesLine, names: Names) -> tuple[Zone, ...]:
    return tuple(
        [
            Zone(zone.low, zone.high, prose(zone.words, "pain zones", names),
                 prose_lines(zone.lines, "pain zones", names), span=zone.span)
            for zone in line.zones
        ]
    )  # fmt: skip


def _phase(line: tree.Declaration, names: Names) -> PhaseLines:
    return read_phase(line.name, line.lines, line, names)


def _later(line: tree.Declaration, names: Names) -> tree.Declaration:
    """A `change` is read as lines of what it changes, once that is known."""
    return line


READERS: dict[str, Reader] = {
    "title": prose_value,
    "version": _version,
    "review": _review,
    "source": prose_value,
    "for": prose_value,
    "goal": prose_value,
    "why": prose_value,
    "when": prose_value,
    "budget": _amount,
    "lasts": _amount,
    "emergency if": flag,
    "red flag if": flag,
    "call if": flag,
    "caution if": caution,
    "advice": advice,
    "flare-up": block_value,
    "pain zones": _zones,
    "stop": prose_value,
    "may": prose_value,
    "not yet": prose_value,
    "lift": lift,
    "dose": dose_line,
    "give": give,
    "part": part,
    "choose": choose,
    "phase": _phase,
    "leave out": leave_out,
    "change": _later,
}
FORM = Form("a protocol", READERS)


def join(inherited: Block | None, own: Block, node: tree.Declaration, said: list[Diagnostic]) -> Block:
    """A protocol's own lines over those of the one it is like; phases of one name are joined line by line."""
    block = inherit(inherited, own, "protocol", False, said)
    if inherited is None:
        block = {**block, "phase": [_alone(phase, said) for phase in _unique(own.get("phase", ()), said)]}
        return block
    join_contents(block, inherited, own, node.name.text, node.head, said)
    block["phase"] = _join_phases(inherited.get("phase", []), _unique(own.get("phase", ()), said), said)
    given = {give.item for give in _all_gives(own)}
    kept = [name for name in inherited.get("leave out", ()) if name.text not in given]
    block["leave out"] = [*kept, *own.get("leave out", ())]
    return block


def _alone(phase: PhaseLines, said: list[Diagnostic]) -> PhaseLines:
    """A phase with nothing to inherit."""
    return replace(phase, block=inherit(None, phase.block, "phase", True, said))


def _unique(phases: Any, said: list[Diagnostic]) -> list[PhaseLines]:
    seen: dict[str, PhaseLines] = {}
    for phase in phases:
        before = seen.setdefault(phase.name.text, phase)
        if before is not phase:
            said.append(say.declared_twice("phases", phase.name.text, phase.name.span, before.name.span))
    return list(seen.values())


def _join_phases(
    inherited: list[PhaseLines], own: list[PhaseLines], said: list[Diagnostic]
) -> list[PhaseLines]:
    """Phases in their inherited order; a new one stands behind the one written before it, or last."""
    phases = list(inherited)
    before: str | None = None
    for phase in own:
        at = _at(phases, phase.name.text)
        if at is not None:
            phases[at] = join_phase(phases[at], phase, said)
        else:
            behind = _at(phases, before) if before is not None else None
            phases.insert(len(phases) if behind is None else behind + 1, _alone(phase, said))
        before = phase.name.text
    return phases


def change_phase(block: Block, change: PhaseLines, said: list[Diagnostic]) -> Block:
    """The protocol's lines with one of its phases changed."""
    phases: list[PhaseLines] = list(block["phase"])
    at = _at(phases, change.name.text)
    if at is not None:
        phases[at] = join_phase(phases[at], change, said)
    return {**block, "phase": phases}


def _at(phases: list[PhaseLines], name: str) -> int | None:
    return next((at for at, phase in enumerate(phases) if phase.name.text == name), None)


def _all_gives(block: Block) -> tuple[Give, ...]:
    contents = [*block.get(CONTENTS, ()), *(one for p in block.get("phase", ()) for one in p.block.get(CONTENTS, ()))]
    return items_of(contents)


def build_protocol(node: tree.Declaration, block: Block, scope: Scope, said: list[Diagnostic]) -> Protocol:
    """The protocol that the lines come to, with what is left out taken out."""
    prefix = f"protocol/{node.name.text}/"
    phases = tuple([build(phase, prefix) for phase in block.get("phase", ())])
    _earlier_phases(block.get("phase", []), node, said)
    budget = first(block, "budget")
    whole = Protocol(
        name=node.name.text,
        title=first(block, "title") or default_title(node.name, prefix),
        version=first(block, "version") or "",
        scope=scope,
        like=node.like.text if node.like is not None else None,
        review=first(block, "review"),
        sources=every(block, "source"),
        audience=first(block, "for"),
        goals=every(block, "goal"),
        why=first(block, "why"),
        when=first(block, "when"),
        budget=budget.value if budget is not None else None,
        lasts=first(block, "lasts"),
        emergencies=every(block, "emergency if"),
        red_flags=every(block, "red flag if"),
        calls=every(block, "call if"),
        cautions=every(block, "caution if"),
        advice=every(block, "advice"),
        flare_up=first(block, "flare-up") or (),
        zones=first(block, "pain zones") or (),
        stop=every(block, "stop"),
        may=every(block, "may"),
        not_yet=every(block, "not yet"),
        dosage=dosage(block),
        contents=every(block, CONTENTS),
        phases=tuple([replace(phase, leave_out=()) for phase in phases]),
        lifted=every(block, "lifted"),
        damaged=damaged(block),
        span=node.name.span,
    )
    return _without_left_out(whole, phases, block, said)


def _without_left_out(
    whole: Protocol, phases: tuple[Phase, ...], block: Block, said: list[Diagnostic]
) -> Protocol:
    """The protocol without the gives that it or a phase leaves out; what was never given is said."""
    names: list[tree.Name] = block.get("leave out", [])
    if not names and not any(phase.leave_out for phase in phases):
        return whole
    where = f"`{whole.name}`"
    _all_given(names, whole, None, where, said)
    out = frozenset(name.text for name in names)
    done = []
    for phase, bare, lines in zip(phases, whole.phases, block["phase"], strict=True):
        _all_given(lines.block.get("leave out", ()), whole, bare, f"`{phase.name}`", said)
        left = out | frozenset(phase.leave_out)
        done.append(replace(phase, contents=_without(phase.contents, left)))
    contents = _without(whole.contents, out)
    return replace(whole, contents=contents, phases=tuple(done), leave_out=tuple([name.text for name in names]))


def _all_given(names: Any, protocol: Protocol, phase: Phase | None, where: str, said: list[Diagnostic]) -> None:
    """Each name that is left out is given there, or is reached as a level or an `instead`."""
    broken = {*protocol.damaged, *(phase.damaged if phase else ())}
    if not names or broken & _GIVING:
        return
    given = {give.item for give in gives_of(protocol, phase)}
    given |= {reached.exercise for reached in exercises_reached(protocol, phase)}
    for name in names:
        if name.text not in given:
            said.append(say.not_given(name.text, where, name.span, nearest(name.text, given)))


def _without(contents: tuple[Content, ...], out: frozenset[str]) -> tuple[Content, ...]:
    """Contents without the gives of these items; a part or a choice of which nothing is left goes too."""
    left: list[Content] = []
    for one in contents:
        if isinstance(one, Part):
            inside = _fewer(one.contents, out)
            if inside:
                left.append(replace(one, contents=inside))
        else:
            left += _fewer((one,), out)
    return tuple(left)


def _fewer(contents: tuple[Give | Choose, ...], out: frozenset[str]) -> tuple[Give | Choose, ...]:
    left: list[Give | Choose] = []
    for one in contents:
        if isinstance(one, Give):
            if one.item not in out:
                left.append(one)
        elif gives := tuple([give for give in one.gives if give.item not in out]):
            left.append(replace(one, gives=gives))
    return tuple(left)


def _earlier_phases(phases: list[PhaseLines], node: tree.Declaration, said: list[Diagnostic]) -> None:
    """Every `back to` names a phase that is there and comes before."""
    order = {phase.name.text: at for at, phase in enumerate(phases)}
    for at, phase in enumerate(phases):
        for back in phase.block.get("back to", ()):
            target = order.get(back.phase)
            if target is None:
                near = nearest(back.phase, order)
                name = node.name
                said.append(say.undeclared_inside("phases", back.phase, name.text, back.span, name.span, near))
            elif target >= at:
                place = phases[target].name.span
                said.append(say.later_phase(back.phase, phase.name.text, back.span, place))
