"""Frozen, slotted dataclasses that are made in a third of the time, for modules with many of them.

`@dataclass(frozen=True, slots=True)` compiles six functions for every class; the tree alone has more than seventy,
and that was a fifth of the time of `protodsl check`. Here one piece of code a class is compiled, the rest is shared.
What comes out is a dataclass in every respect that the module `dataclasses` knows of: fields, replace, matching.
"""

from __future__ import annotations

from dataclasses import MISSING, FrozenInstanceError, dataclass, field, fields
from typing import Any, NoReturn, TypeVar, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def frozen(cls: type[T]) -> type[T]:
    """Make a class what `@dataclass(frozen=True, slots=True)` makes it."""
    made: Any = dataclass(init=False, repr=False, eq=False, slots=True)(cls)
    names: dict[str, Any] = {}
    parameters: list[str] = []
    by_keyword: list[str] = []
    for one in fields(made):
        if one.default_factory is not MISSING:
            raise TypeError(f"{cls.__name__}.{one.name}: a frozen field has no default factory")
        names[f"set_{one.name}"] = getattr(made, one.name).__set__
        names[f"default_{one.name}"] = one.default
        parameter = one.name if one.default is MISSING else f"{one.name}=default_{one.name}"
        (by_keyword if one.kw_only else parameters).append(parameter)
    if by_keyword:
        parameters += ["*", *by_keyword]
    sets = "".join(f"\n    set_{one.name}(self, {one.name})" for one in fields(made)) or "\n    pass"
    compared = [one.name for one in fields(made) if one.compare]
    mine, theirs = ("".join(f"{of}.{name}," for name in compared) for of in ("self", "other"))
    exec(
        f"def __init__(self, {', '.join(parameters)}):{sets}\n"
        "def __eq__(self, other):\n"
        f"    return ({mine}) == ({theirs}) if other.__class__ is self.__class__ else NotImplemented\n"
        f"def __hash__(self):\n    return hash(({mine}))\n",
        names,
    )
    for name in ("__init__", "__eq__", "__hash__"):
        names[name].__qualname__ = f"{cls.__qualname__}.{name}"
        setattr(made, name, names[name])
    made.__setattr__, made.__delattr__, made.__repr__ = _refuse, _refuse, _repr
    made.__getstate__, made.__setstate__ = _state, _restore
    whole: type[T] = made
    return whole


def _refuse(self: object, name: str, value: object = None) -> NoReturn:
    raise FrozenInstanceError(f"cannot change field {name!r}")


def _repr(self: Any) -> str:
    shown = ", ".join(f"{one.name}={getattr(self, one.name)!r}" for one in fields(self) if one.repr)
    return f"{type(self).__qualname__}({shown})"


def _state(self: Any) -> list[object]:
    return [getattr(self, one.name) for one in fields(self)]


def _restore(self: Any, state: list[object]) -> None:
    for one, value in zip(fields(self), state, strict=True):
        object.__setattr__(self, one.name, value)
