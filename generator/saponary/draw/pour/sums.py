"""The area under a line, by trapezoids: numpy's own has another name in each of its versions."""

from __future__ import annotations

import numpy as np

from saponary.draw.pour.seed import Array


def area_under(heights: Array, at: Array) -> float:
    """`heights` at the places `at`, which go upwards."""
    return float((np.diff(at) * (heights[1:] + heights[:-1]) / 2.0).sum())


def running(heights: Array, at: Array) -> Array:
    """The area from the first place to each."""
    whole: Array = np.concatenate([[0.0], np.cumsum(np.diff(at) * (heights[1:] + heights[:-1]) / 2.0)])
    return whole
