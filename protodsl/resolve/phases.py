"""Phases: what they limit, forbid, give and how they end, and how they are inherited and changed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from protodsl.diagnostics import kinds as say
from protodsl.diagnostics import names as say_names
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.frozen import frozen
from protodsl.model.condition import Placed
from protodsl.model.exercise import Give
from protodsl.model.protocol import Advice, BackTo, Choose, Content, Forbid, Limit, Part, Phase, Until
from protodsl.model.reach import items_of
from protodsl.model.text import Prose
from protodsl.resolve.blocks import Form, Reader, damaged, every, first, read_block
from protodsl.resolve.canonical import line_text
from protodsl.resolve.closed import movement
from protodsl.resolve.comparisons import setting_value
from protodsl.resolve.conditions import condition
from protodsl.resolve.gives import choose, give, part
from protodsl.resolve.inherit import inherit
from protodsl.resolve.layers import dosage, dose_line, one_dose, streak_fits
from protodsl.resolve.lines import Word, bearing, caution, flag, lift, prose_value
from protodsl.resolve.names import Block, Missing, Names
from protodsl.resolve.prose import default_title, prose, prose_lines
from protodsl.resolve.quantities import quantity_in
from protodsl.source import Span
from protodsl.syntax import tree
from protodsl.units import UNITS, Quantity

# Keywords of what is given; in a block they are also kept together under CONTENTS, in text order.
CONTENT_TYPES: dict[str, type] = {"give": Give, "choose": Choose, "part": Part}
CONTENTS = "contents"
WEAKEST = "passive"


@frozen
class PhaseLines(Placed):
    """A phase as read or joined so far; `span` is its head, `place` of its name."""

    name: tree.Name
    block: Block


def _limit(line: tree.LimitLine, names: Names) -> Limit | None:
    if line.op not in ("<=", "<"):
        names.say(say.limit_not_at_most(line.op, line.head))
        return None
    if line.name.text == "load":
        most = _most(line.operand, "mass", "the load", "limit load <= 3 kg", names)
        found = ("", "", "")
    else:
        written = movement(line.name, names)
        most = _most(line.operand, "angle", line.name.text, "limit knee flexion <= 90 deg", names)
        if written is None:
            return None
        found = written
    if most is None:
        return None
    kind, joint, what = found
    value, setting = most
    return Limit(joint, what, line.op, value, setting, kind or WEAKEST, line_text(line), span=line.head)


def _most(
    operand: tree.Operand, dimension: str, what: str, example: str, names: Names
) -> tuple[Quantity, str | None] | None:
    """The bound of a limit, and the setting it comes from."""
    if operand.name is None:
        assert operand.amount is not None
        needs = "an angle" if dimension == "angle" else "a weight"
        found = quantity_in(operand.amount, (dimension,), f"the limit of {what}", needs, example, names)
        return None if found is None else (found, None)
    symbol = names.find("settings", operand.name.text)
    if symbol is None:
        names.missing.append(Missing(("settings",), operand.name))
        return None
    constant = setting_value(operand, symbol, UNITS["deg" if dimension == "angle" else "kg"], what, names)
    return None if constant is None else (constant.quantity, constant.setting)


def _forbid(line: tree.NamesLine, names: Names) -> Forbid | None:
    written = movement(line.names[0], names)
    if written is None:
        return None
    kind, joint, what = written
    return Forbid(kind or WEAKEST, joint, what, line_text(line), span=line.head)


def _until(line: tree.Guard, names: Names) -> Until | None:
    when = condition(line.condition, names)
    if when is None or not streak_fits(line.streak, line, names):
        return None
    return Until(when, line.streak or 1, span=line.head)


def _back_to(line: tree.Guard, names: Names) -> BackTo | None:
    """`back to`; whether the phase is there and earlier is seen when the phases are known."""
    when = condition(line.condition, names)
    lines = prose_lines(line.lines, "back to", names)
    if when is None or line.target is None or not streak_fits(line.streak, line, names):
        return None
    return BackTo(line.target.text, when, line.streak or 1, lines, span=line.target.span)


def advice(line: tree.BlockLine, names: Names) -> Advice | None:
    """A titled piece of advice."""
    if line.title is None:
        return None
    return Advice(prose(line.title, "advice", names), prose_lines(line.lines, "advice", names), span=line.head)


def leave_out(line: tree.NamesLine, names: Names) -> tree.Name | None:
    """Something that is left out; whether it is given at all is seen when the whole is known."""
    name = line.names[0]
    exercise, progression = names.find("exercises", name.text), names.find("progressions", name.text)
    if exercise is None and progression is None:
        names.missing.append(Missing(("exercises", "progressions"), name))
        return None
    return name


READERS: dict[str, Reader] = {
    "title": prose_value,
    "limit": _limit,
    "forbid": _forbid,
    "bearing": bearing,
    "until": _until,
    "back to": _back_to,
    "dose": dose_line,
    "give": give,
    "part": part,
    "choose": choose,
    "advice": advice,
    "call if": flag,
    "caution if": caution,
    "stop": prose_value,
    "may": prose_value,
    "not yet": prose_value,
    "leave out": leave_out,
    "lift": lift,
}
FORM = Form("a phase", READERS)


def read_phase(name: tree.Name, lines: Iterable[tree.Statement], place: tree.Statement, names: Names) -> PhaseLines:
    """The lines of a phase, or of a change of one."""
    before, names.prefix = names.prefix, f"{names.prefix}phase/{name.text}/"
    block = read_block(lines, FORM, names)
    names.prefix = before
    one_dose(block, names)
    gather(block)
    return PhaseLines(name, block, span=place.head)


def gather(block: Block) -> None:
    """Put what is given together in text order."""
    contents = [value for keyword in CONTENT_TYPES for value in block.pop(keyword, ())]
    if contents:
        contents.sort(key=lambda one: one.span.start)
        block[CONTENTS] = contents


def join_phase(inherited: PhaseLines, own: PhaseLines, said: list[Diagnostic]) -> PhaseLines:
    """An inherited phase with the lines that state it again laid over."""
    block = inherit(inherited.block, own.block, "phase", True, said)
    join_contents(block, inherited.block, own.block, own.name.text, own.span, said)
    _join_left_out(block, inherited.block, own.block)
    return replace(inherited, block=block)


def join_contents(block: Block, inherited: Block, own: Block, where: str, place: Span, said: list[Diagnostic]) -> None:
    """Restated gives replace the inherited gives, choices the choices, parts the parts; each where the first stood."""
    theirs: list[Content] = list(inherited.get(CONTENTS, ()))
    ours: list[Content] = list(own.get(CONTENTS, ()))
    if not ours:
        return
    gone: list[Content] = []
    for kind in CONTENT_TYPES.values():
        restated = [one for one in ours if isinstance(one, kind)]
        if not restated:
            continue
        at = next((at for at, one in enumerate(theirs) if isinstance(one, kind)), len(theirs))
        gone += [one for one in theirs if isinstance(one, kind)]
        kept = [one for one in theirs if not isinstance(one, kind)]
        theirs = kept[:at] + restated + kept[at:]
    block[CONTENTS] = theirs
    now = {one.item for one in items_of(theirs)}
    lost = [one.item for one in items_of(gone) if one.item not in now]
    if lost:
        said.append(say_names.gives_replaced(tuple(dict.fromkeys(lost)), where, place))


def _join_left_out(block: Block, inherited: Block, own: Block) -> None:
    """What was left out stays out, unless it is given again here."""
    given = {one.item for one in items_of(own.get(CONTENTS, ()))}
    names = [name for name in inherited.get("leave out", ()) if name.text not in given]
    names += own.get("leave out", ())
    if names:
        block["leave out"] = names


def build(lines: PhaseLines, prefix: str) -> Phase:
    """The phase that the lines come to."""
    block, name = lines.block, lines.name
    weight: Word | None = first(block, "bearing")
    title: Prose | None = first(block, "title")
    return Phase(
        name.text,
        title or default_title(name, f"{prefix}phase/{name.text}/"),
        weight.word if weight else None,
        every(block, "limit"),
        every(block, "forbid"),
        every(block, "until"),
        every(block, "back to"),
        every(block, CONTENTS),
        dosage(block),
        every(block, "advice"),
        every(block, "call if"),
        every(block, "caution if"),
        every(block, "stop"),
        every(block, "may"),
        every(block, "not yet"),
        tuple([name.text for name in block.get("leave out", ())]),
        every(block, "lifted"),
        damaged(block),
        span=name.span,
    )
