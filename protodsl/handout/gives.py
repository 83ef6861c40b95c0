"""What is given, as rows: exercises by number, progressions with their steps, choices and parts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace

from protodsl.handout.blocks import Item, Row
from protodsl.handout.draft import Draft
from protodsl.handout.phrase import InWords, Listed, Phrase, Written
from protodsl.handout.titles import level_title, phase_number
from protodsl.handout.words import counted, line, number, one_after_the_other, say
from protodsl.model.exercise import Give, Progression
from protodsl.model.protocol import Choose, Content, Part, Phase
from protodsl.source import Span


def given(draft: Draft, contents: Iterable[Content], name: str, phase: Phase | None) -> Iterator[Row[Phrase]]:
    """A row for what is given one by one, one for each choice, one for each part.

    What is given more than once, done with us only, has a safety line each time; no two of these have one id.
    """
    seen: Counter[str] = Counter()
    for row in _rows(draft, contents, name, phase):
        yield replace(row, lines=tuple(_numbered(item, seen) for item in row.lines))


def _numbered(item: Item[Phrase], seen: Counter[str]) -> Item[Phrase]:
    if not item.safety:
        return item
    seen[item.safety] += 1
    at = seen[item.safety]
    return item if at == 1 else replace(item, safety=f"{item.safety}/{at}")


def _rows(draft: Draft, contents: Iterable[Content], name: str, phase: Phase | None) -> Iterator[Row[Phrase]]:
    alone: list[Item[Phrase]] = []
    for one in contents:
        if isinstance(one, Give):
            alone += _give(draft, one, f"{name}/give", phase)
            continue
        if alone:
            yield Row(say("plan.do"), tuple(alone))
            alone = []
        if isinstance(one, Choose):
            yield Row(counted("plan.choose", one.count), _all(draft, one.gives, name, phase))
        else:
            yield from _part(draft, one, name, phase)
    if alone:
        yield Row(say("plan.do"), tuple(alone))


def _part(draft: Draft, part: Part, name: str, phase: Phase | None) -> Iterator[Row[Phrase]]:
    """A titled part: its gives under its title, its choices under theirs."""
    alone = tuple(one for one in part.contents if isinstance(one, Give))
    if alone:
        yield Row(Written(part.title), _all(draft, alone, name, phase))
    for one in part.contents:
        if isinstance(one, Choose):
            head = counted("plan.part.choose", one.count, part=Written(part.title))
            yield Row(head, _all(draft, one.gives, name, phase))


def _all(draft: Draft, gives: Iterable[Give], name: str, phase: Phase | None) -> tuple[Item[Phrase], ...]:
    return tuple(item for give in gives for item in _give(draft, give, f"{name}/give", phase))


def _give(draft: Draft, give: Give, name: str, phase: Phase | None) -> list[Item[Phrase]]:
    """One thing given: what, on what condition, why and when; a line of its own where it is done at the clinic only."""
    progression = draft.protocol.scope.progressions.get(give.item)
    before = None if progression is None or phase is None else _first_phase(draft, progression, phase)
    what = draft.exercise(give.item) if progression is None else _progression(draft, progression, before)
    said: list[Phrase] = [say("plan.give", what=what)]
    if give.condition is not None:
        clause = InWords(give.condition, negated=give.unless)
        said = [say("plan.give.if", what=what, clause=clause)]
    if progression is not None and before is None:
        said += _starts(draft, progression)
    said += [line(prose) for prose in (give.why, give.when) if prose is not None]
    found = [Item(one_after_the_other(*said), "", draft.origin(give.span))]
    if give.supervised:
        text = say("plan.supervised", what=what)
        found.append(Item(text, f"{name}/supervised/{give.item}", draft.origin(give.span)))
    else:
        found += _with_us(draft, give, f"{name}/supervised/{give.item}")
    return found


def _with_us(draft: Draft, give: Give, name: str) -> Iterator[Item[Phrase]]:
    """A line for each exercise of a give that by itself, or in its step, is done at the clinic only."""
    progression = draft.protocol.scope.progressions.get(give.item)
    inner = (give,) if progression is None else (one for level in progression.levels for one in level.gives)
    spans: dict[str, Span] = {}
    for one in inner:
        exercise = draft.protocol.scope.exercises.get(one.item)
        if exercise is not None and (one.supervised or exercise.supervised):
            spans.setdefault(one.item, one.span if one.supervised else exercise.span)
    for item, span in spans.items():
        yield Item(say("plan.supervised", what=draft.exercise(item)), f"{name}/{item}", draft.origin(span))


def _first_phase(draft: Draft, progression: Progression, phase: Phase) -> Phase | None:
    """The phase in which a progression was given first; None where that is this one."""
    phases = (
        use.phase
        for name in draft.numbers
        for use in draft.uses[name]
        if use.given is not None and use.given.progression == progression.name
    )
    first = next(phases, None)
    return None if first is None or first.name == phase.name else first


def _progression(draft: Draft, progression: Progression, before: Phase | None) -> Phrase:
    """A progression by its title and the exercises of each step; steps with the same exercises are named once."""
    steps = dict.fromkeys(
        tuple(draft.numbers[give.item] for give in level.gives if give.item in draft.numbers)
        for level in progression.levels
    )
    found = [step for step in steps if step]
    values: dict[str, Phrase] = {"title": Written(progression.title), "steps": _steps(found)}
    if len(found) < 2:
        return say("plan.progression.one", **values)
    if before is not None:
        return say("plan.progression.again", part=phase_number(draft, before), **values)
    several = any(len(step) > 1 for step in found)
    return say("plan.progression.several" if several else "plan.progression", **values)


def _steps(steps: list[tuple[int, ...]]) -> Phrase:
    """`exercise 6, later 7, later 8`; `exercise 3, later exercises 4 and 5` where a step has several."""
    if len(steps) > 1 and all(len(step) == 1 for step in steps):
        return counted("plan.step", 1, numbers=Listed(tuple(number(at) for (at,) in steps), by="later"))
    named = (counted("plan.step", len(step), numbers=Listed(tuple(number(at) for at in step))) for step in steps)
    return Listed(tuple(named), by="later")


def _starts(draft: Draft, progression: Progression) -> list[Phrase]:
    """Where to begin: the highest step whose condition is met, else the first; a step by its exercise, or its name."""
    found: list[Phrase] = []
    names = [level.name for level in progression.levels]
    for start in sorted(progression.start_at, key=lambda start: names.index(start.level), reverse=True):
        level = progression.levels[names.index(start.level)]
        key = "plan.start.else" if found else "plan.start"
        clause = InWords(start.condition)
        if len(level.gives) == 1 and not level.label and level.gives[0].item in draft.numbers:
            found.append(say(f"{key}.exercise", exercise=draft.exercise(level.gives[0].item), clause=clause))
        else:
            found.append(say(key, level=level_title(draft, level), clause=clause))
    return [*found, say("plan.start.first")] if found else []
