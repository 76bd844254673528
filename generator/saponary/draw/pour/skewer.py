"""The skewer as closed-form maps: each pass is one stroke along a meandering line.

The stroke is that of `strokes.py`, with ψ = drag · s(u) · R(u) · G(v / R(u)), G(x) = x (1 − x²)³: at the middle
the batter is carried along, at both sides it flows back. In a bend the tool carries less wide.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from saponary.draw.pour.meander import Meander, meander
from saponary.draw.pour.seed import Array, numbers
from saponary.draw.pour.strokes import MOST_PASSES, MOST_SLOPE, Ramp
from saponary.schema.pour import Swirl

WIDEST = 8.0
DRAG = 1.5
"""How far the batter at the middle is carried, in the radius."""
IN_BEND = 0.45
PAST_BEND = 1.0
"""How wide it may carry within a bend, and outside of it, in the bend's radius."""
TURNS = 2
LEGS = 2.8
"""From one leg of the line to the next, in the radius."""
WIDER = 0.5
FITTINGS = 4
FINE = 0.06
"""One step of the table of the line, in the radius."""
EASE = 2.2
"""Over what length the tool goes in, and comes out, in the radius."""


@dataclass(frozen=True)
class Pass:
    """One pass, `upright` where the line runs along y; it goes backwards where the drag is less than nought.

    `wide` is how far across the tool carries at each place of the line's table, first to the left, then to the right
    of it; `widening` is how that changes.
    """

    line: Meander
    radius: float
    wide: Array
    widening: Array
    drag: float
    upright: bool

    def carry(self, points: Array) -> Array:
        """Points of the chart after the pass."""
        plane = points[:, 1] + 1j * points[:, 0] if self.upright else points[:, 0] + 1j * points[:, 1]
        near, u, n = self.line.beside(plane, self.radius)
        bend = self.line.between(self.line.curvature, u)
        v = n - bend * n * n / 2.0
        side = np.where(v > 0.0, 0, len(self.line.places))
        wide, _ = self._sides(u, side)
        moves = (1.0 - bend * n > 0.1) & (u > 0.0) & (u < self.line.length) & (np.abs(v) < wide)
        near = near[moves]
        u, v = self._carried(u[moves], v[moves], side[moves])
        bend = self.line.between(self.line.curvature, u)
        n = 2.0 * v / (1.0 + np.sqrt(np.maximum(1.0 - 2.0 * bend * v, 0.0)))
        plane[near] = self.line.out(u, n)
        return np.column_stack([plane.imag, plane.real] if self.upright else [plane.real, plane.imag])

    @cached_property
    def _parts(self) -> int:
        """In how many equal parts the stroke keeps its map one to one."""
        x = np.linspace(0.0, 1.0, 21)[:, None]
        fall = 1.0 - x * x
        s, slope = self._ramp.at(self.line.step * np.arange(len(self.line.places), dtype=np.float64))
        carried, leaning = fall * fall * (1.0 - 7.0 * x * x), x * x * fall * (42.0 * x * x - 18.0)
        steepest = max(
            float(np.abs(slope * carried - s * (widening / wide) * leaning).max())
            for wide, widening in zip(np.split(self.wide, 2), np.split(self.widening, 2), strict=True)
        )
        return max(1, math.ceil(abs(self.drag) * steepest / MOST_SLOPE))

    @cached_property
    def _ramp(self) -> Ramp:
        return Ramp(0.0, self.line.length, min(0.45 * self.line.length, EASE * self.radius))

    def _carried(self, u: Array, v: Array, side: NDArray[np.int64]) -> tuple[Array, Array]:
        drag, last = self.drag / self._parts, v
        for _ in range(self._parts):
            # A part moves much as the one before it did.
            guess = 2.0 * v - last
            last = v
            u, v = self._step(u, v, guess, side, drag)
        return u, v

    def _sides(self, u: Array, side: NDArray[np.int64]) -> tuple[Array, Array]:
        """How wide the tool carries on the side of each point, and how that changes along the line."""
        index, part = self.line.stretch(u)
        index += side
        wide, widening = self.wide[index], self.widening[index]
        index += 1
        return wide + part * (self.wide[index] - wide), widening + part * (self.widening[index] - widening)

    def _step(
        self, u: Array, v: Array, guess: Array, side: NDArray[np.int64], drag: float
    ) -> tuple[Array, Array]:
        s, slope = self._ramp.at(u)
        wide, widening = self._sides(u, side)
        in_wide = 1.0 / wide
        slope, widening = drag * slope, drag * s * widening
        along, aside = slope * wide, 6.0 * widening
        there, narrowing = guess, 6.0 * widening * in_wide
        for _ in range(TURNS):
            x = there * in_wide
            square = np.minimum(x * x, 1.0)
            fall = 1.0 - square
            twice = fall * fall
            across = x * twice * (along * fall + aside * square)
            leaning = slope * twice * (1.0 - 7.0 * square) - narrowing * square * fall * (7.0 * square - 3.0)
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
        # Of many passes each goes in wider bends, so that together they leave room for what they carry.
        apart = LEGS * radius * max(1.0, passes / 2.0) ** WIDER * (1.0 + 0.25 * draws[0])
        waves = max(1.0, length / (2.0 * apart))
        phase = 0.5 * turn / passes + 0.2 * draws[1]
        reach = (span / 2 - 0.8 * radius) * (0.8 + 0.25 * draws[2])
        drag = passes**-0.3 * (1.0 if turn % 2 == 0 else -1.0)
        lines = _Lines(length, span, waves, phase, draws[3])
        found.append(lines.fitted(radius, reach, draws[4], drag, upright))
    return found


@dataclass(frozen=True)
class _Lines:
    """Meanders in a box of a length and a span."""

    length: float
    span: float
    waves: float
    phase: float
    wavering: float

    def fitted(self, radius: float, reach: float, place: float, drag: float, swap: bool) -> Pass:
        """The pass in its box; what it carries never reaches a wall."""
        long = self.length - 1.2 * radius
        line = self._meander(long, reach, radius)
        taken = _Taken(line, radius)
        for _ in range(FITTINGS - 1):
            over, beyond = taken.high - taken.low - self.span, taken.last - taken.first - self.length
            if over <= 0.0 and beyond <= 0.0:
                break
            reach, long = max(0.0, reach - 0.6 * max(over, 0.0)), long - max(beyond, 0.0)
            line = self._meander(long, reach, radius)
            taken = _Taken(line, radius)
        while (
            grown := min(self.span / (taken.high - taken.low), self.length / (taken.last - taken.first))
        ) < 0.999:
            line, radius = line.moved(grown, 0.0), radius * grown
            taken = _Taken(line, radius)
        aside = (self.span - (taken.high - taken.low)) * place - taken.low
        line = line.moved(1.0, (self.length - taken.last - taken.first) / 2 + 1j * aside)
        widening = np.concatenate([np.gradient(wide, line.step) for wide in (taken.left, taken.right)])
        return Pass(
            line, radius, np.concatenate([taken.left, taken.right]), widening, drag * DRAG * radius, swap
        )

    def _meander(self, long: float, reach: float, radius: float) -> Meander:
        return meander(long, self.waves, reach, self.phase, self.wavering, FINE * radius)


class _Taken:
    """How wide the tool carries to both sides along its line, and the box that this takes."""

    def __init__(self, line: Meander, radius: float) -> None:
        self.left, self.right = (_wide(line.curvature * side, radius) for side in (1.0, -1.0))
        flat, upright = line.heading.real, np.abs(line.heading.imag) * radius
        above, below = np.where(flat > 0, self.left, self.right), np.where(flat > 0, self.right, self.left)
        self.high = float((line.places.imag + np.abs(flat) * above).max()) + 0.5
        self.low = float((line.places.imag - np.abs(flat) * below).min()) - 0.5
        self.first, self.last = (
            float((line.places.real - upright).min()),
            float((line.places.real + upright).max()),
        )


def _wide(curvature: Array, radius: float) -> Array:
    """How wide the tool carries to the side that a line bends to, or from where that is less than nought."""
    tight = np.where(curvature > 0.0, curvature / IN_BEND, curvature / PAST_BEND) * radius
    wide: Array = radius / np.sqrt(1.0 + tight * tight)
    return wide
