"""`clinic.toml`: what is right is read, every mistake is found at its line, and no text makes the reader raise."""

from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from protodsl import resources
from protodsl.clinic_file import EXAMPLES, KEYS, read_clinic
from protodsl.model.clinic import Contact
from protodsl.source import Source

DEMO = next(folder for folder in Path(__file__).parents if folder.name == "tests").parent / "protocols_demo"
HELP = '[emergency]\ntext = "Call"\nphone = "112"\n[contact]\ntext = "Ask"\nphone = "01632 960 142"\n'


def found(text: str) -> list[tuple[str, int]]:
    """Codes and lines of what is wrong with a text."""
    source = Source("clinic.toml", text)
    return [(one.code.id, source.position(one.primary.span.start)[0]) for one in read_clinic(source).diagnostics]


def test_the_demo_clinic_is_read_whole() -> None:
    outcome = read_clinic(Source("clinic.toml", (DEMO / "clinic.toml").read_text("utf-8")))
    clinic = outcome.value
    assert clinic is not None
    assert outcome.diagnostics == ()
    assert clinic.emergency == Contact("Call for help now", "112")
    assert clinic.after_hours == Contact("Nights and weekends", "01632 960 199")
    assert clinic.weights[:3] == (Decimal("0.5"), Decimal(1), Decimal("1.5"))
    assert list(clinic.weights) == sorted(clinic.weights)
    assert clinic.limits.load_rise_percent == 50


def test_what_may_be_left_out_has_its_default() -> None:
    clinic = read_clinic(Source("clinic.toml", HELP)).value
    assert clinic is not None
    assert (clinic.paper, clinic.lengths, clinic.languages) == ("A4", "cm", ("en",))
    assert (clinic.output, clinic.templates, clinic.libraries, clinic.weights) == ("handouts", None, (), ())
    assert (clinic.one_rep_max, clinic.after_hours) == ("epley", None)


@pytest.mark.parametrize(
    ("table", "line", "code"),
    [
        ("sheet", 'paper = "a4"', "P904"),
        ("sheet", 'paper = "A5"', "P904"),
        ("sheet", "paper = 4", "P904"),
        ("sheet", 'lengths = "inch"', "P904"),
        ("sheet", "languages = []", "P904"),
        ("sheet", 'languages = "en"', "P904"),
        ("sheet", 'languages = ["english"]', "P904"),
        ("sheet", 'languages = ["../../etc"]', "P904"),
        ("sheet", 'papers = "A4"', "P903"),
        ("folders", "libraries = [1]", "P904"),
        ("folders", "output = true", "P904"),
        ("loads", 'one-rep-max = "eply"', "P904"),
        ("loads", 'one-rep-max = ["epley"]', "P904"),
        ("loads", "weights-kg = 5", "P904"),
        ("loads", "weights-kg = [0]", "P904"),
        ("loads", "weights-kg = [-1]", "P904"),
        ("loads", "weights-kg = [inf]", "P904"),
        ("loads", "weights-kg = [nan]", "P904"),
        ("loads", "weights-kg = [true]", "P904"),
        ("loads", 'weights-kg = ["5"]', "P904"),
        ("limits", "words-in-a-sentence = 0", "P904"),
        ("limits", "words-in-a-sentence = 2.5", "P904"),
        ("limits", "words-in-a-sentence = true", "P904"),
        ("limits", "reading-grade = nan", "P904"),
        ("limits", 'load-rise-percent = "50"', "P904"),
        ("clinic", "name = 5", "P904"),
        ("clinic", 'name = """two\nlines"""', "P904"),
        ("clinics", 'name = "x"', "P903"),
    ],
)
def test_a_mistake_is_found_at_its_line(table: str, line: str, code: str) -> None:
    text = f"{HELP}[{table}]\n{line}\n"
    assert found(text) == [(code, 7 if table == "clinics" else 8)]


@pytest.mark.parametrize("table", ["emergency", "contact"])
@pytest.mark.parametrize("key", ["text", "phone"])
@pytest.mark.parametrize("value", [None, '""', '"  "'])
def test_emergency_and_contact_may_not_be_missing_or_empty(table: str, key: str, value: str | None) -> None:
    start = HELP.index(f"[{table}]")
    before, after = HELP[:start], HELP[start:]
    line = next(line for line in after.splitlines(True) if line.startswith(key))
    text = before + after.replace(line, f"{key} = {value}\n" if value else "", 1)
    assert [code for code, _ in found(text)] == ["P905"]


def test_both_tables_missing_are_four_mistakes() -> None:
    assert [code for code, _ in found('[clinic]\nname = "x"\n')] == ["P905"] * 4


def test_other_hours_have_words_and_number_or_neither() -> None:
    assert found(HELP + 'after-hours-phone = "1"\n') == [("P905", 4)]
    assert found(HELP + 'after-hours-text = "Nights"\n') == [("P905", 4)]


def test_a_telephone_number_has_a_digit() -> None:
    assert found(HELP.replace('"112"', '"the desk"')) == [("P904", 3)]


@pytest.mark.parametrize(
    ("text", "line"),
    [
        (HELP + "name = Alder Quay\n", 7),
        (HELP + 'phone = "again"\n', 7),
        (HELP + '[sheet]\nlanguages = ["en"', 8),
        (HELP + "[[contact]]\n", 7),
        ("\0", 1),
    ],
)
def test_not_toml_is_one_mistake_at_its_line(text: str, line: int) -> None:
    assert found(text) == [("P902", line)]


@pytest.mark.parametrize("value", ["2", "0", '"1"', "true", "1.5", "[]"])
def test_another_format_is_not_guessed_at(value: str) -> None:
    assert found(f"format = {value}\n{HELP}") == [("P906", 1)]


@pytest.mark.parametrize("value", ["1", '"x"', "[]", "[{}]"])
def test_a_key_in_place_of_a_table(value: str) -> None:
    assert ("P904", 1) in found(f"sheet = {value}\n{HELP}")


def test_dotted_keys_and_quoted_keys_have_places() -> None:
    assert found(f'sheet.paper = "A5"\n{HELP}') == [("P904", 1)]
    assert found(f'{HELP}[sheet]\n"paper" = "A5"\n') == [("P904", 8)]


def test_deep_brackets_end_in_a_diagnostic() -> None:
    assert [code for code, _ in found("a = " + "[" * 100_000)] == ["P902"]


WORDS = st.sampled_from([word for table, keys in KEYS.items() for word in (f"[{table}]", *keys)])
VALUES = st.sampled_from(["1", '""', '"x"', "[]", "[1]", "{}", "true", "nan", "1979-05-27", "[[]]", "", "{a.b=1}"])


@given(st.lists(st.one_of(WORDS, st.tuples(WORDS, VALUES).map(" = ".join), st.text(max_size=8)), max_size=12))
def test_no_text_makes_the_reader_raise(lines: list[str]) -> None:
    source = Source("clinic.toml", "\n".join(lines))
    outcome = read_clinic(source)
    assert outcome.value is not None
    for one in outcome.diagnostics:
        assert 0 <= one.primary.span.start <= one.primary.span.end <= len(source.text)


def test_what_the_starter_has_to_be_replaced_is_told_as_long_as_it_stands() -> None:
    """A number that nobody answers must not reach a sheet unseen, so the table holds the starter's very words."""
    text = resources.text("protodsl.starter", "clinic.toml")
    assert [code for code, _ in found(text)] == ["P921"] * len(EXAMPLES)
    for (_, key), words in EXAMPLES.items():
        assert f'{key} = "{words}"' in text
        text = text.replace(words, f"our {key} 1")
    assert found(text) == []
