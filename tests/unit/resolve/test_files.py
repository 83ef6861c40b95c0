"""`use`: each file once, circles cut, settings set, declarations replaced, names of two files told apart."""

from decimal import Decimal

import pytest

from protodsl.units import UNITS, Quantity
from tests.unit.resolve.shelf import codes, resolved

LIBRARY = """
setting weeks in brace = 2 weeks, from 0 to 6 weeks

question wound red: Is the wound red?

exercise ankle circles
  do
    Wear the brace for [weeks in brace].
  avoid if wound red
"""
WEEKS = UNITS["weeks"]


def test_a_file_brings_in_what_it_uses_itself() -> None:
    """Three files deep, and by two ways: each is read once and the entry comes first."""
    entry, said = resolved(
        {
            "top.protocol": "use left\nuse right\n",
            "left.protocol": "use deep\n",
            "right.protocol": "use deep\n",
            "deep.protocol": LIBRARY,
        },
        "top.protocol",
    )
    assert not said
    assert entry.files == ("top.protocol", "deep.protocol", "left.protocol", "right.protocol")
    assert list(entry.scope.exercises) == ["ankle circles"]


@pytest.mark.parametrize(
    ("files", "chain"),
    [
        ({"top.protocol": "use top\n"}, ("top.protocol", "top.protocol")),
        (
            {"top.protocol": "use a\n", "a.protocol": "use b\n", "b.protocol": "use a\n"},
            ("a.protocol", "b.protocol", "a.protocol"),
        ),
    ],
)
def test_a_circle_is_named_in_full_and_cut(files: dict[str, str], chain: tuple[str, ...]) -> None:
    _, said = resolved(files, "top.protocol")
    assert codes(said) == ["N205"]
    assert said[0].args["chain"] == chain


def test_what_is_not_there_and_what_lies_outside() -> None:
    _, said = resolved({"top.protocol": "use lib/calv\nuse ../lib/calf\n", "lib/calf.protocol": ""}, "top.protocol")
    assert codes(said) == ["N206", "N207"]
    assert said[0].fix is not None
    assert said[0].fix.replacement == "lib/calf"


def test_an_entry_that_cannot_be_read_has_no_value() -> None:
    class Nothing:
        def locate(self, use_path: str, from_file: str) -> None:
            return None

        def tree(self, path: str) -> None:
            return None

        def use_paths(self) -> tuple[str, ...]:
            return ()

    from protodsl.resolve import resolve

    assert resolve("top.protocol", Nothing()).value is None


def test_with_sets_a_setting_for_all_that_is_read_together() -> None:
    entry, said = resolved(
        {"top.protocol": "use lib\n  with weeks in brace = 21 days\n", "lib.protocol": LIBRARY}, "top.protocol"
    )
    assert not said
    assert entry.scope.settings["weeks in brace"].value == Quantity(Decimal(21), UNITS["days"])


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("with weeks in brace = 7 weeks", "K316"),
        ("with weeks in brace = 43 days", "K316"),
        ("with weeks in brace = 3 cm", "K308"),
        ("with weeks in brace = 3", "K308"),
        ("with weeks in brase = 3 weeks", "N201"),
        ("without ankle circle", "N210"),
        ("without ankle circles", "N209"),
    ],
)
def test_a_wrong_line_under_use(line: str, code: str) -> None:
    assert codes(resolved({"top.protocol": f"use lib\n  {line}\n", "lib.protocol": LIBRARY}, "top.protocol")[1]) == [
        code
    ]


def test_two_values_for_a_setting_name_both_places() -> None:
    files = {
        "top.protocol": "use left\nuse lib\n  with weeks in brace = 4 weeks\n",
        "left.protocol": "use lib\n  with weeks in brace = 3 weeks\n",
        "lib.protocol": LIBRARY,
    }
    _, said = resolved(files, "top.protocol")
    assert codes(said) == ["N208"]
    assert {said[0].primary.span.path, said[0].secondary[0].span.path} == {"top.protocol", "left.protocol"}
    files["left.protocol"] = "use lib\n  with weeks in brace = 4 weeks\n"
    assert not resolved(files, "top.protocol")[1]


def test_without_takes_the_importers_own_of_the_same_kind() -> None:
    """A test may stand in for a question; the library's own lines then mean the importer's."""
    own = "use lib\n  without wound red\n\ntest wound red: Look at the wound.\n  answer yes or no, each side\n"
    entry, said = resolved({"top.protocol": own, "lib.protocol": LIBRARY}, "top.protocol")
    assert entry.scope.findings["wound red"].role == "test"
    assert codes(said) == ["K311"]
    assert said[0].primary.span.path == "lib.protocol"


BARE = "exercise rock\n  do\n    Rock.\n"
SAFE = "question ill: Are you ill?\n" + BARE + "  stop a pain\n  avoid if ill\n  caution if ill\n    Go slowly.\n"


@pytest.mark.parametrize(
    ("own", "lost"),
    [
        (BARE, ("stop a pain", "avoid if ill", "caution if ill")),
        (BARE + "  stop   a pain\n", ("avoid if ill", "caution if ill")),
        (BARE + "  stop a pain\n  avoid if ill\n  caution if ill\n    Take care.\n", ()),
        (BARE.replace("rock\n", "rock like swing\n", 1) + "  stop a pain\n", ("caution if ill",)),
    ],
)
def test_without_tells_which_safety_lines_go(own: str, lost: tuple[str, ...]) -> None:
    """Lines are known by their one spelling; what the own declaration inherits counts as its own."""
    swing = "exercise swing\n  do\n    Swing.\n  avoid if ill\n"
    files = {"top.protocol": f"use lib\n  without rock\n\n{swing}\n{own}", "lib.protocol": SAFE}
    _, said = resolved(files, "top.protocol")
    assert codes(said) == (["N223"] if lost else [])
    assert [one.args["lines"] for one in said] == ([lost] if lost else [])


def test_what_stands_in_is_among_the_changes_of_the_protocols_that_reach_it() -> None:
    lines = ("version 1.0.0", "review 2026-10-05 by team, next by 2027-10-05", "source x", "for adults")
    protocol = "protocol {}\n" + "".join(f"  {line}\n" for line in lines)
    text = f"use lib\n  without rock\n\n{BARE}" + protocol.format("a") + "  give rock\n" + protocol.format("b")
    entry, _ = resolved({"top.protocol": text, "lib.protocol": SAFE}, "top.protocol")
    assert [one.changed for one in entry.protocols] == [("rock",), ()]


def test_without_reaches_through_the_files_between() -> None:
    files = {
        "top.protocol": "use middle\n  without wound red\n\nquestion wound red: Ours?\n",
        "middle.protocol": "use lib\n  without wound red\n\nquestion wound red: Middle?\n",
        "lib.protocol": LIBRARY,
    }
    entry, said = resolved(files, "top.protocol")
    assert not said
    words = entry.scope.findings["wound red"].words
    assert words is not None
    assert words.text == "Ours?"


def test_the_same_name_twice_names_both_places() -> None:
    entry, said = resolved(
        {"top.protocol": "use lib\n\ntest wound red: Look.\n", "lib.protocol": LIBRARY}, "top.protocol"
    )
    assert codes(said) == ["N202"]
    assert said[0].primary.span.path == "top.protocol"
    assert said[0].secondary[0].span.path == "lib.protocol"
    assert entry.scope.findings["wound red"].role == "question"


def test_one_name_for_two_kinds_is_no_mistake() -> None:
    text = "equipment step: a step\ntarget step: the step\nexercise step\n  works step\n  needs step\n  do\n    Step.\n"
    assert not resolved({"top.protocol": text}, "top.protocol")[1]


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("setting a = 3 weeks, from 0 to 2 weeks", "K316"),
        ("setting a = 3 weeks, from 1 cm to 2 cm", "K308"),
        ("setting a = 3 weeks, from 5 weeks to 2 weeks", "K317"),
        ("setting a = 3 weeks, from 0 days to 28 days", ""),
        ("setting a = 3, from 0 to 5", ""),
    ],
)
def test_a_setting_and_its_range(text: str, code: str) -> None:
    text += "\nexercise b\n  do\n    Wait [a].\n"
    assert codes(resolved({"top.protocol": text}, "top.protocol")[1]) == ([code] if code else [])
