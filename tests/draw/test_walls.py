"""The walls as a veil: nought at them, one away from them, with the slope that differences give."""

from __future__ import annotations

import numpy as np
import pytest

from draw.pour_scenes import FACES
from saponary.draw.pour.flow import Basin
from saponary.draw.pour.mould import make_mould
from saponary.draw.pour.walls import STILL, Walls

FADE = 6.0


def walls(face: str, texture: str) -> tuple[Walls, Basin]:
    mould = make_mould(FACES[face], texture, "Quarry Strata")
    basin = Basin(mould.xs, mould.floor, mould.top)
    return Walls(basin, FADE), basin


@pytest.mark.parametrize("texture", ["flat", "peaks"])
@pytest.mark.parametrize("face", ["loaf", "round"])
def test_nothing_moves_at_a_wall_and_its_slope_is_that_of_its_values(face: str, texture: str) -> None:
    veil, basin = walls(face, texture)
    box = (0.0, 0.0, float(basin.xs[-1]), float(basin.high.max()))
    held = veil.within(*box)
    assert held is not None
    for line in (basin.low, basin.high):
        assert held(basin.xs, line)[0] == pytest.approx(np.zeros(len(line)), abs=1e-9)
    chance = np.random.default_rng(7)
    x = chance.uniform(box[0] + 6, box[2] - 6, 400)
    y = np.interp(x, basin.xs, basin.low) + chance.uniform(0.1, 0.9, 400) * np.interp(
        x, basin.xs, basin.high - basin.low
    )
    near = 0.05
    value, slope_x, slope_y = held(x, y)
    assert ((value >= 0) & (value <= 1)).all()
    across = (held(x + near, y)[0] - held(x - near, y)[0]) / (2 * near)
    up = (held(x, y + near)[0] - held(x, y - near)[0]) / (2 * near)
    # Between two of its places a profile is a straight line, and its slope is taken smooth.
    assert np.quantile(np.abs(slope_x - across), 0.95) < 0.02
    assert np.quantile(np.abs(slope_y - up), 0.95) < 0.005


def test_away_from_the_walls_nothing_is_held() -> None:
    veil, _ = walls("loaf", "flat")
    far = STILL + FADE + 2.5
    assert veil.within(far, far, 100 - far, 77 - far) is None
    assert veil.within(far, 2.0, 100 - far, 77 - far) is not None
