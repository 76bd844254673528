"""The faint eddies among spoonfuls: areas kept, walls left where they are."""

from __future__ import annotations

import numpy as np
import pytest

from draw.pour_scenes import FACES
from saponary.draw.pour.chart import Chart, chart
from saponary.draw.pour.eddies import eddies
from saponary.draw.pour.mould import make_mould
from saponary.draw.pour.seed import Array

SPACING = 16.0


def charted(face: str) -> Chart:
    mould = make_mould(FACES[face], "flat", "Quarry Strata")
    found = chart(mould.xs, mould.floor, mould.top)
    assert found is not None
    return found


def carried(room: Chart, points: Array) -> Array:
    for one in eddies(room, SPACING, ("Quarry Strata", "0")):
        points = one.carry(points)
    return points


@pytest.mark.parametrize("face", FACES)
def test_no_area_is_gained_or_lost_anywhere(face: str) -> None:
    """A map keeps areas where the determinant of its derivative is one (central differences here)."""
    room, near = charted(face), 1e-5
    x, y = np.meshgrid(np.linspace(0.02, 0.98, 61) * room.width, np.linspace(0.02, 0.98, 61) * room.height)
    points, right, rise = (
        np.column_stack([x.ravel(), y.ravel()]),
        np.array([near, 0.0]),
        np.array([0.0, near]),
    )
    along = (carried(room, points + right) - carried(room, points - right)) / (2 * near)
    up = (carried(room, points + rise) - carried(room, points - rise)) / (2 * near)
    scale = along[:, 0] * up[:, 1] - along[:, 1] * up[:, 0]
    assert np.quantile(np.abs(scale - 1), 0.99) < 1e-3 and scale.min() > 0
    moved = np.hypot(*(carried(room, points) - points).T)
    assert 0.01 * SPACING < np.median(moved) < 0.1 * SPACING


def test_walls_stay_where_they_are() -> None:
    room, part = charted("loaf"), np.linspace(0, 1, 101)
    for points in (
        np.column_stack([np.zeros(101), part * room.height]),
        np.column_stack([np.full(101, room.width), part * room.height]),
        np.column_stack([part * room.width, np.zeros(101)]),
        np.column_stack([part * room.width, np.full(101, room.height)]),
    ):
        assert carried(room, points) == pytest.approx(points, abs=1e-9)


def test_they_can_be_taken_back() -> None:
    room = charted("loaf")
    part = np.linspace(0.03, 0.97, 23)
    points = np.array([[x, y] for x in part * room.width for y in part * room.height])
    for one in eddies(room, SPACING, ("Quarry Strata", "0")):
        # A five-hundredth of what a drawing can tell apart.
        assert one.back(one.carry(points)) == pytest.approx(points, abs=1e-4)
