"""Every kind of safety line on every way by which lines are handed down: none is lost silently.

The matrix is made, not listed: each line is looked for at the end of each way, and is gone only where the text lifts
it in the open.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import pytest

from protodsl.model.exercise import Exercise, Lifted
from protodsl.model.protocol import Phase, Protocol
from tests.support import compiled

DECLARED = """
question pain: How strong was your worst pain?
  answer 0 to 10
question fever: Do you have a fever?
question tear: Have you torn your calf muscle?
equipment mat: a mat

exercise rest position
  do
    Lie down.

exercise other
  do
    Do something else.
"""
HEAD = """  version 1.0.0
  review 2026-10-05 by outpatient lead, next by 2027-10-05
  source Common practice, no source.
  for adults
"""


@dataclass(frozen=True)
class Line:
    """A safety line, what stands under it, and where it lies in the model."""

    text: str
    under: str
    found: Callable[..., list[str]]

    def at(self, depth: int) -> str:
        """The line as it is written at a depth."""
        blanks = "  " * depth
        return f"{blanks}{self.text}\n" + (f"{blanks}  {self.under}\n" if self.under else "")


def stops(thing: Exercise | Phase | Protocol) -> list[str]:
    return [f"stop {one.text}" for one in thing.stop]


def cautions(thing: Exercise) -> list[str]:
    return [one.line for one in thing.caution]


def own_cautions(thing: Phase | Protocol) -> list[str]:
    return [one.line for one in thing.cautions]


def not_yet(thing: Phase | Protocol) -> list[str]:
    return [f"not yet {one.text}" for one in thing.not_yet]


def calls(thing: Phase | Protocol) -> list[str]:
    return [one.line for one in thing.calls]


EXERCISE_LINES = (
    Line("avoid if tear", "instead rest position", lambda one: [line.line for line in one.avoid]),
    Line("caution if fever", "Go slowly.", cautions),
    Line("stop sharp pain", "", stops),
)
PROTOCOL_LINES = (
    Line("emergency if fever", "", lambda one: [line.line for line in one.emergencies]),
    Line("red flag if tear", "Do not start.", lambda one: [line.line for line in one.red_flags]),
    Line("call if pain > 6, 2 sessions in a row", "", calls),
    Line("caution if fever", "Go slowly.", own_cautions),
    Line("stop sharp pain", "", stops),
    Line("not yet run or jump", "", not_yet),
)
PHASE_LINES = (
    Line("limit ankle plantarflexion <= 20 deg", "", lambda one: [line.line for line in one.limits]),
    Line("forbid resisted ankle inversion", "", lambda one: [line.line for line in one.forbids]),
    Line("bearing partial", "", lambda one: [f"bearing {one.bearing}"] if one.bearing else []),
    Line("call if pain > 6, 2 sessions in a row", "", calls),
    Line("caution if fever", "Go slowly.", own_cautions),
    Line("stop sharp pain", "", stops),
    Line("not yet run or jump", "", not_yet),
)

# What a later declaration says beside: nothing, something harmless, or another line of the same kind.
SAME_KIND: dict[str, str] = {
    "avoid if": "avoid if fever",
    "caution if": "caution if tear\n    Take care.",
    "stop": "stop dizziness",
    "emergency if": "emergency if tear",
    "red flag if": "red flag if fever",
    "call if": "call if fever",
    "not yet": "not yet swim",
    "limit": "limit ankle dorsiflexion <= 5 deg",
    "forbid": "forbid active ankle eversion",
    "bearing": "bearing touch",
}


def keyword(line: Line) -> str:
    return next(one for one in SAME_KIND if line.text.startswith(one))


def other(line: Line, depth: int) -> str:
    """Another line of the same kind."""
    return "".join("  " * depth + part + "\n" for part in SAME_KIND[keyword(line)].replace("    ", "  ").split("\n"))


def lifting(line: Line, depth: int) -> str:
    """The line lifted in the open."""
    blanks = "  " * depth
    text = line.text.replace("avoid if", "allow if") if line.text.startswith("avoid") else f"lift {line.text}"
    return f"{blanks}{text}\n{blanks}  because the surgeon agrees\n"


def base_exercise(line: Line) -> str:
    return "exercise base\n  title Base\n  do\n    Do it.\n" + line.at(1)


def protocol(lines: str, name: str = "root") -> str:
    return f"protocol {name}\n{HEAD}{lines}  give other\n"


# Ways of an exercise's line: each maker gets the line and what the last step says beside, and gives the text; the
# exercise to look at is `last` in the scope of protocol `mine`.
def like_once(line: Line, beside: str) -> str:
    return base_exercise(line) + f"exercise last like base\n  title Last\n{beside}" + protocol("  give last\n", "mine")


def like_twice(line: Line, beside: str) -> str:
    text = base_exercise(line) + "exercise middle like base\n  why it helps\n"
    return text + f"exercise last like middle\n  title Last\n{beside}" + protocol("  give last\n", "mine")


def restates_everything_else(line: Line, beside: str) -> str:
    rest = "  position sitting\n  bearing none\n  do\n    Do it sitting.\n  feel warmth\n  dose 3 x 12\n  needs mat\n"
    return base_exercise(line) + f"exercise last like base\n{rest}{beside}" + protocol("  give last\n", "mine")


def changed(line: Line, beside: str) -> str:
    text = base_exercise(line).replace("exercise base", "exercise last")
    return text + protocol(f"  give last\n  change last\n    dose 2 x 10\n{indented(beside)}", "mine")


def follows_a_change(line: Line, beside: str) -> str:
    """The line is put into the base by a change; the variant follows, whatever it says in a change of its own."""
    text = "exercise base\n  do\n    Do it.\nexercise last like base\n  title Last\n"
    beside = f"  change last\n    dose 2 x 10\n{indented(beside)}" if beside else ""
    return text + protocol(f"  give last\n{beside}  change base\n{line.at(2)}", "mine")


def changed_in_the_parent(line: Line, beside: str) -> str:
    """The line is put in by a change of the protocol that this one is like."""
    text = "exercise last\n  do\n    Do it.\n"
    text += protocol(f"  give last\n  change last\n{line.at(2)}", "root")
    beside = f"  change last\n    dose 2 x 10\n{indented(beside)}" if beside else ""
    return text + f"protocol mine like root\n  version 1.0.1\n{beside}"


def in_a_library(line: Line, beside: str) -> str:
    return f"exercise last like base\n  title Last\n{beside}" + protocol("  give last\n", "mine")


def indented(text: str) -> str:
    return "".join(f"  {line}\n" for line in text.splitlines())


EXERCISE_WAYS = (
    like_once,
    like_twice,
    restates_everything_else,
    changed,
    follows_a_change,
    changed_in_the_parent,
    in_a_library,
)


def exercise_after(way: Callable[[Line, str], str], line: Line, beside: str) -> Exercise:
    return protocol_after(way, line, beside).scope.exercises["last"]


def protocol_after(way: Callable[[Line, str], str], line: Line, beside: str) -> Protocol:
    """The protocol `mine` at the end of a way, without errors."""
    text = way(line, beside)
    if way in (in_a_library, across_files):
        library = DECLARED + (base_exercise(line) if way is in_a_library else root(line))
        entry, diagnostics = compiled(f"use library\n{text}", library=library)
    else:
        entry, diagnostics = compiled(DECLARED + text)
    assert entry is not None
    assert [one for one in diagnostics if one.code.id not in ALLOWED] == []
    return next(one for one in entry.protocols if one.name == "mine")


# Hints that such texts rightly get.
ALLOWED = ("N218", "N220")


@pytest.mark.parametrize("line", EXERCISE_LINES, ids=lambda line: line.text)
@pytest.mark.parametrize("way", EXERCISE_WAYS, ids=lambda way: way.__name__)
class TestExercise:
    """Lines of exercises."""

    def test_stays(self, way: Callable[[Line, str], str], line: Line) -> None:
        assert line.text in line.found(exercise_after(way, line, ""))

    def test_is_added_to(self, way: Callable[[Line, str], str], line: Line) -> None:
        """Another line of the same kind stands beside it, not in its place."""
        found = line.found(exercise_after(way, line, other(line, 1)))
        assert line.text in found
        assert SAME_KIND[keyword(line)].split("\n")[0] in found

    def test_is_there_once(self, way: Callable[[Line, str], str], line: Line) -> None:
        """The same line said again is one line."""
        assert line.found(exercise_after(way, line, line.at(1))).count(line.text) == 1

    def test_goes_only_in_the_open(self, way: Callable[[Line, str], str], line: Line) -> None:
        """Lifted, it is gone, and what was lifted is kept with its reason and its origin."""
        last = exercise_after(way, line, lifting(line, 1))
        assert line.text not in line.found(last)
        assert [(one.line, one.because.text) for one in last.lifted] == [(line.text, "the surgeon agrees")]
        assert last.lifted[0].origin.span.path


def root(line: Line, phase: bool = False) -> str:
    lines = f"  phase settle\n{line.at(2)}    give other\n" if phase else line.at(1)
    return f"protocol root\n  title Root\n{HEAD}{lines}  give rest position\n"


def protocol_like(line: Line, beside: str) -> str:
    return root(line) + f"protocol mine like root\n  version 1.0.1\n{beside}"


def protocol_like_twice(line: Line, beside: str) -> str:
    return root(line) + f"protocol middle like root\n  may walk\nprotocol mine like middle\n  version 1.0.1\n{beside}"


def protocol_restating(line: Line, beside: str) -> str:
    rest = HEAD + "  title Mine\n  goal walk\n  may walk\n  advice Pain\n    Up to 3 is fine.\n  flare-up\n    Rest.\n"
    return root(line) + f"protocol mine like root\n{rest}  give other\n{beside}"


def across_files(line: Line, beside: str) -> str:
    return f"protocol mine like root\n  version 1.0.1\n{beside}"


PROTOCOL_WAYS = (protocol_like, protocol_like_twice, protocol_restating, across_files)


@pytest.mark.parametrize("line", PROTOCOL_LINES, ids=lambda line: line.text)
@pytest.mark.parametrize("way", PROTOCOL_WAYS, ids=lambda way: way.__name__)
class TestProtocol:
    """Lines of protocols."""

    def test_stays(self, way: Callable[[Line, str], str], line: Line) -> None:
        assert line.text in line.found(protocol_after(way, line, ""))

    def test_is_added_to(self, way: Callable[[Line, str], str], line: Line) -> None:
        found = line.found(protocol_after(way, line, other(line, 1)))
        assert line.text in found
        assert SAME_KIND[keyword(line)].split("\n")[0] in found

    def test_is_there_once(self, way: Callable[[Line, str], str], line: Line) -> None:
        assert line.found(protocol_after(way, line, line.at(1))).count(line.text) == 1

    def test_goes_only_in_the_open(self, way: Callable[[Line, str], str], line: Line) -> None:
        mine = protocol_after(way, line, lifting(line, 1))
        assert line.text not in line.found(mine)
        assert [(one.line, one.because.text) for one in mine.lifted] == [(line.text, "the surgeon agrees")]


# Ways of a phase's line; `beside` is what the last step says of the phase.
def phase_untouched(line: Line, beside: str) -> str:
    return root(line, True) + "protocol mine like root\n  version 1.0.1\n" + beside.replace("    ", "  ")


def phase_changed(line: Line, beside: str) -> str:
    return root(line, True) + f"protocol mine like root\n  version 1.0.1\n  change settle\n    may walk\n{beside}"


def phase_restated(line: Line, beside: str) -> str:
    text = f"protocol mine like root\n  version 1.0.1\n  phase settle\n    title Settle\n    give other\n{beside}"
    return root(line, True) + text + "  phase build\n    give other\n"


def phase_changed_twice(line: Line, beside: str) -> str:
    text = root(line, True) + "protocol middle like root\n  version 1.0.1\n  change settle\n    may walk\n"
    return text + f"protocol mine like middle\n  version 1.0.2\n  change settle\n    may swim\n{beside}"


def phase_put_in_by_a_change(line: Line, beside: str) -> str:
    text = f"protocol root\n{HEAD}  phase settle\n    give other\n"
    text += f"protocol middle like root\n  version 1.0.1\n  change settle\n{line.at(2)}"
    return text + f"protocol mine like middle\n  version 1.0.2\n  change settle\n    may swim\n{beside}"


PHASE_WAYS = (phase_changed, phase_restated, phase_changed_twice, phase_put_in_by_a_change)


@pytest.mark.parametrize("line", PHASE_LINES, ids=lambda line: line.text)
@pytest.mark.parametrize("way", PHASE_WAYS, ids=lambda way: way.__name__)
class TestPhase:
    """Lines of phases."""

    def test_stays(self, way: Callable[[Line, str], str], line: Line) -> None:
        assert line.text in line.found(settle(way, line, ""))

    def test_is_added_to(self, way: Callable[[Line, str], str], line: Line) -> None:
        """Of two bearings the stricter stays; everything else stands side by side."""
        found = line.found(settle(way, line, other(line, 2)))
        expected = [SAME_KIND[keyword(line)].split("\n")[0]]
        assert set(found) >= set(expected if keyword(line) == "bearing" else [line.text, *expected])

    def test_is_there_once(self, way: Callable[[Line, str], str], line: Line) -> None:
        assert line.found(settle(way, line, line.at(2))).count(line.text) == 1

    def test_goes_only_in_the_open(self, way: Callable[[Line, str], str], line: Line) -> None:
        phase = settle(way, line, lifting(line, 2))
        assert line.text not in line.found(phase)
        assert [(one.line, one.because.text) for one in phase.lifted] == [(line.text, "the surgeon agrees")]


@pytest.mark.parametrize("line", PHASE_LINES, ids=lambda line: line.text)
def test_a_phase_that_nobody_touches_stays_whole(line: Line) -> None:
    assert line.text in line.found(settle(phase_untouched, line, ""))
    assert line.text in line.found(settle(phase_untouched, line, "    leave out rest position\n"))


def settle(way: Callable[[Line, str], str], line: Line, beside: str) -> Phase:
    return next(one for one in protocol_after(way, line, beside).phases if one.name == "settle")


def test_a_looser_bearing_has_no_effect_and_is_said() -> None:
    line = PHASE_LINES[2]
    text = DECLARED + phase_changed(line, "    bearing full\n")
    entry, diagnostics = compiled(text)
    assert [one.code.id for one in diagnostics] == ["N219"]
    assert entry is not None
    assert entry.protocols[1].phases[0].bearing == "partial"


def test_a_lifted_bearing_may_be_looser() -> None:
    line = PHASE_LINES[2]
    phase = settle(phase_changed, line, lifting(line, 2) + "    bearing full\n")
    assert phase.bearing == "full"
    assert [one.line for one in phase.lifted] == ["bearing partial"]


def test_the_same_avoid_with_another_instead_replaces_that_instead() -> None:
    """Only the `instead` is restated: the reason stays."""
    text = DECLARED + "exercise base\n  do\n    Do it.\n"
    text += "  avoid if tear\n    instead rest position\n    because it tears\n"
    text += "exercise last like base\n  avoid if tear\n    instead other\nexercise plain like base\n  avoid if tear\n"
    entry, diagnostics = compiled(text)
    assert not diagnostics
    assert entry is not None
    (line,) = entry.scope.exercises["last"].avoid
    assert (line.instead, line.because and line.because.text) == ("other", "it tears")
    assert entry.scope.exercises["plain"].avoid[0].instead == "rest position"


def test_spelling_does_not_matter_for_lifting() -> None:
    """The same line with other blanks and signs is the same line."""
    text = DECLARED + "exercise base\n  do\n    Do it.\n  avoid if pain >= 5 and (fever or tear)\n"
    text += "exercise last like base\n  allow if pain  ≥  5.0 and (fever  or tear)\n    because it is fine\n"
    text += f"protocol root\n{HEAD}  call if pain > 6, 2 sessions in a row\n  give other\n"
    text += "protocol mine like root\n  lift call if  pain > 6,  2 sessions in a row\n    because they are seen daily\n"
    entry, diagnostics = compiled(text)
    assert not diagnostics
    assert entry is not None
    assert entry.scope.exercises["last"].avoid == ()
    assert entry.protocols[1].calls == ()


@pytest.mark.parametrize(
    "lines",
    [
        "exercise last like base\n  allow if fever\n    because no\n",
        "exercise last like base\n  lift stop dull pain\n    because no\n",
        "exercise last like base\n  lift avoid if tear\n    because no\n",
        "exercise last\n  do\n    Do it.\n  avoid if tear\n  allow if tear\n    because no\n",
        f"protocol p\n{HEAD}  stop pain\n  lift stop pain\n    because no\n  give other\n",
        f"protocol p\n{HEAD}  phase settle\n    stop pain\n    lift stop pain\n      because no\n    give other\n",
    ],
)
def test_lifting_what_is_not_inherited_is_an_error(lines: str) -> None:
    text = DECLARED + "exercise base\n  do\n    Do it.\n  avoid if tear\n  stop sharp pain\n" + lines
    assert [one.code.id for one in compiled(text)[1]] == ["N213"]


def test_what_was_lifted_and_stands_again_is_not_lifted() -> None:
    text = DECLARED + "exercise a\n  do\n    Do it.\n  stop sharp pain\n"
    text += "exercise b like a\n  lift stop sharp pain\n    because no load\n"
    text += "exercise c like b\nexercise d like b\n  stop sharp pain\n"
    entry, diagnostics = compiled(text)
    assert not diagnostics
    assert entry is not None
    exercises = entry.scope.exercises
    assert [len(exercises[name].lifted) for name in "abcd"] == [0, 1, 1, 0]
    assert [len(exercises[name].stop) for name in "abcd"] == [1, 0, 0, 1]
    assert isinstance(exercises["c"].lifted[0], Lifted)


def test_the_title_is_not_inherited_and_any_other_restated_line_replaces() -> None:
    text = DECLARED + "exercise base\n  title Base\n  do\n    Do it.\n  feel warmth\n  feel a stretch\n  dose 3 x 12\n"
    text += "exercise last like base\n  feel nothing\n"
    entry, _ = compiled(text)
    assert entry is not None
    last = entry.scope.exercises["last"]
    assert last.title.text == "last"
    assert [one.text for one in last.feel] == ["nothing"]
    assert [one.text for one in last.do] == ["Do it."]
    assert last.dosage == entry.scope.exercises["base"].dosage
