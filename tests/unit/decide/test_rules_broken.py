"""Every rule that is broken by hand stands once in its file, and the file with it broken is still Python."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from tests.mutations import RULES_BROKEN, Broken

ROOT = Path(__file__).resolve().parents[3] / "protodsl"


@pytest.mark.parametrize("rule", RULES_BROKEN, ids=lambda rule: rule.clause)
def test_a_broken_rule_stands_once(rule: Broken) -> None:
    """Where the code of a rule moves, its lines in `tests/mutations` move with it."""
    text = (ROOT / rule.file).read_text("utf-8")
    assert text.count(rule.source) == 1
    assert ast.dump(ast.parse(text.replace(rule.source, rule.instead))) != ast.dump(ast.parse(text))


def test_every_clause_has_a_name_of_its_own() -> None:
    names = [(rule.section, rule.clause) for rule in RULES_BROKEN]
    assert len(names) == len(set(names)) and len(names) > 250
