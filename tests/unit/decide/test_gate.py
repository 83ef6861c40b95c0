"""What may be printed: swapping, leaving out, limits, equipment, choices, what is given twice or not at all."""

from __future__ import annotations

from decimal import Decimal

import pytest

from tests.unit.decide.cases import case_text, exercise, moves, names, plan, planned, protocol_text

QUESTION = "question torn: Torn?\nquestion sore: Sore?\n  fresh for 1 week\nquestion stiff: Stiff?\n"
AVOID = ("avoid if torn", "  instead sit")


def sheet(declarations: str, lines: str, *answers: str, as_of: str | None = None) -> list[str]:
    """The exercises on the sheet of a person with these lines in the case."""
    return names(plan(protocol_text(QUESTION + declarations, lines), case_text("\n".join(answers)), as_of))


def said(*words: str) -> str:
    return "on 2026-11-02\n" + "\n".join(f"  {one}" for one in words)


# avoid if.

STAND = exercise("stand", "works calf", *AVOID) + exercise("sit", "works calf")


def test_avoid_yes_and_unknown_are_swapped_no_is_printed() -> None:
    assert sheet(STAND, "give stand", said("yes: torn")) == ["sit"]
    assert sheet(STAND, "give stand", said("unknown: torn")) == ["sit"]
    assert sheet(STAND, "give stand") == ["sit"]
    assert sheet(STAND, "give stand", said("no: torn")) == ["stand"]


def test_an_unknown_avoid_is_asked_before_anything_else() -> None:
    found = plan(protocol_text(QUESTION + STAND, "give stand"), case_text(""))
    assert [(one.finding, [use.kind for use in one.uses]) for one in found.questions] == [("torn", ["avoid if"])]
    (one,) = found.not_given
    assert (one.asked, one.replacement, [reason.kind for reason in one.reasons]) == ("stand", "sit", ["give", "avoid"])
    text = protocol_text(QUESTION + STAND, "give stand")
    assert text[one.reasons[1].span.start : one.reasons[1].span.end] == "avoid if torn"


def test_an_answer_that_has_grown_old_is_unknown() -> None:
    stand = exercise("stand", "avoid if sore", "  instead sit") + exercise("sit")
    assert sheet(stand, "give stand", said("no: sore"), as_of="09") == ["stand"]
    assert sheet(stand, "give stand", said("no: sore"), as_of="10") == ["sit"]


def test_instead_is_followed_as_far_as_it_goes() -> None:
    chain = exercise("stand", *AVOID) + exercise("sit", "avoid if stiff", "  instead lie") + exercise("lie")
    assert sheet(chain, "give stand", said("yes: torn, stiff")) == ["lie"]
    assert sheet(chain, "give stand", said("yes: torn", "no: stiff")) == ["sit"]


def test_where_no_instead_is_left_nothing_is_printed_and_the_target_is_uncovered() -> None:
    alone = exercise("stand", "works calf", "avoid if torn")
    found = plan(protocol_text(QUESTION + alone, "give stand"), case_text(said("yes: torn")))
    assert not found.items
    assert found.uncovered == ("calf",)
    assert found.not_given[0].uncovered == ("calf",)
    other = alone + exercise("march", "works calf")
    found = plan(protocol_text(QUESTION + other, "give stand\ngive march"), case_text(said("yes: torn")))
    assert found.uncovered == ()


def test_of_two_avoids_the_first_chain_that_ends_in_something_allowed() -> None:
    two = (
        exercise("stand", "avoid if torn", "  instead sit", "avoid if stiff", "  instead lie")
        + exercise("sit", "avoid if torn")
        + exercise("lie")
    )
    assert sheet(two, "give stand", said("yes: torn, stiff")) == ["lie"]
    assert sheet(two, "give stand", said("yes: torn", "no: stiff")) == []
    assert sheet(two, "give stand", said("no: torn", "yes: stiff")) == ["lie"]


def test_a_circle_of_instead_prints_nothing() -> None:
    circle = exercise("stand", *AVOID) + exercise("sit", "avoid if torn", "  instead stand")
    assert sheet(circle, "give stand", said("yes: torn")) == []


# Equipment.

STEP = exercise("climb", "needs step", "  instead sit") + exercise("sit", "works calf")


def test_what_a_has_line_omits_is_absent() -> None:
    assert sheet(STEP, "give climb", "has wall") == ["sit"]
    assert sheet(STEP, "give climb", "has nothing") == ["sit"]
    assert sheet(STEP, "give climb", "has step, wall") == ["climb"]
    either = STEP.replace("needs step", "needs step or wall")
    assert sheet(either, "give climb", "has wall") == ["climb"]


def test_without_a_has_line_it_is_printed_with_what_it_needs() -> None:
    found = plan(protocol_text(STEP, "give climb"), case_text(""))
    assert names(found) == ["climb"]
    assert found.items[0].equipment == (("step",),)


def test_no_equipment_and_no_instead_is_uncovered() -> None:
    bare = exercise("climb", "works calf", "needs step")
    found = plan(protocol_text(bare, "give climb"), case_text("has wall"))
    assert (names(found), found.uncovered) == ([], ("calf",))


def test_needs_is_looked_at_before_avoid() -> None:
    both = exercise("climb", "needs step", "  instead lie", *AVOID) + exercise("sit") + exercise("lie")
    assert sheet(both, "give climb", "has wall", said("yes: torn")) == ["lie"]
    assert sheet(both, "give climb", "has step", said("yes: torn")) == ["sit"]


# Left out, limits, forbidden, bearing.


def test_left_out_bars_it_as_an_instead_too() -> None:
    out = "from 2026-11-02 leave out sit\n  because hurts her hip"
    assert sheet(STAND, "give stand", said("yes: torn"), out) == []
    assert sheet(STAND, "give stand\ngive sit", said("no: torn"), out) == ["stand"]


def test_left_out_for_a_time() -> None:
    out = "from 2026-11-05 to 2026-11-07 leave out sit\n  because travelling"
    found = [sheet(STAND, "give sit", out, as_of=on) for on in ("04", "05", "07", "08")]
    assert found == [["sit"], [], [], ["sit"]]


def test_given_for_a_time() -> None:
    more = "from 2026-11-05 to 2026-11-07 give sit\n  because asked for it"
    found = [sheet(STAND, "give stand", said("no: torn"), more, as_of=on) for on in ("04", "05", "07", "08")]
    assert found == [["stand"], ["stand", "sit"], ["stand", "sit"], ["stand"]]


def test_a_change_for_a_time() -> None:
    change = "from 2026-11-05 to 2026-11-07 change sit\n  dose 2 x 4, daily\n  because tired"
    text = protocol_text(STAND, "give sit")
    sets = [str(plan(text, case_text(change), on).items[0].dose.volume) for on in ("04", "05", "07", "08")]
    assert sets[0] == sets[3] != sets[1] == sets[2]


MOVES = exercise("bend", "works calf", "moves active ankle dorsiflexion to 15 deg", *AVOID) + exercise(
    "sit", "moves passive ankle dorsiflexion to 20 deg"
)


def test_limits_hold_for_what_stands_in_too() -> None:
    """The compiler checks the same; here a personal change or gift can bring it in."""
    limits = {
        "ankle dorsiflexion <= 10 deg": [],
        "active ankle dorsiflexion <= 15 deg": ["bend"],
        "active ankle dorsiflexion < 15 deg": [],
        "ankle plantarflexion <= 0 deg": ["bend"],
    }
    for limit, printed in limits.items():
        assert sheet(MOVES, f"phase one\n  limit {limit}\n  give bend", said("no: torn")) == printed, limit
    assert sheet(MOVES, "phase one\n  limit ankle dorsiflexion <= 15 deg\n  give bend", said("yes: torn")) == []
    assert sheet(MOVES, "phase one\n  limit active ankle dorsiflexion <= 15 deg\n  give bend", said("yes: torn")) == [
        "sit"
    ]


def test_a_forbidden_kind_covers_itself_and_stronger_ones() -> None:
    for forbid, printed in (("active ankle dorsiflexion", []), ("resisted ankle dorsiflexion", ["bend"]),
                            ("passive ankle dorsiflexion", []), ("ankle dorsiflexion", [])):  # fmt: skip
        assert sheet(MOVES, f"phase one\n  forbid {forbid}\n  give bend", said("no: torn")) == printed, forbid


def test_silence_about_a_limited_joint_is_not_a_no() -> None:
    silent = exercise("bend")
    still = exercise("bend", "still knee")
    assert sheet(silent, "phase one\n  limit knee flexion <= 90 deg\n  give bend") == []
    assert sheet(still, "phase one\n  limit knee flexion <= 90 deg\n  give bend") == ["bend"]


def test_bearing_is_the_most_allowed() -> None:
    standing = exercise("bend", "bearing partial")
    for most, printed in (("none", []), ("touch", []), ("partial", ["bend"]), ("full", ["bend"])):
        assert sheet(standing, f"phase one\n  bearing {most}\n  give bend") == printed
    assert sheet(exercise("bend"), "phase one\n  bearing partial\n  give bend") == []


def test_a_load_is_lowered_to_the_limit() -> None:
    heavy = exercise("bend", dose="3 x 10, load 10 kg, daily")
    found = plan(protocol_text(heavy, "phase one\n  limit load <= 6 kg\n  give bend"), case_text(""))
    assert found.items[0].load is not None
    assert (found.items[0].load.kilograms, found.items[0].load.exact) == (Decimal(5), Decimal(10))
    band = exercise("bend", dose="3 x 10, load light band, daily")
    found = plan(protocol_text(band, "phase one\n  limit load <= 6 kg\n  give bend"), case_text(""))
    assert not found.items
    assert found.not_given[0].reasons[-1].kind == "load limit"


# Levels.

CLIMB = """\
progression climb
  works calf
  down when pain > 5
  up when pain <= 3
  level sit
  level stand
  level march
"""
LEVELS = (
    exercise("stand", "works calf", "avoid if torn")
    + exercise("sit", "works calf")
    + exercise("march", "avoid if torn")
    + CLIMB
)
PLACED = "place 2026-11-03 climb: march\n  because seen"


def test_nothing_left_in_a_level_prints_the_nearest_lower_one_and_holds() -> None:
    text = protocol_text(QUESTION + LEVELS, "give climb")
    lines = (said("no: torn"), PLACED, "on 2026-11-04\n  yes: torn", "session 2026-11-05 climb: as given, pain 1",
             "session 2026-11-06 climb: as given, pain 9")  # fmt: skip
    found = plan(text, case_text("\n".join(lines)))
    assert names(found) == ["sit"]
    (level,) = found.levels
    assert (level.level, level.printed, level.held) == ("march", "sit", True)
    assert [one.kind for one in found.told] == ["held"]
    assert not [one for one in found.moves if one.kind in ("up", "down")]
    healed = plan(text, case_text("\n".join([*lines, "on 2026-11-07\n  no: torn"])))
    assert names(healed) == ["stand"]  # the nine of the day before still counts: down, now that it may move
    assert moves(healed)[-1] == "07 down climb: march > stand"


def test_instead_inside_a_level_keeps_the_level_and_uses_its_own_dose() -> None:
    swapped = LEVELS.replace("avoid if torn\n", "avoid if torn\n    instead sit\n")
    text = protocol_text(QUESTION + swapped.replace("level stand", "level stand\n    dose 5 x 5"), "give climb")
    found = plan(text, case_text(f"{said('yes: torn')}\nplace 2026-11-03 climb: stand\n  because seen"))
    assert names(found) == ["sit"]
    assert found.items[0].level is not None and not found.items[0].level.held
    assert found.items[0].asked == "stand"
    assert "Decimal('10')" in str(found.items[0].dose.volume)
    up = plan(
        text,
        case_text(
            f"{said('yes: torn')}\nplace 2026-11-03 climb: stand\n  because seen\n"
            "session 2026-11-04 climb: as given, pain 1"
        ),
    )
    assert moves(up)[-1] == "04 up climb: stand > march"


# Giving.


def test_give_if_and_unless() -> None:
    for word, yes, no in (("if", ["sit"], []), ("unless", [], ["sit"])):
        line = f"give sit {word} torn"
        assert sheet(STAND, line, said("yes: torn")) == yes
        assert sheet(STAND, line, said("no: torn")) == no
        assert sheet(STAND, line) == []
    found = plan(protocol_text(QUESTION + STAND, "give sit if torn"), case_text(""))
    assert [(one.finding, [use.kind for use in one.uses]) for one in found.questions] == [("torn", ["give"])]


def test_a_condition_that_has_gone_stale() -> None:
    """Not given; listed as given until the last date on which the answer counted."""
    text = protocol_text(QUESTION + STAND, "give sit if sore")
    found = plan(text, case_text(said("yes: sore")), "12")
    assert not found.items
    (one,) = found.not_given
    assert str(one.until) == "2026-11-09"
    (question,) = found.questions
    assert question.last is not None and question.last.stale


def test_the_persons_choice() -> None:
    both = exercise("walk", dose="10 min, daily") + exercise("ride", dose="20 min, daily")
    line = "choose 1\n  give walk\n  give ride"
    open_ = plan(protocol_text(both, line), case_text(""))
    assert [(one.exercise.name, one.options, one.takes) for one in open_.items] == [("walk", 2, 1), ("ride", 2, 1)]
    assert open_.week[0].minutes == 20
    assert sheet(both, line, said("chose: ride")) == ["ride"]
    later = "on 2026-11-05\n  chose: walk"
    assert sheet(both, line, said("chose: ride"), later) == ["walk"]
    found = plan(protocol_text(both, line), case_text(said("chose: ride")))
    assert [(one.asked, one.reasons[0].kind) for one in found.not_given] == [("walk", "choice")]


def test_given_twice_is_printed_once() -> None:
    twice = STAND + "progression climb\n  level sit\n"
    assert sheet(twice, "give sit\ngive climb") == ["sit"]


def test_given_twice_is_done_with_us_where_one_line_says_so() -> None:
    """Whichever line comes first, and whatever way each leads to the exercise."""
    twice = STAND + "progression climb\n  level sit\n"
    alone = "give sit\n  supervised"
    for lines in (f"give climb\n{alone}", f"{alone}\ngive climb", f"give sit\n{alone}", f"give stand\n{alone}"):
        found = plan(protocol_text(QUESTION + twice, lines), case_text(said("yes: torn")))
        assert [(one.exercise.name, one.supervised) for one in found.items] == [("sit", True)], lines
    added = said("yes: torn") + "\nfrom 2026-11-02 give sit\n  supervised\n  because seen\n"
    found = plan(protocol_text(QUESTION + twice, "give climb\ngive sit"), case_text(added))
    assert [one.supervised for one in found.items] == [True]


@pytest.mark.parametrize(
    ("dose", "with_us"),
    [
        ("3 x 10, 2 days a week, 2 supervised", True),
        ("3 x 10, 2 supervised", True),
        ("3 x 10, 3 days a week, 2 supervised", False),
        ("3 x 10, twice a day, 2 days a week, 2 supervised", False),
        ("3 x 10, 2 days a week", False),
    ],
)
def test_where_every_session_of_the_week_is_with_us_none_is_at_home(dose: str, with_us: bool) -> None:
    found = plan(protocol_text(exercise("squat", dose=dose), "give squat"), case_text(""))
    assert [one.supervised for one in found.items] == [with_us]


def test_two_doses_of_one_exercise_are_an_error() -> None:
    """L119: the exercise is given with another dose, and stands in for one that is avoided."""
    text = protocol_text(QUESTION + STAND, "give stand\ngive sit\n  dose 2 x 4")
    found, said_ = planned(text, case_text(said("yes: torn")))
    assert found is None
    assert [one.code.id for one in said_] == ["L119"]
    assert names(plan(text, case_text(said("no: torn")))) == ["stand", "sit"]


# Flags.


def test_a_danger_sign_that_is_yes_leaves_only_the_referral() -> None:
    text = protocol_text(QUESTION + STAND, "red flag if stiff\ngive sit")
    found = plan(text, case_text(said("yes: stiff")))
    assert found.refused == "refer"
    assert not found.items and not found.week[0].minutes


def test_an_unknown_danger_sign_makes_no_sheet_and_is_asked_first() -> None:
    text = protocol_text(QUESTION + STAND, "red flag if stiff\ngive stand")
    found = plan(text, case_text(""))
    assert (found.refused, found.items) == ("unanswered", ())
    assert [one.finding for one in found.questions] == ["stiff", "torn"]
    assert plan(text, case_text(said("no: stiff"))).refused == ""
    both = protocol_text(QUESTION + STAND, "red flag if stiff\nred flag if torn\ngive sit")
    assert plan(both, case_text(said("yes: torn"))).refused == "refer"


def test_the_latest_answer_rules_and_the_date_of_a_yes_is_kept() -> None:
    text = protocol_text(QUESTION + STAND, "red flag if stiff\ngive sit")
    lines = f"{said('yes: stiff')}\non 2026-11-05\n  no: stiff\non 2026-11-08\n  yes: stiff\non 2026-11-09\n  no: stiff"
    found = plan(text, case_text(lines))
    assert found.refused == ""
    assert [str(one) for one in found.red_flags[0].was_yes] == ["2026-11-02", "2026-11-08"]


def test_calls_and_cautions() -> None:
    """Yes: told or printed. Unknown: printed, and asked. No: not, unless the no may change."""
    calls = "call if torn\ncall if pain > 6, 2 sessions in a row\n"
    lines = f"{calls}caution if stiff\n  Mind it.\ncaution if sore\n  Mind it.\ngive sit"
    text = protocol_text(QUESTION + STAND, lines)
    found = plan(text, case_text(said("no: torn", "no: stiff, sore")))
    assert [one.truth.value for one in found.calls] == ["no", "unknown"]
    assert [(one.finding, [use.kind for use in one.uses]) for one in found.questions] == [("pain", ["call if"])]
    assert [(one.truth.value, one.stays) for one in found.cautions] == [("no", False), ("no", True)]
    hurts = "session 2026-11-03 to 2026-11-04 sit: as given, pain 7"
    found = plan(text, case_text(f"{said('yes: torn')}\n{hurts}"))
    assert [one.truth.value for one in found.calls] == ["yes", "yes"]
    assert [(one.truth.value, one.stays) for one in found.cautions] == [("unknown", True), ("unknown", True)]
    once = hurts.replace(" to 2026-11-04", "")
    assert [one.truth.value for one in plan(text, case_text(f"{said('no: torn')}\n{once}")).calls] == ["no", "no"]


def test_an_avoid_that_was_answered_no_stays_where_the_no_may_change() -> None:
    both = exercise("stand", "avoid if torn", "avoid if sore")
    found = plan(protocol_text(QUESTION + both, "give stand"), case_text(said("no: torn, sore")))
    assert [one.stays for one in found.items[0].avoids] == [False, True]
