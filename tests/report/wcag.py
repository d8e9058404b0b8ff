"""Contrast of two colours, by the formulas of WCAG 2.2 (relative luminance, contrast ratio)."""

from __future__ import annotations

import re

TEXT, LARGE = 4.5, 3.0  # success criterion 1.4.3, level AA
LARGE_PX, LARGE_BOLD_PX = 24.0, 18.66  # 18 pt, and 14 pt bold


def rgb(colour: str) -> tuple[float, float, float]:
    """Channels from 0 to 1 of "#rrggbb", "#rgb" or "rgb(r, g, b)"."""
    if colour.startswith("#"):
        digits = colour[1:] if len(colour) == 7 else "".join(digit * 2 for digit in colour[1:])
        values = [int(digits[place : place + 2], 16) for place in (0, 2, 4)]
    else:
        found = [float(number) for number in re.findall(r"[\d.]+", colour)]
        assert len(found) == 3 or found[3] == 1, f"{colour}: a see-through colour has no contrast of its own"
        values = [round(number) for number in found[:3]]
    return values[0] / 255, values[1] / 255, values[2] / 255


def luminance(colour: str) -> float:
    red, green, blue = (
        one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in rgb(colour)
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)
