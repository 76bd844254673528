"""Student's t for whole degrees of freedom, from its finite series.

Source: M. Abramowitz and I. Stegun, Handbook of Mathematical Functions (1964), formulas
26.7.3 (odd degrees) and 26.7.4 (even degrees), from memory; the tests compare with an
independent library.
"""

from __future__ import annotations

from functools import lru_cache
from math import atan, cos, pi, sin, sqrt, tan

from saponary.quantity.roots import rising_root


def within(t: float, degrees: int) -> float:
    """Chance that Student's t with so many degrees of freedom lies between -t and t, t >= 0."""
    return _within_angle(atan(t / sqrt(degrees)), degrees)


def _within_angle(angle: float, degrees: int) -> float:
    if degrees < 1:
        raise ValueError("Student's t needs at least one degree of freedom")
    sine, cosine = sin(angle), cos(angle)
    if degrees == 1:
        return 2.0 * angle / pi
    odd = degrees % 2
    term = cosine if odd else 1.0
    total = term
    for j in range(2 + odd, degrees - 1, 2):
        term *= cosine * cosine * (j - 1) / j
        total += term
    return 2.0 / pi * (angle + sine * total) if odd else sine * total


@lru_cache(maxsize=256)
def quantile(confidence: float, degrees: int) -> float:
    """The t that encloses so much of the distribution on both sides of nought together.

    By the angle atan(t/sqrt(degrees)), so that every confidence below 1 has a
    bounded bracket. Relative error below 1e-9 up to a confidence of 0.9999.
    """
    if not 0.0 < confidence < 1.0:
        raise ValueError("a confidence lies between 0 and 1")
    angle = rising_root(lambda at: _within_angle(at, degrees), 0.0, pi / 2, confidence, narrow=1e-18)
    return tan(angle) * sqrt(degrees)
