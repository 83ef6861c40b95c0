"""The checks as a whole: the demo is clean, what is broken is not called missing, and everybody's rule is asked."""

from __future__ import annotations

import datetime
from importlib import import_module
from inspect import getmembers, isfunction
from pathlib import Path
from pkgutil import walk_packages

import pytest

import protodsl.check
from protodsl.check import check
from protodsl.check.rules import RULES
from protodsl.compiler import check_project
from protodsl.project import open_project
from tests.support import compiled
from tests.unit.check.saying import AS_OF, CLINIC, PAIN, exercise, protocol

DEMO = Path(__file__).resolve().parents[3] / "protocols_demo"


def test_the_demo_is_clean() -> None:
    """No error, no warning and no hint: a rule that cries at good protocols is soon not heard at bad ones."""
    found = check_project(open_project(DEMO), [DEMO], AS_OF).diagnostics
    assert [(one.code.id, one.primary.span.path, one.message) for one in found] == []


def test_every_rule_is_listed() -> None:
    """Each module below a family that has a function of its own name is a rule, and stands in RULES."""
    named = set()
    for module in walk_packages(protodsl.check.__path__, "protodsl.check."):
        name = module.name.rpartition(".")[2]
        functions = dict(getmembers(import_module(module.name), isfunction))
        if module.name.count(".") == 3 and name in functions and not module.name.startswith("protodsl.check.logic"):
            named.add(functions[name])
    helpers = {function.__name__ for function in named - set(RULES)}
    assert helpers == {"way", "rises"}
    assert set(RULES) <= named


PHASES = ("phase first", "  give heel raise", "  until weeks since start >= 2", "phase last", "  give heel raise")
STEPS = exercise("one") + exercise("two") + "progression steps\n  level one\n    up when pain < 3\n  level two\n"


@pytest.mark.parametrize(
    ("text", "right", "wrong"),
    [
        (exercise() + protocol(*PHASES), "until weeks", "untill weeks"),
        (exercise() + protocol(*PHASES), "until weeks", "until weekz"),
        (exercise() + protocol("give heel raise"), "emergency if chest pain", "emergency if chest pian"),
        (exercise() + protocol("give heel raise"), "emergency if chest pain", "emergincy if chest pain"),
        (exercise() + protocol("give heel raise"), "stop a", "stopp a"),
        (exercise() + protocol("give heel raise"), "dose 3", "doze 3"),
        (exercise() + protocol("give heel raise"), "12, daily", "12 daily"),
        (exercise() + protocol("give heel raise", "  dose 3 x 5, daily"), "5, daily", "5 daily"),
        (exercise("heel raise", "bearing touch") + protocol("phase a", "  bearing partial", "  give heel raise"),
         "touch", "tuoch"),
        (exercise("heel raise", "still ankle") + protocol("phase a", "  forbid ankle eversion", "  give heel raise"),
         "still", "stil"),
        (PAIN + STEPS + protocol("give steps"), "up when", "up wen"),
        (PAIN + "finding hard: it is\n  no if pain < 3\n  yes if pain >= 3\n" + exercise()
         + protocol("give heel raise unless hard"), "yes if pain", "yes if pian"),
        (exercise(dose="dose daily\n  dose weeks 1 to 2: 3 x 4\n  dose weeks 3 on: 3 x 5")
         + protocol("give heel raise"), "1 to 2", "1 tu 2"),
        (exercise() + protocol("pain zones", "  0 to 4: carry on", "  5 to 10: stop", "give heel raise"),
         "4: carry", "4; carry"),
    ],
)  # fmt: skip
def test_broken_lines_are_not_called_missing(text: str, right: str, wrong: str) -> None:
    """What a line that could not be read may have said is said once, of that line, and nowhere else as missing."""
    whole, none = compiled(text)
    assert whole and not none and check(whole, CLINIC, AS_OF) == ()
    entry, said = compiled(text.replace(right, wrong, 1))
    assert said and entry is not None
    assert [one.code.id for one in check(entry, CLINIC, AS_OF)] == []


def test_what_a_library_holds_beyond_the_reach_is_checked_with_the_library() -> None:
    """An entry answers for what it declares and reaches; a library that nobody reaches is an entry of its own."""
    far = exercise("far", "moves ankle dorsiflexion to 90 deg")
    reached, _ = compiled("use base\n" + protocol("give far"), base=far)
    unreached, _ = compiled("use base\n" + exercise() + protocol("give heel raise"), base=far)
    library, _ = compiled(far)
    assert reached and unreached and library
    day = datetime.date(2026, 11, 25)
    assert [one.code.id for one in check(reached, CLINIC, day)] == ["S607"]
    assert [one.code.id for one in check(unreached, CLINIC, day)] == []
    assert [one.code.id for one in check(library, CLINIC, day)] == ["S607"]
