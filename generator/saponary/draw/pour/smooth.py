"""Smooth curves through points that are not evenly apart."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from saponary.draw.pour.seed import Array

Plane = NDArray[np.complex128]


def off_chord(beside: Plane, chord: Plane, length: Array) -> Plane:
    """How the tangent between a chord and the one beside it, as long as the chord is, differs from the chord.

    None beside it is a chord of no length: there the curve leaves along the chord.
    """
    other = np.abs(beside)
    alone = other < 1e-9
    bend = beside * (length / np.maximum(other, 1e-9)) - chord
    found: Plane = bend * (length / (length + other))
    found[alone] = 0.0
    return found
