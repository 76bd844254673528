"""A meandering line for a tool led by hand, and a strip along it in which areas stay areas.

The heading swings to and fro over the line's length, as a sine where the line is to swing little; where it is
to swing far, the legs are straighter and the bends as wide as the room between two legs. Beside the line, with
u along it, n across it and κ its curvature at u,

    v = n − κ n² / 2

has dx dy = du dv, so that a stroke along the line keeps areas as one along a straight line does.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache, cached_property

import numpy as np
from numpy.typing import NDArray

from saponary.draw.pour.seed import Array
from saponary.draw.pour.smooth import Plane
from saponary.draw.pour.sums import running

FOUND = 0.05
COARSE = 4
"""Steps of the table to one of the first search for the nearest place."""
CELL = 5.3
MARGIN = 3
"""A cell of the chart of nearest places, in steps of the table, and how many there are beyond the line."""
FURTHEST = 1.45
WAVERING = 0.17


@dataclass(frozen=True)
class Meander:
    """Places `step` apart on the line, as complex numbers, with heading, curvature and its change at each."""

    step: float
    places: Plane
    heading: Plane
    curvature: Array
    tightening: Array

    @property
    def length(self) -> float:
        return self.step * (len(self.places) - 1)

    def moved(self, grown: float, by: complex) -> Meander:
        """The line made larger, then moved."""
        return Meander(
            self.step * grown,
            self.places * grown + by,
            self.heading,
            self.curvature / grown,
            self.tightening / grown**2,
        )

    @cached_property
    def _nearest(self) -> tuple[complex, NDArray[np.int64]]:
        """About where on the line the nearest place is, for each cell of a grid from its lower left corner."""
        coarse, cell = self.places[::COARSE], CELL * self.step
        left, bottom = float(coarse.real.min()) - MARGIN * cell, float(coarse.imag.min()) - MARGIN * cell
        columns = math.ceil((float(coarse.real.max()) - left) / cell) + MARGIN
        rows = math.ceil((float(coarse.imag.max()) - bottom) / cell) + MARGIN
        across = left + cell * (np.arange(columns) + 0.5)[:, None] - coarse.real
        up = bottom + cell * (np.arange(rows) + 0.5)[:, None] - coarse.imag
        away = (up * up)[:, None, :] + (across * across)[None, :, :]
        return left + 1j * bottom, COARSE * away.argmin(axis=2)

    def beside(self, points: Plane, reach: float) -> tuple[NDArray[np.int64], Array, Array]:
        """Which points lie within `reach` of the line, how far along it, and how far across from it."""
        corner, nearest = self._nearest
        place = (points - corner) / (CELL * self.step)
        rows, columns = nearest.shape
        column = np.minimum(np.maximum(place.real, 0.0), columns - 1).astype(np.int64)
        first = nearest[np.minimum(np.maximum(place.imag, 0.0), rows - 1).astype(np.int64), column]
        away = points - self.places[first]
        least = away.real * away.real + away.imag * away.imag
        near = np.flatnonzero(least < (reach + CELL * self.step) ** 2)
        there = points[near]
        along: Array = np.asarray(first[near] * self.step, dtype=np.float64)
        for _ in range(2):
            along = along + self._off(there, along)[0]
        further, aside, off = self._off(there, along)
        found = np.abs(off) < FOUND
        return near[found], (along + further)[found], aside[found]

    def _off(self, points: Plane, along: Array) -> tuple[Array, Array, Array]:
        """How much further the nearest place lies, how far each point is across, and how far along still."""
        place, heading, curvature = self._at(along)
        away = (points - place) * heading.conj()
        return away.real / np.maximum(1.0 - curvature * away.imag, 0.2), away.imag, away.real

    def out(self, along: Array, aside: Array) -> Plane:
        """Points as far along the line and across from it."""
        place, heading, _ = self._at(along)
        found: Plane = place + 1j * heading * aside
        return found

    def between(self, values: Array, along: Array) -> Array:
        """Between the values of a table like that of the places."""
        index, part = self.stretch(along)
        here = values[index]
        found: Array = here + part * (values[index + 1] - here)
        return found

    def stretch(self, along: Array) -> tuple[NDArray[np.int64], Array]:
        """After which place of the table each lies, and what part of the way to the next."""
        place: Array = np.minimum(np.maximum(along / self.step, 0.0), len(self.places) - 1.001)
        index = place.astype(np.int64)
        part: Array = place - index
        return index, part

    def _at(self, along: Array) -> tuple[Plane, Plane, Array]:
        """Place, heading and curvature, by the circle that fits the line at the nearest place of the table."""
        index = np.minimum(np.maximum(np.rint(along / self.step), 0), len(self.places) - 1).astype(np.int64)
        rest, bend, tightening = along - index * self.step, self.curvature[index], self.tightening[index]
        here, curvature = self.heading[index], bend + tightening * rest
        half = rest * (bend + tightening * rest / 3.0) / 2.0
        angle = rest * (bend + tightening * rest / 2.0)
        place = self.places[index] + here * (rest * (1.0 + 1j * half))
        return place, here * (1.0 - angle * angle / 2.0 + 1j * angle), curvature


def _swing(strength: float, turn: Array) -> Array:
    """The heading over a wave: first it swings farther, then it stays longer on each side."""
    furthest, square = FURTHEST * min(strength, 1.0), 1.5 * max(strength - 1.0, 0.0)
    if square < 1e-6:
        return furthest * np.cos(turn)
    return furthest * np.tanh(square * np.cos(turn)) / math.tanh(square)


@cache
def _shapes() -> tuple[Array, Array, Array]:
    """Strengths of swinging, with the reach to one side and the advance of a wave for each, in its length."""
    strengths = np.linspace(0.0, 2.0, 41)
    turn = math.tau * (np.arange(192) + 0.5) / 192
    waves = [_swing(float(one), turn) for one in strengths]
    reach = np.array([np.abs(np.sin(wave)).sum() / 192 / 4 for wave in waves])
    return strengths, reach, np.array([np.cos(wave).sum() / 192 for wave in waves])


def meander(length: float, waves: float, reach: float, phase: float, wavering: float, step: float) -> Meander:
    """Along the real axis from 0 to about `length`, swinging about `reach` to both sides, in steps of about `step`."""
    strengths, reaches, advances = _shapes()
    advance = length / waves
    strength = float(np.interp(reach / advance, reaches / advances, strengths))
    wave = advance / float(np.interp(strength, strengths, advances))
    count = math.ceil(waves * wave / step)
    step = waves * wave / count
    at = step * np.arange(count + 1, dtype=np.float64)
    turn = math.tau * at / wave
    angle = _swing(strength, turn + math.tau * phase)
    angle += WAVERING * np.sin(0.43 * turn + math.tau * wavering)
    heading = np.cos(angle) + 1j * np.sin(angle)
    places = running(heading.real, at) + 1j * running(heading.imag, at)
    curvature = np.gradient(angle, step)
    return Meander(step, places, heading, curvature, np.gradient(curvature, step))
