"""Faint eddies that leave no line straight: closed-form maps that keep areas and leave the walls in their place.

Each is the map of `strokes.py` for ψ = D · F(x) · G(y), where F and G are wavering lines that are nought at the
walls of the chart, their slopes too.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from saponary.draw.pour.chart import Chart
from saponary.draw.pour.seed import Array, numbers
from saponary.draw.pour.sums import area_under
from saponary.draw.pour.tabled import Tabled

MAPS = 2
CELLS = 320
STRONG = 0.007
"""Of the square of a spoonful's width."""


def _waver(span: float, fade: float, pace: tuple[float, float], phase: tuple[float, float]) -> Tabled:
    """Two sines over a span, faded to nothing at both ends."""
    at = np.linspace(0.0, span, CELLS + 1)
    edge = np.clip(np.minimum(at, span - at) / fade, 0.0, 1.0)
    window = edge * edge * (3.0 - 2.0 * edge)
    leaning = 6.0 * edge * (1.0 - edge) / fade * np.where(at < span / 2, 1.0, -1.0)
    first, second = (k * at + a for k, a in zip(pace, phase, strict=True))
    line = np.sin(first) + np.sin(second)
    slope = pace[0] * np.cos(first) + pace[1] * np.cos(second)
    slopes = 0.7 * (leaning * line + window * slope)
    # It ends as high as it begins.
    return Tabled(span, slopes - window * (area_under(slopes, at) / area_under(window, at)))


@dataclass(frozen=True)
class Eddies:
    """One map."""

    across: Tabled
    up: Tabled
    strength: float

    def carry(self, points: Array) -> Array:
        """Points of the chart after it."""
        u, v = points[:, 0], points[:, 1]
        whole, slope = self.across.at(u)
        there, leaning = _solved(self.up, slope * self.strength, v)
        return np.column_stack([u + self.strength * whole * leaning, there])

    def back(self, points: Array) -> Array:
        """Points of the chart before it."""
        there, v = points[:, 0], points[:, 1]
        whole, slope = self.up.at(v)
        u, leaning = _solved(self.across, slope * self.strength, there)
        return np.column_stack([u, v + self.strength * whole * leaning])


def _solved(waver: Tabled, slope: Array, wanted: Array) -> tuple[Array, Array]:
    """Where a place and `slope` times the waver there come to what is wanted, by Newton's steps; and how the waver
    leans there."""
    at = wanted
    for _ in range(2):
        height, leaning = waver.at(at)
        at = at - (at + slope * height - wanted) / (1.0 + slope * leaning)
    return at, waver.at(at)[1]


def eddies(room: Chart, spacing: float, words: tuple[str, ...]) -> list[Eddies]:
    """Eddies about as wide as a spoonful."""
    found: list[Eddies] = []
    for turn in range(MAPS):
        draws = numbers(8, "eddies", str(turn), *words)
        pace = [math.tau / (spacing * (1.05 + 0.7 * one)) for one in draws[:4]]
        phase = [math.tau * one for one in draws[4:]]
        fade = 0.35 * spacing
        across = _waver(room.width, min(fade, 0.4 * room.width), (pace[0], pace[1]), (phase[0], phase[1]))
        up = _waver(room.height, min(fade, 0.4 * room.height), (pace[2], pace[3]), (phase[2], phase[3]))
        found.append(Eddies(across, up, STRONG * spacing**2))
    return found
