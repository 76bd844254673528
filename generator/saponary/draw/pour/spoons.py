"""The outlines of spoonfuls: round, pressed flat where they meet the batter set down before them.

Two neighbours meet on the line where their distances squared, less their weights, are equal; so the spoonfuls
together are a power diagram with the corners of the later ones rounded. Each is a row of rays from its site.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from saponary.draw.pour.seed import Array

RAYS = 48
ANGLES = math.tau * np.arange(RAYS) / RAYS
ACROSS, UP = np.cos(ANGLES), np.sin(ANGLES)
SQUEEZED = 0.06
"""A spoonful reaches at least so far towards a neighbour, as a part of the way."""
BESIDE = RAYS // 8
SLANTED = 0.7
"""How near an edge may be that is one away along a ray."""
MEETING = 0.4
"""Spoonfuls no farther apart than this count as touching."""


class Spoons:
    """Spoonfuls about sites, in the order they are set down; `near` says which may meet.

    Beneath those set down after it a spoonful runs on by `under` and no farther.
    """

    def __init__(self, sites: Array, near: NDArray[np.bool_], radius: float, under: float) -> None:
        self.sites, self.radius = sites, radius
        order = np.arange(len(sites))
        here, there = np.nonzero(near & (order[:, None] != order))
        away = sites[there] - sites[here]
        distance = np.hypot(away[:, 0], away[:, 1])
        facing = (away[:, :1] * ACROSS + away[:, 1:] * UP) / distance[:, None]
        # Rounder than a power diagram by a mean of the sixth power over all lines that cut a ray.
        square = np.maximum(facing, 0.0) ** 2
        self.pressed: Array = square * square * square
        self.all_here, self.all_there, self.all_distance = here, there, distance
        self.beyond: Array = np.where(here > there, 0.0, under)
        starts = np.searchsorted(here, order)
        self.some = np.diff(np.append(starts, len(here))) > 0
        self.starts = starts[self.some]
        before = here > there
        self.here, self.there, self.distance = here[before], there[before], distance[before]

    def outlines(self, weights: Array) -> Array:
        """Rings of points, spoonfuls first, anticlockwise."""
        distance = self.all_distance
        lean = (weights[self.all_here] - weights[self.all_there]) / distance
        gap = np.maximum((distance + lean) / 2.0, SQUEEZED * distance) + self.beyond
        square = 1.0 / (gap * gap)
        total = np.zeros((len(self.sites), RAYS))
        if len(self.starts):
            pressed = self.pressed * (square * square * square)[:, None]
            total[self.some] = np.add.reduceat(pressed, self.starts, axis=0)
        rays = (total + self.radius**-6.0) ** (-1.0 / 6.0)
        return np.stack([self.sites[:, :1] + rays * ACROSS, self.sites[:, 1:] + rays * UP], axis=2)

    def deep(self, rings: Array) -> Array:
        """How deep each point of each ring lies beneath the spoonfuls set down after it."""
        rays = self._rays(rings)
        low, over = self.there, self.here
        close = self.distance < rays.max(axis=1)[low] + rays.max(axis=1)[over]
        low, over = low[close], over[close]
        away = rings[low] - self.sites[over][:, None, :]
        turn = np.arctan2(away[..., 1], away[..., 0]) / math.tau * RAYS
        ray = np.floor(turn).astype(np.int64)
        rim = np.minimum(rays[over[:, None], ray % RAYS], rays[over[:, None], (ray + 1) % RAYS])
        found = np.zeros(rings.shape[:2])
        np.maximum.at(found, low, SLANTED * (rim - np.hypot(away[..., 0], away[..., 1])))
        return found

    def together(self, rings: Array, owners: NDArray[np.int64]) -> list[list[int]]:
        """Spoonfuls that may be painted at once: of one owner, none on another, and each after those that it lies on."""
        rests = self._rests(rings)
        left = set(range(len(rings)))
        found: list[list[int]] = []
        while left:
            free = [i for i in sorted(left) if not rests[i] & left]
            mine = [
                [i for i in free if owners[i] == owner] for owner in sorted({int(owners[i]) for i in free})
            ]
            found.append(max(mine, key=len))
            left.difference_update(found[-1])
        return found

    def _rays(self, rings: Array) -> Array:
        """How far each point of each ring lies from its site."""
        found: Array = np.hypot(*(rings - self.sites[:, None, :]).transpose(2, 0, 1))
        return found

    def _rests(self, rings: Array) -> list[set[int]]:
        """On which of those set down before it each lies; on a few more at most."""
        rays = self._rays(rings)
        # No ray about the way to another reaches farther than the longest within an eighth of a turn.
        wide = np.max([np.roll(rays, turn, axis=1) for turn in range(-BESIDE, BESIDE + 1)], axis=0)
        away = self.sites[self.there] - self.sites[self.here]
        toward = np.rint(np.arctan2(away[:, 1], away[:, 0]) / math.tau * RAYS).astype(np.int64)
        reach = wide[self.here, toward % RAYS] + wide[self.there, (toward + RAYS // 2) % RAYS]
        meets = np.flatnonzero(reach + MEETING > self.distance)
        rests = [set[int]() for _ in range(len(rings))]
        for here, there in zip(self.here[meets].tolist(), self.there[meets].tolist(), strict=True):
            rests[int(here)].add(int(there))
        return rests
