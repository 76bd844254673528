"""Colours: mixtures, and a tone of a shade with a given contrast to it."""

from __future__ import annotations

from functools import lru_cache

from saponary.quantity.contrast import channels, contrast, luminance


def mixed(colour: str, other: str, part: float) -> str:
    """`part` of `other` stirred into `colour`."""
    pairs = zip(channels(colour), channels(other), strict=True)
    return "#" + "".join(f"{round(a + (b - a) * part):02x}" for a, b in pairs)


@lru_cache(maxsize=512)
def ink_on(shade: str, ratio: float) -> str:
    """A darker or, on a dark shade, lighter tone of the shade that has just this contrast to it."""
    toward = "#1b1410" if luminance(shade) > 0.16 else "#fffaf0"
    for step in range(1, 40):
        tone = mixed(shade, toward, step / 40)
        if contrast(tone, shade) >= ratio:
            return tone
    return toward
