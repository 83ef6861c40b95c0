"""Protocols: inherited across files, changed inside themselves, with items left out, phases joined."""

import pytest

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry, Part, Protocol
from protodsl.model.reach import exercises_reached, items_of
from tests.unit.resolve.shelf import codes, resolved

ANKLE = """
setting weeks in brace = 2 weeks, from 0 to 6 weeks

question pain: How strong?
  answer 0 to 10
question tear: Have you torn your calf muscle?
equipment step: a step
target calf: calf

exercise rest position
  do
    Lie down.

exercise ankle circles
  do
    Circle.

exercise heel raise
  title Heel raise
  works calf
  dose 3 x 12
  do
    Rise.
  avoid if tear
    instead rest position

exercise one leg heel raise like heel raise
  title Heel raise on one leg

exercise slow heel raise like one leg heel raise
  dose 3 x 8

exercise loaded heel raise
  needs step
    instead heel raise
  do
    Rise with a weight.

progression calf strength
  down when pain > 5
  start at one leg heel raise if pain <= 2
  level heel raise
    up when pain <= 3
  level one leg heel raise
    up when pain <= 2, 2 sessions in a row
    dose 3 x 10
  level heavy: loaded heel raise
    add 1 kg when pain <= 2

protocol ankle
  title After an ankle sprain
  version 1.3.0
  review 2026-10-05 by outpatient lead, next by 2027-10-05
  source Common practice, no source.
  for adults
  goal walk
  give rest position
  phase settle
    title Weeks 0 to [weeks in brace]
    give ankle circles
    part Strength
      give heel raise
      choose 1
        give slow heel raise
        give one leg heel raise
    may walk indoors
    until pain <= 3
  phase build
    give calf strength
    back to settle if pain > 5, 3 sessions in a row
"""


def mine(*lines: str, head: str = "protocol mine like ankle\n  version 1.3.1\n") -> tuple[Protocol, list[str]]:
    """The protocol `mine`, like the one of another file, and the codes of what is said."""
    entry, said = both(*lines, head=head)
    return entry.protocols[0], codes(said)


def both(
    *lines: str, head: str = "protocol mine like ankle\n  version 1.3.1\n"
) -> tuple[Entry, tuple[Diagnostic, ...]]:
    text = "use ankle\n\n" + head + "".join(f"  {line}\n" for line in lines)
    return resolved({"mine.protocol": text, "ankle.protocol": ANKLE}, "mine.protocol")


def given(protocol: Protocol, phase: int = 0) -> list[str]:
    return [give.item for give in items_of(protocol.phases[phase].contents)]


def test_everything_is_inherited_but_the_title() -> None:
    protocol, said = mine()
    assert not said
    assert protocol.title.text == "mine"
    assert protocol.version == "1.3.1"
    assert protocol.review is not None
    assert [one.text for one in protocol.goals] == ["walk"]
    assert [one.name for one in protocol.phases] == ["settle", "build"]
    assert protocol.phases[0].title.text == "Weeks 0 to [weeks in brace]"
    assert protocol.like == "ankle"


def test_only_the_entrys_own_protocols_are_its_own() -> None:
    assert [one.name for one in both()[0].protocols] == ["mine"]


def test_a_change_holds_in_this_protocol_only() -> None:
    entry, said = both("change heel raise", "  dose 2 x 10", "  because our people start from less")
    protocol = entry.protocols[0]
    before, after = entry.scope.exercises["heel raise"], protocol.scope.exercises["heel raise"]
    assert before.dosage != after.dosage
    assert after.title.text == "Heel raise"
    assert after.avoid == before.avoid
    assert codes(said) == ["N218"]
    (change,) = protocol.changes
    assert (change.kind, change.name, change.followers) == ("exercises", "heel raise", ("one leg heel raise",))
    assert change.because is not None
    assert change.because.text == "our people start from less"
    assert protocol.changed == ("heel raise", "one leg heel raise")


def test_variants_follow_unless_they_restate_the_line() -> None:
    """`slow heel raise` has a dose of its own; it follows in what it does not state."""
    protocol, _ = mine("change heel raise", "  dose 2 x 10")
    exercises = protocol.scope.exercises
    assert exercises["one leg heel raise"].dosage == exercises["heel raise"].dosage
    assert exercises["slow heel raise"].dosage != exercises["heel raise"].dosage
    protocol, _ = mine("change heel raise", "  feel warmth")
    assert [one.text for one in protocol.scope.exercises["slow heel raise"].feel] == ["warmth"]


def test_changes_of_the_protocol_it_is_like_are_kept_and_added_to() -> None:
    text = "use ankle\n\nprotocol first like ankle\n  version 1.3.1\n"
    text += "  change heel raise\n    dose 2 x 10\n    feel warmth\n"
    text += "protocol second like first\n  version 1.3.2\n  change heel raise\n    dose 2 x 5\n"
    entry, _ = resolved({"mine.protocol": text, "ankle.protocol": ANKLE}, "mine.protocol")
    first, second = (one.scope.exercises["heel raise"] for one in entry.protocols)
    assert first.feel == second.feel != ()
    assert first.dosage != second.dosage


def test_a_change_of_a_progression_touches_the_named_levels_only() -> None:
    protocol, said = mine(
        "change calf strength",
        "  level one leg heel raise",
        "    up when pain <= 1",
        "  level heavy",
        "    add 2 kg when pain <= 1",
        "  level in between: slow heel raise, after heel raise",
        "    up when pain <= 2",
    )
    assert not said
    levels = protocol.scope.progressions["calf strength"].levels
    assert [(one.name, one.gives[0].item, one.label) for one in levels] == [
        ("heel raise", "heel raise", False),
        ("in between", "slow heel raise", True),
        ("one leg heel raise", "one leg heel raise", False),
        ("heavy", "loaded heel raise", True),
    ]
    assert levels[2].dosage.common.volume is not None
    assert levels[2].up[0].streak == 1
    assert [str(step.change) for step in levels[3].dosage.steps] == ["2 kg"]


def test_up_and_down_of_the_progression_are_handed_to_its_levels() -> None:
    """The highest level has nowhere to go up; at the lowest `down when` holds and tells the clinician, so it stays."""
    text = ANKLE.replace("  down when pain > 5\n", "  down when pain > 5\n  up when pain <= 1\n")
    entry, _ = resolved({"a.protocol": text}, "a.protocol")
    levels = entry.scope.progressions["calf strength"].levels
    assert [len(one.up) for one in levels] == [1, 1, 0]
    assert [len(one.down) for one in levels] == [1, 1, 1]


def test_a_change_of_a_phase() -> None:
    lines = ("  may walk outdoors", "  limit ankle plantarflexion <= 20 deg", "  bearing partial")
    protocol, said = mine("change settle", *lines)
    assert not said
    settle = protocol.phases[0]
    assert [one.text for one in settle.may] == ["walk outdoors"]
    assert (len(settle.limits), settle.bearing) == (1, "partial")
    assert given(protocol) == ["ankle circles", "heel raise", "slow heel raise", "one leg heel raise"]


def test_a_change_of_a_question_reaches_every_condition() -> None:
    """With a scale to 5 the threshold 5 can never be passed, here and only here."""
    entry, said = both("change pain", "  answer 0 to 5", "  better lower")
    assert codes(said) == ["K310", "K310"]
    assert entry.protocols[0].scope.findings["pain"].answer.high == 5
    assert entry.scope.findings["pain"].answer.high == 10


def test_the_lines_tell_apart_what_is_changed() -> None:
    """A phase and an exercise of one name: `until` belongs to a phase, `feel` to an exercise, `stop` to either."""
    head = "exercise build\n  do\n    Build.\n\nprotocol mine like ankle\n  version 1.3.1\n"
    assert mine("change build", "  until pain <= 1", head=head)[0].changes[0].kind == "phases"
    assert mine("change build", "  feel it", head=head)[0].changes[0].kind == "exercises"
    assert mine("change build", "  stop pain", head=head)[1] == ["N214"]


@pytest.mark.parametrize(
    ("lines", "code"),
    [
        (("change heel rise", "  dose 2 x 10"), "N201"),
        (("change heel raise", "  until pain <= 3"), "K324"),
        (("change settle", "  position standing"), "K324"),
        (("change pain", "  dose 3 x 12"), "K324"),
        (("change calf strength", "  level heavier", "    up when pain <= 3"), "N216"),
        (("change calf strength", "  level ankle circles, after heavie"), "N201"),
        (("change calf strength", "  level heavy: ankle circles, after heel raise"), "N202"),
        (("change ankle circles", "  avoid if teer"), "N201"),
        (("leave out loaded heel rise",), "N201"),
        (("phase extra", "  give ankle circle"), "N201"),
        (("phase extra", "  give ankle circles", "  back to setle if pain > 3"), "N201"),
        (("phase extra", "  give ankle circles", "  back to extra if pain > 3"), "N217"),
        (("change settle", "  back to build if pain > 3"), "N217"),
        (("choose 3", "  give ankle circles", "  give heel raise"), "K317"),
    ],
)
def test_a_wrong_line_is_said_once(lines: tuple[str, ...], code: str) -> None:
    assert mine(*lines)[1] == [code]


def test_leave_out_takes_it_away_on_every_way() -> None:
    """As given, inside a part and a choice, as a level and as an `instead`."""
    protocol, said = mine("leave out heel raise")
    assert not said
    assert given(protocol) == ["ankle circles", "slow heel raise", "one leg heel raise"]
    assert protocol.leave_out == ("heel raise",)
    assert "heel raise" not in {one.exercise for one in exercises_reached(protocol)}
    protocol, said = mine("leave out slow heel raise", "leave out one leg heel raise", "leave out heel raise")
    assert not said
    assert not [one for one in protocol.phases[0].contents if isinstance(one, Part)]


def test_leave_out_in_a_phase_holds_in_that_phase() -> None:
    protocol, said = mine("change settle", "  leave out rest position", "  leave out ankle circles")
    assert not said
    settle, build = protocol.phases
    assert settle.leave_out == ("rest position", "ankle circles")
    assert "rest position" not in {one.exercise for one in exercises_reached(protocol, settle)}
    assert "rest position" in {one.exercise for one in exercises_reached(protocol, build)}


@pytest.mark.parametrize(
    ("lines", "codes_"),
    [
        (("leave out loaded heel raise",), []),  # a level
        (("change build", "  leave out rest position"), []),  # an `instead`, and given by the whole protocol
        (("change build", "  leave out ankle circles"), ["N215"]),
        (("leave out ankle circles", "change settle", "  give ankle circles"), []),
    ],
)
def test_what_can_be_left_out(lines: tuple[str, ...], codes_: list[str]) -> None:
    assert mine(*lines)[1] == codes_


def test_what_was_left_out_may_be_given_again_by_a_later_protocol() -> None:
    text = "use ankle\n\nprotocol first like ankle\n  version 1.3.1\n  leave out ankle circles\n"
    text += "protocol second like first\n  version 1.3.2\n"
    text += "protocol third like first\n  version 1.3.3\n  phase extra\n    give ankle circles\n"
    entry, said = resolved({"mine.protocol": text, "ankle.protocol": ANKLE}, "mine.protocol")
    assert not said
    first, second, third = entry.protocols
    assert [one.leave_out for one in (first, second, third)] == [("ankle circles",), ("ankle circles",), ()]
    assert "ankle circles" not in given(second)
    assert given(third, 2) == ["ankle circles"]


def test_restated_gives_replace_the_inherited_ones_and_it_is_said() -> None:
    """Gives alone are replaced; the part stays where it was."""
    protocol, said = mine("change settle", "  give loaded heel raise")
    assert said == ["N220"]
    assert given(protocol) == ["loaded heel raise", "heel raise", "slow heel raise", "one leg heel raise"]


def test_a_new_phase_stands_behind_the_one_before_it() -> None:
    names = [one.name for one in mine("phase settle", "  may sit", "phase between", "  give ankle circles")[0].phases]
    assert names == ["settle", "between", "build"]
    names = [one.name for one in mine("phase extra", "  give ankle circles")[0].phases]
    assert names == ["settle", "build", "extra"]


@pytest.mark.parametrize("kind", ["exercise", "progression", "protocol"])
def test_a_circle_of_like_is_named_once(kind: str) -> None:
    text = "".join(f"{kind} {one} like {other}\n  title {one}\n" for one, other in ("ab", "bc", "ca"))
    _, said = resolved({"a.protocol": text}, "a.protocol")
    assert codes(said) == ["N211"]
    assert said[0].args["chain"] == ("a", "b", "c", "a")


def test_a_long_chain_of_like_does_not_overflow() -> None:
    text = "exercise e0\n  do\n    Do it.\n"
    text += "".join(f"exercise e{at} like e{at - 1}\n  title T{at}\n" for at in range(1, 3000))
    entry, said = resolved({"a.protocol": text}, "a.protocol")
    assert not said
    assert entry.scope.exercises["e2999"].do


def test_a_setting_in_a_limit_is_kept_with_its_value() -> None:
    text = "setting bend = 90 deg\n" + ANKLE.replace(
        "    may walk indoors\n", "    may walk indoors\n    limit active knee flexion < bend\n    limit load <= 3 kg\n"
    )
    entry, said = resolved({"a.protocol": text}, "a.protocol")
    assert not said
    knee, load = entry.protocols[0].phases[0].limits
    assert (knee.kind, knee.joint, knee.movement, knee.op, str(knee.most), knee.setting) == (
        "active", "knee", "flexion", "<", "90 deg", "bend",
    )  # fmt: skip
    assert (load.joint, str(load.most), load.line) == ("", "3 kg", "limit load <= 3 kg")


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("limit knee flexion <= 90 cm", "K320"),
        ("limit knee flexion <= 90", "K309"),
        ("limit load <= 3 cm", "K320"),
        ("limit knee flexion >= 90 deg", "K322"),
        ("limit knee flection <= 90 deg", "K318"),
        ("limit knee flexion <= weeks in brace", "K308"),
        ("limit knee flexion <= bent", "N201"),
        ("forbid resisted ankle inversoin", "K318"),
        ("bearing ful", "K318"),
    ],
)
def test_a_wrong_limit(line: str, code: str) -> None:
    assert mine("change settle", f"  {line}")[1] == [code]
