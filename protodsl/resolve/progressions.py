"""Progressions: levels from easiest to hardest, each with its exercises and what moves a person up or down."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from protodsl.diagnostics import names as say
from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.diagnostics.suggest import nearest
from protodsl.frozen import frozen
from protodsl.model.condition import Placed
from protodsl.model.exercise import Give, Level, Progression
from protodsl.resolve.blocks import LOST, Form, Reader, damaged, every, first, flat, read_block
from protodsl.resolve.gives import give_in_level
from protodsl.resolve.layers import adjust_line, dosage, dose_line, one_dose, set_line, step_line
from protodsl.resolve.lines import harder, prose_value, start_at, trigger, works
from protodsl.resolve.names import Block, Names
from protodsl.resolve.prose import default_title
from protodsl.syntax import tree


@frozen
class LevelLines(Placed):
    """A level as read: its own lines only. `exercise` is None where it has gives, or where a change names it again."""

    name: tree.Name
    exercise: str | None
    after: tree.Name | None
    block: Block


def _level(line: tree.Level, names: Names) -> LevelLines | None:
    """A level of a progression: without an exercise of its own or gives it is named for its exercise."""
    gives = any(one.keyword == "give" for one in line.lines)
    named = line.exercise or (None if gives else line.name)
    exercise = _exercise(named, names) if named else None
    read = _level_lines(line, exercise, names)
    return None if named and exercise is None else read


def _level_in_change(line: tree.Level, names: Names) -> LevelLines | None:
    """A level in a `change`: one that is there keeps what is not restated, its exercise too."""
    if line.after is not None:
        return _level(line, names)
    names.find("exercises", line.name.text)  # it counts as used, whether or not the level is there
    exercise = _exercise(line.exercise, names) if line.exercise else None
    read = _level_lines(line, exercise, names)
    return None if line.exercise and exercise is None else read


def _exercise(name: tree.Name, names: Names) -> str | None:
    progression = names.find("progressions", name.text)
    if progression is not None and names.find("exercises", name.text) is None:
        names.say(say.level_gives_progression(name.text, name.span, progression.span))
        return None
    return names.known("exercises", name)


def _level_lines(line: tree.Level, exercise: str | None, names: Names) -> LevelLines:
    before, names.prefix = names.prefix, f"{names.prefix}level/{line.name.text}/"
    block = read_block(line.lines, LEVEL, names)
    names.prefix = before
    one_dose(block, names)
    return LevelLines(line.name, exercise, line.after, block, span=line.head)


_DOSES: dict[str, Reader] = {"dose": dose_line, "add": step_line, "take off": step_line}
_MOVES: dict[str, Reader] = {"up when": trigger, "down when": trigger, "harder than": harder}
LEVEL = Form("a level", {"give": give_in_level, **_DOSES, "set": set_line, "adjust": adjust_line, **_MOVES})
READERS: dict[str, Reader] = {
    "title": prose_value,
    "works": works,
    "start at": start_at,
    **_MOVES,
    **_DOSES,
    "level": _level,
}
FORM = Form("a progression", READERS)
CHANGE_READERS: dict[str, Reader] = {**READERS, "level": _level_in_change}


def join_levels(block: Block, own: Block, name: str, change: bool, said: list[Diagnostic]) -> list[LevelLines]:
    """The levels after a `like` or a `change`.

    In a change a level that is there takes the restated lines in; elsewhere levels without `after` replace the
    inherited ones. A level with `after` goes in behind the level it names.
    """
    inherited: list[LevelLines] = list(block.get("level", ()))
    levels: list[LevelLines] = list(own.get("level", ()))
    if not change:
        inherited = [level for level in levels if level.after is None] or inherited
        levels = [level for level in levels if level.after is not None]
    for level in levels:
        at = _find(inherited, level.name.text)
        if level.after is not None:
            if at is not None:
                said.append(say.level_twice(level.name.text, level.name.span, inherited[at].name.span))
            else:
                _put_in(inherited, level, level.after, name, said)
        elif at is None:
            near = nearest(level.name.text, [one.name.text for one in inherited])
            said.append(say.new_level(level.name.text, name, level.name.span, near))
        else:
            there = inherited[at]
            inherited[at] = replace(
                there, exercise=level.exercise or there.exercise, block={**there.block, **level.block}
            )
    return inherited


def _put_in(levels: list[LevelLines], level: LevelLines, after: tree.Name, name: str, said: list[Diagnostic]) -> None:
    at = _find(levels, after.text)
    if at is None:
        known = [one.name.text for one in levels]
        place = levels[0].name.span if levels else after.span
        said.append(say.undeclared_inside("levels", after.text, name, after.span, place, nearest(after.text, known)))
        levels.append(level)
    else:
        levels.insert(at + 1, level)


def _find(levels: list[LevelLines], name: str) -> int | None:
    return next((at for at, level in enumerate(levels) if level.name.text == name), None)


def build(name: tree.Name, like: str | None, block: Block, said: list[Diagnostic]) -> Progression:
    """The progression that the lines come to; names of levels that are not there are said."""
    lines: list[LevelLines] = block.get("level", [])
    _unique(lines, said)
    last = len(lines) - 1
    up, down = every(block, "up when"), every(block, "down when")
    levels = tuple([_build_level(one, up if at < last else (), down) for at, one in enumerate(lines)])
    if "level" not in block.get(LOST, ()):
        _look_up_levels(name, block, lines, said)
    return Progression(
        name.text,
        first(block, "title") or default_title(name, f"progression/{name.text}/"),
        levels,
        like,
        flat(block, "works"),
        dosage(block),
        every(block, "start at"),
        every(block, "harder than"),
        damaged(block),
        span=name.span,
    )


def _build_level(lines: LevelLines, up: tuple[Any, ...], down: tuple[Any, ...]) -> Level:
    block = lines.block
    gives: tuple[Give, ...] = every(block, "give")
    if lines.exercise is not None:
        gives = (Give(lines.exercise, span=lines.span), *gives)
    return Level(
        lines.name.text,
        gives,
        lines.exercise != lines.name.text,
        dosage(block),
        every(block, "up when") or (() if "up when" in damaged(block) else up),
        every(block, "down when") or (() if "down when" in damaged(block) else down),
        every(block, "harder than"),
        span=lines.span,
    )


def _unique(lines: list[LevelLines], said: list[Diagnostic]) -> None:
    seen: dict[str, tree.Name] = {}
    for level in lines:
        first_one = seen.setdefault(level.name.text, level.name)
        if first_one is not level.name:
            said.append(say.level_twice(level.name.text, level.name.span, first_one.span))


def _look_up_levels(name: tree.Name, block: Block, lines: list[LevelLines], said: list[Diagnostic]) -> None:
    known = {level.name.text for level in lines}
    claims = [*block.get("harder than", ()), *(claim for one in lines for claim in one.block.get("harder than", ()))]
    wanted = [(claim.level, claim.span) for claim in claims]
    wanted += [(start.level, start.span) for start in block.get("start at", ())]
    for level, span in wanted:
        if level not in known:
            near = nearest(level, known)
            said.append(say.undeclared_inside("levels", level, name.text, span, name.span, near))
