"""Where sentences end: Unicode Standard Annex 29, section 5.1, and our own rules for abbreviations and lists."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from protodsl.readability import counted, sentences, words


@pytest.mark.parametrize(
    ("language", "text", "expected"),
    [
        ("en", "Lift 2.5 kg. Then rest.", ["Lift 2.5 kg.", "Then rest."]),
        ("en", "Rise slowly! Is it sore? Stop.", ["Rise slowly!", "Is it sore?", "Stop."]),
        ("en", "No full stop at the end", ["No full stop at the end"]),
        ("en", "Up to **3 out of 10.** Then stop.", ["Up to **3 out of 10.**", "Then stop."]),
        ("en", "Wait… then go on. Stop… Rest.", ["Wait… then go on.", "Stop…", "Rest."]),
        ("en", "Hold approx. 5 seconds, e.g. 6. Rest.", ["Hold approx. 5 seconds, e.g. 6.", "Rest."]),
        ("en", "Use a band, a towel etc. Then rest.", ["Use a band, a towel etc.", "Then rest."]),
        ("en", "1. Sit down. 2. Stand up.", ["1. Sit down.", "2. Stand up."]),
        ("en", "Count to 10. Then rest.", ["Count to 10.", "Then rest."]),
        ("en", "Say “stop.” Then rest (a bit). Go on.", ["Say “stop.”", "Then rest (a bit).", "Go on."]),
        ("en", "Sit.\nStand", ["Sit.", "Stand"]),
        ("en", "...", []),
        ("en", "", []),
        ("de", "Ca. 5 Sekunden, z. B. am Tisch. Dann Pause.", ["Ca. 5 Sekunden, z. B. am Tisch.", "Dann Pause."]),
        ("de", "Ab der 2. Woche mehr. Bis 10. Dann Pause.", ["Ab der 2. Woche mehr.", "Bis 10.", "Dann Pause."]),
        ("de", "Üben Sie morgens, abends usw. Dann Pause.", ["Üben Sie morgens, abends usw.", "Dann Pause."]),
        ("es", "¿Le duele? Pare, p. ej. Siéntese.", ["¿Le duele?", "Pare, p. ej. Siéntese."]),
        ("fr", "Tenez env. 5 secondes. Puis lâchez.", ["Tenez env. 5 secondes.", "Puis lâchez."]),
        ("pl", "Przez ok. 5 sekund, np. Rano. Potem odpocznij.", ["Przez ok. 5 sekund, np. Rano.", "Potem odpocznij."]),
        ("uk", "Тримайте 5 с. Потім відпочиньте.", ["Тримайте 5 с.", "Потім відпочиньте."]),
        (
            "en",
            "Hold for 5 s. Rest. Go to part A. Then stop.",
            ["Hold for 5 s.", "Rest.", "Go to part A.", "Then stop."],
        ),
        ("de", "Gehen Sie 5 m. Dann z. B. Treppen.", ["Gehen Sie 5 m.", "Dann z. B. Treppen."]),
        ("de", "Gehen Sie 5 min. Dann min. 2 Pausen.", ["Gehen Sie 5 min.", "Dann min. 2 Pausen."]),
        ("de", "Pause: 1 h. Dann weiter, d. h. Üben.", ["Pause: 1 h.", "Dann weiter, d. h. Üben."]),
        ("ar", "هل تشعر بألم؟ توقف. استرح!", ["هل تشعر بألم؟", "توقف.", "استرح!"]),
        ("ur", "رک جائیں۔ آرام کریں۔", ["رک جائیں۔", "آرام کریں۔"]),
        ("hi", "रुकें। आराम करें।", ["रुकें।", "आराम करें।"]),
        ("zh-Hans", "坐下。慢慢抬脚！疼吗？停。", ["坐下。", "慢慢抬脚！", "疼吗？", "停。"]),
        ("zh-Hans", "他说：“停。”然后休息。", ["他说：“停。”", "然后休息。"]),
        ("ja", "座ります。2.5 kg を持ちます。", ["座ります。", "2.5 kg を持ちます。"]),
    ],
)
def test_where_sentences_end(language: str, text: str, expected: list[str]) -> None:
    assert [sentence for _, sentence in sentences(text, language)] == expected


@given(st.text(alphabet="aB1.!?。؟ \n*”)", max_size=40))
def test_places_are_those_of_the_text(text: str) -> None:
    """Each sentence stands where it is said to, none overlaps another, and no letter is lost."""
    end = 0
    for start, sentence in sentences(text, "en"):
        assert text[start : start + len(sentence)] == sentence and start >= end
        end = start + len(sentence)
    said = "".join(sentence for _, sentence in sentences(text, "en"))
    assert sum(map(str.isalpha, said)) == sum(map(str.isalpha, text))


@pytest.mark.parametrize(
    ("text", "count"),
    [("كانت أيضًا قيمة ألمِكَ", 4), ("घुटने को धीरे से मोड़ें", 5), ("knee-to-wall, 2.5 kg", 3), ("l’esercizio è così", 3)],
)
def test_marks_on_letters_end_no_word(text: str, count: int) -> None:
    """A word has its vowel signs and marks with it; a number with its point is one."""
    assert len(words(text)) == count


def test_without_blanks_characters_are_counted_and_no_words() -> None:
    of = counted("慢慢抬脚，做 10 次。停。", "zh-Hans")
    assert (of.words, of.sentences, of.characters) == (0, 2, 9)
