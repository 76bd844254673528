"""CIE L*a*b* of a colour (ISO/CIE 11664-4, under D65), by the sRGB of IEC 61966-2-1."""

from __future__ import annotations


def lab(colour: str) -> tuple[float, float, float]:
    """L*, a*, b* of an sRGB colour written #rrggbb."""
    r, g, b = _linear(colour)
    xyz = (
        (0.4124564 * r + 0.3575761 * g + 0.1804375 * b) / 0.95047,
        0.2126729 * r + 0.7151522 * g + 0.0721750 * b,
        (0.0193339 * r + 0.1191920 * g + 0.9503041 * b) / 1.08883,
    )

    def f(t: float) -> float:
        return float(t ** (1 / 3)) if t > (6 / 29) ** 3 else t / (3 * (6 / 29) ** 2) + 4 / 29

    x, y, z = (f(t) for t in xyz)
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def _linear(colour: str) -> list[float]:
    """Red, green and blue as light, from nought to one (IEC 61966-2-1)."""
    parts = [int(colour[i : i + 2], 16) / 255.0 for i in (1, 3, 5)]
    return [part / 12.92 if part <= 0.04045 else float(((part + 0.055) / 1.055) ** 2.4) for part in parts]
