"""The keyword table and the grammar say the same, and every example of the table is one."""

from __future__ import annotations

import pytest

from protodsl import resources
from protodsl.syntax.keywords import CONTAINERS, HEADS, OPENS, TOP, Entry, container_of, entries, entry, places
from protodsl.syntax.lexis import keywords_of_grammar
from protodsl.syntax.tables import tables
from tests.unit.syntax.samples import parse

# Words that stand inside a line and begin none.
INSIDE = frozenset(
    {"affected side", "as given", "both", "daily", "date", "days a week", "days since", "difference of", "each side"}
    | {"every other day", "higher", "hold", "hourly", "if", "left", "lower", "missed", "none", "nothing"}
    | {"on each side", "on either side", "on the affected side", "on the left side", "on the other side"}
    | {"on the right side", "once a day", "part done", "phase start", "rest", "rest day between", "right"}
    | {"since last time", "since start", "symmetry of", "times a day", "twice a day", "unless", "weeks since"}
    | {"yes or no"}
    | {"around", "behind", "between", "but", "flat", "in", "in front", "under"}
)
# A container to put an example into, and the depth of what stands in it.
_PROTOCOL = "protocol sore heel like other\n"
CONTAINER: dict[str, tuple[str, int]] = {
    TOP: ("", 0),
    "question": ("question pain: Yes?\n", 1),
    "test": ("test grip: Best of 3.\n", 1),
    "finding": ("finding sore: sore\n  yes if fever\n", 1),
    "exercise": ("exercise heel raise like other\n", 1),
    "progression": ("progression calf strength like other\n", 1),
    "level": ("progression calf strength\n  level heel raise\n", 2),
    "protocol": (_PROTOCOL, 1),
    "phase": (f"{_PROTOCOL}  phase settle\n", 2),
    "change": (f"{_PROTOCOL}  change heel raise\n", 2),
    "part": (f"{_PROTOCOL}  part Warm up\n", 2),
    "choose": (f"{_PROTOCOL}  choose 1\n", 2),
    "give": (f"{_PROTOCOL}  give heel raise\n", 2),
    "use": ("use library/leg\n", 1),
    "needs": ("exercise x like y\n  needs wall\n", 2),
    "avoid if": ("exercise x like y\n  avoid if fever\n", 2),
    "allow if": ("exercise x like y\n  allow if fever\n", 2),
    "lift": ("exercise x like y\n  lift stop pain\n", 2),
    "figure": ("exercise x like y\n  figure\n", 2),
    "start": ("exercise x like y\n  figure\n    start standing\n", 3),
    "then": ("exercise x like y\n  figure\n    then lift head\n", 3),
    "end": ("exercise x like y\n  figure\n    end lift head\n", 3),
    "case": ("case P-1\n", 1),
    "on": ("case P-1\n  on 2026-11-02\n", 2),
    "corrected": ("case P-1\n  corrected 2026-11-02 pain: 3\n", 2),
    "place": ("case P-1\n  place 2026-11-02 calf strength: heel raise\n", 2),
    "from": ("case P-1\n  from 2026-11-02 change heel raise\n", 2),
}


def test_every_keyword_of_the_grammar_is_in_the_table_and_the_reverse() -> None:
    terminals = tables().terminals
    table = {one.keyword for one in entries()}
    grammar = {one.text for at, one in keywords_of_grammar().items() if not terminals[at].name.startswith("_")}
    assert table == grammar - INSIDE
    assert grammar >= INSIDE


@pytest.mark.parametrize("one", entries(), ids=lambda one: one.keyword)
def test_the_form_and_the_example_begin_with_the_keyword(one: Entry) -> None:
    assert one.form.startswith(one.keyword)
    assert one.example.startswith(one.keyword)
    assert one.meaning.endswith(".") and one.meaning[0].isupper()
    assert one.often in ("1", "0-1", "1+", "*")
    assert one.where


@pytest.mark.parametrize(
    ("one", "place"), [(one, place) for one in entries() for place in one.where],
    ids=lambda value: value.keyword if isinstance(value, Entry) else value or "margin",
)  # fmt: skip
def test_the_example_can_be_read_in_every_container(one: Entry, place: str) -> None:
    """Nothing is said about the example itself; its container may lack lines that are not the point here."""
    text, path = sample(one, place)
    said = [d for d in parse(text, path).diagnostics if d.code.id not in ("T125", "T126")]
    assert said == [], (text, said)


def sample(one: Entry, place: str, times: int = 1) -> tuple[str, str]:
    """The example of a keyword inside a container, once or more often, and the name of a file for it."""
    head, depth = CONTAINER[place]
    lines = "".join(f"{'  ' * depth}{line}\n" for line in one.example.split("\n"))
    return head + times * lines, "sample.case" if one.case or head.startswith("case") else "sample.protocol"


def test_every_row_of_the_file_is_read() -> None:
    """A row in another shape than the others would be passed over in silence."""
    text = resources.text("protodsl.syntax", "keywords.txt")
    heads = [line for line in text.splitlines() if line and line[0] not in "# ="]
    assert heads == [one.keyword for one in entries()]


def test_what_may_have_lines_below_is_known() -> None:
    """The containers, and the lines that text or rows stand under."""
    assert set(CONTAINERS) - {TOP} <= HEADS
    assert {one.keyword for one in entries()} >= HEADS


def test_containers_as_they_are_called() -> None:
    assert container_of("title") == ("exercise", "progression", "protocol", "phase", "change", "from")
    assert container_of("exercise") == ("the left margin",)
    assert container_of("heel raise") == ()
    assert places(case=True)["session"] == {"case"}
    assert "session" not in places(case=False)


def test_one_keyword_can_be_looked_up() -> None:
    found = entry("dose")
    assert found is not None and found.where[0] == "exercise"
    assert entry("doze") is None
    protocol = entry("protocol")
    assert protocol is not None and not protocol.case


@pytest.mark.parametrize("one", [one for one in entries() if one.once], ids=lambda one: one.keyword)
def test_what_may_stand_once_is_an_error_twice(one: Entry) -> None:
    """T125 in every container that holds statements; in the others the grammar has no second one."""
    for place in set(one.where) & OPENS:
        text, path = sample(one, place, times=2)
        assert "T125" in {d.code.id for d in parse(text, path).diagnostics}, text
