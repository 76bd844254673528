"""The broad colour of a portion, as somebody choosing a soap would call it; by hue, strength and lightness.

The bounds are this book's own reading of CIE L*a*b*.
"""

from __future__ import annotations

from math import atan2, degrees, hypot
from typing import Literal, get_args

from saponary.pantry.lab import lab

Family = Literal["white", "yellow", "orange", "pink", "purple", "blue", "green", "grey", "dark"]
FAMILIES: tuple[Family, ...] = get_args(Family)

_HUES: tuple[tuple[float, Family], ...] = (
    (45.0, "pink"),
    (71.0, "orange"),
    (108.0, "yellow"),
    (170.0, "green"),
    (288.0, "blue"),
    (335.0, "purple"),
    (360.0, "pink"),
)
"""By the end of their angle."""


def family(colour: str) -> Family:
    """The family of a colour written #rrggbb."""
    lightness, a, b = lab(colour)
    strength, angle = hypot(a, b), degrees(atan2(b, a)) % 360.0
    if lightness < 20 or (lightness < 38 and strength < 14.5):
        return "dark"
    if lightness > 82 and strength < 20:
        return "white"
    if strength < 7:
        return "grey"
    return next(name for end, name in _HUES if angle <= end)
