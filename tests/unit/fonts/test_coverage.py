"""What the fonts cover is what fontTools, the reference library for font files, reads in them."""

import re
import unicodedata
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from protodsl import fonts
from protodsl.diagnostics.render import character_missing
from protodsl.fonts import FONTS as USUAL_FONTS
from protodsl.fonts import HAN_FONTS, Font

DATA = Path(__file__).resolve().parents[2] / "evidence" / "data"
FONTS = (*USUAL_FONTS, *HAN_FONTS)
FAMILIES = sorted({font.family for font in FONTS})
# CLDR exemplar letters, main set (cldr/main/*.xml, exemplarCharacters): typed from memory, so they are examples of
# what people write and not an oracle for the fonts.
LETTERS = {
    "cs": "áčďéěíňóřšťúůýž",
    "de": "äöüß",
    "el": "άέήίόύώϊϋΐΰςαβγδεζηθ",
    "fr": "àâæçéèêëîïôœùûüÿ",
    "pl": "ąćęłńóśźż",
    "ro": "ăâîșț",
    "tr": "çğıöşüİ",
    "uk": "абвгґдеєжзиіїйклмн",
    "vi": "ăâđêôơưạảấầẩẫậắằẵặ",
    "ar": "ابتثجحخدذرزسشصضطظعغفقكلمنهويءآأؤإئىة٠١٢٣٤٥٦٧٨٩،؛؟",
    "fa": "پچژگکی۰۱۲۳۴۵۶۷۸۹",
}


@pytest.mark.parametrize("family", FAMILIES)
def test_coverage_is_what_every_file_of_the_family_has(family: str) -> None:
    """coverage.txt holds the code points of the cmap of each weight, so that bold text loses no letter."""
    for font in FONTS:
        if font.family == family:
            assert fonts.coverage(family) == frozenset(_open(font).getBestCmap())


def test_an_unknown_family_covers_nothing() -> None:
    """Unknown is not no, but a font that is not shipped cannot be printed with."""
    assert fonts.coverage("No Such Family") == frozenset()


@pytest.mark.parametrize("language", LETTERS)
def test_no_letter_of_a_language_is_missing(language: str) -> None:
    """Letters of the languages that the fonts are said to write are there, in both normal forms."""
    letters = LETTERS[language]
    both = letters + letters.upper() + unicodedata.normalize("NFD", letters)
    assert fonts.missing_characters(both) == ()


def test_simplified_chinese_is_whole() -> None:
    """Every character of GB/T 2312-1980, as Python's codec has the standard, and the signs set between them."""
    rows, cells = range(0xB0, 0xF8), range(0xA1, 0xFF)
    signs = "".join(bytes((row, cell)).decode("gb2312", "ignore") for row in rows for cell in cells)
    assert len(signs) == 6763
    assert fonts.missing_characters(signs + "，。：；？！、（）《》「」“”‘’……——％") == ()


def test_without_the_fonts_for_chinese_it_is_said_what_to_do(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Whoever packs the program may leave them out; then nothing in Chinese is printed, and it is said why."""
    monkeypatch.setattr(fonts, "font_folder", lambda: tmp_path)
    assert fonts.missing_characters("膝 knee") == ("膝",) and fonts.is_for_want_of_han("膝")
    assert not fonts.is_for_want_of_han("ש")
    said = character_missing(("膝",), fonts.missing_han_fonts())
    assert "NotoSansSC-Regular.ttf" in said.notes[0] and said.help is not None and "protodsl/fonts" in said.help


def test_signs_of_a_prescription_are_there() -> None:
    """Signs that a dose, a limit or a phone number is written with can be printed (common practice, no source)."""
    signs = "3 × 10, ≤ 5/10, ≥ 90°, ± 2, 8–12, −1, ½ ⅓ ¼, m², → ← ↑ ↓, 5′ 30″, 10 %, €, “a” ‘b’ … • ✓"
    assert fonts.missing_characters(signs) == ()


def test_missing_characters_come_once_and_in_order() -> None:
    """A letter that no font has is named once, where it stands first."""
    assert fonts.missing_characters("hip 漢語 ש and 漢 again") == ("漢", "語", "ש")


def test_what_has_no_glyph_is_never_missing() -> None:
    """Only a control or what is Default_Ignorable_Code_Point in the Unicode Character Database 15.0 needs no glyph."""
    text = (DATA / "unicode-15.0-default-ignorable.txt").read_text(encoding="utf-8")
    ignorable: set[int] = set()
    for first, last in re.findall(r"^([0-9A-F]+)(?:\.\.([0-9A-F]+))? +; Default_Ignorable_Code_Point", text, re.M):
        ignorable.update(range(int(first, 16), int(last or first, 16) + 1))
    assert f"# Total code points: {len(ignorable)}\n" in text
    covered = {point for family in (*fonts.TEXT_STACK, fonts.HAN) for point in fonts.coverage(family)}
    controls = {point for point in range(0x3000) if unicodedata.category(chr(point)) in ("Cc", "Zl", "Zp")}
    missing = set(fonts.missing_characters("".join(map(chr, range(0x110000)))))
    assert missing == set(map(chr, range(0x110000))) - set(map(chr, ignorable | covered | controls))


def test_every_text_font_has_the_spaces() -> None:
    """Pango sets a space in the font of the letter before it, so each font has those that numbers are joined with."""
    for family in (*fonts.TEXT_STACK, fonts.HEAD):
        assert {0x20, 0xA0, 0x2009, 0x202F} <= fonts.coverage(family)


@pytest.mark.parametrize("font", FONTS, ids=lambda font: font.file)
def test_each_file_is_what_the_list_says(font: Font) -> None:
    """Weight, licence and copyright are in the file, and no variation axes: a static font for each weight."""
    opened = _open(font)
    names = opened["name"]
    assert opened["OS/2"].usWeightClass == font.weight
    assert "SIL Open Font License, Version 1.1" in names.getDebugName(13)
    assert names.getDebugName(14).endswith(("openfontlicense.org", "scripts.sil.org/OFL"))
    assert names.getDebugName(0)
    assert "fvar" not in opened


def test_no_changed_file_carries_a_reserved_font_name() -> None:
    """SIL OFL 1.1, condition 3: a modified version may not use the reserved font name as its name."""
    for path in (*fonts.font_folder().glob("*.ttf"), *fonts.font_folder().glob("*.woff2")):
        names = TTFont(path)["name"]
        reserved = re.findall(r"Reserved Font Names? [‘'\"](\w+)", names.getDebugName(0) or "")
        shown = [names.getDebugName(number) or "" for number in (1, 3, 4, 6, 16)]
        assert [name for name in shown if any(word in name for word in reserved)] == []


def test_no_file_is_forgotten() -> None:
    """Each font file of the folder is in the list, and each file of the list is in the folder with its licence text."""
    folder = fonts.font_folder()
    listed = {font.file for font in FONTS} | {font.web_file for font in FONTS if font.web_file}
    assert {path.name for path in folder.iterdir() if path.suffix in (".ttf", ".woff2")} == listed
    licences = [path.read_text(encoding="utf-8") for path in folder.glob("OFL-*.txt")]
    assert len(licences) == len({font.family for font in FONTS})
    for text in licences:
        assert re.match(r"Copyright (\d{4} The [\w ]+ Project Authors \(https|2014-2021 Adobe \(http)://", text)
        assert "SIL OPEN FONT LICENSE Version 1.1 - 26 February 2007" in text


def test_web_fonts_are_small_and_write_latin() -> None:
    """The WOFF2 files that each HTML page carries are under 120 kB together and write ISO 8859-1 and -2."""
    files = [fonts.font_folder() / font.web_file for font in FONTS if font.web_file]
    assert sum(path.stat().st_size for path in files) < 120_000
    latin = bytes((*range(0x20, 0x7F), *range(0xA0, 0x100)))
    wanted = {ord(sign) for charset in ("iso8859-1", "iso8859-2") for sign in latin.decode(charset)}
    for path in files:
        assert wanted - set(TTFont(path).getBestCmap()) <= {0xAD}


def _open(font: Font) -> TTFont:
    return TTFont(fonts.font_folder() / font.file)
