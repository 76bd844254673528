"""Where spoonfuls set down side by side come to lie: the areas of a power diagram's cells, by rays from each site.

It is quick and leaves out what rounds a spoonful's corners, so that its weights are a first guess at those of
the spoonfuls themselves.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from saponary.draw.pour.seed import Array

RAYS = 48
MOST_NEAR = 14


class PowerCells:
    """Cells about sites in a box: left, bottom, right, top."""

    def __init__(self, sites: Array, near: NDArray[np.bool_], box: tuple[float, float, float, float]) -> None:
        turns = math.tau * np.arange(RAYS) / RAYS
        across, up = np.cos(turns), np.sin(turns)
        left, bottom, right, top = box
        away = sites[None, :, :] - sites[:, None, :]
        count = max(1, min(MOST_NEAR, int(near.sum(axis=1).max()) - 1))
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
        self.stretch = np.where(self.known[:, :, None] & (facing > 1e-3), 1 / np.maximum(facing, 1e-3), 1e9)
        x, y = sites[:, :1], sites[:, 1:]
        sides = np.where(across > 1e-9, right - x, x - left) / np.maximum(np.abs(across), 1e-9)
        ends = np.where(up > 1e-9, top - y, y - bottom) / np.maximum(np.abs(up), 1e-9)
        self.walls: Array = np.minimum(sides, ends)

    def areas(self, weights: Array) -> Array:
        """The area of each site's cell."""
        return self._areas(self._rays(weights)[0])

    def slopes(self, weights: Array, owners: NDArray[np.int64]) -> tuple[Array, Array]:
        """The area of each owner's cells, and how each of these changes with each owner's weight."""
        count = int(owners.max()) + 1
        rays, at, open = self._rays(weights[owners])
        areas = np.bincount(owners, self._areas(rays), count).astype(np.float64)
        row = np.arange(len(rays))[:, None]
        # A ray that ends at a neighbour grows with the gap, and the gap with the weight.
        grown = np.where(open, 0.0, rays * self.stretch[row, at, np.arange(RAYS)])
        grown *= math.tau / RAYS / (2.0 * self.distance[row, at])
        mine, theirs = np.repeat(owners, RAYS), owners[self.others[row, at]].ravel()
        matrix: Array = np.bincount(mine * count + theirs, grown.ravel(), count * count).astype(np.float64)
        matrix = matrix.reshape(count, count)
        return areas, np.diag(matrix.sum(axis=1)) - matrix

    def _rays(self, weights: Array) -> tuple[Array, NDArray[np.int64], NDArray[np.bool_]]:
        """How far each ray goes, at which neighbour it ends, and whether it goes to the wall instead."""
        gap = (self.distance + (weights[:, None] - weights[self.others]) / self.distance) / 2
        reach = np.maximum(gap, 1e-6)[:, :, None] * self.stretch
        at = reach.argmin(axis=1)
        rays = np.take_along_axis(reach, at[:, None, :], axis=1)[:, 0, :]
        open = rays >= self.walls
        return np.where(open, self.walls, rays), at, open

    def _areas(self, rays: Array) -> Array:
        found: Array = 0.5 * math.sin(math.tau / RAYS) * (rays * np.roll(rays, 1, axis=1)).sum(axis=1)
        return found
