"""One mistake, one diagnostic: what follows from it is not reported again, and everything else still is."""

import pytest

from tests.unit.resolve.shelf import codes, resolved
from tests.unit.resolve.test_protocols import ANKLE


def said_of(text: str) -> list[str]:
    return codes(resolved({"a.protocol": text}, "a.protocol")[1])


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        # A misspelled declaration: every place that names it, in one report.
        ("exercise heel raise\n", "exercise heel raize\n", ["N201"]),
        # A wrong answer: conditions on it are left alone.
        ("  answer 0 to 10\n", "  answer one of bad, bad\n", ["K326"]),
        ("  answer 0 to 10\n", "  answer 10 to 0\n", ["T120"]),
        # A level that is wrong: `start at` and the phase that gives it are left alone.
        ("  level one leg heel raise\n", "  level one leg heel raize\n", ["N201"]),
        # A `give` that is wrong does not make its protocol empty.
        ("    give ankle circles\n", "    give ankle circle\n", ["N201"]),
        # A progression that is like nothing.
        ("progression calf strength\n", "progression calf strength like calf\n", ["N201"]),
    ],
)
def test_a_mistake_is_reported_once(old: str, new: str, expected: list[str]) -> None:
    assert old in ANKLE
    assert said_of(ANKLE.replace(old, new, 1)) == expected


def test_one_name_in_many_places_is_one_report_with_the_others_beside_it() -> None:
    text = "exercise a\n  do\n    A.\n" + "".join(f"  avoid if pian and fever > {at}\n" for at in range(6))
    _, said = resolved({"a.protocol": f"question fever: Hot?\n  answer 0 to 9\n{text}"}, "a.protocol")
    assert codes(said) == ["N201"]
    assert len(said[0].secondary) == 3


def test_a_lift_of_a_line_that_was_not_understood_is_left_alone() -> None:
    text = "exercise a\n  do\n    A.\n  avoid if pian\nexercise b like a\n  allow if pian\n    because no\n"
    assert said_of(text) == ["N201"]


def test_a_question_whose_answer_could_not_be_read_is_of_any_kind() -> None:
    """The line is reported by the parser; conditions on the question are left alone."""
    found = said_of(ANKLE.replace("  answer 0 to 10\n", "  answer 0 upto 10\n"))
    assert len(found) == 1
    assert found[0].startswith("T")


def test_what_could_not_be_read_is_not_missing() -> None:
    """The parser reports the head of the exercise; names that point to it are left alone, lines without it too."""
    text = "exercise heel raise: now\n  do\n    A.\n\nexercise b\n  do\n    B.\n  needs mat\n    instead heel raise\n"
    found = said_of(f"equipment mat: a mat\n{text}")
    assert all(code.startswith("T") for code in found)
    assert found


def test_every_mistake_of_a_file_is_said_in_one_run() -> None:
    text = ANKLE.replace("pain <= 3\n", "pian <= 3\n").replace("works calf", "works calv")
    text = text.replace("instead rest position", "instead rest pose").replace("3 x 8", "3 x 8, 3 x 9")
    assert sorted(said_of(text)) == ["K319", "N201", "N201", "N201"]
