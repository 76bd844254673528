"""Plops: spoonfuls set down in turn, each pressing against those before it.

Every spoonful has a cell whose weight is its portion's; the weights are moved until each
portion shows its area; at last the whole is moved by a faint stream, so that no edge is
straight.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Point, Polygon

from saponary.draw.pour.carried import carried
from saponary.draw.pour.chart import chart
from saponary.draw.pour.eddies import eddies
from saponary.draw.pour.flow import Field, Threads, grid, veil
from saponary.draw.pour.laying import Filling, Patch, patch
from saponary.draw.pour.power_cells import PowerCells
from saponary.draw.pour.seed import Array, numbers
from saponary.draw.pour.spoons import spoons
from saponary.draw.pour.weights import Guess, sloped, solved

MOST = 52
WITHIN = 0.0015


def plops(filling: Filling) -> list[Patch]:
    if len(filling.loads) < 2:
        return [patch(filling.step, load.name, filling.above) for load in filling.loads]
    size = filling.across or math.sqrt(filling.zone.area / 24)
    # A spoonful of the scarcest portion must not be dwarfed by its cell.
    size = min(size, math.sqrt(1.5 * min(filling.target(load) for load in filling.loads)))
    sites, spacing = _sites(filling, max(size, math.sqrt(filling.zone.area / MOST)))
    owners = _owners(filling, sites)
    shapes = _solved(filling, sites, owners, spacing)
    painted = [patch(filling.step, filling.loads[0].name, filling.above)]
    for owner, spoon in zip(owners, shapes, strict=True):
        name = filling.loads[int(owner)].name
        painted.append(patch(filling.step, name, spoon.intersection(filling.above)))
    return _wavering(filling, painted, spacing)


def _sites(filling: Filling, size: float) -> tuple[Array, float]:
    """Where the spoonfuls go: staggered rows, each a little off its place."""
    left, bottom, right, top = filling.zone.bounds
    spacing = size
    while True:
        rows = max(1, round((top - bottom) / (0.87 * spacing)))
        pitch = (top - bottom) / rows
        inner = filling.zone.buffer(-0.12 * spacing)
        found: list[tuple[float, float]] = []
        for row in range(rows):
            columns = max(1, round((right - left) / spacing)) + row % 2
            step = (right - left) / columns
            for column in range(columns):
                draws = numbers(2, "site", str(row), str(column), *filling.words)
                x = left + step * (column + 0.5 + 0.42 * (draws[0] - 0.5))
                y = bottom + pitch * (row + 0.5 + 0.42 * (draws[1] - 0.5))
                if inner.contains(Point(x, y)):
                    found.append((x, y))
        if len(found) >= 2 * len(filling.loads):
            return np.array(found), spacing
        spacing *= 0.92


def _owners(filling: Filling, sites: Array) -> NDArray[np.int64]:
    """Whose each spoonful is: in turn by what is owed, not beside its own kind if that can be helped."""
    shares = np.array([load.share for load in filling.loads])
    wanted = np.maximum(shares / shares.sum() * len(sites), 1.0)
    given = np.zeros(len(shares))
    owners: list[int] = []
    for i, site in enumerate(sites):
        near = np.exp(-(((sites[:i] - site) ** 2).sum(axis=1)) / (0.02 * filling.zone.area))
        crowd = np.zeros(len(shares))
        np.add.at(crowd, owners, near)
        owed = wanted * (i + 1) / len(sites) - given
        starved = [k for k in range(len(shares)) if given[k] == 0]
        pool = starved if len(starved) >= len(sites) - i else list(range(len(shares)))
        best = max(pool, key=lambda k: (round(float(owed[k] - 0.55 * crowd[k]), 9), -k))
        owners.append(best)
        given[best] += 1
    return np.array(owners)


def _solved(filling: Filling, sites: Array, owners: NDArray[np.int64], spacing: float) -> list[Polygon]:
    """The spoonfuls with weights that give every portion its area."""
    targets = np.array([filling.target(load) for load in filling.loads])
    counts = np.bincount(owners, minlength=len(targets))
    near = ((sites[:, None, :] - sites[None, :, :]) ** 2).sum(axis=2) < (2.5 * spacing) ** 2
    cells = PowerCells(sites, near, filling.zone.bounds)
    shapes: list[Polygon] = []

    def in_cells(weights: Array) -> Array:
        whole = cells.areas(weights[owners])
        areas = np.array([whole[owners == owner].sum() for owner in range(len(targets))])
        areas *= targets.sum() / areas.sum()
        return areas

    def in_spoonfuls(weights: Array) -> Array:
        shapes[:] = spoons(sites, weights[owners], near, 1.15 * spacing)
        return _seen(filling, shapes, near, owners)

    begin = Guess(np.zeros(len(targets)), np.diag(0.45 / counts))
    guess = sloped(in_cells, solved(in_cells, targets, begin, 0.35 * spacing**2, WITHIN, 24))
    best = solved(in_spoonfuls, targets, guess, 0.35 * spacing**2, WITHIN, 7)
    return shapes if best.latest else spoons(sites, best.weights[owners], near, 1.15 * spacing)


def _seen(
    filling: Filling, shapes: Sequence[Polygon], near: NDArray[np.bool_], owners: NDArray[np.int64]
) -> Array:
    """The free area that shows of each portion; the gaps are the first portion's."""
    areas = np.zeros(len(filling.loads))
    left, bottom, right, top = np.array([spoon.bounds for spoon in shapes], dtype=np.float64).T
    for i, spoon in enumerate(shapes):
        meet = near[i] & (left < right[i]) & (right > left[i]) & (bottom < top[i]) & (top > bottom[i])
        later = [shapes[j] for j in np.flatnonzero(meet).tolist() if j > i]
        shown = spoon.difference(shapely.union_all(later)) if later else spoon
        areas[owners[i]] += filling.free(shown)
    areas[0] += filling.free(filling.zone) - areas.sum()
    return areas


def _wavering(filling: Filling, painted: list[Patch], spacing: float) -> list[Patch]:
    """The patches moved by a faint stream of eddies about as wide as a spoonful."""
    basin = filling.basin
    room = chart(basin.xs, basin.low, basin.high) if filling.blocked.is_empty else None
    rings = [ring for item in painted for ring in item.rings]
    if room is not None:
        moved = iter(carried(rings, [True] * len(rings), room, eddies(room, spacing, filling.words)))
    else:
        moved = iter(_streamed(filling, rings, spacing))
    return [Patch(item.step, item.name, tuple(next(moved) for _ in item.rings)) for item in painted]


def _streamed(filling: Filling, rings: list[Array], spacing: float) -> list[Array]:
    """The same about what stands in the way: a stream that goes round it."""
    left, bottom, across, up = grid(filling.basin)
    draws = numbers(24, "eddies", *filling.words)
    stream = np.zeros((len(up), len(across)))
    for k in range(8):
        angle, phase, length = (
            math.tau * draws[3 * k],
            math.tau * draws[3 * k + 1],
            0.7 + 0.5 * draws[3 * k + 2],
        )
        place = across[None, :] * math.cos(angle) + up[:, None] * math.sin(angle)
        stream += np.sin(math.tau * place / (length * spacing) + phase)
    screen = veil(filling.basin, filling.blocked, 0.25 * spacing)
    stream *= 0.0042 * spacing**2 * screen.values
    field = Field(left, bottom, stream)
    threads = Threads(rings, [True] * len(rings), 1.2)

    def velocity(at: Array) -> Array:
        _, slope_x, slope_y = field.at(at[:, 0], at[:, 1])
        return np.column_stack([slope_y, -slope_x]) / 3

    for _ in range(3):
        threads.move(velocity)
    return threads.lines()
