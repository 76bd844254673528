"""Seeded noise: numbers and wavering lines that are the same on every machine."""

from __future__ import annotations

import hashlib
import math

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


def numbers(count: int, *words: str) -> list[float]:
    """`count` numbers from 0 up to 1, from a hash of the words, which are the seed."""
    out: list[float] = []
    block = 0
    while len(out) < count:
        text = "\x1f".join((*words, str(block)))
        digest = hashlib.sha256(text.encode("utf-8", "surrogatepass")).digest()
        out.extend(int.from_bytes(digest[i : i + 4], "big") / 2**32 for i in range(0, 32, 4))
        block += 1
    return out[:count]


def wave(at: Array, span: float, amplitude: float, *words: str) -> Array:
    """A gentle wavering line over `span`, at most `amplitude` high: three sines of odd lengths."""
    draws = numbers(6, "wave", *words)
    total = np.zeros_like(at)
    for turns, weight, phase, stretch in zip(
        (1.1, 2.3, 4.3), (0.5, 0.32, 0.18), draws[:3], draws[3:], strict=True
    ):
        total += weight * np.sin(math.tau * (turns * (0.85 + 0.3 * stretch) * at / span + phase))
    return amplitude * total


def ripple(angles: Array, *words: str) -> Array:
    """A closed waver about a circle, within one of zero."""
    phases = numbers(4, "ripple", *words)
    total = np.zeros_like(angles)
    for lobes, weight, phase in zip((2, 3, 4, 6), (0.42, 0.3, 0.18, 0.1), phases, strict=True):
        total += weight * np.cos(lobes * angles + math.tau * phase)
    return total
