"""Make the font files of protodsl/fonts from the packages they come in; protodsl/fonts/README.md says how to run it."""

import sys
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from fontTools import subset
from fontTools.ttLib import TTFont

PRINT_FEATURES = ("*",)
WEB_FEATURES = ("kern", "liga", "mark", "mkmk", "ccmp", "locl", "lnum", "tnum")
# Names of the Unicode blocks are from Blocks.txt of the Unicode Character Database.
LATIN = "20-7E A0-24F 2B0-36F 1E00-1EFF 2000-206F 2070-209F 20A0-20CF 2100-218F 2212 25CC FB00-FB06 FFFD"
GREEK_AND_CYRILLIC = "370-3FF 400-52F"
ARABIC = "600-6FF 750-77F 8A0-8FF FDF2 FDFC"
# Pango sets a space in the font of the letter before it, whatever that font has: so the symbols need spaces too.
SYMBOLS = "20 A0 2000-200F 2028-202F 205F-206F 2190-21FF 2200-22FF 25A0-25FF 2610 2611 2713"
# Signs that Chinese sets as wide as a character; digits and Latin letters come from the text font.
WIDE_SIGNS = "20 A0 2002-2003 2014 2018-2019 201C-201D 2026 3000-3020 FF01-FF5E"
WEB_LATIN = "20-7E A0-17F 218-21B 2BC 2C6-2DD 300-30C 1E80-1E85 1EF2-1EF3 2010-2026 202F-2033 2039-203A 20AC 2122 2212"


@dataclass(frozen=True, slots=True)
class Recipe:
    """One file to write: from which file, with which characters, under which name inside (empty: as it was)."""

    source: str
    output: str
    family: str
    ranges: str | tuple[int, ...]
    features: tuple[str, ...] = PRINT_FEATURES
    rename: str = ""


NOTO, SERIF, VAZIRMATN, MATH = (
    "noto-sans/{0}/NotoSans_{0}.ttf",
    "source-serif-4/{0}/SourceSerif4_{0}.ttf",
    "vazirmatn/{0}/Vazirmatn_{0}.ttf",
    "noto-sans-math/{0}/NotoSansMath_{0}.ttf",
)
# The rows of Chinese characters in GB/T 2312-1980, as Python's codec has them.
_ROWS, _CELLS = range(0xB0, 0xF8), range(0xA1, 0xFF)
HAN = tuple(ord(sign) for row in _ROWS for cell in _CELLS for sign in bytes((row, cell)).decode("gb2312", "ignore"))
SIMPLIFIED = "noto-sans-sc/{0}/NotoSansSC_{0}.ttf"
HAN_FAMILY = "Noto Sans SC"
EUROPEAN = f"{LATIN} {GREEK_AND_CYRILLIC} {SYMBOLS}"
ARABIC_AND_LATIN = f"{ARABIC} {LATIN} {SYMBOLS}"
# "Source" is a reserved font name, which a changed file may not carry (OFL 1.1, condition 3).
SERIF_NAME = "Protodsl Serif"
RECIPES = (
    Recipe(NOTO.format("400Regular"), "NotoSans-Regular.ttf", "Protodsl Text", EUROPEAN),
    Recipe(NOTO.format("700Bold"), "NotoSans-Bold.ttf", "Protodsl Text", EUROPEAN),
    Recipe(SERIF.format("600SemiBold"), "ProtodslSerif-SemiBold.ttf", "Protodsl Head", EUROPEAN, rename=SERIF_NAME),
    Recipe(VAZIRMATN.format("400Regular"), "Vazirmatn-Regular.ttf", "Protodsl Arabic", ARABIC_AND_LATIN),
    Recipe(VAZIRMATN.format("700Bold"), "Vazirmatn-Bold.ttf", "Protodsl Arabic", ARABIC_AND_LATIN),
    Recipe(MATH.format("400Regular"), "NotoSansMath-Regular.ttf", "Protodsl Symbols", SYMBOLS),
    Recipe(SIMPLIFIED.format("400Regular"), "NotoSansSC-Regular.ttf", HAN_FAMILY, HAN),
    Recipe(SIMPLIFIED.format("700Bold"), "NotoSansSC-Bold.ttf", HAN_FAMILY, HAN),
    Recipe(NOTO.format("400Regular"), "NotoSans-Regular.woff2", "", WEB_LATIN, WEB_FEATURES),
    Recipe(NOTO.format("700Bold"), "NotoSans-Bold.woff2", "", WEB_LATIN, WEB_FEATURES),
    Recipe(SERIF.format("600SemiBold"), "ProtodslSerif-SemiBold.woff2", "", WEB_LATIN, WEB_FEATURES, SERIF_NAME),
)
LICENCES = (
    ("noto-sans", "OFL-NotoSans.txt"),
    ("noto-sans-math", "OFL-NotoSansMath.txt"),
    ("source-serif-4", "OFL-SourceSerif4.txt"),
    ("vazirmatn", "OFL-Vazirmatn.txt"),
    ("noto-sans-sc", "OFL-NotoSansSC.txt"),
)


def main(packages: Path, folder: Path) -> None:
    """Write every font, licence text and the list of covered characters into the folder."""
    covered: dict[str, frozenset[int]] = {}
    for recipe in RECIPES:
        points = _write_font(recipe, packages, folder)
        if recipe.family:
            covered[recipe.family] = covered.get(recipe.family, points) & points
    for package, output in LICENCES:
        text = (packages / package / "LICENSE_FONT").read_text(encoding="utf-8")
        lines = [line.rstrip() for line in text.splitlines()]
        (folder / output).write_text("\n".join(lines).rstrip() + "\n", encoding="utf-8")
    han = {HAN_FAMILY: covered.pop(HAN_FAMILY)}
    for name, families in (("coverage.txt", covered), ("coverage-han.txt", han)):
        lines = ["# Code points that every file of a family has, in hexadecimal; written by .ci/subset_fonts.py."]
        for family, points in families.items():
            lines += [f"[{family}]", *_as_ranges(points)]
        (folder / name).write_text("\n".join(lines) + "\n", encoding="utf-8")


def _write_font(recipe: Recipe, packages: Path, folder: Path) -> frozenset[int]:
    """Subset one font and write it; returns the code points it holds."""
    options = subset.Options(
        layout_features=list(recipe.features),
        name_IDs=["*"],
        notdef_outline=True,
        hinting=False,
        drop_tables=["MATH", *subset.Options().drop_tables],
        flavor="woff2" if recipe.output.endswith(".woff2") else None,
    )
    font = subset.load_font(str(packages / recipe.source), options)
    worker = subset.Subsetter(options)
    ranges = recipe.ranges
    worker.populate(unicodes=_code_points(ranges) if isinstance(ranges, str) else [*ranges, *_code_points(WIDE_SIGNS)])
    worker.subset(font)
    if recipe.rename:
        _rename(font, recipe.rename)
    subset.save_font(font, str(folder / recipe.output), options)
    return frozenset(font.getBestCmap())


def _rename(font: TTFont, family: str) -> None:
    """Give the family a new name inside and leave copyright, trademark and licence as they were."""
    names = font["name"]
    style = names.getDebugName(17) or names.getDebugName(2)
    postscript = f"{family.replace(' ', '')}-{style}"
    version = names.getDebugName(5).split(";")[0].removeprefix("Version ")
    for number in (16, 17, 21, 22, 25):
        names.removeNames(nameID=number)
    for number, text in ((1, family), (3, f"{version};{postscript}"), (4, f"{family} {style}"), (6, postscript)):
        names.setName(text, number, 3, 1, 0x409)


def _code_points(ranges: str) -> list[int]:
    """Spell out ranges such as `20-7E`."""
    points: list[int] = []
    for part in ranges.split():
        first, _, last = part.partition("-")
        points += range(int(first, 16), int(last or first, 16) + 1)
    return points


def _as_ranges(points: Iterable[int]) -> list[str]:
    """Join neighbouring code points to lines such as `20-7E`."""
    runs: list[tuple[int, int]] = []
    for point in sorted(points):
        if runs and runs[-1][1] == point - 1:
            runs[-1] = (runs[-1][0], point)
        else:
            runs.append((point, point))
    return [f"{first:X}-{last:X}" if last > first else f"{first:X}" for first, last in runs]


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(__file__).resolve().parents[1] / "protodsl" / "fonts")
