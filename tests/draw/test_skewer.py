"""The skewer's map: areas kept, walls left where they are, whatever the room. Held to the definition: a map keeps
areas where the determinant of its derivative is one (central differences here)."""

from __future__ import annotations

import math

import numpy as np
import pytest

from draw.pour_scenes import steps
from saponary.draw.pour.meander import meander
from saponary.draw.pour.seed import Array
from saponary.draw.pour.skewer import Pass, skewer
from saponary.schema.pour import Swirl

ROOMS = [(100.0, 78.0), (100.0, 35.0), (100.0, 9.0), (40.0, 78.0)]


def swirl(passes: int) -> Swirl:
    (step,) = steps([{"swirl": {"tool": "skewer", "passes": passes}}])
    assert step.swirl is not None
    return step.swirl


def passes_in(width: float, height: float, count: int, upright: bool, words: tuple[str, ...]) -> list[Pass]:
    return skewer(swirl(count), (width, height), upright, words)


def carried(made: list[Pass], points: Array) -> Array:
    for one in made:
        points = one.carry(points)
    return points


@pytest.mark.parametrize("room", ROOMS)
@pytest.mark.parametrize("upright", [False, True])
def test_no_area_is_gained_or_lost_anywhere(room: tuple[float, float], upright: bool) -> None:
    width, height = room
    x, y = np.meshgrid(np.linspace(0.01, 0.99, 61) * width, np.linspace(0.01, 0.99, 61) * height)
    points, near = np.column_stack([x.ravel(), y.ravel()]), 1e-5
    right, rise = np.array([near, 0.0]), np.array([0.0, near])
    for one in passes_in(width, height, 2, upright, ("Quarry Strata", "1")):
        along = (one.carry(points + right) - one.carry(points - right)) / (2 * near)
        up = (one.carry(points + rise) - one.carry(points - rise)) / (2 * near)
        scale = along[:, 0] * up[:, 1] - along[:, 1] * up[:, 0]
        # Where two bends nearly touch, and at the joints of the table, the line's own slope is not smooth.
        assert np.quantile(np.abs(scale - 1), 0.97) < 0.02
        assert np.quantile(scale, 0.001) > 0, "nothing is folded over"
        assert np.hypot(*(one.carry(points) - points).T).max() > 0.4 * one.radius


@pytest.mark.parametrize("room", ROOMS)
@pytest.mark.parametrize("upright", [False, True])
def test_walls_stay_where_they_are(room: tuple[float, float], upright: bool) -> None:
    width, height = room
    part = np.linspace(0, 1, 401)
    rim = np.concatenate(
        [np.column_stack([part * width, np.full(401, y)]) for y in (0.0, height)]
        + [np.column_stack([np.full(401, x), part * height]) for x in (0.0, width)]
    )
    for seed in range(6):
        made = passes_in(width, height, 4, upright, ("Quarry Strata", str(seed)))
        assert np.abs(carried(made, rim) - rim).max() < 0.005


def test_the_tool_goes_through_most_of_the_room() -> None:
    for one in passes_in(100.0, 78.0, 3, False, ("Quarry Strata", "1")):
        across = np.ptp(one.line.places.real), np.ptp(one.line.places.imag)
        assert across[0] > 75
        assert across[1] > 35


@pytest.mark.parametrize("reach", [0.0, 4.0, 20.0])
def test_a_meander_is_as_long_as_its_places_are_apart_and_leads_back(reach: float) -> None:
    line = meander(90.0, 2.3, reach, 0.4, 0.7, 0.5)
    assert np.abs(np.diff(line.places)).sum() == pytest.approx(line.length, rel=2e-3)
    along = np.linspace(3.0, line.length - 3.0, 57)
    near, found, aside = line.beside(line.out(along, np.full(57, 1.3)), 2.0)
    assert len(near) == 57
    assert found == pytest.approx(along, abs=1e-3)
    assert aside == pytest.approx(np.full(57, 1.3), abs=1e-3)


def test_a_straight_line_is_straight() -> None:
    """Without a reach only the hand wavers: no more than its heading allows over half of its wave."""
    line = meander(90.0, 1.0, 0.0, 0.0, 0.0, 0.5)
    assert np.ptp(line.places.imag) < 90.0 / 0.43 / math.pi * 0.18
