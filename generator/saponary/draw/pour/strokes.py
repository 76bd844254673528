"""One stroke of a tool as a map that keeps areas exactly, in the chart of the region.

With u along the stroke, v across it and a stream function ψ, the map (u, v) → (U, V) given by

    v = V + ψ_u(u, V),   U = u + ψ_V(u, V)

keeps areas for any ψ, is one to one while |ψ_uv| < 1, and leaves every line in its place where
ψ and its slope are nought. Here ψ = drag · s(u) · g(V): `s` takes the tool in and out, and g' is
how far the batter is carried at each distance from the tool, its return at both sides included.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from saponary.draw.pour.seed import Array
from saponary.draw.pour.sums import area_under
from saponary.draw.pour.tabled import Tabled

MOST_SLOPE = 0.7
MOST_PASSES = 6
"""Beyond this the eye sees no line of the tool any more, only batter mixed ever finer."""
STEEPEST = 1.875  # of the ramp t³(10 − 15t + 6t²), at its middle


@dataclass(frozen=True)
class Ramp:
    """In over `ease` from `start`, out over `ease` to `end`."""

    start: float
    end: float
    ease: float

    def at(self, u: Array) -> tuple[Array, Array]:
        """Between nought and one at each place, and the slope there."""
        rise, fall = (u - self.start) / self.ease, (self.end - u) / self.ease
        rising = rise < fall
        t = np.clip(np.where(rising, rise, fall), 0.0, 1.0)
        slope = 30.0 * (t * (1.0 - t)) ** 2 / self.ease
        return t**3 * (10.0 - 15.0 * t + 6.0 * t * t), np.where(rising, slope, -slope)


Profile = Callable[[Array], tuple[Array, Array]]
"""g and g' at each place across."""


@dataclass(frozen=True)
class Stroke:
    """One stroke; `upright` where it runs along y."""

    ramp: Ramp
    profile: Profile
    drag: float
    upright: bool

    def carry(self, points: Array) -> Array:
        """Points of the chart after the stroke."""
        u, v = (points[:, 1], points[:, 0]) if self.upright else (points[:, 0], points[:, 1])
        parts = max(1, math.ceil(abs(self.drag) * STEEPEST / self.ramp.ease / MOST_SLOPE))
        for _ in range(parts):
            u, v = self._step(u, v, self.drag / parts)
        return np.column_stack([v, u]) if self.upright else np.column_stack([u, v])

    def _step(self, u: Array, v: Array, drag: float) -> tuple[Array, Array]:
        along, slope = self.ramp.at(u)
        there = v
        for _ in range(3):
            g, carried = self.profile(there)
            there = there - (there + drag * slope * g - v) / (1.0 + drag * slope * carried)
        _, carried = self.profile(there)
        return u + drag * along * carried, there


CELLS = 480
KERNEL = 0.45


def tines(places: Array, span: float, rim: float) -> Profile:
    """About a row of tines over `span`: g' is a Poisson kernel on each, less what flows back between
    them; it fades over `rim` at both sides. Piecewise linear, so that g is its integral exactly.
    """
    at = np.linspace(0.0, span, CELLS + 1)
    phase = math.tau * np.interp(at, places, np.arange(len(places), dtype=np.float64))
    kernel = (KERNEL * np.cos(phase) - KERNEL**2) / (1.0 - 2.0 * KERNEL * np.cos(phase) + KERNEL**2)
    edge = np.clip(np.minimum(at, span - at) / rim, 0.0, 1.0)
    fade = edge * edge * (3.0 - 2.0 * edge)
    carried = fade * kernel
    carried -= fade * (area_under(carried, at) / area_under(fade, at))
    return Tabled(span, carried).at
