"""The word that was probably meant; the distance is that of Damerau 1964, a swap of neighbours counted as one."""

from __future__ import annotations

import pytest

from protodsl.diagnostics.suggest import nearest


@pytest.mark.parametrize(
    ("written", "known", "meant"),
    (
        ("sholder", ["shoulder", "elbow"], "shoulder"),
        ("pian", ["pain", "pain next morning"], "pain"),
        # The beginning of one name is that name, however much another looks like it.
        ("arm slides", ["wall slides", "arm slides on table"], "arm slides on table"),
        ("red flag", ["red flag if", "emergency if"], "red flag if"),
        # A slip of one letter is still nearer.
        ("pains", ["pain", "pains at night"], "pain"),
        # The beginning of two names is neither.
        ("heel raise", ["heel raise both legs", "heel raise one leg"], None),
        # Part of a word is no beginning.
        ("heel", ["heelless", "heeled"], None),
        ("hip", ["shoulder"], None),
    ),
)
def test_what_was_meant(written: str, known: list[str], meant: str | None) -> None:
    assert nearest(written, known) == meant
