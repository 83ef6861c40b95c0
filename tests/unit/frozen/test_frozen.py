"""A class made by `frozen` is what `dataclass(frozen=True, slots=True)` makes of the same class."""

from __future__ import annotations

import copy
import dataclasses
import pickle
from dataclasses import FrozenInstanceError, dataclass, field
from typing import Any

import pytest

from protodsl.frozen import frozen


@frozen
class Place:
    """Where."""

    line: int = field(default=0, compare=False, kw_only=True, repr=False)


@frozen
class Named(Place):
    """A name."""

    text: str
    other: int | None = None


@dataclass(frozen=True, slots=True)
class PlainPlace:
    """Where."""

    line: int = field(default=0, compare=False, kw_only=True, repr=False)


@dataclass(frozen=True, slots=True)
class PlainNamed(PlainPlace):
    """A name."""

    text: str
    other: int | None = None


@frozen
class Empty:
    """Nothing."""


BOTH = pytest.mark.parametrize("kind", [Named, PlainNamed])


@BOTH
def test_equality_hash_and_repr(kind: Any) -> None:
    one, same, else_ = kind("a", line=1), kind("a", None, line=2), kind("b", line=1)
    assert one == same and hash(one) == hash(same) and one != else_
    assert one not in ("a", PlainNamed("a") if kind is Named else Named("a"))
    assert repr(one).endswith("Named(text='a', other=None)")
    assert one.line == 1 and kind("a").line == 0


@BOTH
def test_nothing_can_be_changed(kind: Any) -> None:
    one = kind("a")
    with pytest.raises(FrozenInstanceError):
        one.text = "b"
    with pytest.raises(FrozenInstanceError):
        del one.text
    with pytest.raises((FrozenInstanceError, TypeError)):
        one.new = 1
    assert not hasattr(one, "__dict__")


@BOTH
def test_arguments(kind: Any) -> None:
    with pytest.raises(TypeError):
        kind()
    with pytest.raises(TypeError):
        kind("a", 1, 2)
    with pytest.raises(TypeError):
        kind("a", new=1)


@BOTH
def test_what_the_module_dataclasses_does(kind: Any) -> None:
    one: Any = kind("a", 3, line=7)
    assert dataclasses.replace(one, text="b") == kind("b", 3)
    assert dataclasses.replace(one, text="b").line == 7
    assert [f.name for f in dataclasses.fields(one)] == ["line", "text", "other"]
    assert kind.__match_args__ == ("text", "other")
    assert dataclasses.asdict(one) == {"line": 7, "text": "a", "other": 3}
    match one:
        case Named(text, other) | PlainNamed(text, other):
            assert (text, other) == ("a", 3)
        case _:
            raise AssertionError


@BOTH
def test_copies_and_pickles(kind: Any) -> None:
    one = kind("a", 3, line=7)
    for again in (pickle.loads(pickle.dumps(one)), copy.copy(one), copy.deepcopy(one)):
        assert again == one and again.line == 7


def test_a_class_without_fields() -> None:
    assert Empty() == Empty() and repr(Empty()) == "Empty()"


def test_a_default_factory_is_refused() -> None:
    with pytest.raises(TypeError, match="default factory"):

        @frozen
        class Wrong:
            """A shared list in the making."""

            items: list[int] = field(default_factory=list)
