"""Embeds: ready shapes set into the batter, at the height they are set in.

An embed takes room in the mould: the portions are solved for what shows around it, so their
visible areas keep the ratio of their volumes.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from saponary.draw.pour.mould import Mould
from saponary.draw.pour.seed import Array, numbers
from saponary.schema.pour import Embeds

MARGIN = 2.0
MOST_OF_FACE = 0.45


@dataclass(frozen=True)
class Embed:
    """One embed in its place."""

    step: int
    id: str
    shape: Polygon


def shape(kind: str, across: float) -> Polygon:
    """The outline of an embed about the origin, `across` wide."""
    half = across / 2
    if kind == "square":
        return Polygon([(-half, -half), (half, -half), (half, half), (-half, half)])
    if kind == "diamond":
        return Polygon([(0, -half), (half, 0), (0, half), (-half, 0)])
    if kind == "half-round":
        arc = np.linspace(0, math.pi, 33)
        return Polygon([(half * math.cos(a), half * math.sin(a) - half / 2) for a in arc])
    if kind == "star":
        points: list[tuple[float, float]] = []
        for i in range(10):
            reach = half if i % 2 == 0 else 0.44 * half
            angle = math.pi / 2 + i * math.pi / 5
            points.append((reach * math.cos(angle), reach * math.sin(angle)))
        return Polygon(points)
    return Polygon([(half * math.cos(a), half * math.sin(a)) for a in np.linspace(0, math.tau, 65)[:-1]])


def place(
    mould: Mould, step: int, embeds: Embeds, level: float, taken: list[Embed], title: str
) -> list[Embed]:
    """The embeds in rows about `level`, clear of the wall and of each other.

    They have their true size where that fits; a size that cannot fit is drawn smaller.
    """
    inner = mould.outline.buffer(-MARGIN)
    shapely.prepare(inner)
    others = shapely.union_all([embed.shape.buffer(MARGIN) for embed in taken])
    draws = np.array(numbers(3 * embeds.count, "embeds", title, embeds.of, str(step))) - 0.5
    across = min(embeds.across.millimetres * mould.scale, 0.9 * min(mould.width, mould.height))
    while across > 0.5:
        outline = shape(embeds.shape, across)
        if outline.area * embeds.count <= MOST_OF_FACE * mould.outline.area:
            for lift in _lifts(mould.height):
                placed = _rows(mould, outline, across, level + lift, draws.reshape(-1, 3))
                if placed and shapely.contains(inner, placed).all() and _apart(placed, others):
                    return [Embed(step, embeds.of, item) for item in placed]
        across *= 0.9
    return []


def _apart(placed: list[Polygon], others: BaseGeometry) -> bool:
    """Whether the embeds are clear of the others and of each other."""
    together = shapely.union_all(shapely.buffer(placed, 0.2))
    return not together.intersects(others) and len(getattr(together, "geoms", [together])) == len(placed)


def _lifts(height: float) -> list[float]:
    """How far to try above and below, the nearest first."""
    steps = [height * 0.04 * i for i in range(1, 13)]
    return [0.0] + [lift for step in steps for lift in (-step, step)]


def _rows(mould: Mould, outline: Polygon, across: float, level: float, draws: Array) -> list[Polygon]:
    """Rows of embeds about a level, a little out of line; none where they are too wide or too high."""
    count = len(draws)
    left, right = _room(mould, level, across)
    in_row = int((right - left - MARGIN) / (across + MARGIN))
    if in_row < 1:
        return []
    rows = math.ceil(count / in_row)
    pitch_up = across + 1.5 * MARGIN
    if rows * pitch_up > mould.height + MARGIN:
        return []
    places: list[tuple[float, float]] = []
    for row in range(rows):
        mine = count // rows + (1 if row < count % rows else 0)
        y = level + (row - (rows - 1) / 2) * pitch_up
        left, right = _room(mould, y, across)
        pitch = (right - left) / mine
        slack = max(0.0, min(pitch - across - MARGIN, 5.0))
        for i in range(mine):
            aside, rise, _ = draws[len(places)].tolist()
            places.append((left + pitch * (i + 0.5) + slack * 0.5 * aside, y + min(slack, 3.0) * 0.5 * rise))
    angles = np.radians(14 * draws[:, 2])[:, None]
    ring = np.asarray(outline.exterior.coords)
    xs = ring[:, 0] * np.cos(angles) - ring[:, 1] * np.sin(angles)
    ys = ring[:, 0] * np.sin(angles) + ring[:, 1] * np.cos(angles)
    rings = np.stack([xs, ys], axis=2) + np.array(places)[:, None, :]
    return [Polygon(ring) for ring in rings]


def _room(mould: Mould, level: float, across: float) -> tuple[float, float]:
    """From where to where the mould is open over the height of an embed."""
    low, high = level - across / 2, level + across / 2
    open_at = mould.xs[(mould.floor <= max(low, 0.3)) & (mould.top >= min(high, mould.height - 0.3))]
    if len(open_at) < 2:
        return mould.width / 2, mould.width / 2
    return float(open_at[0]), float(open_at[-1])
