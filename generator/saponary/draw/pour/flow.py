"""Moving batter about without gaining or losing any of it.

Every movement is the flow of a stream function, which keeps areas. The stream function is
veiled: it fades to nothing towards the wall of the region and towards what stands in it, so
that no batter crosses either. The veil is a quadratic spline, whose slope is known exactly.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from saponary.draw.pour.carried import NOWHERE, Line
from saponary.draw.pour.mould import parts
from saponary.draw.pour.seed import Array
from saponary.draw.pour.smooth import Plane, off_chord

CELL = 0.8
STEADY = 1e-7
"""Lengths that differ by less are alike, so that last bits part no stretch."""
LONGEST = 1.0
BEND = 0.25
SHORTEST, TURNED = 0.4, 1.3
"""A stretch of an outline is halved when it grows longer, or when it bends so much over so much of its length."""
COARSER = 2.5
"""What lies hidden may be so much coarser."""


class Field:
    """A smooth field over the drawing, given by its values on a grid: a quadratic spline, a polynomial on each cell."""

    def __init__(self, left: float, bottom: float, values: Array) -> None:
        self.left, self.bottom, self.values = left, bottom, values
        thrice = np.minimum(np.minimum(values[:-2], values[1:-1]), values[2:])
        self._least: Array = np.ones_like(values)
        self._least[1:-1, 1:-1] = np.minimum(np.minimum(thrice[:, :-2], thrice[:, 1:-1]), thrice[:, 2:])
        rows, columns = values.shape
        powers = np.zeros((9, rows, columns))
        for i, across in enumerate(_powers(values[:, :-2], values[:, 1:-1], values[:, 2:])):
            for j, up in enumerate(_powers(across[:-2], across[1:-1], across[2:])):
                powers[3 * j + i, 1:-1, 1:-1] = up
        self._powers: Array = powers.reshape(9, -1)

    def at(self, x: Array, y: Array) -> tuple[Array, Array, Array]:
        """The value at each place, and its slope in x and in y."""
        u, v = (x - self.left) / CELL, (y - self.bottom) / CELL
        rows, columns = self.values.shape
        column = np.minimum(np.maximum(np.rint(u), 1), columns - 2)
        row = np.minimum(np.maximum(np.rint(v), 1), rows - 2)
        middle = (row * columns + column).astype(np.int64)
        # Where it is one all about a place, nothing has to be computed.
        held = np.flatnonzero(self._least.ravel()[middle] < 1.0)
        value, slope_x, slope_y = np.ones_like(x), np.zeros_like(x), np.zeros_like(x)
        if len(held):
            across, up = u[held] - column[held], v[held] - row[held]
            at = middle[held]
            c: list[Array] = [power[at] for power in self._powers]
            low, mid, high = [c[j] + across * (c[j + 1] + across * c[j + 2]) for j in (0, 3, 6)]
            value[held] = low + up * (mid + up * high)
            slope_y[held] = (mid + 2.0 * up * high) / CELL
            low, mid, high = [c[j + 1] + 2.0 * across * c[j + 2] for j in (0, 3, 6)]
            slope_x[held] = (low + up * (mid + up * high)) / CELL
        return value, slope_x, slope_y

    def within(
        self, left: float, bottom: float, right: float, top: float
    ) -> Callable[[Array, Array], tuple[Array, Array, Array]] | None:
        """The field in a box; None where it is one all over it."""
        return None if self._is_one(left, bottom, right, top) else self.at

    def _is_one(self, left: float, bottom: float, right: float, top: float) -> bool:
        """Whether it is one all over a box, and about it as far as a value reaches."""
        first, last = int((left - self.left) / CELL) - 2, int((right - self.left) / CELL) + 4
        low, high = int((bottom - self.bottom) / CELL) - 2, int((top - self.bottom) / CELL) + 4
        rows, columns = self.values.shape
        if first < 0 or low < 0 or last > columns or high > rows:
            return False
        return float(self.values[low:high, first:last].min()) >= 1.0


def _powers(before: Array, here: Array, after: Array) -> tuple[Array, Array, Array]:
    """What a quadratic spline over three values is from the middle one, in powers of the way to the next."""
    both = before + after
    return (both + 6.0 * here) / 8.0, (after - before) / 2.0, both / 2.0 - here


@dataclass(frozen=True)
class Basin:
    """A region between two profiles over `xs`."""

    xs: Array
    low: Array
    high: Array

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """The box about it: left, bottom, right, top."""
        thick = np.flatnonzero(self.high - self.low > STEADY)
        here = slice(max(int(thick[0]) - 1, 0), int(thick[-1]) + 2)
        xs, low, high = self.xs[here], self.low[here], self.high[here]
        return float(xs[0]), float(low.min()), float(xs[-1]), float(high.max())

    def depth(self, x: Array, y: Array) -> Array:
        """How far within the region each crossing of columns `x` and rows `y` lies, rows first; below
        nought outside. Off a profile it is the distance to its tangent there.
        """
        depth = np.minimum(self._below(x, y, self.low), -self._below(x, y, self.high))
        thick = np.flatnonzero(self.high - self.low > 0.3)
        left, right = (self.xs[thick[0]], self.xs[thick[-1]]) if len(thick) else (0.0, 0.0)
        sides: Array = np.minimum(x - left, right - x)
        within: Array = np.minimum(depth, sides[None, :])
        return within

    def _below(self, x: Array, y: Array, line: Array) -> Array:
        slope = np.interp(x, self.xs, np.gradient(line, self.xs))
        above: Array = (y[:, None] - np.interp(x, self.xs, line)[None, :]) / np.sqrt(1 + slope * slope)
        return above


def grid(region: Basin) -> tuple[float, float, Array, Array]:
    """The grid over a region: its origin, its columns and its rows."""
    left, bottom = float(region.xs[0]) - 3 * CELL, float(np.min(region.low)) - 3 * CELL
    columns = int((float(region.xs[-1]) - left) / CELL) + 5
    rows = int((float(np.max(region.high)) - bottom) / CELL) + 5
    across = left + CELL * np.arange(columns, dtype=np.float64)
    return left, bottom, across, bottom + CELL * np.arange(rows, dtype=np.float64)


def veil(region: Basin, obstacle: BaseGeometry, fade: float) -> Field:
    """One within the region, nought at its edge and in the obstacle, rising over `fade`."""
    left, bottom, across, up = grid(region)
    depth = region.depth(across, up)
    if not obstacle.is_empty:
        _round(obstacle, across, up, fade + 3 * CELL, depth)
    # The spline reaches a cell and a half, so it is nought at the edge only if the rim is.
    rise = np.clip((depth - 2.2 * CELL) / fade, 0, 1)
    return Field(left, bottom, rise**2 * (3 - 2 * rise))


def _round(obstacle: BaseGeometry, across: Array, up: Array, reach: float, depth: Array) -> None:
    """No deeper than the distance to each part of the obstacle, as far as it reaches."""
    for part in parts(obstacle):
        left, bottom, right, top = part.bounds
        columns = slice(*np.searchsorted(across, [left - reach, right + reach]).tolist())
        rows = slice(*np.searchsorted(up, [bottom - reach, top + reach]).tolist())
        near = depth[rows, columns]
        places = shapely.points(np.tile(across[columns], near.shape[0]), np.repeat(up[rows], near.shape[1]))
        shapely.prepare(part)
        # The library's own types leave its keywords open.
        away = shapely.distance(places, part)  # pyright: ignore[reportUnknownMemberType]
        depth[rows, columns] = np.minimum(near, away.reshape(near.shape))


def carry_plane(points: Plane, velocity: Callable[[Plane], Plane]) -> Plane:
    """The points after one unit of time (the classical Runge-Kutta method, of the fourth order)."""
    first = velocity(points)
    second = velocity(points + first * 0.5)
    third = velocity(points + second * 0.5)
    second += third
    second *= 2.0
    first += second
    third += points
    first += velocity(third)
    first *= 1.0 / 6.0
    first += points
    return first


class Threads:
    """Outlines on the move: all their points in one array, refined where they are drawn out and bent."""

    def __init__(self, lines: Sequence[Line]) -> None:
        self._lines = lines
        sizes = [len(line.points) for line in lines]
        self.points = np.concatenate([line.points for line in lines]) if lines else np.zeros((0, 2))
        self._owner: NDArray[np.int64] = np.repeat(np.arange(len(lines)), sizes)
        self._hidden: NDArray[np.bool_] = (
            np.concatenate([line.depths for line in lines]) if lines else np.zeros(0)
        ) > NOWHERE
        self._closed = np.array([line.closed for line in lines], dtype=bool)
        self._link()
        self._moved = np.ones(len(self.points), dtype=bool)
        while len(self.points) and self._refine(bent=False):
            pass
        self._moved[:] = False

    @property
    def plane(self) -> Plane:
        """The points as complex numbers, in the same memory."""
        found: Plane = self.points.view(np.complex128)[:, 0]
        return found

    def move(self, at: NDArray[np.int64], to: Plane) -> None:
        """Points come to lie elsewhere."""
        self.plane[at] = to
        self._moved[at] = True

    def refine(self) -> None:
        """Halve what has moved and is now too long for its bends."""
        if self._moved.any():
            self._refine(bent=True)
            self._moved[:] = False

    def lines(self) -> list[Line]:
        starts = np.searchsorted(self._owner, np.arange(len(self._lines) + 1)).tolist()
        deep = np.where(self._hidden, 2.0 * NOWHERE, 0.0)
        return [
            Line(self.points[start:end], line.closed, deep[start:end])
            for line, start, end in zip(self._lines, starts, starts[1:], strict=False)
        ]

    def _link(self) -> None:
        """Which point comes after each, and which before; at the ends of an open line it is the point itself."""
        size = len(self.points)
        self.points = np.ascontiguousarray(self.points)
        if not size:
            return
        self._following = np.arange(1, size + 1)
        starts = np.searchsorted(self._owner, np.arange(len(self._lines)))
        ends = np.append(starts[1:], size) - 1
        self._following[ends] = np.where(self._closed, starts, ends)
        self._previous = np.arange(-1, size - 1)
        self._previous[starts] = np.where(self._closed, ends, starts)

    def _refine(self, bent: bool) -> bool:
        """Halve every stretch that has grown too long, along its curve or straight; True if any was."""
        plane, following = self.plane, self._following
        at = np.flatnonzero(self._moved | self._moved[following])
        there = following[at]
        before, chord = plane[at] - plane[self._previous[at]], plane[there] - plane[at]
        after = plane[following[there]] - plane[there]
        length, coarse = np.abs(chord), np.where(self._hidden[at] & self._hidden[there], COARSER, 1.0)
        long = length > coarse * (LONGEST + STEADY)
        if bent:
            bow = np.maximum(_bow(before, chord), _bow(chord, after))
            long |= (length > SHORTEST) & (bow > BEND * coarse)
        at = at[long]
        if not len(at):
            return False
        before, chord, after, length = before[long], chord[long], after[long], length[long]
        halfway = plane[at] + chord / 2
        if bent:
            # Chords alone would make every round shape smaller.
            halfway += (off_chord(before, chord, length) - off_chord(after, chord, length)) / 8
        twice = np.ones(len(plane), dtype=np.int64)
        twice[at] = 2
        source, new = np.repeat(np.arange(len(plane)), twice), at + 1 + np.arange(len(at))
        hidden = self._hidden[at] & self._hidden[following[at]]
        points = plane[source]
        points[new] = halfway
        self.points = points.view(np.float64).reshape(-1, 2)
        self._owner, self._hidden, self._moved = (
            self._owner[source],
            self._hidden[source],
            self._moved[source],
        )
        self._hidden[new], self._moved[new] = hidden, True
        self._link()
        return True


def _bow(here: Plane, there: Plane) -> Array:
    """The length of the shorter of two stretches, times about how far they turn."""
    turned = here.conj() * there
    shorter = np.minimum(np.abs(here), np.abs(there))
    return np.where(
        turned.real > 0.0,
        np.abs(turned.imag) * shorter / np.maximum(np.abs(turned), STEADY),
        TURNED * shorter,
    )
