"""The skewer as closed-form maps: each pass is one stroke along a meandering line.

The stroke is that of `strokes.py`, with ψ = drag · s(u) · R(u) · G(v / R(u)), G(x) = x (1 − x²)³: at the middle
the batter is carried along, at both sides it flows back. In a bend the tool carries less wide.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from saponary.draw.pour.meander import Meander, meander
from saponary.draw.pour.seed import Array, numbers
from saponary.draw.pour.strokes import MOST_PASSES, MOST_SLOPE, STEEPEST, Ramp
from saponary.schema.pour import Swirl

WIDEST = 8.0
DRAG = 1.5
"""How far the batter at the middle is carried, in the radius."""
IN_BEND = 0.45
"""How wide it may carry in a bend, in the bend's radius."""
TURNS = 2
LEGS = 2.8
"""From one leg of the line to the next, in the radius."""
FINE = 0.06
"""One step of the table of the line, in the radius."""
LONGEST_EASE = 17.0
CURVED = 2.62
"""The most of x G''(x)."""


@dataclass(frozen=True)
class _Side:
    """How wide the tool carries to one side of the line at each place of its table, and how that changes."""

    wide: Array
    widening: Array


@dataclass(frozen=True)
class Pass:
    """One pass, `upright` where the line runs along y; it goes backwards where the drag is less than nought."""

    line: Meander
    radius: float
    left: _Side
    right: _Side
    drag: float
    upright: bool

    def carry(self, points: Array) -> Array:
        """Points of the chart after the pass."""
        plane = points[:, 1] + 1j * points[:, 0] if self.upright else points[:, 0] + 1j * points[:, 1]
        near, u, n = self.line.beside(plane, self.radius)
        bend = self.line.between(self.line.curvature, u)
        v = n - bend * n * n / 2.0
        wide, _ = self._sides(u, v)
        moves = (1.0 - bend * n > 0.1) & (u > 0.0) & (u < self.line.length) & (np.abs(v) < wide)
        near, u, v = near[moves], u[moves], v[moves]
        ease = min(0.45 * self.line.length, LONGEST_EASE)
        ramp = Ramp(0.0, self.line.length, ease)
        narrowing = max(float(np.max(np.abs(one.widening) / one.wide)) for one in (self.left, self.right))
        parts = max(1, math.ceil(abs(self.drag) * (STEEPEST / ease + CURVED * narrowing) / MOST_SLOPE))
        for _ in range(parts):
            u, v = self._step(ramp, u, v, self.drag / parts)
        n = (
            2.0
            * v
            / (1.0 + np.sqrt(np.maximum(1.0 - 2.0 * self.line.between(self.line.curvature, u) * v, 0.0)))
        )
        plane[near] = self.line.out(u, n)
        return np.column_stack([plane.imag, plane.real] if self.upright else [plane.real, plane.imag])

    def _sides(self, u: Array, v: Array) -> tuple[Array, Array]:
        """How wide the tool carries on the side of each point, and how that changes along the line."""
        left, between = v > 0.0, self.line.between
        wide = np.where(left, between(self.left.wide, u), between(self.right.wide, u))
        return wide, np.where(left, between(self.left.widening, u), between(self.right.widening, u))

    def _step(self, ramp: Ramp, u: Array, v: Array, drag: float) -> tuple[Array, Array]:
        s, slope = ramp.at(u)
        wide, widening = self._sides(u, v)
        in_wide = 1.0 / wide
        slope, widening = drag * slope, drag * s * widening
        there = v
        for _ in range(TURNS):
            x = there * in_wide
            square = np.minimum(x * x, 1.0)
            fall = 1.0 - square
            twice = fall * fall
            carried = twice * (1.0 - 7.0 * square)
            across = x * (slope * wide * twice * fall + widening * (6.0 * square * twice))
            leaning = slope * carried - widening * in_wide * square * fall * (42.0 * square - 18.0)
            there = there - (there + across - v) / (1.0 + leaning)
        square = np.minimum((there * in_wide) ** 2, 1.0)
        fall = 1.0 - square
        return u + drag * s * fall * fall * (1.0 - 7.0 * square), there


def skewer(swirl: Swirl, room: tuple[float, float], upright: bool, words: tuple[str, ...]) -> list[Pass]:
    """A wandering line, there and back, in a room of a width and a height; it crosses the batter's beds or columns."""
    span, length = room if upright else room[::-1]
    passes = min(swirl.passes, MOST_PASSES)
    found: list[Pass] = []
    for turn in range(passes):
        draws = numbers(6, "skewer", str(turn), *words)
        radius = min(WIDEST, 0.21 * span, 0.19 * length)
        waves = max(1.0, length / (2.0 * LEGS * radius * (1.0 + 0.25 * draws[0])))
        phase = 0.5 * turn / passes + 0.2 * draws[1]
        reach = (span / 2 - 0.8 * radius) * (0.8 + 0.25 * draws[2])
        line = meander(length - 1.2 * radius, waves, reach, phase, draws[3], FINE * radius)
        drag = passes**-0.3 * (1.0 if turn % 2 == 0 else -1.0)
        found.append(_fitted(line, radius, (length, span), draws[4], drag, upright))
    return found


def _fitted(
    line: Meander, radius: float, box: tuple[float, float], place: float, drag: float, swap: bool
) -> Pass:
    """The pass in its box; what it carries never reaches a wall."""
    length, span = box
    while True:
        left, right = (_side(line, radius, side) for side in (1.0, -1.0))
        flat = line.heading.real
        high = (
            float((line.places.imag + np.abs(flat) * np.where(flat > 0, left.wide, right.wide)).max()) + 0.5
        )
        low = float((line.places.imag - np.abs(flat) * np.where(flat > 0, right.wide, left.wide)).min()) - 0.5
        upright = np.abs(line.heading.imag) * radius
        first, last = float((line.places.real - upright).min()), float((line.places.real + upright).max())
        grown = min(1.0, span / (high - low), length / (last - first))
        if grown > 0.999:
            break
        line, radius = line.moved(grown, 0.0), radius * grown
    aside = (span - (high - low)) * place - low
    line = line.moved(1.0, (length - last - first) / 2 + 1j * aside)
    return Pass(line, radius, left, right, drag * DRAG * radius, swap)


def _side(line: Meander, radius: float, side: float) -> _Side:
    tight = np.maximum(line.curvature * side, 0.0) * radius / IN_BEND
    wide = radius / np.sqrt(1.0 + tight * tight)
    return _Side(wide, np.gradient(wide, line.step))
