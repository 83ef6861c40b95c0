"""Declared and never used: a warning beside a protocol, a hint in a library of a whole project."""

from protodsl.resolve import Cache, resolve, unused, used_names
from tests.unit.resolve.shelf import Files, codes

PROTOCOL = """use lib

question pain: How strong?
  answer 0 to 10

exercise spare
  do
    Nothing.

protocol p
  version 1.0.0
  review 2026-10-05 by lead, next by 2027-10-05
  source None.
  for adults
  give heel raise
"""
LIBRARY = """
setting reps = 12
setting spare number = 3
target calf: calf
target shin: shin

exercise heel raise
  works calf
  do
    Rise [reps] times.

exercise toe raise
  do
    Lift your toes.
"""
OTHER = "use lib\n\nexercise x like toe raise\n  title X\n"
FILES = {"p.protocol": PROTOCOL, "lib.protocol": LIBRARY, "other.protocol": OTHER}


def run(*paths: str, whole: bool) -> list[tuple[str, str]]:
    shelf, cache = Files(FILES), Cache()
    entries = [resolve(path, shelf, cache).value for path in paths]
    assert not shelf.said
    found = unused([one for one in entries if one is not None], whole)
    return [(code, str(one.args["name"])) for code, one in zip(codes(found), found, strict=True)]


def test_beside_a_protocol_it_is_a_warning_and_libraries_are_left_alone() -> None:
    assert run("p.protocol", whole=False) == [("N203", "pain"), ("N203", "spare")]


def test_in_a_whole_project_a_library_gets_hints_for_what_no_file_names() -> None:
    """`toe raise` is named by a file that no protocol uses: that is enough."""
    found = run("p.protocol", "lib.protocol", "other.protocol", whole=True)
    assert ("N204", "spare number") in found
    assert ("N204", "shin") in found
    assert ("N204", "x") in found
    assert "toe raise" not in {name for _, name in found}


def test_a_project_of_libraries_alone_is_left_alone() -> None:
    assert run("lib.protocol", "other.protocol", whole=True) == []


def test_used_names_tell_kind_name_and_file() -> None:
    entry = resolve("p.protocol", Files(FILES)).value
    assert entry is not None
    assert set(used_names(entry)) == {
        ("exercises", "heel raise", "lib.protocol"),
        ("targets", "calf", "lib.protocol"),
        ("settings", "reps", "lib.protocol"),
    }
