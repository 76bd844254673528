"""The grain of a pencil line: specks of powder scattered about a seam, closest on it."""

from __future__ import annotations

import math

import numpy as np

from saponary.draw.pour.seed import Array, numbers

PITCH = 0.62
MOST = 420


def specks(line: Array, *words: str) -> tuple[Array, Array]:
    """Places of the finer and the coarser specks along a line."""
    steps = np.diff(line, axis=0)
    run = np.concatenate([[0.0], np.cumsum(np.hypot(steps[:, 0], steps[:, 1]))])
    length = float(run[-1])
    if length < PITCH:
        return np.zeros((0, 2)), np.zeros((0, 2))
    count = min(MOST, int(length / PITCH))
    draws = np.array(numbers(4 * count, "specks", *words)).reshape(count, 4)
    at = length * (np.arange(count) + draws[:, 0]) / count
    x, y = np.interp(at, run, line[:, 0]), np.interp(at, run, line[:, 1])
    ahead = np.clip(at + 0.5, 0, length)
    dx, dy = np.interp(ahead, run, line[:, 0]) - x, np.interp(ahead, run, line[:, 1]) - y
    size = np.maximum(np.hypot(dx, dy), 1e-6)
    off = 0.62 * np.sqrt(-np.log(np.maximum(draws[:, 1], 1e-3))) * np.cos(math.tau * draws[:, 2])
    places = np.column_stack([x - dy / size * off, y + dx / size * off])
    coarse = draws[:, 3] > 0.72
    return places[~coarse], places[coarse]
