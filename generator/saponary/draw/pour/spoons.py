"""The outline of a spoonful: round, cut flat where it meets the batter set down before it.

Two neighbours meet on the line where their distances squared, less their weights, are equal;
so the spoonfuls together are a power diagram with the corners of the later ones rounded.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray
from shapely.geometry import Polygon

from saponary.draw.pour.seed import Array

Ring = Sequence[tuple[float, float]]
SIDES = 16
CORNER = 0.46
CURVE = (0.0, 0.25, 0.5, 0.75, 1.0)


def spoons(sites: Array, weights: Array, near: NDArray[np.bool_], radius: float) -> list[Polygon]:
    """An outline for each site; later ones are to be painted over earlier ones."""
    turns = [math.tau * (k + 0.5) / SIDES for k in range(SIDES)]
    outlines: list[Polygon] = []
    for i, site in enumerate(sites):
        x, y = float(site[0]), float(site[1])
        ring: Ring = [(x + radius * math.cos(turn), y + radius * math.sin(turn)) for turn in turns]
        for j in np.flatnonzero(near[i, :i]).tolist():
            a, b = float(sites[j, 0]) - x, float(sites[j, 1]) - y
            gap = (a * a + b * b + float(weights[i] - weights[j])) / 2
            if gap < radius * math.hypot(a, b):
                ring = _clip(ring, a, b, x * a + y * b + gap)
        outlines.append(Polygon(_rounded(ring)) if len(ring) > 2 else Polygon())
    return outlines


def _clip(ring: Ring, a: float, b: float, limit: float) -> Ring:
    """The part of a convex ring where a x + b y is at most `limit`."""
    out: list[tuple[float, float]] = []
    sides = [a * x + b * y - limit for x, y in ring]
    if max(sides, default=0.0) <= 0:
        return ring
    for i, here in enumerate(sides):
        following = (i + 1) % len(ring)
        there = sides[following]
        (x0, y0), (x1, y1) = ring[i], ring[following]
        if here <= 0:
            out.append((x0, y0))
        if (here < 0 < there) or (there < 0 < here):
            t = here / (here - there)
            out.append((x0 + t * (x1 - x0), y0 + t * (y1 - y0)))
    return out


def _rounded(ring: Ring) -> Ring:
    """The ring with a curve for each corner, as wide as the sides allow."""
    out: list[tuple[float, float]] = []
    for i, (x, y) in enumerate(ring):
        before, after = ring[i - 1], ring[(i + 1) % len(ring)]
        x0, y0 = x + CORNER * (before[0] - x), y + CORNER * (before[1] - y)
        x1, y1 = x + CORNER * (after[0] - x), y + CORNER * (after[1] - y)
        for t in CURVE:
            u, v, w = (1 - t) ** 2, 2 * t * (1 - t), t * t
            out.append((u * x0 + v * x + w * x1, u * y0 + v * y + w * y1))
    return out
