"""The pour drawing: every portion has the area of its volume, where the steps put it."""

from __future__ import annotations

import subprocess
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from draw.pour_scenes import (
    ALL,
    BEDS,
    FACES,
    LAYINGS,
    PORTIONS,
    STIRRED,
    Grid,
    flat,
    painted,
    scene,
    shares,
    steps,
)
from saponary.draw.pour import DrawnPortion, Scene, Shade
from saponary.draw.pour.drawing import draw_pair
from saponary.draw.pour.layout import lay_out
from saponary.draw.pour.mould import make_mould
from saponary.draw.pour.plan import plan
from saponary.messages.speaker import speaker

pytestmark = pytest.mark.slow


def assert_true_areas(
    pour: Scene, within: float = 0.02, portions: tuple[DrawnPortion, ...] = PORTIONS
) -> None:
    found = shares(painted(pour), portions)
    for portion in portions:
        if portion.volume_share >= 0.05:
            assert found[portion.name] == pytest.approx(portion.volume_share, rel=within), portion.name


@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize("laid", LAYINGS)
def test_areas_are_volumes(laid: str, face: str) -> None:
    assert_true_areas(scene(LAYINGS[laid], FACES[face]), within=0.01)


@pytest.mark.slow
@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize("stirred", STIRRED)
def test_a_swirl_keeps_the_areas(stirred: str, face: str) -> None:
    assert_true_areas(scene(STIRRED[stirred], FACES[face]), within=0.01)


@pytest.mark.parametrize("tool", ["hanger", "comb", "skewer"])
def test_a_swirl_moves_the_batter(tool: str) -> None:
    still = painted(scene(BEDS))
    moved = painted(scene([*BEDS, {"swirl": {"tool": tool, "passes": 3}}]))
    assert (still != moved).mean() > 0.05


def test_a_swirl_leaves_alone_what_is_below_its_depth_and_what_is_laid_later() -> None:
    swirl = {"swirl": {"tool": "comb", "passes": 2, "depth": "30 %"}}
    laid = [{"beds": [{"of": "chalk"}, {"of": "madder"}, {"of": "woad"}]}]
    last = {"beds": [{"of": "slate"}]}
    still = painted(scene([*laid, last]))
    moved = painted(scene([*laid, swirl, last]))
    # The same outline may be written with other controls, a pixel away.
    other = [np.roll(still, by, axis=0) != moved for by in (-1, 0, 1)]
    changed = np.flatnonzero(np.all(other, axis=0).any(axis=1))
    assert changed.min() > 0.11 * len(still)
    assert changed.max() < 0.55 * len(still)


def test_a_swirl_after_drops_moves_them_and_one_before_does_not() -> None:
    drops = {"drops": {"into": "chalk", "of": ["madder"], "count": 2}}
    bed = {"beds": [{"of": "chalk"}]}
    swirl = {"swirl": {"tool": "skewer", "passes": 2}}

    def round_drop(written: list[dict[str, Any]]) -> Grid:
        grid = painted(scene(written, FACES["loaf"]))
        madder: Grid = grid == int("a4503c", 16)
        return madder

    assert (round_drop([bed, drops]) == round_drop([bed, swirl, drops])).mean() > 0.999
    assert (round_drop([bed, drops]) != round_drop([bed, drops, swirl])).mean() > 0.01


@pytest.mark.slow
def test_many_thin_portions() -> None:
    portions = tuple(
        DrawnPortion(f"p{i}", (i + 3) / 102, Shade(f"#{20 * i:02x}8060", f"#{20 * i:02x}9070"))
        for i in range(12)
    )
    names = [portion.name for portion in portions]
    pours: list[list[dict[str, Any]]] = [
        [],
        [{"columns": {"of": names, "count": 40}}],
        [{"plops": {"of": names}}],
        [{"drops": {"into": "p11", "of": names[:11], "count": 3}}],
        [{"beds": [{"of": name} for name in names]}, {"swirl": {"tool": "hanger", "passes": 20}}],
    ]
    for written in pours:
        pour = scene(written, portions=portions)
        assert_true_areas(pour, portions=portions)
        assert len(draw_pair(pour, "a", speaker()).fresh_svg) < 60_000


def test_the_last_drop_is_innermost() -> None:
    grid = painted(scene(LAYINGS["one drop"], FACES["round"]))
    middle = grid[grid.shape[0] // 2]
    runs = [int(middle[i]) for i in range(len(middle)) if i == 0 or middle[i] != middle[i - 1]]
    colours = [int(item.shade.fresh[1:], 16) for item in PORTIONS]
    assert [run for run in runs if run >= 0] == [*colours, *colours[-2::-1]]


def test_columns_run_left_to_right_and_beds_upward() -> None:
    colours = [int(item.shade.fresh[1:], 16) for item in PORTIONS]
    upright = painted(scene(LAYINGS["columns"]))
    row = upright[upright.shape[0] // 2]
    assert [int(row[i]) for i in range(1, len(row)) if row[i] != row[i - 1] and row[i] >= 0] == colours
    level = painted(scene(BEDS))
    column = level[::-1, level.shape[1] // 2]
    assert [
        int(column[i]) for i in range(1, len(column)) if column[i] != column[i - 1] and column[i] >= 0
    ] == colours


def test_a_slope_rises_to_the_right() -> None:
    tilted = painted(scene([{"beds": [{"of": "chalk", "slope": 10}]}]))
    chalk = tilted == int("efe6d2", 16)
    assert chalk[:, 1700].sum() > 1.2 * chalk[:, 300].sum()


@pytest.mark.parametrize("texture", ["flat", "peaks", "waves", "mound", "rough"])
def test_a_textured_top_keeps_the_area_of_the_face(texture: str) -> None:
    mould = make_mould(FACES["loaf"], texture, "Quarry Strata")
    flat = make_mould(FACES["loaf"], "flat", "another")
    assert mould.outline.area == pytest.approx(flat.outline.area, rel=1e-6)


@pytest.mark.parametrize("kind", ["round", "square", "diamond", "half-round", "star"])
def test_embeds_have_their_size_and_stand_apart(kind: str) -> None:
    layout = lay_out(
        scene(
            [
                {"beds": [{"of": "chalk"}]},
                {"embeds": {"of": "clear", "shape": kind, "across": "14 mm", "count": 3}},
            ]
        )
    )
    assert len(layout.embeds) == 3
    for embed in layout.embeds:
        spread = max(
            np.hypot(*(np.subtract(a, b)))
            for a in embed.shape.exterior.coords
            for b in embed.shape.exterior.coords
        )
        assert spread / layout.mould.scale == pytest.approx(14, rel=0.45)
        assert layout.mould.outline.contains(embed.shape)
    for i, one in enumerate(layout.embeds):
        assert all(one.shape.disjoint(other.shape) for other in layout.embeds[:i])


def test_an_embed_larger_than_the_mould_is_drawn_smaller() -> None:
    layout = lay_out(scene([{"embeds": {"of": "clear", "across": "500 mm", "count": 24}}]))
    assert len(layout.embeds) == 24


def test_steps_that_name_nothing_known_are_left_out() -> None:
    unknown: list[dict[str, Any]] = [
        {"beds": [{"of": "nobody"}]},
        {"columns": {"of": ["nobody", "none"]}},
        {"drops": {"into": "nobody", "of": ["madder"]}},
        {"plops": {"of": ["nobody", "none"]}},
        {"line": {"of": "nothing", "over": "chalk"}},
        {"line": {"of": "cocoa", "over": "nobody"}},
        {"embeds": {"of": "nothing", "across": "9 mm"}},
        {"top": {"sprinkle": "nothing"}},
    ]
    assert [zone.names for zone in plan(steps(unknown), PORTIONS)] == [(name,) for name in ALL]
    assert_true_areas(scene(unknown))


def test_a_portion_that_is_never_laid_becomes_the_last_bed() -> None:
    zones = plan(steps([{"columns": {"of": ["madder", "woad"]}}]), PORTIONS)
    assert [zone.names for zone in zones] == [("madder", "woad"), ("chalk",), ("slate",)]


def test_parts_of_a_portion() -> None:
    written: list[dict[str, Any]] = [
        {
            "beds": [
                {"of": "chalk", "part": "30 %"},
                {"of": "madder", "part": "80 %"},
                {"of": "madder", "part": "40 %"},
            ]
        },
        {"beds": [{"of": "chalk"}]},
        {"columns": {"of": ["chalk", "woad", "chalk"]}},
    ]
    found = [
        [(load.name, round(load.share, 4)) for load in zone.loads] for zone in plan(steps(written), PORTIONS)
    ]
    assert found == [
        [("chalk", 0.12)],
        [("madder", 0.18)],
        [("madder", 0.09)],
        [("chalk", 0.14)],
        [("chalk", 0.07), ("woad", 0.21), ("chalk", 0.07)],
        [("slate", 0.12)],
    ]


PAINTED = {
    name: written
    for name, written in {**LAYINGS, **STIRRED}.items()
    if name in ("plops", "one drop", "drops in seven places", "columns", "sloping beds") or "through" in name
} | {
    "skewer through spoonfuls": [*LAYINGS["plops"], {"swirl": {"tool": "skewer", "passes": 2}}],
    "hanger about embeds": STIRRED["hanger about embeds"],
}
WIDE, HIGH = 1400, 1204
"""So fine that pixels on an outline, which count for what is painted last, tell little; Chromium paints no more."""


@pytest.mark.browser
def test_areas_as_a_browser_paints_them(tmp_path: Path) -> None:
    """Pixels of each colour, counted, within half a per cent of the portion's share."""
    page, shot = tmp_path / "page.html", tmp_path / "shot.png"
    high = HIGH
    drawings = "".join(f"<div>{flat(scene(written))}</div>" for written in PAINTED.values())
    page.write_text(
        f"<!doctype html><style>body{{margin:0}}div{{height:{high}px}}"
        f"svg{{width:{WIDE}px;height:auto;display:block;shape-rendering:crispEdges}}"
        f"</style>{drawings}",
        "utf-8",
    )
    subprocess.run(
        [
            "chromium", "--headless", "--no-sandbox", "--disable-gpu", "--hide-scrollbars",
            f"--window-size={WIDE},{high * len(PAINTED)}", f"--screenshot={shot}", page.as_uri(),
        ],
        check=True, capture_output=True, timeout=120,
    )  # fmt: skip
    pixels = np.asarray(Image.open(shot).convert("RGB")).astype(int)
    grid = (pixels[..., 0] << 16) | (pixels[..., 1] << 8) | pixels[..., 2]
    for i, name in enumerate(PAINTED):
        found = shares(grid[i * high : (i + 1) * high], PORTIONS)
        for portion in PORTIONS:
            assert found[portion.name] == pytest.approx(portion.volume_share, rel=0.005), (name, portion.name)
