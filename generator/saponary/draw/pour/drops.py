"""Drops: batter poured into the middle of other batter, ring within ring.

The first ring is poured into the middle of the host, each next one into the middle of the
former, so the last poured is innermost. A drop spreads as a circle until it nears the edge
of its cell and then takes the cell's shape, so any share of the zone can be drawn.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from saponary.draw.pour.carried import Line
from saponary.draw.pour.cells import free, split
from saponary.draw.pour.laying import Patch
from saponary.draw.pour.plan import Insert
from saponary.draw.pour.seed import Array, ripple
from saponary.quantity.roots import rising_root

ANGLES = np.linspace(0.0, math.tau, 97)[:-1]


@dataclass(frozen=True)
class Dropped:
    """The painted rings, and the outer outlines that the host batter goes round."""

    patches: tuple[Patch, ...]
    outlines: tuple[tuple[int, Polygon], ...]  # with the step they were poured at


def drop(
    zone: BaseGeometry,
    inserts: Sequence[Insert],
    free_area: float,
    blocked: BaseGeometry,
    words: tuple[str, ...],
) -> Dropped:
    """Rings for every insert of a zone; each place gets a cell in proportion to its batter."""
    places = _in_turn(inserts)
    cells = split(zone, [insert.share / insert.count for insert in places], blocked)
    patches: list[Patch] = []
    outlines: list[tuple[int, Polygon]] = []
    for i, (insert, cell) in enumerate(zip(places, cells, strict=True)):
        rings = _rings(cell, insert, free_area, blocked, (*words, str(i)))
        outlines.append((insert.step, Polygon(rings[0])))
        patches.extend(
            Patch(insert.step, load.name, (Line(ring),))
            for load, ring in zip(insert.rings, rings, strict=True)
        )
    return Dropped(tuple(patches), tuple(outlines))


def _in_turn(inserts: Sequence[Insert]) -> list[Insert]:
    """One entry a place, the inserts mixed as evenly as their counts allow."""
    queue = [((i + 0.5) / insert.count, n) for n, insert in enumerate(inserts) for i in range(insert.count)]
    return [inserts[n] for _, n in sorted(queue)]


def _rings(
    cell: Polygon, insert: Insert, free_area: float, blocked: BaseGeometry, words: tuple[str, ...]
) -> list[Array]:
    """The outlines from the outermost to the innermost, about one middle."""
    middle = cell.representative_point() if not cell.contains(cell.centroid) else cell.centroid
    walls = _walls(cell, middle.x, middle.y)
    shared = ripple(ANGLES, *words)
    places = range(len(insert.rings))
    areas = [free_area / insert.count * sum(ring.share for ring in insert.rings[i:]) for i in places]
    size, room = math.sqrt(cell.area), max(free(cell, blocked), 1e-6)
    outlines: list[Array] = []
    radii = np.full_like(walls, np.inf)
    for i, area in enumerate(areas):
        gap = math.sqrt(areas[i - 1] / math.pi) - math.sqrt(area / math.pi) if i else size
        own = min(0.03, 0.25 * gap / math.sqrt(area / math.pi)) * ripple(ANGLES, *words, str(i))
        waver = 1 + 0.045 * shared + own
        full = min(1.0, max(0.965, math.sqrt(area / room) * 1.004))
        spread = _Spread((middle.x, middle.y), waver, full * walls, radii, blocked)
        radii = spread.radii(rising_root(spread.area, 1e-3, 6 * size, area, near=1e-3))
        outlines.append(_outline(radii, middle.x, middle.y))
    return outlines


@dataclass(frozen=True)
class _Spread:
    """One drop as it spreads: a wavering circle, held in by the walls and by the ring around it."""

    middle: tuple[float, float]
    waver: Array
    walls: Array
    ring: Array
    blocked: BaseGeometry

    def radii(self, size: float) -> Array:
        free: Array = ((size * self.waver) ** -7.0 + self.walls**-7.0) ** (-1 / 7.0)
        return np.minimum(free, self.ring)

    def area(self, size: float) -> float:
        """What is free in it, in the round as it is drawn: a sum over even angles is exact for a smooth outline."""
        radii = self.radii(size)
        whole = math.pi * float((radii * radii).mean())
        if self.blocked.is_empty:
            return whole
        return whole - float(self.blocked.intersection(Polygon(_outline(radii, *self.middle))).area)


def _outline(radii: Array, x: float, y: float) -> Array:
    return np.column_stack([x + radii * np.cos(ANGLES), y + radii * np.sin(ANGLES)])


def _walls(cell: Polygon, x: float, y: float) -> Array:
    """How far the cell reaches from its middle at each angle."""
    ring = np.asarray(cell.exterior.coords) - [x, y]
    start, along = ring[:-1], np.diff(ring, axis=0)
    dx, dy = np.cos(ANGLES)[:, None], np.sin(ANGLES)[:, None]
    cross = dx * along[None, :, 1] - dy * along[None, :, 0]
    with np.errstate(divide="ignore", invalid="ignore"):
        away = (start[None, :, 0] * along[None, :, 1] - start[None, :, 1] * along[None, :, 0]) / cross
        part = (start[None, :, 0] * dy - start[None, :, 1] * dx) / cross
    hit = (np.abs(cross) > 1e-12) & (away > 0) & (part >= -1e-9) & (part <= 1 + 1e-9)
    reached: Array = np.where(hit, away, np.inf).min(axis=1)
    return reached
