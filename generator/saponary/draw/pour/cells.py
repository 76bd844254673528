"""Cutting a region into cells of given areas, in rows from the bottom and from the left."""

from __future__ import annotations

import math
from collections.abc import Sequence

from shapely.geometry import Polygon, box
from shapely.geometry.base import BaseGeometry

from saponary.draw.pour.mould import parts
from saponary.quantity.roots import rising_root

FAR = 1000.0


def split(region: BaseGeometry, areas: Sequence[float], blocked: BaseGeometry) -> list[Polygon]:
    """One cell for each area, taken in proportion and counted without what is blocked.

    Cells are as square as rows allow.
    """
    scale = free(region, blocked) / sum(areas)
    cells: list[Polygon] = []
    rest, start = region, 0
    for length in _rows(region, len(areas)):
        mine = [area * scale for area in areas[start : start + length]]
        start += length
        row, rest = (rest, rest) if start == len(areas) else _cut(rest, sum(mine), blocked, upward=True)
        for i, area in enumerate(mine):
            cell, row = (row, row) if i == len(mine) - 1 else _cut(row, area, blocked, upward=False)
            cells.append(max(parts(cell), key=lambda part: part.area))
    return cells


def _rows(region: BaseGeometry, count: int) -> list[int]:
    """How many cells each row gets."""
    left, bottom, right, top = region.bounds
    width, height = max(right - left, 1e-6), max(top - bottom, 1e-6)

    def oddness(rows: int) -> float:
        return abs(math.log((height / rows) / (width * rows / count)))

    rows = min(range(1, count + 1), key=oddness)
    more = count % rows
    return [count // rows + (more * (row + 1)) // rows - (more * row) // rows for row in range(rows)]


def free(shape: BaseGeometry, blocked: BaseGeometry) -> float:
    """The area of a shape less what is blocked of it."""
    return float(shape.area - (0.0 if blocked.is_empty else shape.intersection(blocked).area))


def _cut(
    region: BaseGeometry, area: float, blocked: BaseGeometry, *, upward: bool
) -> tuple[BaseGeometry, BaseGeometry]:
    left, bottom, right, top = region.bounds

    def first(level: float) -> BaseGeometry:
        return box(-FAR, -FAR, FAR, level) if upward else box(-FAR, -FAR, level, FAR)

    low, high = (bottom, top) if upward else (left, right)
    level = rising_root(lambda at: free(region.intersection(first(at)), blocked), low, high, area, near=1e-3)
    return region.intersection(first(level)), region.difference(first(level))
