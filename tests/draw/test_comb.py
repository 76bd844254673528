"""The comb's map: areas kept, walls left where they are. Held to the definition: a map keeps areas
where the determinant of its derivative is one (central differences here)."""

from __future__ import annotations

import math

import numpy as np
import pytest

from draw.pour_scenes import FACES, steps
from saponary.draw.pour.carried import Leg, Line
from saponary.draw.pour.carried import carried as drawn_out
from saponary.draw.pour.chart import Chart, chart
from saponary.draw.pour.comb import comb
from saponary.draw.pour.mould import make_mould
from saponary.draw.pour.seed import Array
from saponary.draw.pour.strokes import Stroke
from saponary.schema.pour import Swirl

TEXTURES = ("flat", "peaks", "mound")


def swirl(passes: int) -> Swirl:
    (step,) = steps([{"swirl": {"tool": "comb", "passes": passes}}])
    assert step.swirl is not None
    return step.swirl


def charted(face: str, texture: str = "flat") -> Chart:
    mould = make_mould(FACES[face], texture, "Quarry Strata")
    found = chart(mould.xs, mould.floor, mould.top)
    assert found is not None
    return found


def strokes(room: Chart, passes: int, upright: bool) -> list[Stroke]:
    return comb(swirl(passes), room, upright, False, ("Quarry Strata", "1"))


def carried(room: Chart, made: list[Stroke], points: Array) -> Array:
    for stroke in made:
        points = stroke.carry(points)
    return points


@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize("upright", [False, True])
def test_no_area_is_gained_or_lost_anywhere(face: str, upright: bool) -> None:
    room = charted(face)
    made = strokes(room, 3, upright)
    x, y = np.meshgrid(np.linspace(0.02, 0.98, 61) * room.width, np.linspace(0.02, 0.98, 61) * room.height)
    points, near = np.column_stack([x.ravel(), y.ravel()]), 1e-5
    right, rise = np.array([near, 0.0]), np.array([0.0, near])
    along = (carried(room, made, points + right) - carried(room, made, points - right)) / (2 * near)
    up = (carried(room, made, points + rise) - carried(room, made, points - rise)) / (2 * near)
    scale = along[:, 0] * up[:, 1] - along[:, 1] * up[:, 0]
    # At the joints of the table the slope itself is not smooth.
    assert np.quantile(np.abs(scale - 1), 0.97) < 1e-3
    assert scale.min() > 0, "nothing is folded over"
    assert np.hypot(*(carried(room, made, points) - points).T).max() > 3


@pytest.mark.parametrize("upright", [False, True])
def test_walls_stay_where_they_are(upright: bool) -> None:
    room = charted("loaf", "peaks")
    made = strokes(room, 2, upright)
    part = np.linspace(0, 1, 101)
    for wall, value, axis in (
        ("left", 0.0, 0),
        ("right", room.width, 0),
        ("floor", 0.0, 1),
        ("top", room.height, 1),
    ):
        points = np.empty((101, 2))
        points[:, axis], points[:, 1 - axis] = value, part * (room.height if axis == 0 else room.width)
        assert carried(room, made, points)[:, axis] == pytest.approx(np.full(101, value), abs=1e-6), wall


@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize("texture", TEXTURES)
def test_the_chart_has_the_area_of_the_region_and_leads_back(face: str, texture: str) -> None:
    mould = make_mould(FACES[face], texture, "Quarry Strata")
    room = charted(face, texture)
    assert room.width * room.height == pytest.approx(mould.outline.area, rel=2e-3)
    part = np.linspace(0.05, 0.95, 19)
    points = np.array([[x, y] for x in part * room.width for y in part * room.height])
    assert room.into(room.out(points)) == pytest.approx(points, abs=1e-6)


def test_a_region_in_two_parts_has_no_chart() -> None:
    xs = np.linspace(0, 90, 181)
    bump = np.where((xs > 40) & (xs < 50), 20.0, 0.0)
    assert chart(xs, np.full_like(xs, 20.0), 20.0 + 20.0 - bump) is None


@pytest.mark.parametrize("radius", [6.0, 15.0, 25.0])
def test_an_outline_drawn_out_keeps_its_area(radius: float) -> None:
    """A circle against π r² by the shoelace formula."""
    room = charted("loaf")
    turn = np.linspace(0, math.tau, 400, endpoint=False)
    ring = np.column_stack([45 + radius * np.cos(turn), 40 + radius * np.sin(turn)])
    (line,) = drawn_out([Line(ring)], [Leg(room, tuple(strokes(room, 2, False)))])
    moved = line.points
    there = np.roll(moved, -1, axis=0)
    area = abs(float((moved[:, 0] * there[:, 1] - moved[:, 1] * there[:, 0]).sum()) / 2)
    assert area == pytest.approx(math.pi * radius**2, rel=0.006)
