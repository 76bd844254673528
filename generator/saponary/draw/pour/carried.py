"""Outlines after maps that keep areas: sampled along their own lengths, more closely where they are drawn out.

The points are always those of the outline before the maps, carried through all of them at once, so that no
error adds up. All outlines of a drawing go through together.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from saponary.draw.pour.chart import Chart
from saponary.draw.pour.seed import Array

PACE = 1.6
"""An outline is first sampled this far apart, then split where it bends or is drawn out."""
SHORTEST = 0.35
BEND = 0.35
"""Length times turn of one stretch, before it is split."""
HIDDEN = 2.0
"""So much more, of how deep a stretch lies: a bow is an eighth of it high."""
NOWHERE = 0.4
"""What lies so deep shows nowhere."""
ROUNDS = 3
WALL = 1e-6
"""Nearer than this is the same place."""


class Map(Protocol):
    """Moves points of a chart, and keeps areas."""

    def carry(self, points: Array) -> Array: ...


@dataclass(frozen=True, eq=False)
class Leg:
    """Maps one after another in one chart. What lies outside the chart's region stays where it is."""

    room: Chart
    maps: tuple[Map, ...]

    def then(self, other: Leg) -> tuple[Leg, ...]:
        """Both, as one leg where they have one chart."""
        return (Leg(self.room, self.maps + other.maps),) if self.room.like(other.room) else (self, other)

    def within(self, points: Array) -> tuple[Array, NDArray[np.bool_]]:
        """Points in the chart, and which of them lie in the region."""
        room, place, x = self.room, self.room.into(points), points[:, 0]
        # A point on a wall lies outside, whatever its last bits.
        inside = (place[:, 1] > WALL) & (place[:, 1] < room.height - WALL) & (x > room.xs[0] + WALL)
        inside &= x < room.xs[-1] - WALL
        return place, inside

    def moved(self, points: Array) -> Array:
        place, moves = self.within(points)
        there, found = place[moves], points.copy()
        for one in self.maps:
            there = one.carry(there)
        found[moves] = self.room.out(there)
        return found


@dataclass(frozen=True)
class Line:
    """An outline, or an open line, and how deep each of its points lies beneath what is painted over it.

    What is hidden need not be drawn as exactly: half as far off as it is deep shows nowhere.
    """

    points: Array
    closed: bool = True
    deep: Array | None = None

    @property
    def depths(self) -> Array:
        """How deep each point lies; nought where nothing is said of it."""
        return np.zeros(len(self.points)) if self.deep is None else self.deep


def carried(lines: Sequence[Line], legs: Sequence[Leg]) -> list[Line]:
    """The lines after all legs, one after another."""
    found = list(lines)
    kept = [i for i, line in enumerate(lines) if len(line.points) > 1]
    if kept and legs:
        for i, line in zip(kept, _Lines([lines[i] for i in kept], legs).moved(), strict=True):
            found[i] = line
    return found


class _Lines:
    """Lines laid end to end, so that a place on any of them is one number; a step of one parts two lines."""

    def __init__(self, lines: Sequence[Line], legs: Sequence[Leg]) -> None:
        self.closed, self.legs = [line.closed for line in lines], legs
        self.points = np.concatenate([_round(line.points, line.closed) for line in lines])
        self.deep = np.concatenate([_round(line.depths, line.closed) for line in lines])
        lengths = np.array([len(line.points) + line.closed for line in lines])
        owner = np.repeat(np.arange(len(lines)), lengths)
        step = np.hypot(*np.diff(self.points, axis=0).T)
        step[owner[1:] != owner[:-1]] = 1.0
        self.run = np.concatenate([[0.0], np.cumsum(step)])
        ends = np.cumsum(lengths) - 1
        self.first, self.last = self.run[ends - lengths + 1], self.run[ends]

    def moved(self) -> list[Line]:
        at = self._paced()
        points = self._carried(at)
        give = self._give(at, points)
        for _ in range(ROUNDS):
            owner = np.searchsorted(self.first, at + WALL, side="right")
            parts = _parts(points, give, owner)
            if not np.any(parts > 1):
                break
            edge = np.repeat(np.arange(len(parts)), parts - 1)
            first = np.cumsum(parts - 1) - (parts - 1)
            number = np.arange(len(edge)) - first[edge] + 1
            new = at[edge] + (at[edge + 1] - at[edge]) * number / parts[edge]
            at = np.insert(at, edge + 1, new)
            points = np.insert(points, edge + 1, self._carried(new), axis=0)
            give = self._give(at, points)
        around = np.concatenate([[0.0], give, [0.0]])
        deep = np.minimum(around[1:], around[:-1])
        starts = np.searchsorted(at, self.first - WALL)
        ends = np.searchsorted(at, self.last + WALL, side="right") - np.array(self.closed)
        return [
            Line(points[start:end], closed, deep[start:end])
            for start, end, closed in zip(starts.tolist(), ends.tolist(), self.closed, strict=True)
        ]

    def _give(self, at: Array, points: Array) -> Array:
        """How deep each stretch lies: as much less as it is longer, for its area is what it was."""
        deep = np.interp(at, self.run, self.deep)
        grown = np.hypot(*np.diff(points, axis=0).T) / np.diff(at)
        found: Array = np.minimum(deep[1:], deep[:-1]) / np.maximum(grown, 1.0)
        return found

    def _paced(self) -> Array:
        """Places on the lines in even steps, and every point that stays where it is."""
        long = self.last - self.first
        parts = np.maximum(3, np.ceil(long / PACE - WALL)).astype(np.int64)
        ends = np.cumsum(parts + 1)
        line = np.repeat(np.arange(len(parts)), parts + 1)
        number = np.arange(len(line)) - (ends - parts - 1)[line]
        paced = self.first[line] + long[line] * number / parts[line]
        moves = np.zeros(len(self.run), dtype=bool)
        for leg in self.legs:
            moves |= leg.within(self.points)[1]
        at = np.unique(np.concatenate([paced, self.run[~moves]]))
        # Places that differ in their last bits are one.
        found: Array = at[np.diff(at, prepend=-1.0) > WALL]
        return found

    def _carried(self, at: Array) -> Array:
        x: Array = np.interp(at, self.run, self.points[:, 0])
        y: Array = np.interp(at, self.run, self.points[:, 1])
        points: Array = np.column_stack([x, y])
        for leg in self.legs:
            points = leg.moved(points)
        return points


def _round(values: Array, closed: bool) -> Array:
    return np.concatenate([values, values[:1]]) if closed else values


def _parts(points: Array, give: Array, owner: NDArray[np.int64]) -> NDArray[np.int64]:
    """Into how many each stretch is split, by its length, by how the line turns at its ends, and by what it may give."""
    step = np.diff(points[:, 0] + 1j * points[:, 1])
    own = owner[1:] == owner[:-1]
    length, turning = np.abs(step), step[1:] * step[:-1].conj()
    turn = np.abs(np.arctan2(turning.imag, turning.real))
    turn[~(own[1:] & own[:-1])] = 0.0
    bend = np.maximum(np.concatenate([[0.0], turn]), np.concatenate([turn, [0.0]]))
    wanted = np.sqrt(length * np.minimum(bend, 1.5) / (BEND + HIDDEN * give))
    parts: NDArray[np.int64] = np.clip(np.ceil(np.minimum(wanted, length / SHORTEST)), 1, 12).astype(np.int64)
    parts[~own] = 1
    return parts
