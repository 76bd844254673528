"""Shapes cut into upright strips, for how much of them lies below a line."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from saponary.draw.pour.seed import Array

WIDE = 0.1


class Sections:
    """Upright sections of shapes that do not overlap, given by their outlines."""

    def __init__(self, rings: Sequence[Array], area: float) -> None:
        here = np.concatenate(rings)
        there = np.concatenate([np.roll(ring, -1, axis=0) for ring in rings])
        ends = np.ceil(np.sort([here[:, 0], there[:, 0]], axis=0) / WIDE - 0.5).astype(np.int64)
        count = ends[1] - ends[0]
        edge = np.repeat(np.arange(len(here)), count)
        strip = ends[0][edge] + np.arange(len(edge)) - np.repeat(np.cumsum(count) - count, count)
        x = (strip + 0.5) * WIDE
        slope = (there - here)[edge]
        y = here[edge, 1] + (x - here[edge, 0]) * slope[:, 1] / slope[:, 0]
        order = np.lexsort((y, strip))
        # Of those on one strip each second begins what the next one ends.
        self.places: Array = x[order][::2]
        self.begin: Array = y[order][::2]
        self.long: Array = y[order][1::2] - self.begin
        self.wide = area / float(self.long.sum())

    def below(self, xs: Array, line: Array) -> float:
        """The area below a line over `xs`."""
        up = np.interp(self.places, xs, line) - self.begin
        return self.wide * float(np.minimum(np.maximum(up, 0.0), self.long).sum())
