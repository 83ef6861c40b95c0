"""What is given: an item with its lines, parts and choices."""

from __future__ import annotations

from protodsl.diagnostics import kinds as say
from protodsl.diagnostics import names as say_names
from protodsl.model.exercise import Give
from protodsl.model.protocol import Choose, Part
from protodsl.resolve.blocks import Form, first, read_block
from protodsl.resolve.conditions import condition
from protodsl.resolve.layers import adjust_line, dosage, dose_line, one_dose, set_line, step_line
from protodsl.resolve.lines import always, focus, item, prose_value
from protodsl.resolve.names import Names
from protodsl.resolve.prose import prose
from protodsl.syntax import tree

GIVE = Form(
    "a `give`",
    {
        "dose": dose_line,
        "set": set_line,
        "adjust": adjust_line,
        "add": step_line,
        "take off": step_line,
        "focus": focus,
        "why": prose_value,
        "when": prose_value,
        "supervised": always,
    },
)


def give(line: tree.Give, names: Names) -> Give | None:
    """Something a protocol or a phase gives."""
    return _give(line, item(line.item, names), names)


def give_in_level(line: tree.Give, names: Names) -> Give | None:
    """An exercise that a level gives."""
    progression = names.find("progressions", line.item.text)
    if progression is not None and names.find("exercises", line.item.text) is None:
        names.say(say_names.level_gives_progression(line.item.text, line.item.span, progression.span))
        return _give(line, False, names)
    return _give(line, names.known("exercises", line.item) is not None, names)


def _give(line: tree.Give, there: bool, names: Names) -> Give | None:
    when = condition(line.condition, names) if line.condition is not None else None
    if not line.lines:
        if not there or (when is None and line.condition is not None):
            return None
        return Give(line.item.text, when, line.unless, span=line.head)
    before, names.prefix = names.prefix, f"{names.prefix}give/{line.item.text}/"
    block = read_block(line.lines, GIVE, names)
    names.prefix = before
    one_dose(block, names)
    if not there or (when is None and line.condition is not None):
        return None
    return Give(
        line.item.text,
        when,
        line.unless,
        dosage(block),
        first(block, "why"),
        first(block, "when"),
        first(block, "supervised") is not None,
        first(block, "focus"),
        span=line.head,
    )


def choose(line: tree.Group, names: Names) -> Choose | None:
    """The person's choice among gives."""
    block = read_block(line.lines, _CHOICES, names)
    gives = tuple(block.get("give", ()))
    count, listed = line.count or 0, len(line.lines)
    if not 1 <= count < max(listed, 2):
        why = "one is the least" if count < 1 else f"only {listed} stand here to choose from"
        names.say(say.impossible_number(f"choose {count}", why, "list more than are chosen", line.head))
    return Choose(count, gives, span=line.head) if gives else None


def part(line: tree.Group, names: Names) -> Part | None:
    """A titled section."""
    block = read_block(line.lines, _PART, names)
    if line.title is None:
        return None
    contents = [value for keyword in ("give", "choose") for value in block.get(keyword, ())]
    contents.sort(key=lambda one: one.span.start)
    return Part(prose(line.title, "part", names), tuple(contents), span=line.head)


_CHOICES = Form("a `choose`", {"give": give})
_PART = Form("a `part`", {"give": give, "choose": choose})
