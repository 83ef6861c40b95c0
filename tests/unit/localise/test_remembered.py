"""What was put into words once is the same words the second time, and never those of another protocol or language."""

from __future__ import annotations

import pytest

from protodsl.handout import Options, compose_sheet
from protodsl.handout.blocks import Handout
from protodsl.localise import localise
from protodsl.localise.remembered import _of
from protodsl.model.protocol import Protocol
from tests.support import entry
from tests.unit.decide.cases import CLINIC, exercise, protocol_text

SETTING = "setting most = {most} kg, from 1 kg to 9 kg\n"


def protocol(most: int) -> Protocol:
    """The same protocol but for the value of a setting that its prose names."""
    lift = exercise("lift", "caution if pain > 5", "  Lift no more than [most].")
    (made,) = entry(SETTING.format(most=most) + protocol_text(lift, "give lift")).protocols
    return made


def words(made: Protocol, language: str) -> Handout[str]:
    """Its sheet in a language."""
    page = localise(compose_sheet(made, CLINIC, Options()), made.scope, CLINIC, language).value
    assert page is not None
    return page


@pytest.mark.parametrize("language", ["en", "es"])
def test_the_same_words_again_and_afresh(language: str) -> None:
    made = protocol(3)
    first = words(made, language)
    assert words(made, language) == first
    _of.cache_clear()
    assert words(made, language) == first


def test_not_the_words_of_another_scope_or_language() -> None:
    """`[most]` is 3 kg in the one and 4 kg in the other, though the prose is the same."""
    three, four = protocol(3), protocol(4)
    for made, said in ((three, "3"), (four, "4"), (three, "3")):
        assert f"no more than {said}" in str(words(made, "en")).replace("\N{NO-BREAK SPACE}", " ")
    assert words(three, "es") != words(three, "en")
