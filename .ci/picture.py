"""Makes the picture of the README: an exercise and its progression as written, and the page made from them.

Needs pdftoppm (poppler-utils). `python .ci/picture.py` writes protocols_demo/side-by-side.png.
"""

from __future__ import annotations

import base64
import html
import subprocess
import tempfile
from datetime import date
from pathlib import Path

from protodsl import fonts
from protodsl.asked import Asked
from protodsl.compiler import check_project, make_handout
from protodsl.formats import PDF
from protodsl.project import open_project
from protodsl.syntax import keywords

DEMO = Path(__file__).parents[1] / "protocols_demo"
EXERCISE = "heel raise both legs"
PROGRESSION = "calf strength"
LIBRARY = DEMO / "library" / "leg.protocol"
KEYWORDS = sorted((one.keyword for one in keywords.entries()), key=len, reverse=True)
PAGE = """<!doctype html><meta charset="utf-8"><style>
@font-face{{font-family:T;src:url("file://{fonts}/NotoSans-Regular.ttf")}}
@font-face{{font-family:T;font-weight:700;src:url("file://{fonts}/NotoSans-Bold.ttf")}}
@page{{size:300mm 205mm;margin:0}}
body{{margin:0;background:#fff;color:#1b242b}}
pre{{position:absolute;left:9mm;top:9mm;width:140mm;font:9.6pt/1.42 T;white-space:pre-wrap;margin:0}}
b{{color:#0d4650}}
img{{position:absolute;left:156mm;top:6mm;width:137mm;border:.3mm solid #8b8f8d}}
</style><pre>{text}</pre><img src="data:image/png;base64,{page}">"""


def main() -> None:
    """Find the exercise and the page that holds its card, and set them side by side."""
    checked = check_project(open_project(DEMO), (DEMO,), date(2026, 11, 25))
    entry = next(one for one in checked.entries if one.path == "ankle-sprain.protocol")
    assert entry.value is not None
    protocol = entry.value.protocols[0]
    made = make_handout(checked, entry, protocol, Asked(formats=(PDF,)))
    assert made.value is not None
    title = protocol.scope.exercises[EXERCISE].title.text
    with tempfile.TemporaryDirectory() as folder:
        sheet = Path(folder) / "sheet.pdf"
        sheet.write_bytes(made.value[PDF])
        number = _page_of(sheet, title)
        picture = _png(sheet, 110, Path(folder) / "page", number)
        text = PAGE.format(
            fonts=fonts.font_folder(),
            text=_block(f"exercise {EXERCISE}") + "\n\n" + _block(f"progression {PROGRESSION}"),
            page=base64.b64encode(picture).decode(),
        )
        both = Path(folder) / "both.pdf"
        import weasyprint

        weasyprint.HTML(string=text).write_pdf(both)
        (DEMO / "side-by-side.png").write_bytes(_png(both, 110, Path(folder) / "both", 1))


def _block(head: str) -> str:
    """A declaration as it is written, its keywords in bold."""
    lines = LIBRARY.read_text(encoding="utf-8").split("\n")
    start = lines.index(head)
    end = next(at for at in range(start + 1, len(lines)) if lines[at][:1].strip())
    written = [line for line in lines[start:end] if line.strip()]
    return "\n".join(_marked(line) for line in written)


def _marked(line: str) -> str:
    """One line with its keyword in bold; a line of prose has none."""
    text = line.strip()
    word = next((one for one in KEYWORDS if f"{text} ".startswith(f"{one} ")), "")
    indent = line[: len(line) - len(text)].replace(" ", "\N{NO-BREAK SPACE}")
    return f"{indent}<b>{html.escape(word)}</b>{html.escape(text.removeprefix(word))}"


def _page_of(sheet: Path, title: str) -> int:
    """The page on which the title stands alone on a line: the card."""
    from pypdf import PdfReader

    pages = [page.extract_text().split("\n") for page in PdfReader(sheet).pages]
    return next(number for number, lines in enumerate(pages, 1) if title in (line.strip() for line in lines))


def _png(file: Path, dots: int, stem: Path, page: int) -> bytes:
    """One page as a PNG with so many dots an inch."""
    command = [
        "pdftoppm",
        "-r",
        str(dots),
        "-f",
        str(page),
        "-l",
        str(page),
        "-singlefile",
        "-png",
        str(file),
        str(stem),
    ]
    subprocess.run(command, check=True)
    return stem.with_suffix(".png").read_bytes()


if __name__ == "__main__":
    main()
