"""The rows of a card, always in one order, so that a reader finds each in the same place on every page."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from protodsl.handout.blocks import Item, Row
from protodsl.handout.dosage import Dosed, steps
from protodsl.handout.draft import Draft
from protodsl.handout.instead import End, in_words, missing, parted
from protodsl.handout.limits import bearing
from protodsl.handout.needs import things
from protodsl.handout.phrase import InWords, Literal, Phrase, Written
from protodsl.handout.words import counted, if_so, line, lines, one_after_the_other, say
from protodsl.model import named
from protodsl.model.condition import Condition
from protodsl.model.exercise import Avoid, Exercise, Focus
from protodsl.model.finding import Finding
from protodsl.model.lists import BEARING
from protodsl.model.text import Prose

# The positions in which the limbs carry nothing by themselves.
_AT_REST = ("sitting", "long sitting", "lying on back", "lying face down", "lying on right side", "lying on left side")


def rows(draft: Draft, exercise: Exercise, dose: Dosed) -> Iterator[Row[Phrase]]:
    """How fast and hard, feel, normal, fix, stop, side, leave out, care, weight, things, load, why."""
    yield from _doing("card.tempo", dose.of("repetition"))
    yield from _doing("card.effort", dose.of("effort"))
    yield from _prose("card.feel", exercise.feel, "feel")
    yield from _prose("card.normal", exercise.normal, "normal")
    yield from _prose("card.fix", (fix.line for fix in exercise.fix), "change")
    yield from _safe(draft, exercise, "card.stop", "stop", exercise.stop, "stop")
    yield from _focus(draft, exercise)
    yield from _avoid(draft, exercise)
    yield from _caution(draft, exercise)
    yield from _weight(draft, exercise)
    yield from _things(draft, exercise)
    yield from steps(draft, draft.uses[exercise.name])
    if exercise.why is not None:
        yield Row(say("card.why"), (Item(line(exercise.why)),))


def _prose(head: str, proses: Iterable[Prose], mark: str) -> Iterator[Row[Phrase]]:
    items = tuple(Item(line(prose)) for prose in proses)
    if items:
        yield Row(say(head), items, mark)


def _safe(
    draft: Draft, exercise: Exercise, head: str, name: str, proses: tuple[Prose, ...], mark: str
) -> Iterator[Row[Phrase]]:
    items = tuple(
        Item(line(prose), f"card/{exercise.name}/{name}/{at}", draft.origin(prose.span))
        for at, prose in enumerate(proses, 1)
    )
    if items:
        yield Row(say(head), items, mark)


def _doing(head: str, text: Phrase | None) -> Iterator[Row[Phrase]]:
    if text is not None:
        yield Row(say(head), (Item(text),))


def _focus(draft: Draft, exercise: Exercise) -> Iterator[Row[Phrase]]:
    found: list[Item[Phrase]] = []
    focuses = [use.given.give.focus for use in draft.uses[exercise.name] if use.given is not None]
    for focus in dict.fromkeys((exercise.focus, *focuses)):
        if focus is not None:
            found.append(Item(_weaker(draft, focus), "", draft.origin(focus.span)))
    if found:
        yield Row(say("card.side"), tuple(found), "side")


def _weaker(draft: Draft, focus: Focus) -> Phrase:
    """More work for the side with the worse value, whichever side hurts."""
    finding = draft.protocol.scope.findings.get(focus.finding)
    key = "focus.lower" if finding is not None and finding.better != "lower" else "focus.higher"
    measure = _measure(finding, focus.finding)
    return counted(f"{key}.extra", focus.extra_sets, measure=measure) if focus.extra_sets else say(key, measure=measure)


def _measure(finding: Finding | None, name: str) -> Phrase:
    if finding is not None and finding.means is not None:
        return Written(finding.means)
    return say("focus.measure", name=Written(named.finding_name(finding)) if finding is not None else Literal(name))


def _avoid(draft: Draft, exercise: Exercise) -> Iterator[Row[Phrase]]:
    items = []
    for at, avoid in enumerate(exercise.avoid, 1):
        for n, (condition, ends) in enumerate(parted(draft, exercise, avoid.condition), 1):
            name = f"card/{exercise.name}/avoid/{at}" if n == 1 else f"card/{exercise.name}/avoid/{at}/{n}"
            items.append(Item(_out(draft, avoid, condition, ends), name, draft.origin(avoid.span)))
    if items:
        yield Row(say("card.out"), tuple(items), "out")


def _out(draft: Draft, avoid: Avoid, condition: Condition, ends: tuple[End, ...]) -> Phrase:
    """The condition, what to do instead, and why; not being sure counts as yes."""
    said: list[Phrase] = [say("card.out.if", clause=InWords(condition)), *in_words(draft, "card.out", ends)]
    if avoid.because is not None:
        said.append(say("card.because", reason=Written(avoid.because)))
    return one_after_the_other(*said)


def _caution(draft: Draft, exercise: Exercise) -> Iterator[Row[Phrase]]:
    items = tuple(
        Item(
            one_after_the_other(if_so(caution.condition), lines(caution.lines)),
            f"card/{exercise.name}/caution/{at}",
            draft.origin(caution.span),
        )
        for at, caution in enumerate(exercise.caution, 1)
    )
    if items:
        yield Row(say("card.caution"), items, "change")


def _weight(draft: Draft, exercise: Exercise) -> Iterator[Row[Phrase]]:
    if restricts(exercise) and _bears(exercise):
        name = f"card/{exercise.name}/bearing"
        yield Row(say("card.bearing"), (Item(bearing(exercise.bearing), name, draft.origin(exercise.span)),))


def restricts(exercise: Exercise) -> bool:
    """Whether the weight that was written holds somebody back; full weight does not."""
    return exercise.bearing_said and exercise.bearing != BEARING[-1]


def _bears(exercise: Exercise) -> bool:
    """Whether there is weight to hold back: nobody sitting or lying has to be told to put none on a leg."""
    return exercise.bearing != BEARING[0] or exercise.position not in _AT_REST


def _things(draft: Draft, exercise: Exercise) -> Iterator[Row[Phrase]]:
    """One line, the things that can be done without last, each with what to do then."""
    said: list[Phrase] = []
    for need in sorted(exercise.needs, key=lambda need: need.instead is not None):
        said.append(say("line", text=things(draft, need.options)))
        if need.instead is not None:
            ends = missing(draft, exercise, need)
            said += in_words(draft, "card.needs", ends, things=things(draft, need.options))
    if said:
        yield Row(say("card.needs"), (Item(one_after_the_other(*said)),))
