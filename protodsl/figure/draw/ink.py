"""Paper and ink: the tones and line weights of figures, chosen to differ when printed in grey.

They are those of the handout: ink for lines, sea for the garment, rust for what works, white paper for skin on the
sand of the plate.
"""

from __future__ import annotations

from dataclasses import dataclass

INK = "#1b242b"
FAINT = "#747c7e"
RUST = "#8a2b12"
PAPER = "#fff"
GROUND = "#8b8f8d"

# Widths of lines in units of the drawing (a third of a centimetre of the body).
LINE = 5
THIN = 3
HATCH = 4
BOLD = 8


@dataclass(frozen=True, slots=True)
class Tones:
    """The fills and the line of a part of the body."""

    skin: str
    garment: str
    shoe: str
    hair: str
    works: str
    line: str
    width: int


NEAR = Tones(PAPER, "#b9cecc", "#3b5157", INK, "#edc9b5", INK, LINE)
FAR = Tones("#e4e0d5", "#a3b7b5", "#77878a", INK, "#dcb9a6", FAINT, THIN)
