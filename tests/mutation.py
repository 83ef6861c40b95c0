"""Mistakes put into the decision stage one at a time: each has to make a test fail.

`python -m tests.mutation --rules [WORD ...]` breaks the rules of the language that `tests/mutations` lists (those with
one of the words in their clause), each of which has to be noticed.

`python -m tests.mutation [MODULE ...] [--pairs N] [--every N]` makes every small mistake that can be made in a module
and prints the score and every mistake that went unnoticed. A mistake is first shown to pairs of random protocols and
histories whose outcome the oracle has worked out beforehand, which takes a moment, and only then to the tests of
`tests/unit/decide`. `mutations/README.md` says what the score is and which mistakes cannot be noticed.
"""

from __future__ import annotations

import argparse
import ast
import copy
import importlib.util
import os
import resource
import sys
from collections import Counter
from collections.abc import Callable, Iterator
from importlib.abc import Loader, MetaPathFinder
from importlib.machinery import ModuleSpec
from pathlib import Path
from random import Random
from types import ModuleType
from typing import Any

import pytest

from protodsl.decide import latest_date
from protodsl.model.case import Versions
from tests.mutations import RULES_BROKEN, Broken
from tests.properties import test_decide
from tests.properties.oracle import Oracle
from tests.properties.random_cases import history

ROOT = Path(__file__).resolve().parents[1]
DECIDE = ROOT / "protodsl" / "decide"
RULES = (
    "truth", "evaluate", "terms", "values", "context", "corrections", "streaks", "asked", "weeks", "start", "gate",
    "offers", "parts", "progressions", "phases", "replay", "loads", "focus", "flags",
)  # fmt: skip
# Of the processor, so that a busy machine makes no mistake seem noticed; a run takes a few.
SECONDS = 60
# Of the mistakes of files only those that the rules speak of; nothing that measures time or reads these lists.
CHOSEN = "not speed and not cost and not stands_once and (not test_bad or L1 or K311 or K312 or R509 or T126)"
UNITS = ("tests/unit/decide", "tests/evidence/test_kleene.py", "tests/cases/test_golden.py")
# What a broken rule is shown to: small tests only, none that compares with the oracle.
QUICK = (
    *UNITS, "tests/unit/resolve/test_case.py", "tests/unit/resolve/test_conditions.py", "tests/cases/test_bad.py",
    "tests/unit/handout/test_digest.py",
)  # fmt: skip
_COMPARISONS: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.Gt),
    ast.LtE: (ast.Lt,),
    ast.Gt: (ast.GtE, ast.Lt),
    ast.GtE: (ast.Gt,),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
}
_NAMES = {
    "YES": ("NO", "UNKNOWN"), "NO": ("YES", "UNKNOWN"), "UNKNOWN": ("NO", "YES"), "min": ("max",), "max": ("min",),
    "any": ("all",), "all": ("any",), "conjunction": ("disjunction",), "disjunction": ("conjunction",),
}  # fmt: skip


def mistakes(tree: ast.Module) -> Iterator[tuple[str, ast.Module]]:
    """Each small mistake that can be made in a module, decorators left out: where and what, and the module with it."""
    outside = {part for node in ast.walk(tree) for one in getattr(node, "decorator_list", ()) for part in ast.walk(one)}
    for number, node in enumerate(ast.walk(tree)):
        for what, change in _changes(node) if node not in outside else ():
            made = copy.deepcopy(tree)
            target = next(one for at, one in enumerate(ast.walk(made)) if at == number)
            change(target)
            yield f"line {getattr(node, 'lineno', 0)}: {what}", ast.fix_missing_locations(made)


def _changes(node: ast.AST) -> Iterator[tuple[str, Any]]:
    if isinstance(node, ast.Compare):
        for at, op in enumerate(node.ops):
            for other in _COMPARISONS[type(op)]:
                yield f"{type(op).__name__} to {other.__name__}", lambda n, at=at, o=other: n.ops.__setitem__(at, o())
    elif isinstance(node, ast.BoolOp):
        other_op: type[ast.boolop] = ast.Or if isinstance(node.op, ast.And) else ast.And
        yield f"{type(node.op).__name__} to {other_op.__name__}", lambda n: setattr(n, "op", other_op())
        for at in range(len(node.values)):
            yield f"operand {at + 1} left out", lambda n, at=at: n.values.pop(at)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        yield "not left out", _not_left_out
    elif isinstance(node, ast.BinOp) and isinstance(node.op, (ast.Add, ast.Sub)):
        swapped = ast.Sub if isinstance(node.op, ast.Add) else ast.Add
        yield f"{type(node.op).__name__} to {swapped.__name__}", lambda n: setattr(n, "op", swapped())
    elif isinstance(node, ast.Constant) and isinstance(node.value, bool):
        yield f"{node.value} to {not node.value}", lambda n: setattr(n, "value", not n.value)
    elif isinstance(node, ast.Constant) and isinstance(node.value, int):
        for more in (1, -1):
            yield f"{node.value} to {node.value + more}", lambda n, more=more: setattr(n, "value", n.value + more)
    elif isinstance(node, ast.Name) and isinstance(node.ctx, ast.Load):
        for name in _NAMES.get(node.id, ()):
            yield f"{node.id} to {name}", lambda n, name=name: setattr(n, "id", name)
    elif isinstance(node, ast.If):
        yield "condition always true", lambda n: setattr(n, "test", ast.Constant(True))
        yield "condition always false", lambda n: setattr(n, "test", ast.Constant(False))
    elif isinstance(node, (ast.Continue, ast.Break)):
        yield f"{type(node).__name__.lower()} left out", lambda n: setattr(n, "__class__", ast.Pass)


def _not_left_out(node: ast.UnaryOp) -> None:
    node.op, node.operand = ast.UAdd(), ast.Call(ast.Name("bool", ast.Load()), [node.operand], [])


class _Planted(MetaPathFinder, Loader):
    """Imports one module with a mistake in it."""

    def __init__(self, name: str, made: ast.Module | str) -> None:
        self.name, self.code = name, compile(made, f"<{name} with a mistake>", "exec")

    def find_spec(self, fullname: str, path: Any, target: Any = None) -> ModuleSpec | None:
        """The one module."""
        return importlib.util.spec_from_loader(fullname, self) if fullname == self.name else None

    def exec_module(self, module: ModuleType) -> None:
        """Run the code with the mistake."""
        exec(self.code, vars(module))


Pair = tuple[Versions, Any, Oracle]


def pairs(count: int) -> list[Pair]:
    """Protocols and histories with what the oracle makes of them."""
    found: list[Pair] = []
    seed = 500_000
    while len(found) < count:
        seed += 1
        random = Random(seed)
        protocol, text = test_decide.protocol_of(random)
        changed = test_decide.changed_of(text, random)
        for _ in range(4):
            case = history(protocol, random)
            versions = test_decide.versions_of(protocol, changed, case, random)
            found.append((versions, case, Oracle(versions, case, test_decide.WEIGHTS, latest_date(case))))
    return found


def noticed(module: str, tree: ast.Module, known: list[Pair]) -> str:
    """By what a mistake is noticed: `pairs`, `tests`, `time`; empty where by nothing."""
    status = _apart(lambda: _in_child(module, tree, known))
    return "time" if status is None else {0: "", 1: "pairs", 2: "tests"}.get(status, "pairs")


def broken_noticed(rule: Broken) -> bool:
    """Whether a test fails (or never ends) where the rule is broken; one not found in its file is not noticed."""
    text = (ROOT / "protodsl" / rule.file).read_text("utf-8")
    if text.count(rule.source) != 1:
        return False
    name = "protodsl." + rule.file.removesuffix(".py").replace("/", ".")
    return _apart(lambda: _broken_in_child(name, text.replace(rule.source, rule.instead))) != 0


def _apart(run: Callable[[], int]) -> int | None:
    """What comes back from a process of its own; None where it took too long or died."""
    child = os.fork()
    if child == 0:
        resource.setrlimit(resource.RLIMIT_CPU, (SECONDS, SECONDS))
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
        os.dup2(1, 2)
        os._exit(run())
    _, status = os.waitpid(child, 0)
    return None if os.WIFSIGNALED(status) else os.WEXITSTATUS(status)


def _forget(*prefixes: str) -> None:
    for name in [one for one in sys.modules if one.startswith(prefixes)]:
        del sys.modules[name]


def _in_child(module: str, tree: ast.Module, known: list[Pair]) -> int:
    _forget("protodsl.decide", "tests.properties.test_decide")
    sys.meta_path.insert(0, _Planted(f"protodsl.decide.{module}", tree))
    try:
        from protodsl.decide import decide
        from tests.properties.test_decide import CLINIC, compared

        for versions, case, oracle in known:
            compared(decide(versions, case, CLINIC), oracle)
    except BaseException:
        return 1
    return 2 if _tested(UNITS) else 0


def _broken_in_child(name: str, text: str) -> int:
    _forget("protodsl", "tests")
    sys.meta_path.insert(0, _Planted(name, text))
    return 2 if _tested(QUICK) else 0


def _tested(files: tuple[str, ...]) -> int:
    return pytest.main(["-x", "-q", "-p", "no:cacheprovider", "-k", CHOSEN, *(str(ROOT / one) for one in files)])


def rules(words: list[str]) -> None:
    """Break every rule that is asked for, and count."""
    if _apart(lambda: _tested(QUICK)) != 0:
        sys.exit("the tests fail with nothing broken")
    asked = [one for one in RULES_BROKEN if not words or any(word in one.clause for word in words)]
    found = 0
    for one in asked:
        if broken_noticed(one):
            found += 1
        else:
            print(f"  {one.section}: {one.clause}", flush=True)
    print(f"{found} of {len(asked)} broken rules noticed")


def main() -> None:
    """Plant every mistake and count."""
    options = argparse.ArgumentParser()
    options.add_argument("modules", nargs="*")
    options.add_argument("--rules", action="store_true")
    options.add_argument("--pairs", type=int, default=120)
    options.add_argument("--every", type=int, default=1)
    asked = options.parse_args()
    if asked.rules:
        rules(asked.modules)
        return
    known = pairs(asked.pairs)
    total: Counter[str] = Counter()
    for module in asked.modules or RULES:
        tree = ast.parse((DECIDE / f"{module}.py").read_text("utf-8"))
        counts: Counter[str] = Counter()
        for number, (what, made) in enumerate(mistakes(tree)):
            if number % asked.every:
                continue
            by = noticed(module, made, known)
            counts[by or "unnoticed"] += 1
            if not by:
                print(f"  {module}.py {what}", flush=True)
        total += counts
        print(f"{module}: {dict(counts)}", flush=True)
    every = sum(total.values())
    print(f"{every - total['unnoticed']} of {every} noticed: {dict(total)}")


if __name__ == "__main__":
    main()
