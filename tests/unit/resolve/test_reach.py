"""What a phase can come to give: given, as a level, as an `instead` of one of those, and so on."""

from protodsl.model.reach import exercises_reached, gives_of
from tests.unit.resolve.shelf import resolved
from tests.unit.resolve.test_protocols import ANKLE


def test_every_way_to_an_exercise_is_found_with_its_reasons() -> None:
    entry, _ = resolved({"a.protocol": ANKLE}, "a.protocol")
    (protocol,) = entry.protocols
    reached = exercises_reached(protocol, protocol.phases[1])
    found = {one.exercise: [(step.kind, step.name) for step in one.path] for one in reached}
    assert found == {
        "rest position": [("give", "rest position")],
        "heel raise": [("give", "calf strength"), ("level", "heel raise")],
        "one leg heel raise": [("give", "calf strength"), ("level", "one leg heel raise")],
        "loaded heel raise": [("give", "calf strength"), ("level", "heavy")],
    }


def test_an_instead_of_an_instead_is_reached() -> None:
    text = "question q: What?\nequipment step: a step\n"
    text += "exercise a\n  do\n    A.\n  avoid if q\n    instead b\n"
    text += "exercise b\n  do\n    B.\n  needs step\n    instead c\n"
    text += "exercise c\n  do\n    C.\n  avoid if q\n    instead a\n"
    text += "protocol p\n  version 1.0.0\n  review 2026-10-05 by lead, next by 2027-10-05\n"
    text += "  source None.\n  for adults\n"
    entry, said = resolved({"a.protocol": text + "  give a\n"}, "a.protocol")
    assert not said
    (protocol,) = entry.protocols
    reached = exercises_reached(protocol)
    assert [one.exercise for one in reached] == ["a", "b", "c"]
    assert [(step.kind, step.name) for step in reached[2].path] == [("give", "a"), ("avoid", "b"), ("needs", "c")]
    line = reached[2].path[2].span
    assert text[line.start : line.end] == "needs step"


def test_gives_of_the_whole_protocol_hold_in_every_phase() -> None:
    entry, _ = resolved({"a.protocol": ANKLE}, "a.protocol")
    (protocol,) = entry.protocols
    assert [one.item for one in gives_of(protocol, protocol.phases[1])] == ["rest position", "calf strength"]
    assert {one.exercise for one in exercises_reached(protocol)} == set(entry.scope.exercises)
