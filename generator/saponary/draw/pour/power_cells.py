"""Where spoonfuls set down side by side come to lie: the areas of a power diagram's cells, by rays from each site.

It is quick and leaves out what rounds a spoonful's corners, so that its weights are a first guess at those of
the spoonfuls themselves.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from saponary.draw.pour.seed import Array

RAYS = 64


class PowerCells:
    """Cells about sites in a box: left, bottom, right, top."""

    def __init__(self, sites: Array, near: NDArray[np.bool_], box: tuple[float, float, float, float]) -> None:
        turns = math.tau * np.arange(RAYS) / RAYS
        across, up = np.cos(turns), np.sin(turns)
        left, bottom, right, top = box
        away = sites[None, :, :] - sites[:, None, :]
        count = max(1, int(near.sum(axis=1).max()) - 1)
        far = (away**2).sum(axis=2)
        others = np.argsort(
            np.where(near, far, np.inf) + np.where(np.eye(len(sites), dtype=bool), np.inf, 0.0), axis=1
        )
        self.others: NDArray[np.int64] = others[:, :count]
        rows = np.arange(len(sites))[:, None]
        self.known = near[rows, self.others] & (self.others != rows)
        toward, self.distance = away[rows, self.others], np.sqrt(far[rows, self.others])
        self.distance[~self.known] = 1.0
        facing = (toward[:, :, :1] * across + toward[:, :, 1:] * up) / self.distance[:, :, None]
        self.stretch = np.where(
            self.known[:, :, None] & (facing > 1e-3), 1 / np.maximum(facing, 1e-3), np.inf
        )
        x, y = sites[:, :1], sites[:, 1:]
        sides = np.where(across > 1e-9, right - x, x - left) / np.maximum(np.abs(across), 1e-9)
        ends = np.where(up > 1e-9, top - y, y - bottom) / np.maximum(np.abs(up), 1e-9)
        self.walls: Array = np.minimum(sides, ends)

    def areas(self, weights: Array) -> Array:
        """The area of each site's cell."""
        gap = (self.distance + (weights[:, None] - weights[self.others]) / self.distance) / 2
        rays = np.minimum((np.maximum(gap, 1e-6)[:, :, None] * self.stretch).min(axis=1), self.walls)
        found: Array = 0.5 * math.sin(math.tau / RAYS) * (rays * np.roll(rays, 1, axis=1)).sum(axis=1)
        return found
