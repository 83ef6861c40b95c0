"""A document is set in the shipped fonts and no others, whatever is installed on the machine."""

import json
import os
import subprocess
import sys
import unicodedata
from pathlib import Path
from xml.etree import ElementTree

import pytest
from pypdf import PdfReader

from protodsl import fonts

TEXT = "Knee łokieć πόδι нога ≤ 5 → stop"
ARABIC = "الركبة"
WRITE_PDF = """
import json, logging, sys
lines = []
class Keep(logging.Handler):
    def emit(self, record): lines.append(record.getMessage())
logging.getLogger("weasyprint").addHandler(Keep())
import weasyprint
weasyprint.HTML(string=sys.argv[1]).write_pdf(sys.argv[2])
print(json.dumps(lines))
"""


def test_fonts_conf_is_stable_and_names_one_folder(tmp_path: Path) -> None:
    """Written twice it is the same file, it is valid XML, and its only folder is the fonts' own."""
    target = fonts.write_fontconfig(tmp_path / "a & b")
    before = target.stat().st_mtime_ns
    assert fonts.write_fontconfig(tmp_path / "a & b") == target
    assert target.stat().st_mtime_ns == before
    tree = ElementTree.parse(target)
    assert [element.text for element in tree.iter("dir")] == [str(fonts.font_folder())]
    assert [element.text for element in tree.iter("cachedir")] == [str(tmp_path / "a & b" / "fontconfig")]
    assert list((tmp_path / "a & b").iterdir()) == [target]


@pytest.mark.parametrize("family", ["sans-serif", "No Such Family"])
def test_a_document_without_a_font_of_its_own_uses_the_shipped_ones(family: str, tmp_path: Path) -> None:
    """Even a family that nobody has ends at a shipped font, and nothing is printed as a box."""
    body = f'<p style="font-family: {family}">{TEXT} <b>bold</b></p><p lang="ar" dir="rtl">{ARABIC}</p>'
    names, text, log = _print(body, tmp_path)
    assert log == []
    assert names == {"Noto-Sans", "Noto-Sans-Bold", "Noto-Sans-Math", "Vazirmatn"}
    assert TEXT in text


def test_declared_families_print_and_can_be_read_back(tmp_path: Path) -> None:
    """With @font-face for each file, every weight is embedded and the text comes out of the PDF as it went in."""
    faces = "".join(
        f'@font-face {{ font-family: "{font.family}"; font-weight: {font.weight};'
        f' src: url("{(fonts.font_folder() / font.file).as_uri()}") }}'
        for font in fonts.FONTS
    )
    stack = ", ".join(f'"{family}"' for family in fonts.TEXT_STACK)
    body = (
        f'<style>{faces} body {{ font: 12pt {stack} }} h1 {{ font: 600 20pt "{fonts.HEAD}" }}</style>'
        f'<h1>Heel raise ≤ 3</h1><p>{TEXT} <b>bold</b></p><p lang="ar" dir="rtl">{ARABIC} <b>{ARABIC}</b></p>'
    )
    names, text, log = _print(body, tmp_path)
    assert log == []
    assert names == {
        *("Protodsl-Text", "Protodsl-Text-Bold", "Protodsl-Head-Semi-Bold"),
        *("Protodsl-Arabic", "Protodsl-Arabic-Bold", "Protodsl-Symbols"),
    }
    assert "Heel raise ≤ 3" in text
    assert TEXT in text
    assert ARABIC in unicodedata.normalize("NFKC", text)


def _print(body: str, tmp_path: Path) -> tuple[set[str], str, list[str]]:
    """Print a page in a process of its own, because fontconfig is read once; returns font names, text and the log."""
    pdf = tmp_path / "page.pdf"
    conf = fonts.write_fontconfig(tmp_path / "cache")
    environment = {**os.environ, "FONTCONFIG_FILE": str(conf)}
    command = [sys.executable, "-c", WRITE_PDF, f"<html lang=en><title>t</title>{body}", str(pdf)]
    run = subprocess.run(command, env=environment, check=True, capture_output=True, text=True)
    page = PdfReader(pdf).pages[0]
    used = page["/Resources"]["/Font"].values()  # type: ignore[index]
    names = {str(font.get_object()["/BaseFont"]).partition("+")[2] for font in used}
    return names, page.extract_text(), json.loads(run.stdout)
