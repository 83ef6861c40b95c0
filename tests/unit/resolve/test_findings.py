"""Questions, tests and derived findings: kind of answer, what may stand under them, circles."""

import pytest

from protodsl.model.finding import Answer, Finding, Kind
from protodsl.units import UNITS
from tests.unit.resolve.shelf import codes, resolved


def finding(text: str) -> tuple[Finding, list[str]]:
    """The last finding that the text declares, and the codes of what is said."""
    entry, said = resolved({"a.protocol": text}, "a.protocol")
    return list(entry.scope.findings.values())[-1], codes(said)


def question(*lines: str) -> tuple[Finding, list[str]]:
    return finding("question q: What?\n" + "".join(f"  {line}\n" for line in lines))


def test_without_an_answer_line_it_is_yes_or_no() -> None:
    found, said = question("yes means it is so", "no means it is not", "fresh for 4 weeks")
    assert not said
    assert found.answer == Answer()
    assert found.fresh is not None
    assert str(found.fresh) == "4 weeks"
    assert not found.one_session


@pytest.mark.parametrize(
    ("line", "answer"),
    [
        ("yes or no, each side", Answer(sided=True)),
        ("0 to 10", Answer(Kind.SCALE, low=0, high=10)),  # type: ignore[arg-type]
        ("cm from 0 to 25, each side", Answer(Kind.MEASURE, 0, 25, UNITS["cm"], sided=True)),  # type: ignore[arg-type]
        ("count from 0 to 60", Answer(Kind.MEASURE, 0, 60, UNITS["count"])),  # type: ignore[arg-type]
        ("kg", Answer(Kind.MEASURE, unit=UNITS["kg"])),
        ("one of heel bone, mid tendon", Answer(Kind.CHOICE, choices=("heel bone", "mid tendon"))),
        ("date", Answer(Kind.DATE)),
    ],
)
def test_kinds_of_answer(line: str, answer: Answer) -> None:
    found, said = question(f"answer {line}")
    assert not said
    assert found.answer == answer


def test_an_answer_of_one_session_never_counts_outside() -> None:
    found, _ = question("answer 0 to 10", "fresh for one session", "better lower")
    assert (found.one_session, found.fresh, found.better) == (True, None, "lower")


@pytest.mark.parametrize(
    ("lines", "code"),
    [
        (("better lower",), "K323"),
        (("answer date", "better lower"), "K323"),
        (("answer 0 to 10", "yes means it is so"), "K323"),
        (("answer one of a, b", "no means it is not"), "K323"),
        (("answer one of a, a",), "K326"),
        (("fresh for 0 weeks",), "K317"),
        (("means it lasts [weeks]",), "N201"),
    ],
)
def test_a_line_that_does_not_go_with_the_answer(lines: tuple[str, ...], code: str) -> None:
    assert question(*lines)[1] == [code]


def test_rows_that_say_only_yes_and_no_make_a_yes_or_no() -> None:
    found, said = finding("question q: What?\nfinding f: So it is\n  yes if q\n  otherwise no\n")
    assert not said
    assert (found.role, found.answer, [row.value for row in found.rows], found.otherwise) == (
        "finding", Answer(), ["yes"], "no",
    )  # fmt: skip


def test_other_rows_make_a_choice_in_text_order() -> None:
    found, said = finding("question q: What?\nfinding f\n  late if q\n  early if not q\n  otherwise unclear\n")
    assert not said
    assert found.answer == Answer(Kind.CHOICE, choices=("late", "early", "unclear"))


@pytest.mark.parametrize(("lines", "codes_"), [("", ["K328"]), ("  otherwise no\n", ["K328"]), ("  yes if q\n", [])])
def test_a_finding_follows_from_rows(lines: str, codes_: list[str]) -> None:
    """Without a row it is reported once, and conditions on it are left alone."""
    text = f"question q: What?\nfinding f: So it is.\n{lines}exercise a\n  do\n    A.\n  avoid if f\n  avoid if q\n"
    assert codes(resolved({"a.protocol": text}, "a.protocol")[1]) == codes_


@pytest.mark.parametrize(
    ("text", "chain"),
    [
        ("finding a\n  yes if a\n", ("a", "a")),
        ("finding a\n  yes if b\nfinding b\n  yes if c\nfinding c\n  yes if a\n", ("a", "b", "c", "a")),
        ("finding x\n  yes if a\nfinding a\n  yes if b\nfinding b\n  yes if a\n", ("a", "b", "a")),
    ],
)
def test_a_circle_of_findings_is_named_once(text: str, chain: tuple[str, ...]) -> None:
    _, said = resolved({"a.protocol": text}, "a.protocol")
    assert codes(said) == ["N212"]
    assert said[0].args["chain"] == chain


def test_two_ways_to_one_finding_are_no_circle() -> None:
    text = "question q: What?\nfinding a\n  yes if b and c\nfinding b\n  yes if q\nfinding c\n  yes if b and q\n"
    assert not resolved({"a.protocol": text}, "a.protocol")[1]
