"""Moving batter about without gaining or losing any of it.

Every movement is the flow of a stream function, which keeps areas. The stream function is
veiled: it fades to nothing towards the wall of the region and towards what stands in it, so
that no batter crosses either. The veil is a quadratic spline, whose slope is known exactly.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from saponary.draw.pour.seed import Array

CELL = 0.8
Velocity = Callable[[Array], Array]


class Field:
    """A smooth field over the drawing, given by its values on a grid."""

    def __init__(self, left: float, bottom: float, values: Array) -> None:
        self.left, self.bottom, self.values = left, bottom, values

    def at(self, points: Array) -> tuple[Array, Array, Array]:
        """The value at each point, and its slope in x and in y."""
        u, v = (points[:, 0] - self.left) / CELL, (points[:, 1] - self.bottom) / CELL
        last_row, last_column = self.values.shape[0] - 2, self.values.shape[1] - 2
        column = np.clip(np.rint(u).astype(np.int64), 1, last_column)
        row = np.clip(np.rint(v).astype(np.int64), 1, last_row)
        wu, du = _weights(np.clip(u - column, -0.5, 0.5))
        wv, dv = _weights(np.clip(v - row, -0.5, 0.5))
        value, slope_x, slope_y = np.zeros(len(points)), np.zeros(len(points)), np.zeros(len(points))
        for j in range(3):
            for i in range(3):
                corner = self.values[row + j - 1, column + i - 1]
                value += corner * wu[i] * wv[j]
                slope_x += corner * du[i] * wv[j]
                slope_y += corner * wu[i] * dv[j]
        return value, slope_x / CELL, slope_y / CELL


def _weights(t: Array) -> tuple[tuple[Array, Array, Array], tuple[Array, Array, Array]]:
    return (
        ((0.5 - t) ** 2 / 2, 0.75 - t**2, (0.5 + t) ** 2 / 2),
        (t - 0.5, -2 * t, t + 0.5),
    )


def grid(region: BaseGeometry) -> tuple[float, float, Array, tuple[int, int]]:
    """The grid over a region: its origin, its points and its shape."""
    left, bottom, right, top = (float(edge) for edge in region.bounds)
    left, bottom = left - 3 * CELL, bottom - 3 * CELL
    columns, rows = int((right - left) / CELL) + 5, int((top - bottom) / CELL) + 5
    across = left + CELL * np.arange(columns, dtype=np.float64)
    up = bottom + CELL * np.arange(rows, dtype=np.float64)
    points = np.column_stack([np.tile(across, rows), np.repeat(up, columns)])
    return left, bottom, points, (rows, columns)


def veil(region: BaseGeometry, obstacle: BaseGeometry, fade: float) -> Field:
    """One within the region, nought at its edge and in the obstacle, rising over `fade`."""
    left, bottom, points, shape = grid(region)
    free = region if obstacle.is_empty else region.difference(obstacle)
    shapely.prepare(free)
    within = shapely.contains_xy(free, points)
    depth = np.zeros(len(points))
    edge: BaseGeometry = free.boundary
    # The library's own types leave its keywords open.
    depth[within] = shapely.distance(shapely.points(points[within]), edge)  # pyright: ignore[reportUnknownMemberType]
    # The spline reaches a cell and a half, so it is nought at the edge only if the rim is.
    rise = np.clip((depth - 2.2 * CELL) / fade, 0, 1)
    return Field(left, bottom, (rise**2 * (3 - 2 * rise)).reshape(shape))


def carry(points: Array, velocity: Velocity) -> Array:
    """The points after one unit of time (classic fourth-order Runge-Kutta)."""
    a = velocity(points)
    b = velocity(points + a / 2)
    c = velocity(points + b / 2)
    d = velocity(points + c)
    moved: Array = points + (a + 2 * b + 2 * c + d) / 6
    return moved


class Threads:
    """Outlines on the move: all their points in one array, refined as they are drawn out."""

    def __init__(self, lines: Sequence[Array], closed: Sequence[bool], finest: float) -> None:
        self.points = np.concatenate(lines) if lines else np.zeros((0, 2))
        self.owner: NDArray[np.int64] = np.repeat(np.arange(len(lines)), [len(line) for line in lines])
        self.closed = np.asarray(closed, dtype=bool)
        self.count = len(lines)
        self.finest = finest
        while self._refine(curved=False):
            pass

    def move(self, velocity: Velocity, chosen: NDArray[np.bool_] | None = None) -> None:
        """Carry all the points, or only the chosen ones, which are all that move."""
        mask = np.ones(len(self.points), dtype=bool) if chosen is None else chosen
        if mask.any():
            self.points[mask] = carry(self.points[mask], velocity)

    def refine(self) -> None:
        if len(self.points):
            self._refine(curved=True)

    def lines(self) -> list[Array]:
        return [self.points[self.owner == i] for i in range(self.count)]

    def _refine(self, curved: bool) -> bool:
        """Halve every stretch that has grown too long, along its curve or straight; True if any was."""
        size = len(self.points)
        if not size:
            return False
        following = np.arange(1, size + 1)
        starts = np.searchsorted(self.owner, np.arange(self.count))
        ends = np.append(starts[1:], size) - 1
        following[ends] = starts
        stretch = self.points[following] - self.points
        long = np.hypot(stretch[:, 0], stretch[:, 1]) > self.finest
        long[ends[~self.closed]] = False
        at = np.flatnonzero(long)
        if not len(at):
            return False
        halfway = self.points[at] + stretch[at] / 2
        if curved:
            # The four-point rule: chords alone would make every round shape smaller.
            previous = np.arange(-1, size - 1)
            previous[starts] = ends
            before, after = self.points[previous[at]], self.points[following[following[at]]]
            halfway += (halfway - (before + after) / 2) / 8
        self.points = np.insert(self.points, at + 1, halfway, axis=0)
        self.owner = np.insert(self.owner, at + 1, self.owner[at])
        return True
