"""The one spelling of the lines under `figure`."""

from __future__ import annotations

from protodsl.syntax.print_parts import amount_text
from protodsl.syntax.tree import ArrowLine, FigureStatement, Item, PoseLine, PropLine, ViewLine

_BETWEEN = {"on": "on", "against": "against", "under": "under", "behind": "behind", "off": "off"}


def figure_line_text(line: FigureStatement) -> str:
    """What follows the keyword of a line under `figure`."""
    match line:
        case ViewLine(_, view):
            return view.text
        case ArrowLine(_, part):
            return part.text
        case PoseLine(_, but, rows):
            return " ".join(word for word in ("but" if but else "", items_text(rows[0])) if word)
        case PropLine(_, size, place, ends):
            words = (amount_text(size) if size else "", _place_text(place, tuple(end.text for end in ends)))
            return " ".join(word for word in words if word)


def items_text(items: tuple[Item, ...]) -> str:
    """Items with commas between."""
    return ", ".join(map(item_text, items))


def item_text(item: Item) -> str:
    """One item of a pose."""
    part, other = item.part.text, item.other.text if item.other else ""
    amount = amount_text(item.amount) if item.amount else ""
    match item.form:
        case "said":
            return part
        case "angle":
            return f"{part} {amount}" + (f" to {item.towards}" if item.towards else "")
        case "lean":
            return f"{part} lean {other} {amount}"
        case "lift" | "slide":
            return f"{item.form} {part}"
        case "on" if item.flat:
            return f"{part} flat on {other}"
        case "apart":
            return f"{part} {amount} apart"
        case "from" | "in front of":
            return f"{part} {amount} {item.form} {other}"
        case "far behind":
            return f"{part} {amount} behind {other}"
        case "level":
            return f"{part} at {other} height"
        case form:
            return f"{part} {_BETWEEN[form]} {other}"


def _place_text(place: str, ends: tuple[str, ...]) -> str:
    """Where a prop is."""
    match place:
        case "right" | "left":
            return f"on {place}"
        case "from":
            return f"from {ends[0]} to {ends[1]}"
        case _:
            return " ".join((place, *ends)).strip()
