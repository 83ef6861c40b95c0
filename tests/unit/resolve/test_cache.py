"""The cache: a shared library is worked out once, and never means something other than without the cache."""

from __future__ import annotations

from protodsl.diagnostics.diagnostic import Diagnostic
from protodsl.model.protocol import Entry
from protodsl.resolve import Cache, resolve
from tests.unit.resolve.shelf import Files
from tests.unit.resolve.test_protocols import ANKLE

FILES = {
    "ankle.protocol": ANKLE,
    "plain.protocol": "use ankle\n\nprotocol plain like ankle\n  version 1.3.1\n",
    "set.protocol": "use ankle\n  with weeks in brace = 5 weeks\n\nprotocol set like ankle\n  version 1.3.1\n",
    "own.protocol": "use ankle\n  without pain\n\ntest pain: Ours.\n  answer 0 to 4\n\n"
    "protocol own like ankle\n  version 1.3.1\n",
    "changed.protocol": "use ankle\n\nprotocol changed like ankle\n  version 1.3.1\n"
    "  change pain\n    answer 0 to 5\n  change heel raise\n    dose 2 x 5\n    avoid if pain > 4\n",
}


def outcome(path: str, shelf: Files, cache: Cache | None) -> tuple[Entry, tuple[Diagnostic, ...]]:
    found = resolve(path, shelf, cache)
    assert found.value is not None
    return found.value, found.diagnostics


def test_any_order_with_one_cache_is_as_each_alone() -> None:
    """`with`, `without` and `change` of one entry leave no trace in the next."""
    alone = {path: outcome(path, Files(FILES), None) for path in FILES}
    for order in (list(FILES), list(FILES)[::-1], [*FILES, *FILES]):
        shelf, cache = Files(FILES), Cache()
        for path in order:
            assert outcome(path, shelf, cache) == alone[path], (order, path)


def test_a_shared_library_is_built_once() -> None:
    shelf, cache = Files(FILES), Cache()
    first, _ = outcome("ankle.protocol", shelf, cache)
    second, _ = outcome("plain.protocol", shelf, cache)
    assert all(second.scope.exercises[name] is one for name, one in first.scope.exercises.items())
    assert all(second.scope.progressions[name] is one for name, one in first.scope.progressions.items())


def test_another_tree_under_the_same_path_is_read_anew() -> None:
    cache = Cache()
    outcome("ankle.protocol", Files(FILES), cache)
    other, _ = outcome("ankle.protocol", Files({"ankle.protocol": ANKLE.replace("3 x 12", "5 x 5")}), cache)
    volume = other.scope.exercises["heel raise"].dosage.common.volume
    assert volume is not None
    assert "5" in str(volume)
