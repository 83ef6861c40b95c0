"""The clinician's page of a case: what is open, what was decided and why, the moves and their marks, the sums."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest

from protodsl.decide.plan import REFER, UNANSWERED, Evidence, LaterDose, Move, NotGiven, Plan, Reason
from protodsl.decide.plan import Day as PlannedDay
from protodsl.decide.truth import NO, UNKNOWN, YES
from protodsl.handout.blocks import Bullets, Chain, Chart, Framed, Handout, Section, Table
from protodsl.handout.person import compose_case_page
from protodsl.handout.person.charts import series
from protodsl.handout.person.compare import amount
from protodsl.handout.person.corrections import contradictions
from protodsl.handout.person.moves import KINDS as MOVES
from protodsl.handout.person.moves import letter
from protodsl.handout.person.reasons import KINDS as REASONS
from protodsl.handout.person.sums import rounds
from protodsl.model.case import Affected
from protodsl.model.dose import Range
from protodsl.render import Style, html
from protodsl.units import UNITS, Quantity
from tests.unit.handout import samples
from tests.unit.handout.person import plans


def _page(plan: Plan, previous: Plan | None = None) -> Handout[str]:
    return plans.words(compose_case_page(plan, samples.CLINIC, plans.OPTIONS, previous), plan.protocol)


def _section(page: Handout[str], name: str) -> Section[str]:
    return next(section for section in page.sections if section.id == name)


def _tables(page: Handout[str], name: str) -> list[Table[str]]:
    return [block for block in _section(page, name).blocks if isinstance(block, Table)]


def _rows(page: Handout[str], name: str) -> list[list[str]]:
    return [[cell.text for cell in row] for table in _tables(page, name) for row in table.rows]


def _bullets(page: Handout[str], name: str) -> list[str]:
    return [item.text for block in _section(page, name).blocks if isinstance(block, Bullets) for item in block.lines]


def test_the_parts_stand_in_one_order() -> None:
    """What is open first, then what to know now, and the sources of every decision."""
    assert [section.id for section in _page(plans.plan()).sections] == [
        "open",
        "told",
        "flags",
        "left-out",
        "printed",
        "moves",
        "chains",
        "loads",
        "charts",
        "totals",
        "personal",
    ]


def test_open_questions_keep_their_order_and_name_their_lines() -> None:
    """In the order that was decided, each with its last value and every line that waits for it."""
    (frame,) = _section(_page(plans.plan()), "open").blocks
    assert isinstance(frame, Framed)
    assert frame.head == "1 open question"
    assert re.fullmatch(
        r"\*\*Swelling\*\*\. Is the joint swollen\? Never answered\. "
        r"It decides avoid if of Heel raise on both legs \(sample:\d+\)\.",
        frame.lines[0].text,
    )
    (none,) = _section(_page(replace(plans.plan(), questions=())), "open").blocks
    assert isinstance(none, Framed) and none.head == "No open questions" and not none.lines


def test_an_unanswered_flag_is_said_to_come_first() -> None:
    """No sheet is made, and the page says what to ask; nothing of exercises stands on it."""
    page = _page(plans.refused(UNANSWERED))
    (frame,) = _section(page, "open").blocks
    assert isinstance(frame, Framed)
    assert frame.head == "Answer first: 1 open question"
    assert frame.lines[0].text.startswith("**Calf tear**: no sheet until this is answered.")
    assert {"printed", "loads", "totals", "chains"}.isdisjoint(section.id for section in page.sections)
    assert "no sheet is printed until it is answered" in page.masthead.lines[2]
    assert "only the referral page" in _page(plans.refused(REFER)).masthead.lines[2]


def test_flags_keep_the_dates_on_which_they_were_yes() -> None:
    """A flag that is no today and was yes on a date keeps its row; one that never was is only counted."""
    rows = _rows(_page(plans.plan()), "flags")
    assert [(row[0], row[2], row[3]) for row in rows] == [
        ("Red flag", "no", "2 November 2026"),
        ("Red flag", "no", "2 November 2026"),
        ("Call us", "**yes**", "–"),
    ]
    assert _bullets(_page(plans.plan()), "flags") == ["2 other flags are no today and were never yes."]


def test_what_is_left_out_has_its_reasons_with_lines() -> None:
    """What was asked for, what stands in for it or nothing, and the line and values that decided."""
    first, second = _rows(_page(plans.plan()), "left-out")
    assert first[:2] == ["Heel raise on one leg. Of Calf strength.", "Squat."]
    assert re.fullmatch(
        r"Avoided: Heel raise on one leg\. Known: calf tear: yes on 25 November 2026 \(P-0417:12\)\. \(sample:\d+\)",
        first[2],
    )
    assert second[:2] == ["Squat.", "**Nothing.** Uncovered: Calf."]
    assert "Squat: its condition held until 9 November 2026 and is too old now. Ask again." in _bullets(
        _page(plans.plan()), "told"
    )


def test_moves_have_marks_that_stand_on_the_charts_too() -> None:
    """A row a move in their order; the letters of the charts are those of the table, on the days of the moves."""
    page = _page(plans.plan())
    rows = _rows(page, "moves")
    assert [row[0] for row in rows] == ["A", "", "B", "C"]
    assert rows[3][1:3] == ["22 November 2026", "Squat: **more**, from 10 kg to 12.5 kg."]
    assert rows[2][2] == "**On** from part 1 (Up to week 2 weeks: settle) to part 2 (Build strength)."
    # A phase ends by all its `until` lines, and each of them is told.
    assert "gone by since the start of this programme. You walk without a limp. Known: " in rows[2][3]
    charts = [block for block in _section(page, "charts").blocks if isinstance(block, Chart)]
    for chart in charts:
        marks = {mark.letters: plans.START + timedelta(mark.day) for mark in chart.marks}
        assert marks == {"A": plans.START, "B": date(2026, 11, 20), "C": date(2026, 11, 22)}


def test_what_is_given_on_one_date_is_one_row() -> None:
    """Exercises given together are told together, those of another date or taken away by themselves."""
    moves = [
        Move(plans.START, kind, name, "", name, plans.line(12))
        for kind, name in (("given", "squat"), ("given", "brisk walk"), ("withdrawn", "squat"))
    ]
    moves.append(replace(moves[0], date=plans.TODAY))
    rows = _rows(_page(replace(plans.plan(), moves=tuple(moves))), "moves")
    assert [(row[0], row[2]) for row in rows] == [
        ("A", "Squat, Brisk walk: given."),
        ("", "Squat: no longer given."),
        ("B", "Squat: given."),
    ]


def test_values_of_one_finding_stand_together() -> None:
    """Its name once, each value with its date, the lines at the end."""
    pains = tuple(plans.known("pain", plans.scale(at), plans.START + timedelta(at), at=20) for at in (1, 2))
    reason = Reason("avoid", "squat", truth=YES, deciding=(*pains, plans.known("fever", False)))
    page = _page(replace(plans.plan(), not_given=(NotGiven("squat", "squat", None, (reason,)),)))
    assert _rows(page, "left-out")[0][2] == (
        "Avoided: Squat. Known: pain: 1 on 3 November 2026, 2 on 4 November 2026 (P-0417:20), "
        "fever: no on 25 November 2026 (P-0417:12)."
    )


def test_letters_go_on_after_z() -> None:
    """As the columns of a spreadsheet are lettered (common practice, no source)."""
    assert [letter(at) for at in (0, 25, 26, 27, 51, 52, 701, 702)] == ["A", "Z", "AA", "AB", "AZ", "BA", "ZZ", "AAA"]


def test_the_chain_marks_the_present_step() -> None:
    """Also where another step is printed, the step that was reached is the one marked."""
    (chain,) = (block for block in _section(_page(plans.plan()), "chains").blocks if isinstance(block, Chain))
    assert chain.now == 0 and len(chain.stops) == 2
    assert chain.stops[0].detail == "1: 3 × 8 to 12"
    (level,) = plans.plan().levels
    held = replace(plans.plan(), levels=(replace(level, level="heel raise one leg", number=2, held=True),))
    (chain,) = (block for block in _section(_page(held), "chains").blocks if isinstance(block, Chain))
    assert chain.now == 1
    told = replace(plans.plan(), told=(Move(plans.TODAY, "held", "calf strength", "heel raise one leg", "squat"),))
    assert _bullets(_page(told), "told")[1] == (
        "Calf strength: nothing of Heel raise on one leg may be done now. "
        "Printed in its place: Squat. The step is held."
    )


def test_corrected_values_stand_on_the_charts() -> None:
    """What was superseded is not drawn; a value that came after today is not either."""
    case, findings = plans.case(), plans.PROTOCOL.scope.findings
    known = series(case, findings, plans.TODAY)
    assert known[("heel raises", "left")] == (
        (plans.START, Decimal(6)),
        (date(2026, 11, 13), Decimal(8)),
        (plans.TODAY, Decimal(12)),
    )
    assert len(series(case, findings, plans.START)[("heel raises", "left")]) == 1


def test_scales_of_a_session_share_a_chart_and_are_shown_whole() -> None:
    """Pain and pain the next morning, both from 0 to 10, on one axis from 0 to 10."""
    charts = [block for block in _section(_page(plans.plan()), "charts").blocks if isinstance(block, Chart)]
    assert [[line.name for line in chart.lines] for chart in charts] == [
        ["heel raises (left side)", "heel raises (right side)"],
        ["pain", "pain next morning"],
    ]
    assert (charts[1].values[0][0], charts[1].values[-1][0]) == (Decimal(0), Decimal(10))
    assert charts[0].alternative == (
        "Heel raises (left side): 3 values, from 6 on 2 November 2026 to 12 on 25 November 2026. "
        "Heel raises (right side): 2 values, from 15 on 2 November 2026 to 15 on 25 November 2026."
    )


def test_two_answers_of_one_day_are_said() -> None:
    """Two values for one finding, side and date; a correction settles it."""
    (two,) = contradictions(plans.case(), plans.TODAY)
    assert [one.value for one in two] == [True, False]
    settled = replace(
        plans.case(),
        observations=(*plans.case().observations, plans.observed("dizzy", True, plans.START, corrects=True)),
    )
    assert contradictions(settled, plans.TODAY) == ()
    assert any(text.startswith("**Two answers** for dizzy") for text in _bullets(_page(plans.plan()), "personal"))


def test_changes_made_for_this_person_have_their_reasons() -> None:
    """Left out, changed, corrected and noted, each with its line of the case; what is still to come is not listed."""
    said = _bullets(_page(plans.plan()), "personal")
    assert "Left out from 2 November 2026 to 4 November 2026: Squat. Why: travelling. (P-0417:30)" in said
    assert "Changed from 25 November 2026 on: Squat. Why: tired. (P-0417:31)" in said
    assert "Corrected: heel raises (left side) of 13 November 2026 is 8; it was 9. Why: miscounted. (P-0417:20)" in said
    before = _bullets(_page(replace(plans.plan(), as_of=date(2026, 11, 24))), "personal")
    assert not any(text.startswith("Changed from 25 November") for text in before)


def test_rounds_a_week_for_each_target() -> None:
    """3 rounds on 3 days, up to one more on the weaker side, and 4 rounds on 3 days: 9 + 12 to 12 + 12."""
    assert rounds(plans.plan()) == {"calf": Range(Decimal(21), Decimal(24))}
    head = _tables(_page(plans.plan(), plans.last_sheet()), "totals")[0].heads
    assert head == ("Target", "On the last sheet", "Now")
    assert _tables(_page(plans.plan()), "totals")[0].heads == ("Target", "Now")


def test_minutes_over_the_budget_say_so() -> None:
    """The word stands in the cell, not a colour."""
    protocol = replace(plans.PROTOCOL, budget=Decimal(30))
    week = (PlannedDay(0, Decimal(29)), PlannedDay(1, Decimal(31), over_budget=True))
    table = _tables(_page(replace(plans.plan(), protocol=protocol, week=week)), "totals")[-1]
    assert [cell.text for cell in table.rows[0]][1:4] == ["29", "31: over the limit of 30", "0"]
    assert "30" in str(table.caption)


def test_a_load_says_how_it_came_to_be() -> None:
    """As written, today, by which equation, with which steps, before rounding, lowered by which line."""
    (row,) = _rows(_page(plans.plan()), "loads")
    assert row[:3] == ["2: Squat", "what you can lift 8 times at most", "12.5 kg"]
    assert re.fullmatch(
        r"By the equation “epley”\. Steps so far: 2\.5 kg\. Before it was rounded down to what there is: 13\.4 kg\. "
        r"Lowered by a limit \(sample:\d+\)\.",
        row[3],
    )


def _kinds(documented: type) -> set[str]:
    """The kinds that a docstring lists after `kind` is one of."""
    text = re.sub(r"\([^)]*\)", "", str(documented.__doc__))
    found = re.search(r"`kind` is one of: (.*?)\.", text, re.S)
    assert found is not None
    return {" ".join(kind.split()) for kind in found[1].split(",")}


def test_every_kind_of_reason_has_words() -> None:
    """Each kind that a plan may hold, in words, with the values that nobody knows."""
    assert set(REASONS) == _kinds(Reason)
    for kind in REASONS:
        reason = Reason(kind, "squat", plans.line(12), UNKNOWN, unknown=(Evidence("fever", None, None, None),))
        page = _page(replace(plans.plan(), not_given=(NotGiven("squat", "squat", None, (reason,)),)))
        (row,) = _rows(page, "left-out")
        words = "Not known, so taken as yes" if kind == "avoid" else "Not known"
        assert "Squat" in row[2] and f"{words}: fever: never answered." in row[2]


def test_every_kind_of_move_has_words() -> None:
    """Each kind that a plan may hold."""
    assert set(MOVES) == _kinds(Move)
    days = [plans.START + timedelta(at) for at in range(len(MOVES))]
    moves = tuple(Move(day, kind, "squat", "10 kg", "12.5 kg") for day, kind in zip(days, MOVES, strict=True))
    rows = _rows(_page(replace(plans.plan(), moves=moves)), "moves")
    assert len({row[2] for row in rows}) == len(MOVES)


@pytest.mark.parametrize(
    ("evidence", "words"),
    [
        (plans.known("fever", False), "fever: no on 25 November 2026 (P-0417:12)"),
        (plans.known("fever", None), "fever: not known on 25 November 2026 (P-0417:12)"),
        (replace(plans.known("fever", True), stale=True), "fever: yes on 25 November 2026, too old (P-0417:12)"),
        (Evidence("at risk", None, "high", plans.TODAY), "at risk: high on 25 November 2026"),
        (
            Evidence("phase start", None, Quantity(Decimal(3), UNITS["weeks"]), plans.TODAY),
            "time in this part: 3 weeks",
        ),
    ],
)
def test_values_in_words(evidence: Evidence, words: str) -> None:
    """A value with its date and line; too old, never said and time gone by are told apart."""
    reason = Reason("avoid", "squat", truth=NO, deciding=(evidence,))
    page = _page(replace(plans.plan(), not_given=(NotGiven("squat", "squat", None, (reason,)),)))
    assert words in _rows(page, "left-out")[0][2]


@pytest.mark.parametrize(
    ("side", "words"),
    [
        (Affected("right"), "Affected: the right side."),
        (Affected("left", both=True), "Affected: both sides, the left side is worse."),
        (Affected(None), "Affected: no side."),
    ],
)
def test_the_side_is_named(side: Affected, words: str) -> None:
    """In the masthead, with the phase and what the person has."""
    line = _page(replace(plans.plan(), case=replace(plans.case(), side=side))).masthead.lines[1]
    assert line.startswith(words) and line.endswith("Has: a stair.")


@pytest.mark.parametrize(("has", "words"), [(None, "Equipment: not asked."), ((), "Has no equipment.")])
def test_no_equipment_is_not_the_same_as_not_asked(has: tuple[str, ...] | None, words: str) -> None:
    """`has nothing` and no `has` line."""
    assert _page(replace(plans.plan(), case=replace(plans.case(), has=has))).masthead.lines[1].endswith(words)


def test_what_is_compared_is_the_load_and_the_work_of_a_week() -> None:
    """4 x 8 on 3 days: 12 rounds, 96 repetitions a week, 32 a session, at 4 s each 384 s (ACSM 2009, its slow end)."""
    squat = plans.items()[1]
    assert amount(squat) == (Decimal("12.5"), Decimal(12), Decimal(96), Decimal(32), Decimal(384))
    assert isinstance(squat.later[0], LaterDose)


def test_it_can_be_printed() -> None:
    """As HTML, with every chart drawn."""
    made = html(_page(plans.plan(), plans.last_sheet()), Style())
    assert made.value is not None and made.diagnostics == ()
    assert made.value.count("<svg") == 2
