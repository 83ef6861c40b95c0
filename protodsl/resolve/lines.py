"""Readers of lines that stand in several kinds of declarations."""

from __future__ import annotations

from typing import Any

from protodsl.diagnostics import kinds as say
from protodsl.diagnostics import names as say_names
from protodsl.frozen import frozen
from protodsl.model.condition import Placed
from protodsl.model.exercise import Avoid, Caution, Focus, HarderThan, StartAt, Trigger
from protodsl.model.lists import BEARING, JOINTS
from protodsl.model.protocol import Flag
from protodsl.model.text import Prose
from protodsl.resolve.canonical import lifted_text, line_text
from protodsl.resolve.closed import in_list
from protodsl.resolve.comparisons import NUMBERS
from protodsl.resolve.conditions import condition
from protodsl.resolve.layers import streak_fits
from protodsl.resolve.names import Missing, Names
from protodsl.resolve.prose import prose, prose_lines
from protodsl.resolve.quantities import counted
from protodsl.syntax import tree


@frozen
class Word(Placed):
    """A word of a closed list, with its place."""

    word: str


@frozen
class Lift(Placed):
    """`allow if` or `lift`: the text of the inherited line that goes, and why."""

    line: str
    because: Prose
    allow: bool = False


def prose_value(line: tree.ProseLine, names: Names) -> Prose:
    """A line of prose."""
    return prose(line.words, line.keyword, names)


def block_value(line: tree.BlockLine, names: Names) -> tuple[Prose, ...]:
    """The lines of a block without a title."""
    return prose_lines(line.lines, line.keyword, names)


def bearing(line: tree.NamesLine, names: Names) -> Word | None:
    """How much weight a leg may bear."""
    word = in_list("bearing", line.names[0], BEARING, names)
    return None if word is None else Word(word, span=line.head)


def works(line: tree.NamesLine, names: Names) -> tuple[str, ...] | None:
    """Targets, all of them declared."""
    return tuple(names.all_known("targets", line.names)) or None


def avoid(line: tree.Guard, names: Names) -> Avoid | None:
    """`avoid if`."""
    when = condition(line.condition, names)
    instead = names.known("exercises", line.instead) if line.instead else None
    because = prose(line.because, "because", names) if line.because else None
    if when is None:
        return None
    return Avoid(when, instead, because, line_text(line), span=line.head)


def allow(line: tree.Guard, names: Names) -> Lift | None:
    """`allow if`: lifts the inherited `avoid if` of the same text."""
    when = condition(line.condition, names)
    if line.because is None:  # the parser has said so
        return None
    because = prose(line.because, "because", names)
    if when is None:
        return None
    return Lift(line_text(line).replace("allow if", "avoid if", 1), because, True, span=line.head)


def lift(line: tree.LiftLine, names: Names) -> Lift | None:
    """`lift`: drops an inherited safety line in the open."""
    if line.because is None:  # the parser has said so
        return None
    return Lift(lifted_text(line.words), prose(line.because, "because", names), span=line.head)


def caution(line: tree.Guard, names: Names) -> Caution | None:
    """`caution if`."""
    when = condition(line.condition, names)
    lines = prose_lines(line.lines, "caution if", names)
    return None if when is None else Caution(when, lines, line_text(line), span=line.head)


def flag(line: tree.Guard, names: Names) -> Flag | None:
    """`emergency if`, `red flag if`, `call if`."""
    when = condition(line.condition, names)
    lines = prose_lines(line.lines, line.keyword, names)
    if when is None or not streak_fits(line.streak, line, names):
        return None
    return Flag(when, lines, line.streak or 1, line_text(line), span=line.head)


def trigger(line: tree.Guard, names: Names) -> Trigger | None:
    """`up when`, `down when`."""
    when = condition(line.condition, names)
    lines = prose_lines(line.lines, line.keyword, names)
    if when is None or not streak_fits(line.streak, line, names):
        return None
    return Trigger(when, line.streak or 1, lines, span=line.head)


def start_at(line: tree.Guard, names: Names) -> StartAt | None:
    """`start at`; whether the level is there is seen when the levels are known."""
    when = condition(line.condition, names)
    return None if when is None or line.target is None else StartAt(line.target.text, when, span=line.target.span)


def harder(line: tree.HarderThan, names: Names) -> HarderThan | None:
    """`harder than`; whether the level is there is seen when the levels are known."""
    joint = in_list("joint", line.joint, JOINTS, names)
    return None if joint is None else HarderThan(line.level.text, joint, span=line.level.span)


def focus(line: tree.FocusLine, names: Names) -> Focus | None:
    """`focus weaker side by`: a number that is known for each side."""
    symbol = names.finding(line.finding)
    if symbol is None:
        return None
    extra = line.extra_sets
    if extra is not None and not counted(extra, 1, f"{extra} extra sets", "one set is the least", line, names):
        return None
    answer, span = symbol.answer, line.finding.span
    if answer is not None and answer.kind not in NUMBERS:
        names.say(say.needs_number(symbol.name, "`weaker side by`", span, symbol.span))
        return None
    if answer is not None and not answer.sided:
        names.say(say.needs_sides(symbol.name, "weaker side by", span, symbol.span))
        return None
    return Focus(symbol.name, extra or 0, span=line.head)


def item(name: tree.Name, names: Names) -> bool:
    """Whether a name is an exercise or a progression, and only one of them; else it is said."""
    exercise, progression = names.find("exercises", name.text), names.find("progressions", name.text)
    if exercise is not None and progression is not None:
        kinds = ("exercises", "progressions")
        names.say(say_names.ambiguous(name.text, kinds, name.span, (exercise.span, progression.span)))
        return False
    if exercise is None and progression is None:
        names.missing.append(Missing(("exercises", "progressions"), name))
        return False
    return True


def always(line: tree.Statement, names: Names) -> Any:
    """A line that says everything by being there."""
    return True
