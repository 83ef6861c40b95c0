"""The fonts that the handouts are set in, what they cover, and how to print with these and no others."""

import os
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from hashlib import sha256
from html import escape
from pathlib import Path

from protodsl import resources

TEXT = "Protodsl Text"
HEAD = "Protodsl Head"
ARABIC = "Protodsl Arabic"
SYMBOLS = "Protodsl Symbols"
# Named as in its files: it is found by that name, without a rule of ours, so that only a page that needs it reads it.
HAN = "Noto Sans SC"


@dataclass(frozen=True, slots=True)
class Font:
    """A font file: CSS family and weight, file name, scripts by ISO 15924 code, and the WOFF2 for HTML ("" if none)."""

    family: str
    weight: int
    file: str
    scripts: tuple[str, ...]
    web_file: str = ""


FONTS: tuple[Font, ...] = (
    Font(TEXT, 400, "NotoSans-Regular.ttf", ("Latn", "Grek", "Cyrl"), "NotoSans-Regular.woff2"),
    Font(TEXT, 700, "NotoSans-Bold.ttf", ("Latn", "Grek", "Cyrl"), "NotoSans-Bold.woff2"),
    Font(HEAD, 600, "ProtodslSerif-SemiBold.ttf", ("Latn", "Grek", "Cyrl"), "ProtodslSerif-SemiBold.woff2"),
    Font(ARABIC, 400, "Vazirmatn-Regular.ttf", ("Arab", "Latn")),
    Font(ARABIC, 700, "Vazirmatn-Bold.ttf", ("Arab", "Latn")),
    Font(SYMBOLS, 400, "NotoSansMath-Regular.ttf", ("Zsym", "Zmth")),
)

HAN_FONTS: tuple[Font, ...] = (
    Font(HAN, 400, "NotoSansSC-Regular.ttf", ("Hans",)),
    Font(HAN, 700, "NotoSansSC-Bold.ttf", ("Hans",)),
)
"""The fonts for Simplified Chinese, four times as large as all others; whoever packs the program may leave them out."""

TEXT_STACK: tuple[str, ...] = (TEXT, SYMBOLS, ARABIC)
"""The families that running text is set in, first choice first; a page in Arabic puts ARABIC before the others.

HAN comes after them, where it is there, and before them on a page in Chinese.
"""

_PACKAGE = "protodsl.fonts"
# Default_Ignorable_Code_Point of the Unicode Character Database 15.0, DerivedCoreProperties.txt: never drawn (UAX #44).
_IGNORABLE = (
    (0xAD, 0xAD),
    (0x34F, 0x34F),
    (0x61C, 0x61C),
    (0x115F, 0x1160),
    (0x17B4, 0x17B5),
    (0x180B, 0x180F),
    (0x200B, 0x200F),
    (0x202A, 0x202E),
    (0x2060, 0x206F),
    (0x3164, 0x3164),
    (0xFE00, 0xFE0F),
    (0xFEFF, 0xFEFF),
    (0xFFA0, 0xFFA0),
    (0xFFF0, 0xFFF8),
    (0x1BCA0, 0x1BCA3),
    (0x1D173, 0x1D17A),
    (0xE0000, 0xE0FFF),
)


def font_folder() -> Path:
    """The folder that holds the font files and their licences."""
    return resources.path(_PACKAGE)


def write_fontconfig(cache_dir: Path) -> Path:
    """Write a fonts.conf that knows only the shipped TTF files, for FONTCONFIG_FILE before WeasyPrint is imported."""
    cache_dir.mkdir(parents=True, exist_ok=True)
    target, wanted = cache_dir / "fonts.conf", _fontconfig(cache_dir)
    if target.exists() and target.read_text(encoding="utf-8") == wanted:
        return target
    # Several processes may start at once, and none may read half a file.
    partial = cache_dir / f"fonts.conf.{os.getpid()}"
    partial.write_text(wanted, encoding="utf-8")
    partial.replace(target)
    return target


@cache
def digest() -> str:
    """A digest of the font files that a page is set in."""
    state = sha256()
    for font in (*FONTS, *HAN_FONTS):
        file = font_folder() / font.file
        state.update(file.read_bytes() if file.is_file() else b"")
    return state.hexdigest()


@cache
def coverage(family: str) -> frozenset[int]:
    """The code points that every file of a family has; empty for a family that is not shipped."""
    return _read_coverage("coverage-han.txt" if family == HAN else "coverage.txt").get(family, frozenset())


def missing_characters(text: str) -> tuple[str, ...]:
    """The characters, each once and in order, that no font of the text stack has and that would print as a box."""
    covered: frozenset[int] = frozenset().union(*map(coverage, TEXT_STACK))
    missing = tuple(sign for sign in dict.fromkeys(text) if ord(sign) not in covered and _is_drawn(sign))
    if not missing or missing_han_fonts():
        return missing
    return tuple(sign for sign in missing if ord(sign) not in coverage(HAN))


def missing_han_fonts() -> tuple[str, ...]:
    """The files of the fonts for Chinese that are not there."""
    return tuple(font.file for font in HAN_FONTS if not (font_folder() / font.file).is_file())


def is_for_want_of_han(characters: Iterable[str]) -> bool:
    """Whether a character is missing because the fonts for Chinese are."""
    return bool(missing_han_fonts()) and any(ord(sign) in coverage(HAN) for sign in characters)


@cache
def _read_coverage(file: str) -> dict[str, frozenset[int]]:
    found: dict[str, list[int]] = {}
    points: list[int] = []
    for line in resources.text(_PACKAGE, file).splitlines():
        if line.startswith("["):
            points = found.setdefault(line.strip("[]"), [])
        elif not line.startswith("#"):
            first, _, last = line.partition("-")
            points.extend(range(int(first, 16), int(last or first, 16) + 1))
    return {family: frozenset(points) for family, points in found.items()}


def _is_drawn(sign: str) -> bool:
    """Whether a character needs a glyph; controls, line ends and default-ignorable ones do not."""
    if unicodedata.category(sign) in ("Cc", "Zl", "Zp"):
        return False
    return not any(first <= ord(sign) <= last for first, last in _IGNORABLE)


def _fontconfig(cache_dir: Path) -> str:
    """The text of fonts.conf; the last resort is named so that it is not left to the order of the folder."""
    folder, cache = escape(str(font_folder().resolve())), escape(str(cache_dir.resolve() / "fontconfig"))
    return f"""<?xml version="1.0"?>
<!DOCTYPE fontconfig SYSTEM "urn:fontconfig:fonts.dtd">
<fontconfig>
  <dir>{folder}</dir>
  <cachedir>{cache}</cachedir>
  <selectfont><rejectfont><glob>*.woff2</glob></rejectfont></selectfont>
  <match target="pattern">
    <edit name="family" mode="append_last">
      <string>Noto Sans</string>
      <string>Vazirmatn</string>
      <string>{HAN}</string>
      <string>Noto Sans Math</string>
    </edit>
  </match>
</fontconfig>
"""
