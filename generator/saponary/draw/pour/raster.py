"""How much of each cell of a grid is covered: areas as they are painted, later over earlier."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from saponary.draw.pour.seed import Array


class Raster:
    """Cells over a box, rows from the bottom; edges are exact along a row, and taken at its middle."""

    def __init__(self, box: tuple[float, float, float, float], cell: float) -> None:
        self.left, self.bottom, right, top = box
        self.columns = max(4, round((right - self.left) / cell))
        self.rows = max(4, round((top - self.bottom) / cell))
        self.wide, self.high = (right - self.left) / self.columns, (top - self.bottom) / self.rows

    @property
    def cell(self) -> float:
        return self.wide * self.high

    def between(self, xs: Array, low: Array, high: Array) -> Array:
        """How much of each cell lies between two profiles."""
        middles = self.left + self.wide * (np.arange(self.columns) + 0.5)
        lines = [
            (np.interp(middles, xs, line) - self.bottom) / self.high - np.arange(self.rows)[:, None]
            for line in (low, high)
        ]
        below, upto = (np.clip(line, 0.0, 1.0) for line in lines)
        covered: Array = np.maximum(upto - below, 0.0)
        return covered

    def within(self, rings: Sequence[Array]) -> Array:
        """How much of each cell lies in rings that do not overlap."""
        covered = np.zeros((self.rows, self.columns))
        for ring in rings:
            row, at, upward = self._crossings(ring[None])[1:]
            if not len(row):
                continue
            turned = 1.0 if float(at[upward].sum()) > float(at[~upward].sum()) else -1.0
            sign = np.where(upward, -turned, turned)
            place = np.clip(at, 0.0, self.columns - 1e-9)
            column = place.astype(np.int64)
            change = np.zeros((self.rows, self.columns + 1))
            np.add.at(change, (row, column), sign * (column + 1 - place))
            np.add.at(change, (row, column + 1), sign * (place - column))
            covered += np.cumsum(change, axis=1)[:, :-1]
        return np.clip(covered, 0.0, 1.0)

    def spans(self, rings: Array) -> tuple[Array, Array]:
        """From where to where each convex ring, anticlockwise, covers each row, in cells; ends are equal where it does not."""
        left = np.zeros((len(rings), self.rows))
        right = np.zeros((len(rings), self.rows))
        owner, row, at, upward = self._crossings(rings)
        place = np.clip(at, 0.0, self.columns)
        right[owner[upward], row[upward]] = place[upward]
        left[owner[~upward], row[~upward]] = place[~upward]
        return left, np.maximum(left, right)

    def shown(self, rings: Array, free: Array) -> Array:
        """The free cells that show of each convex ring, painted in their order."""
        left, right = self.spans(rings)
        there = right > left
        first = np.argmax(there, axis=1).tolist()
        last = (self.rows - np.argmax(there[:, ::-1], axis=1)).tolist()
        low = np.floor(np.where(there, left, self.columns).min(axis=1)).astype(np.int64).tolist()
        high = np.ceil(right.max(axis=1)).astype(np.int64).tolist()
        rest, found = free.copy(), np.zeros(len(rings))
        columns = np.arange(self.columns, dtype=np.float64)
        for i in np.flatnonzero(there.any(axis=1))[::-1].tolist():
            rows, across = slice(first[i], last[i]), slice(low[i], high[i])
            at = columns[across]
            covered = right[i, rows, None] - at
            np.minimum(covered, 1.0, out=covered)
            np.maximum(covered, 0.0, out=covered)
            before = left[i, rows, None] - at
            np.minimum(before, 1.0, out=before)
            covered -= np.maximum(before, 0.0, out=before)
            seen = rest[rows, across]
            covered *= seen
            found[i] = covered.sum()
            seen -= covered
        return found

    def _crossings(
        self, rings: Array
    ) -> tuple[NDArray[np.int64], NDArray[np.int64], Array, NDArray[np.bool_]]:
        """Where edges cross the middles of rows: ring, row, place in cells, and whether the edge goes up."""
        count = rings.shape[1]
        x = ((rings[..., 0] - self.left) / self.wide).ravel()
        y = ((rings[..., 1] - self.bottom) / self.high - 0.5).ravel()
        following = np.arange(len(x)) + 1
        following[count - 1 :: count] -= count
        low, high = np.minimum(y, y[following]), np.maximum(y, y[following])
        first = np.clip(np.ceil(low), 0, self.rows).astype(np.int64)
        crossed = np.clip(np.ceil(high), 0, self.rows).astype(np.int64) - first
        edge = np.repeat(np.arange(len(x)), crossed)
        row = first[edge] + np.arange(len(edge)) - np.repeat(np.cumsum(crossed) - crossed, crossed)
        to = following[edge]
        rise = y[to] - y[edge]
        at: Array = x[edge] + (row - y[edge]) * (x[to] - x[edge]) / rise
        return edge // count, row, at, rise > 0
