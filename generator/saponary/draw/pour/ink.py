"""Colours: luminance, contrast, and a tone of a shade with a given contrast to it."""

from __future__ import annotations


def channels(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def mixed(colour: str, other: str, part: float) -> str:
    """`part` of `other` stirred into `colour`."""
    pairs = zip(channels(colour), channels(other), strict=True)
    return "#" + "".join(f"{round(a + (b - a) * part):02x}" for a, b in pairs)


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    linear = [
        value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4
        for value in (channel / 255 for channel in channels(colour))
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio as WCAG 2.2 defines it."""
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def ink_on(shade: str, ratio: float) -> str:
    """A darker or, on a dark shade, lighter tone of the shade that has just this contrast to it."""
    toward = "#1b1410" if luminance(shade) > 0.16 else "#fffaf0"
    for step in range(1, 40):
        tone = mixed(shade, toward, step / 40)
        if contrast(tone, shade) >= ratio:
            return tone
    return toward
