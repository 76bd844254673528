"""Outlines as quadratic curves: near the points that they are made from, whole at their joints, sharp at corners."""

from __future__ import annotations

import math
import re

import numpy as np
import pytest

from draw.pour_scenes import rings
from saponary.draw.pour.carried import Line
from saponary.draw.pour.seed import Array
from saponary.draw.pour.splines import curves


def circle(radius: float, corners: int = 200) -> Array:
    turn = math.tau * np.arange(corners) / corners
    return np.column_stack([1000 + radius * np.cos(turn), 800 + radius * np.sin(turn)])


def area(path: str) -> float:
    """By the shoelace formula."""
    total = 0.0
    for ring in rings(path):
        points = np.array(ring)
        there = np.roll(points, -1, axis=0)
        total += abs(float((points[:, 0] * there[:, 1] - points[:, 1] * there[:, 0]).sum())) / 2
    return total


@pytest.mark.parametrize("radius", [12.0, 60.0, 400.0])
def test_a_circle_stays_one(radius: float) -> None:
    (path,) = curves([Line(circle(radius))], 1000)
    away = np.hypot(*(np.array(rings(path)[0]) - [1000, 800]).T)
    # A unit is the twentieth of a hundredth of the drawing.
    assert away == pytest.approx(np.full(len(away), radius), abs=max(1.0, 0.004 * radius))
    # Controls are even numbers, so a radius may be off by a part of a unit.
    assert area(path) == pytest.approx(math.pi * radius**2, rel=0.002 + 0.8 / radius)


def test_a_square_keeps_its_corners_and_needs_no_curve() -> None:
    square = np.array([(100.0, 100.0), (700.0, 100.0), (700.0, 500.0), (100.0, 500.0)])
    (path,) = curves([Line(square)], 1000)
    assert path == "M100 100l600 0l0 400l-600 0l0-400z"


def test_a_half_circle_has_two_corners() -> None:
    turn = np.linspace(0, math.pi, 90)
    half = np.column_stack([500 + 300 * np.cos(turn), 500 + 300 * np.sin(turn)])
    (path,) = curves([Line(half)], 1000)
    assert area(path) == pytest.approx(math.pi * 300**2 / 2, rel=5e-3)
    for corner in ((800, 500), (200, 500)):
        assert min(math.dist(corner, point) for point in rings(path)[0]) < 1


def test_many_controls_are_made_fewer_alike() -> None:
    lines = [circle(300.0), circle(90.0)]
    many, few = ("".join(curves([Line(one) for one in lines], most)) for most in (1000, 20))
    assert len(few) < 0.7 * len(many)
    assert len(re.findall(r"-?\d+", few)) < 2 * 20 + 12


def test_what_is_no_outline_is_no_path_and_the_rest_stay_in_their_order() -> None:
    dot = np.array([(5.0, 5.0), (5.0, 5.0), (5.0, 5.0)])
    found = curves([Line(one) for one in (dot, circle(50.0), np.zeros((0, 2)), circle(80.0))], 100)
    assert [bool(path) for path in found] == [False, True, False, True]
    assert area(found[1]) < area(found[3])
    assert curves([], 100) == []
