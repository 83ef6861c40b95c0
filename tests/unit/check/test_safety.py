"""Limits hold on every way to an exercise, and unknown is never taken for no."""

from __future__ import annotations

import datetime

import pytest

from tests.unit.check.saying import AS_OF, PAIN, checked, codes, exercise, messages, protocol


def phase(*lines: str) -> str:
    """A protocol with one phase."""
    return protocol("phase settle", *(f"  {line}" for line in lines))


def test_nothing_is_said_of_what_is_whole() -> None:
    assert codes(exercise() + protocol("give heel raise")) == []


@pytest.mark.parametrize(
    ("limit", "moves", "said"),
    [
        ("knee flexion <= 90 deg", "knee flexion to 90 deg", False),
        ("knee flexion <= 90 deg", "knee flexion to 90.5 deg", True),
        ("knee flexion < 90 deg", "knee flexion to 90 deg", True),
        ("knee extension <= -10 deg", "knee extension to -20 deg", False),
        ("knee extension <= -10 deg", "knee extension to 0 deg", True),
        ("active knee flexion <= 90 deg", "passive knee flexion to 120 deg", False),
        ("active knee flexion <= 90 deg", "assisted knee flexion to 120 deg", False),
        ("active knee flexion <= 90 deg", "resisted knee flexion to 120 deg", True),
        ("active knee flexion <= 90 deg", "knee flexion to 120 deg", True),
        ("knee flexion <= 90 deg", "passive knee flexion to 120 deg", True),
        ("knee flexion <= 90 deg", "knee extension to 0 deg", False),
    ],
)
def test_a_limit_covers_its_kind_and_stronger_kinds(limit: str, moves: str, said: bool) -> None:
    text = exercise("heel raise", f"moves {moves}") + phase(f"limit {limit}", "give heel raise")
    assert bool(messages(text, "S601")) is said


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (("moves knee flexion to 20 deg",), True),
        (("still knee",), True),
        (("still ankle",), False),
        (("moves ankle dorsiflexion to 5 deg",), False),
        ((), True),
    ],
)
def test_a_limited_joint_has_to_be_spoken_of(lines: tuple[str, ...], said: bool) -> None:
    text = exercise("heel raise", *lines) + phase("limit ankle plantarflexion <= 20 deg", "give heel raise")
    assert bool(messages(text, "S603")) is said


def test_a_forbidden_movement_limits_its_joint_as_well() -> None:
    assert messages(exercise() + phase("forbid active wrist flexion", "give heel raise"), "S603")


@pytest.mark.parametrize(
    "way",
    [
        exercise("first", "avoid if ill", "  instead far", "moves ankle dorsiflexion to 5 deg"),
        "equipment step: a step\n"
        + exercise("first", "needs step", "  instead far", "moves ankle dorsiflexion to 5 deg"),
        exercise("first", "avoid if ill", "  instead middle", "still ankle")
        + exercise("middle", "avoid if pain > 5", "  instead far", "still ankle"),
    ],
    ids=["avoid", "needs", "through another"],
)
def test_every_instead_is_reached(way: str) -> None:
    """What stands in for an exercise is held to the limits of the phase, and the way there is marked."""
    far = exercise("far", "moves ankle dorsiflexion to 15 deg")
    text = PAIN + "question ill: Are you ill?\n" + way + far + phase("limit ankle dorsiflexion <= 10 deg", "give first")
    (found,) = [one for one in checked(text) if one.code.id == "S601"]
    assert found.message.startswith("`far` takes ankle dorsiflexion to 15 deg")
    assert [label.words for label in found.secondary][1].startswith("`")


def test_what_the_whole_protocol_gives_is_held_to_each_phase() -> None:
    text = exercise("heel raise", "moves ankle dorsiflexion to 15 deg") + protocol(
        "give heel raise", "phase settle", "  limit ankle dorsiflexion <= 10 deg", "  until weeks since start >= 2",
        "phase build", "  limit ankle dorsiflexion <= 20 deg",
    )  # fmt: skip
    (message,) = messages(text, "S601")
    assert "`settle`" in message


def test_what_a_phase_leaves_out_is_not_reached() -> None:
    lines = ("limit ankle dorsiflexion <= 10 deg", "leave out heel raise")
    text = exercise("heel raise", "moves ankle dorsiflexion to 15 deg") + protocol(
        "give heel raise", "phase settle", *(f"  {line}" for line in lines)
    )
    assert messages(text, "S601") == []


@pytest.mark.parametrize(
    ("said", "most", "wrong"),
    [("none", "none", False), ("touch", "none", True), ("as tolerated", "full", False), ("full", "as tolerated", True)],
)
def test_bearing(said: str, most: str, wrong: bool) -> None:
    text = exercise("heel raise", f"bearing {said}") + phase(f"bearing {most}", "give heel raise")
    assert bool(messages(text, "S604")) is wrong


@pytest.mark.parametrize(
    ("dose", "code"),
    [
        (("dose 3 x 12, load 2 kg, daily",), None),
        (("dose 3 x 12, load 2.5 kg, daily",), "S605"),
        (("dose 3 x 12, load 4 lb, daily",), None),
        (("dose 3 x 12, load 5 lb, daily",), "S605"),
        (("dose 3 x 12, load body weight, daily",), "S606"),
        (("dose 3 x 8, load 8RM, daily",), "S606"),
        (("dose 3 x 8, load 8RM up to 2 kg, daily",), None),
        (("dose 3 x 8, load 8RM up to 3 kg, daily",), "S605"),
        (("dose 3 x 5, load 70 % of 1RM, daily",), "S606"),
        (("dose 3 x 12, load 1 kg, daily", "add 1 kg when pain <= 2"), "S606"),
        (("dose 3 x 12, load 1 kg, daily", "add 1 kg when pain <= 2, up to 2 kg"), None),
        (("dose 3 x 12, load 1 kg, daily", "add 1 kg when pain <= 2, up to 3 kg"), "S605"),
        (("dose 3 x 12, load 1 kg, daily", "take off 1 kg when pain > 2"), None),
        (("dose 3 x 12, daily", "add 2 reps when pain <= 2"), None),
        (("dose daily", "dose week 1: 3 x 12, load 1 kg", "dose weeks 2 on: 3 x 12, load 9 kg"), "S605"),
        (("dose 3 x to fatigue, load 1 kg, daily", "adjust load by reps in set 1, for set 2",
          "  0 to 5: take off 1 kg", "  6 or more: add 1 kg"), "S606"),
        (("dose 3 x to fatigue, load 1 kg, daily", "adjust load by reps in set 1, for set 2",
          "  0 to 5: take off 1 kg", "  6 or more: same load"), None),
    ],
)  # fmt: skip
def test_a_limit_on_the_load(dose: tuple[str, ...], code: str | None) -> None:
    """A load that nobody knows beforehand is an error, unless `up to` bounds it."""
    text = PAIN + exercise(*("heel raise", *dose[1:]), dose=dose[0]) + phase("limit load <= 2 kg", "give heel raise")
    found = [one for one in codes(text) if one in ("S605", "S606")]
    assert found == ([code] if code else [])


def test_the_dose_of_the_give_is_the_one_that_counts() -> None:
    text = exercise(dose="dose 3 x 12, load 9 kg, daily") + phase(
        "limit load <= 2 kg", "give heel raise", "  dose load 2 kg"
    )
    assert not {"S605", "S606"} & set(codes(text))


def test_an_instead_has_its_own_load() -> None:
    """The replacement uses its own dose and load."""
    text = (
        "question ill: Are you ill?\n"
        + exercise("heel raise", "avoid if ill", "  instead heavy", dose="dose 3 x 12, load 1 kg, daily")
        + exercise("heavy", dose="dose 3 x 12, load 9 kg, daily")
        + phase("limit load <= 2 kg", "give heel raise")
    )
    assert [message.partition(" can")[0] for message in messages(text, "S605")] == ["`heavy`"]


def test_a_stop_line_anywhere_is_enough() -> None:
    bare = exercise().replace("  stop a sharp pain\n", "")
    assert messages(bare + phase("give heel raise"), "S610")
    assert not messages(bare + phase("stop a sharp pain", "give heel raise"), "S610")
    assert not messages(bare + protocol("stop a sharp pain", "give heel raise"), "S610")


@pytest.mark.parametrize(("reason", "said"), [("ill", True), ("tired", False), ("ill or tired", True)])
def test_an_instead_ruled_out_by_the_same_answer(reason: str, said: bool) -> None:
    text = (
        "question ill: Are you ill?\nquestion tired: Are you tired?\n"
        + exercise("heel raise", f"avoid if {reason}", "  instead other")
        + exercise("other", "avoid if ill", "  instead last")
        + exercise("last")
        + protocol("give heel raise")
    )
    assert bool(messages(text, "S609")) is said


@pytest.mark.parametrize(
    ("lines", "code"),
    [
        (("avoid if ill",), "S615"),
        (("avoid if ill", "  instead last"), "S609"),
        (("avoid if ill or tired", "  instead last"), "S609"),
        (("avoid if tired",), None),
    ],
)
def test_a_chain_under_one_answer_ends_somewhere_or_nowhere(lines: tuple[str, ...], code: str | None) -> None:
    """Nothing left to do is an error, a longer way a warning."""
    text = (
        "question ill: Are you ill?\nquestion tired: Are you tired?\n"
        + exercise("heel raise", "avoid if ill", "  instead other")
        + exercise("other", *lines)
        + exercise("last")
        + protocol("give heel raise")
    )
    assert [one for one in codes(text) if one in ("S609", "S615")] == ([code] if code else [])


def test_one_of_several_reasons_that_leads_nowhere() -> None:
    """The first reason has a safe end; the second has none, and that is what counts."""
    text = (
        "question ill: Are you ill?\nquestion tired: Are you tired?\n"
        + exercise("heel raise", "avoid if ill or tired", "  instead other")
        + exercise("other", "avoid if ill", "  instead last", "avoid if tired")
        + exercise("last")
        + protocol("give heel raise")
    )
    assert {"S609", "S615"} & set(codes(text)) == {"S615"}


@pytest.mark.parametrize(
    ("lines", "missed"),
    [
        (("give heel raise", "leave out last"), ["heel raise", "other"]),
        (("give heel raise", "leave out other"), ["heel raise"]),
        (("give heel raise", "give last", "phase late", "  leave out last"), ["heel raise", "other"]),
        (("give heel raise",), []),
    ],
)
def test_what_is_left_out_bars_what_it_stands_in_for(lines: tuple[str, ...], missed: list[str]) -> None:
    """`leave out` also bars it as an `instead`: whoever needs it is told to be left with nothing."""
    text = (
        "question ill: Are you ill?\n"
        + exercise("heel raise", "avoid if ill", "  instead other")
        + exercise("other", "avoid if ill", "  instead last")
        + exercise("last")
        + protocol(*lines)
    )
    said = [message.split("`")[1] for message in messages(text, "S614")]
    assert sorted(said) == missed


def test_what_is_left_out_bars_what_stands_in_for_equipment() -> None:
    text = (
        "equipment band: a band\n"
        + exercise("heel raise", "needs band", "  instead other")
        + exercise("other")
        + protocol("give heel raise", "leave out other")
    )
    assert len(messages(text, "S614")) == 1


@pytest.mark.parametrize(("day", "said"), [(datetime.date(2027, 10, 5), 0), (datetime.date(2027, 10, 6), 1), (None, 0)])
def test_a_review_is_due_the_day_after(day: datetime.date | None, said: int) -> None:
    found = checked(exercise() + protocol("give heel raise"), as_of=day)
    assert [one.code.id for one in found] == ["S612"] * said


def test_a_change_is_looked_at_again() -> None:
    """A limit holds again after every `change`."""
    base = exercise("heel raise", "moves ankle dorsiflexion to 5 deg") + phase(
        "limit ankle dorsiflexion <= 10 deg", "give heel raise"
    )
    own = (
        "use base\nprotocol ours like calf\n  version 1.0.0+north.1\n  change heel raise\n"
        "    moves ankle dorsiflexion to 15 deg\n    because ours go further\n"
    )
    assert AS_OF and len(messages(own, "S601", base=base)) == 1


@pytest.mark.parametrize(
    ("limits", "said"),
    [
        (("knee flexion <= 90 deg", "knee flexion <= 120 deg"), 1),
        (("knee flexion <= 120 deg", "knee flexion <= 90 deg"), 1),
        (("knee flexion < 90 deg", "knee flexion <= 90 deg"), 1),
        (("knee flexion <= 90 deg", "active knee flexion <= 120 deg"), 1),
        (("active knee flexion <= 90 deg", "passive knee flexion <= 120 deg"), 0),
        (("knee flexion <= 90 deg", "knee extension <= 0 deg"), 0),
        (("knee flexion <= 90 deg", "knee flexion <= 90 deg"), 0),
        (("load <= 2 kg", "load <= 3 kg"), 1),
        (("load <= 2 kg", "load <= 2000 g"), 0),
    ],
)
def test_of_two_limits_the_strictest_holds(limits: tuple[str, ...], said: int) -> None:
    """The other has no effect, and that is said; a weaker kind may be allowed to go further."""
    text = exercise("heel raise", "still knee") + phase(*(f"limit {one}" for one in limits), "give heel raise")
    assert len(messages(text, "S616")) == said
