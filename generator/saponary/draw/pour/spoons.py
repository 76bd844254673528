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


class Spoons:
    """Spoonfuls about sites, in the order they are set down; `near` says which may meet."""

    def __init__(self, sites: Array, near: NDArray[np.bool_], radius: float) -> None:
        self.sites, self.radius = sites, radius
        here, there = np.nonzero(near & (np.arange(len(sites))[:, None] > np.arange(len(sites))))
        away = sites[there] - sites[here]
        self.here, self.there, self.distance = here, there, np.hypot(away[:, 0], away[:, 1])
        facing = (away[:, :1] * ACROSS + away[:, 1:] * UP) / self.distance[:, None]
        # Rounder than a power diagram by a mean of the sixth power over all lines that cut a ray.
        square = np.maximum(facing, 0.0) ** 2
        self.pressed: Array = square * square * square
        starts = np.searchsorted(here, np.arange(len(sites)))
        self.some = np.diff(np.append(starts, len(here))) > 0
        self.starts = starts[self.some]

    def outlines(self, weights: Array) -> Array:
        """Rings of points, spoonfuls first, anticlockwise."""
        lean = (weights[self.here] - weights[self.there]) / self.distance
        gap = np.maximum((self.distance + lean) / 2.0, SQUEEZED * self.distance)
        square = 1.0 / (gap * gap)
        total = np.zeros((len(self.sites), RAYS))
        if len(self.starts):
            pressed = self.pressed * (square * square * square)[:, None]
            total[self.some] = np.add.reduceat(pressed, self.starts, axis=0)
        rays = (total + self.radius**-6.0) ** (-1.0 / 6.0)
        return np.stack([self.sites[:, :1] + rays * ACROSS, self.sites[:, 1:] + rays * UP], axis=2)
