"""Case files: what is looked up, checked, converted and dated, and the protocol with personal changes made."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from protodsl.model.case import Affected, Case
from protodsl.model.dose import Sets, SetsOf
from protodsl.resolve.case import major_and_minor
from protodsl.units import UNITS, Quantity
from tests.unit.decide.cases import case_text, day, exercise, person, protocol_text, read

DECLARED = """\
test knee-to-wall: Knee to the wall.
  answer cm from 0 to 25, each side
test weight: Weight lifted.
  answer kg from 0 to 100
question swollen: Swollen?
  answer yes or no, each side
question work: Work?
  answer one of sitting, standing, off work
question operation: Operation?
  answer date
finding late
  yes if weeks since operation >= 6
  otherwise no
"""
TEXT = protocol_text(
    DECLARED + exercise("low") + exercise("high", "needs step") + "progression climb\n  level low\n  level high\n",
    "give climb",
)


def case(lines: str, text: str = TEXT) -> Case:
    return person(text, case_text(lines, answered=False)).case


def codes(lines: str, text: str = TEXT) -> list[str]:
    """The codes of what is said about a case with these lines."""
    return [one.code.id for one in read(text, case_text(lines, answered=False))[1]]


def test_values_are_kept_as_written_by_side() -> None:
    found = case("on 2026-11-02\n  knee-to-wall: left 11 cm, right 6.5 cm")
    assert [(one.side, str(one.value)) for one in found.observations] == [("left", "11 cm"), ("right", "6.5 cm")]


def test_another_unit_of_the_same_kind_is_read_and_measured_against_the_range() -> None:
    """100 kg are 220.46 lb (1 lb = 0.45359237 kg, international yard and pound agreement, 1959)."""
    assert case("on 2026-11-02\n  weight: 220 lb").observations[0].value == Quantity(Decimal(220), UNITS["lb"])
    assert codes("on 2026-11-02\n  weight: 221 lb") == ["L107"]
    assert codes("on 2026-11-02\n  knee-to-wall: left 4 in") == []
    assert codes("on 2026-11-02\n  knee-to-wall: left 10 in") == ["L107"]


@pytest.mark.parametrize(
    ("written", "code"),
    [
        ("knee-to-wall: left 11", "L106"),
        ("knee-to-wall: left 11 kg", "L106"),
        ("knee-to-wall: 11 cm", "L108"),
        ("pain: left 3", "L108"),
        ("pain: 11", "L107"),
        ("pain: 3 cm", "L106"),
        ("heel raises: left 2.5", "L106"),
        ("work: walking", "L106"),
        ("work: 3", "L106"),
        ("operation: yes", "L106"),
        ("chest pain: 2026-11-02", "L106"),
        ("late: yes", "L109"),
        ("pains: 3", "L105"),
    ],
)
def test_a_value_that_cannot_be(written: str, code: str) -> None:
    assert codes(f"on 2026-11-02\n  {written}") == [code]


def test_every_kind_of_value() -> None:
    lines = (
        "no: chest pain\nunknown: pain\nwork: off work\noperation: 2026-09-01\nheel raises: left 3, right unknown"
    )
    found = case("on 2026-11-02\n" + "\n".join(f"  {one}" for one in lines.split("\n")))
    values = {(one.finding, one.side): one.value for one in found.observations}
    assert values == {
        ("chest pain", None): False,
        ("pain", None): None,
        ("work", None): "off work",
        ("operation", None): date(2026, 9, 1),
        ("heel raises", "left"): Quantity(Decimal(3), UNITS["count"]),
        ("heel raises", "right"): None,
    }


def test_no_and_unknown_without_a_side_are_of_both_a_yes_is_not() -> None:
    found = case("on 2026-11-02\n  no: swollen\n  unknown: knee-to-wall")
    assert [(one.finding, one.side, one.value) for one in found.observations] == [
        ("swollen", "left", False),
        ("swollen", "right", False),
        ("knee-to-wall", "left", None),
        ("knee-to-wall", "right", None),
    ]
    assert codes("on 2026-11-02\n  yes: swollen") == ["L108"]


def test_a_run_of_sessions_is_one_session_a_date() -> None:
    found = case("session 2026-11-29 to 2026-12-02 climb: as given, pain 2, pain next morning unknown")
    assert [one.date.isoformat() for one in found.sessions] == ["2026-11-29", "2026-11-30", "2026-12-01", "2026-12-02"]
    assert all(value.date == one.date for one in found.sessions for value in one.values)
    assert [(one.finding, one.value) for one in found.sessions[0].values][1] == ("pain next morning", None)


def test_listed_dates_and_no_item() -> None:
    found = case("session 2026-11-04, 2026-11-03: missed")
    assert [(one.date, one.item, one.outcome) for one in found.sessions] == [
        (day("03"), None, "missed"),
        (day("04"), None, "missed"),
    ]


def test_what_was_done() -> None:
    found = case("session 2026-11-03 low: left 3 x 10, right 14 then 11 then 9, load 12 lb, pain 2")
    (session,) = found.sessions
    assert session.outcome == "done"
    assert [one.side for one in session.done] == ["left", "right"]
    assert isinstance(session.done[0].volume, Sets)
    assert session.done[1].volume == SetsOf((14, 11, 9))
    assert session.load == Quantity(Decimal(12), UNITS["lb"])


def test_a_load_that_is_no_weight() -> None:
    assert codes("session 2026-11-03 low: 3 x 10, load light band") == []
    assert codes("session 2026-11-03 low: 3 x 10, load heavy band") == ["N201"]
    assert codes("session 2026-11-03 low: 3 x 10, load 70 % of 1RM") == ["L115"]


def test_wrong_things_in_a_run_are_said_once() -> None:
    assert codes("session 2026-11-03 to 2026-11-20 climb: as given, pain 12") == ["L107"]


def test_contradictions_name_both_places() -> None:
    lines = "on 2026-11-02\n  pain: 3\non 2026-11-02\n  pain: 4"
    (said,) = [one for one in read(TEXT, case_text(lines, answered=False))[1] if one.code.id == "L110"]
    text = case_text(lines, answered=False)
    spans = (said.secondary[0].span, said.primary.span)
    assert [text[one.start : one.end] for one in spans] == ["pain: 3", "pain: 4"]
    assert codes("on 2026-11-02\n  pain: 3\non 2026-11-02\n  pain: 3") == []
    assert codes("on 2026-11-02\n  knee-to-wall: left 3 cm\non 2026-11-02\n  knee-to-wall: right 4 cm") == []
    assert codes("session 2026-11-03 low: as given, pain 3\nsession 2026-11-03 high: as given, pain 4") == []


def test_a_correction_needs_something_to_correct() -> None:
    correction = "corrected 2026-11-03 pain: 4\n  because misread"
    assert codes(correction) == ["L112"]
    assert codes(f"on 2026-11-03\n  pain: 3\n{correction}") == []
    assert codes(f"session 2026-11-03 low: as given, pain 3\n{correction}") == []
    sided = "corrected 2026-11-03 knee-to-wall: right 4 cm\n  because misread"
    assert codes(f"on 2026-11-03\n  knee-to-wall: left 3 cm\n{sided}") == ["L112"]


def test_sides_and_equipment() -> None:
    assert case("side left").side == Affected("left")
    assert case("side both, worse right").side == Affected("right", True)
    assert case("side none").side == Affected(None)
    assert case("").has is None
    assert case("has nothing").has == ()
    assert case("has step, wall").has == ("step", "wall")


def test_everything_is_in_order_of_date() -> None:
    found = case(
        "session 2026-11-05 low: as given\nsession 2026-11-03 low: as given\nnote 2026-11-09 b\nnote 2026-11-04 a"
    )
    assert [one.date.day for one in found.sessions] == [3, 5]
    assert [one.words for one in found.notes] == ["a", "b"]


def test_versions() -> None:
    """Semantic Versioning 2.0.0: what stands behind `+` or `-` is not of the first two numbers."""
    assert major_and_minor("1.3.0+north.1") == major_and_minor("1.3.9-draft") == ("1", "3")
    other = case_text("", answered=False).replace("version 1.0.0", "version 1.0.7")
    assert [one.code.id for one in read(TEXT, other)[1]] == []
    newer = case_text("", answered=False).replace("version 1.0.0", "version 2.0.0")
    assert [one.code.id for one in read(TEXT, newer)[1]] == ["L103"]


def test_a_personal_change_is_made_in_the_protocol_for_its_dates() -> None:
    lines = "from 2026-11-05 to 2026-11-07 change low\n  dose 2 x 4, daily\n  because tired"
    found = person(TEXT, case_text(lines)).versions
    volumes = []
    for on in ("02", "04", "05", "07", "08"):
        volume = found.on(day(on)).scope.exercises["low"].dosage.common.volume
        assert isinstance(volume, Sets)
        volumes.append(int(volume.sets.low))
    assert volumes == [3, 3, 2, 2, 3]


def test_two_changes_at_once_are_made_in_order_of_their_dates() -> None:
    lines = (
        "from 2026-11-07 change low\n  dose 4 x 4, daily\n  because better\n"
        "from 2026-11-05 change low\n  dose 2 x 4, daily\n  because tired"
    )
    found = person(TEXT, case_text(lines)).versions
    volume = found.on(day("08")).scope.exercises["low"].dosage.common.volume
    assert isinstance(volume, Sets) and volume.sets.low == 4


def test_a_change_adds_safety_lines_and_drops_none() -> None:
    text = protocol_text(DECLARED + exercise("low", "avoid if swollen on either side"), "give low")
    lines = "from 2026-11-05 change low\n  avoid if weeks since operation < 6\n  because new operation"
    changed = person(text, case_text(lines)).versions.on(day("05")).scope.exercises["low"]
    assert [one.line for one in changed.avoid] == [
        "avoid if swollen on either side",
        "avoid if weeks since operation < 6",
    ]


def test_what_is_wrong_in_a_personal_change_is_said_in_the_case() -> None:
    (said,) = read(TEXT, case_text("from 2026-11-05 change lows\n  dose 2 x 4\n  because tired"))[1]
    assert (said.code.id, said.primary.span.path) == ("N201", "input.case")
    assert codes("from 2026-11-05 give low if pains > 3\n  because so") == ["N201"]
    assert codes("from 2026-11-05 change low\n  title Low\n  level high\n  because so") != []


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("note 2026-11-20 ran for the bus, 3 x 12 went well on 2026-11-19 and 2026-11-18", 0),
        ("note 2026-11-20 operated on 2026-09-01, 12 weeks ago", 0),
        ("note 2026-11-20 born 2019-09-01", 1),
        ("note 2026-11-20 fell in 12.03.1961", 1),
        ("note 2026-11-20 call 01632 960 142", 1),
        ("note 2026-11-20 call +44 1632 960142", 1),
        ("note 2026-11-20 Mr Smith was there", 1),
        ("note 2026-11-20 wife Anna Lund was there", 1),
        ("note 2026-11-20 On Monday The Left knee", 0),
        ("note 2026-11-20 knee bends to 110 deg, 4000 steps a day", 0),
    ],
)
def test_what_may_say_who_it_is(line: str, said: int) -> None:
    assert codes(line) == ["L118"] * said


def test_an_id_that_may_say_who_it_is() -> None:
    for id_, said in (("P-0417", 0), ("AQ-2026-17", 0), ("knee-3", 0), ("Anna-Lund", 1), ("anna", 1), ("X19610312", 1)):
        text = case_text("").replace("case P-0417", f"case {id_}")
        assert [one.code.id for one in read(TEXT, text)[1]] == ["L118"] * said, id_


def test_a_placing_on_a_level_that_a_personal_change_puts_in() -> None:
    change = "from 2026-11-05 change climb\n  level half way: low, after low\n  because too high a step\n"
    place = "place 2026-11-05 climb: half way\n  because seen"
    assert codes(change + place) == []
    assert codes(place) == ["L113"]
