"""Plops: spoonfuls set down in turn, each pressing against those before it.

Every spoonful has a cell whose weight is its portion's; the weights are moved until each
portion shows its area; at last the whole is moved by faint eddies, so that no edge is
straight. What stands in the way is moved back by them before areas are counted.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from saponary.draw.pour.carried import Leg, Line
from saponary.draw.pour.chart import Chart, chart
from saponary.draw.pour.eddies import Eddies, eddies
from saponary.draw.pour.laying import Filling, Patch, patch
from saponary.draw.pour.mould import OUTSIDE, rings
from saponary.draw.pour.power_cells import PowerCells
from saponary.draw.pour.raster import Raster
from saponary.draw.pour.seed import Array, numbers
from saponary.draw.pour.spoons import Spoons
from saponary.draw.pour.weights import Guess, sloped, solved

MOST = 52
WITHIN = 0.0018
CELL_TURNS = 3
UNDER = 0.3
"""How far a spoonful runs on beneath those set down after it, in a spoonful's width: their corners are rounder."""
CELL = 1 / 20
"""A cell of the raster in which areas are counted, in a spoonful's width."""


def plops(filling: Filling) -> list[Patch]:
    if len(filling.loads) < 2:
        return [patch(filling.step, load.name, filling.above) for load in filling.loads]
    size = filling.across or math.sqrt(filling.area / 24)
    # A spoonful of the scarcest portion must not be dwarfed by its cell.
    size = min(size, math.sqrt(1.5 * min(filling.target(load) for load in filling.loads)))
    sites, spacing = _sites(filling, max(size, math.sqrt(filling.area / MOST)))
    owners = _owners(filling, sites)
    basin = filling.basin
    room = chart(basin.xs, basin.low, basin.high)
    maps = eddies(room, spacing, filling.words) if room is not None else []
    outlines, deep, together = _solved(filling, sites, owners, spacing, _free(filling, spacing, room, maps))
    legs = (Leg(room, tuple(maps)),) if room is not None else ()
    painted = [patch(filling.step, filling.loads[0].name, filling.above)]
    for group in together:
        lines = tuple(Line(_trimmed(filling, outlines[i]), deep=deep[i]) for i in group)
        painted.append(Patch(filling.step, filling.loads[int(owners[group[0]])].name, lines))
    return [replace(item, legs=legs) for item in painted]


def _box(filling: Filling) -> tuple[float, float, float, float]:
    basin = filling.basin
    thick = np.flatnonzero(basin.high - basin.low > 1e-3)
    first, last = int(thick[0]), int(thick[-1])
    here = slice(first, last + 1)
    low, high = float(basin.low[here].min()), float(basin.high[here].max())
    return float(basin.xs[first]), low, float(basin.xs[last]), high


def _sites(filling: Filling, size: float) -> tuple[Array, float]:
    """Where the spoonfuls go: staggered rows, each a little off its place."""
    left, bottom, right, top = _box(filling)
    spacing = size
    while True:
        rows = max(1, round((top - bottom) / (0.87 * spacing)))
        pitch = (top - bottom) / rows
        found: list[tuple[float, float]] = []
        for row in range(rows):
            columns = max(1, round((right - left) / spacing)) + row % 2
            step = (right - left) / columns
            for column in range(columns):
                draws = numbers(2, "site", str(row), str(column), *filling.words)
                x = left + step * (column + 0.5 + 0.42 * (draws[0] - 0.5))
                y = bottom + pitch * (row + 0.5 + 0.42 * (draws[1] - 0.5))
                found.append((x, y))
        sites = np.array(found)
        sites = sites[_clear(filling, sites, 0.12 * spacing)]
        if len(sites) >= 2 * len(filling.loads):
            return sites, spacing
        spacing *= 0.92


def _clear(filling: Filling, places: Array, margin: float) -> NDArray[np.bool_]:
    """Which places are so far from the walls."""
    basin, (left, _, right, _) = filling.basin, _box(filling)
    x, y = places[:, 0], places[:, 1]
    clear: NDArray[np.bool_] = (x > left + margin) & (x < right - margin)
    for aside in (-0.9, -0.6, 0.0, 0.6, 0.9):
        rise = margin * math.sqrt(1.0 - aside * aside)
        at = x + aside * margin
        clear &= y - rise > np.interp(at, basin.xs, basin.low)
        clear &= y + rise < np.interp(at, basin.xs, basin.high)
    return clear


def _owners(filling: Filling, sites: Array) -> NDArray[np.int64]:
    """Whose each spoonful is: in turn by what is owed, not beside its own kind if that can be helped."""
    shares = np.array([load.share for load in filling.loads])
    wanted = np.maximum(shares / shares.sum() * len(sites), 1.0)
    given = np.zeros(len(shares))
    near = np.exp(-((sites[:, None] - sites) ** 2).sum(axis=2) / (0.02 * filling.area))
    owned = np.zeros((len(sites), len(shares)))
    owners: list[int] = []
    for i in range(len(sites)):
        crowd = near[i, :i] @ owned[:i]
        owed = wanted * (i + 1) / len(sites) - given
        starved = [k for k in range(len(shares)) if given[k] == 0]
        pool = starved if len(starved) >= len(sites) - i else list(range(len(shares)))
        wish = (owed - 0.55 * crowd).tolist()
        best = max(pool, key=[(round(one, 9), -k) for k, one in enumerate(wish)].__getitem__)
        owners.append(best)
        owned[i, best] = 1.0
        given[best] += 1
    return np.array(owners, dtype=np.int64)


def _free(filling: Filling, spacing: float, room: Chart | None, maps: list[Eddies]) -> tuple[Raster, Array]:
    """The zone's own batter on a raster, as it is before the eddies."""
    basin = filling.basin
    raster = Raster(_box(filling), CELL * spacing)
    free = raster.between(basin.xs, basin.low, basin.high)
    if not filling.blocked.is_empty:
        lines = rings(filling.blocked)
        if room is not None:
            lines = [_before(line, room, maps) for line in lines]
        free *= 1.0 - raster.within(lines)
    return raster, free


def _before(line: Array, room: Chart, maps: list[Eddies]) -> Array:
    place = room.into(line)
    inside = (place[:, 1] > 0) & (place[:, 1] < room.height)
    there = place[inside]
    for one in reversed(maps):
        there = one.back(there)
    line = line.copy()
    line[inside] = room.out(there)
    return line


def _solved(
    filling: Filling, sites: Array, owners: NDArray[np.int64], spacing: float, seen: tuple[Raster, Array]
) -> tuple[Array, Array, list[list[int]]]:
    """The spoonfuls' outlines with weights that give every portion its area, how deep they lie, and which are painted at once."""
    targets = np.array([filling.target(load) for load in filling.loads])
    count = len(targets)
    near = ((sites[:, None, :] - sites[None, :, :]) ** 2).sum(axis=2) < (2.5 * spacing) ** 2
    cells = PowerCells(sites, near, _box(filling))
    made = Spoons(sites, near, 1.15 * spacing, UNDER * spacing)
    raster, free = seen
    # Areas of the raster are taken in proportion.
    scale = float(targets.sum()) / float(free.sum())
    longest = 0.35 * spacing**2

    def shown(weights: Array) -> Array:
        of = raster.shown(made.outlines(weights[owners]), free) * scale
        areas: Array = np.bincount(owners, of, count).astype(np.float64)
        areas[0] += targets.sum() - areas.sum()
        return areas

    weights = np.zeros(count)
    guess = sloped(weights, np.eye(count))
    for _ in range(CELL_TURNS):
        areas, slopes = cells.slopes(weights, owners)
        guess = sloped(weights, slopes)
        stride = guess.inverse @ (targets - areas * (targets.sum() / areas.sum()))
        most = float(np.max(np.abs(stride)))
        weights = weights + stride * min(1.0, longest / most if most else 1.0)
    best = solved(shown, targets, Guess(weights, guess.inverse), longest, WITHIN, 8)
    outlines = made.outlines(best.weights[owners])
    return outlines, made.deep(outlines), made.together(outlines, owners)


def _trimmed(filling: Filling, ring: Array) -> Array:
    """An outline that goes no farther beyond the walls than it must, and not below the zone's floor."""
    mould, basin = filling.mould, filling.basin
    x = np.clip(ring[:, 0], -OUTSIDE, mould.width + OUTSIDE)
    y = np.clip(ring[:, 1], -OUTSIDE, float(np.max(mould.top)) + OUTSIDE)
    floor = np.interp(x, basin.xs, basin.low)
    above = floor > np.interp(x, basin.xs, mould.floor) + 1e-6
    return np.column_stack([x, np.where(above, np.maximum(y, floor), y)])
