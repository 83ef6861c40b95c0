"""What keeps a case from being decided."""

from __future__ import annotations

from tests.unit.decide.cases import case_text, exercise, names, plan, planned, protocol_text

TEXT = protocol_text(
    exercise("low") + exercise("high") + "progression climb\n  level low\n  level high\n", "give climb"
)
NEWER = case_text("from 2026-11-10 version 1.0.0\n").replace("version 1.0.0\n  started", "version 0.9.0\n  started")


def test_a_progression_has_to_be_placed_in_a_new_version() -> None:
    """L104, until a line says on which level it goes on."""
    found, said = planned(TEXT, NEWER)
    assert found is None
    assert [one.code.id for one in said] == ["L104"]
    assert names(plan(TEXT, NEWER + "  place 2026-11-10 climb: high\n    because new text\n")) == ["high"]


def test_as_of_a_date_before_the_new_version_nothing_is_missing() -> None:
    assert names(plan(TEXT, NEWER, "09")) == ["low"]


def test_a_date_before_the_start() -> None:
    """L120."""
    found, said = planned(TEXT, case_text(""), "2026-10-31")
    assert found is None
    assert [one.code.id for one in said] == ["L120"]


def test_dates_that_cannot_be_meant_take_no_time() -> None:
    """L121 for a sheet as of long after the start; a visit in the far future makes a sheet for a year."""
    found, said = planned(TEXT, case_text(""), "2126-11-02")
    assert found is None
    assert [one.code.id for one in said] == ["L121"]
    far = plan(TEXT, case_text("next visit 9999-12-31"))
    assert (far.last - far.first).days == 365
