"""The contrast of two colours by WCAG 2.2, from its definitions of `relative luminance` and `contrast ratio`."""

from __future__ import annotations

import re

Colour = tuple[int, int, int]
_RGB = re.compile(r"rgba?\((\d+), (\d+), (\d+)(?:, ([\d.]+))?\)")


def ratio(one: Colour, other: Colour) -> float:
    """From 1 to 21."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def luminance(colour: Colour) -> float:
    """Relative luminance in sRGB, from 0 to 1; no 8-bit colour tells 0.03928, as older texts have it, apart."""
    red, green, blue = (_linear(channel / 255) for channel in colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def from_hex(text: str) -> Colour:
    """`#1b242b`."""
    return int(text[1:3], 16), int(text[3:5], 16), int(text[5:7], 16)


def from_css(text: str) -> tuple[Colour, float]:
    """What a browser computes, `rgb(27, 36, 43)` or `rgba(...)`, as colour and opacity."""
    found = _RGB.fullmatch(text)
    assert found, text
    return (int(found[1]), int(found[2]), int(found[3])), float(found[4] or 1)


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else float(((channel + 0.055) / 1.055) ** 2.4)
