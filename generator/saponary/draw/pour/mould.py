"""The mould as it is looked at: a floor and a top over the width, and surfaces between them.

Lengths are hundredths of the face's longer side, so that every drawing has the same grain;
y grows upward. The area under a textured top is that of the flat one.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from saponary.draw.pour.scene import Face
from saponary.draw.pour.sections import Sections
from saponary.draw.pour.seed import Array, numbers, wave
from saponary.draw.pour.sums import area_under
from saponary.quantity.roots import rising_root

STEP = 0.7
EMPTY = Polygon()
OUTSIDE = 0.8
"""Outlines go so far beyond the mould's walls."""


@dataclass(frozen=True)
class Mould:
    """The mould's outline as two profiles over common places `xs`."""

    xs: Array
    floor: Array
    top: Array
    width: float
    height: float
    scale: float  # drawing lengths to the millimetre
    face: Face

    def between(self, lower: Array, upper: Array) -> BaseGeometry:
        """The polygon between two surfaces; parts that are nowhere thick fall away."""
        line = np.concatenate([np.column_stack([self.xs, lower]), np.column_stack([self.xs, upper])[::-1]])
        return Polygon(line).buffer(0)

    def above(self, lower: Array) -> Polygon:
        """All that lies above a surface, and a little beyond walls, floor and top, where nothing is painted."""
        line = np.where(lower > self.floor + 1e-6, lower, -OUTSIDE)
        left, right, top = -OUTSIDE, self.width + OUTSIDE, float(np.max(self.top)) + OUTSIDE
        ends = [[right, line[-1]], [right, top], [left, top], [left, line[0]]]
        return Polygon(np.concatenate([np.column_stack([self.xs, line]), ends]))

    def area(self, lower: Array, upper: Array) -> float:
        return area_under(upper - lower, self.xs)

    @cached_property
    def outline(self) -> BaseGeometry:
        return self.between(self.floor, self.top)

    def surface(self, below: Array, line: Array, target: float, blocked: BaseGeometry) -> Array:
        """The surface of the shape of `line`, never under `below`, with `target` of free area
        between it and the floor; `blocked` is not counted.
        """

        def at(level: float) -> Array:
            return np.minimum(np.maximum(below, line + level), self.top)

        sections = Sections(rings(blocked), float(blocked.area)) if not blocked.is_empty else None

        def filled(level: float) -> float:
            upper = at(level)
            return self.area(self.floor, upper) - (sections.below(self.xs, upper) if sections else 0.0)

        low = float(np.min(self.floor) - np.max(line)) - 1.0
        high = float(np.max(self.top) - np.min(line)) + 1.0
        return at(rising_root(filled, low, high, target, near=1e-4))


def parts(shape: BaseGeometry) -> list[Polygon]:
    """The polygons of any geometry, in a settled order."""
    if isinstance(shape, Polygon):
        return [] if shape.is_empty else [shape]
    found = [part for piece in getattr(shape, "geoms", ()) for part in parts(piece)]
    return sorted(found, key=lambda part: [round(edge, 4) for edge in (*part.bounds, part.area)])


def rings(shape: BaseGeometry) -> list[Array]:
    """The outlines of a shape, each without its last point, which is its first."""
    return [
        np.asarray(ring.coords)[:-1, :2] for part in parts(shape) for ring in (part.exterior, *part.interiors)
    ]


def union(shapes: list[Polygon]) -> BaseGeometry:
    return shapely.union_all(shapes) if shapes else EMPTY


def make_mould(face: Face, texture: str, *words: str) -> Mould:
    """The mould for a face; `texture` is the shape of the top, drawn where the top is seen."""
    scale = 100.0 / max(face.width_mm, face.height_mm)
    width, height = face.width_mm * scale, face.height_mm * scale
    if face.kind == "round":
        turn = np.linspace(math.pi, 0.0, 181)
        xs = width / 2 * (1 + np.cos(turn))
        half = height / 2 * np.sin(turn)
        half[0] = half[-1] = 0.0
        return Mould(xs, height / 2 - half, height / 2 + half, width, height, scale, face)
    radius = min(4.0, 0.12 * min(width, height))
    corner = radius * (1 - np.cos(np.linspace(0, math.pi / 2, 8)))
    middle = np.linspace(radius, width - radius, 2 + int((width - 2 * radius) / STEP))
    xs = np.concatenate([corner[:-1], middle, (width - corner[:-1])[::-1]])
    into_corner = np.maximum(0.0, radius - np.minimum(xs, width - xs))
    rise = radius - np.sqrt(np.maximum(0.0, radius**2 - into_corner**2))
    if face.top_view:
        return Mould(xs, rise, height - rise, width, height, scale, face)
    relief = _relief(xs, width, min(height, 60.0), texture, *words)
    relief -= area_under(relief, xs) / width
    return Mould(xs, rise, height + relief, width, height, scale, face)


def _relief(xs: Array, width: float, height: float, texture: str, *words: str) -> Array:
    """How far the top stands above or below its mean, before the mean is taken out."""
    if texture == "mound":
        arch = np.sin(math.pi * np.clip(xs / width, 0, 1)) ** 1.3
        return 0.13 * height * arch + wave(xs, width, 0.008 * height, "mound", *words)
    if texture == "waves":
        swell = np.sin(math.tau * (3 * xs / width - 0.2))
        return 0.042 * height * swell + wave(xs, width, 0.012 * height, "waves", *words)
    if texture == "peaks":
        return _peaks(xs, width, height, *words)
    if texture == "rough":
        return _rough(xs, width, height, *words)
    return wave(xs, width, 0.35, "flat", *words)


def _rough(xs: Array, width: float, height: float, *words: str) -> Array:
    """Spoonfuls pressed down side by side: lumps of all heights, with creases between them."""
    lumps = 9
    draws = numbers(3 * lumps, "rough", *words)
    total = wave(xs, width, 0.015 * height, "rough", *words)
    bumps = np.zeros_like(xs)
    for i in range(lumps):
        a, b, c = draws[3 * i : 3 * i + 3]
        centre = width * (i + 0.5 + 0.5 * (a - 0.5)) / lumps
        half = width / lumps * (0.55 + 0.25 * c)
        dome = np.sqrt(np.maximum(0.0, 1.0 - ((xs - centre) / half) ** 2))
        bumps = np.maximum(bumps, 0.085 * height * (0.35 + 0.65 * b) * dome)
    return total + bumps


def _peaks(xs: Array, width: float, height: float, *words: str) -> Array:
    """Crests pulled up with a spoon: broad hollow flanks, one steeper, each of its own height."""
    crests = 4
    draws = numbers(4 * crests, "peaks", *words)
    total = wave(xs, width, 0.012 * height, "peaks", *words)
    steep_left = draws[3] > 0.5
    for i in range(crests):
        a, b, c, _ = draws[4 * i : 4 * i + 4]
        centre = width * (i + 0.5 + 0.42 * (a - 0.5)) / crests
        long, short = width / crests * (0.66 + 0.3 * b), width / crests * (0.26 + 0.14 * c)
        left, right = (short, long) if steep_left else (long, short)
        away = np.where(xs < centre, (centre - xs) / left, (xs - centre) / right)
        # Rounded just at the tip, as soft batter is.
        away = np.sqrt(away**2 + 0.004) - 0.06
        crest = (0.6 + 0.4 * b) * np.exp(-2.1 * away)
        total = np.maximum(total, 0.125 * height * crest) + 0.2 * np.minimum(total, 0.125 * height * crest)
    return total
