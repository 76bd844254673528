"""Jars and bottles: the level is true to the volume, and the drawing says what it shows."""

from __future__ import annotations

from math import pi
from xml.etree import ElementTree

import pytest

from saponary.draw.pour import DrawnPortion, Face, Scene, Shade
from saponary.draw.pour.drawing import draw_pair
from saponary.draw.vessel.shape import VESSELS
from saponary.messages.speaker import speaker
from saponary.schema.methods.method import Vessel

SVG = "{http://www.w3.org/2000/svg}"


def scene(vessel: Vessel, level: float) -> Scene:
    return Scene(
        "Tried", (DrawnPortion("soap", 1.0, Shade("#d8bb86", "#c8964a")),), (), Face("loaf", 80, 60), (),
        vessel=vessel, level=level,
    )  # fmt: skip


@pytest.mark.parametrize("vessel", VESSELS)
@pytest.mark.parametrize("full", [0.05, 0.5, 0.9, 0.95])
def test_what_lies_below_the_level_is_its_share_of_the_whole(vessel: Vessel, full: float) -> None:
    """A vessel is round: Simpson's rule over pi r², which the drawing does not use."""
    glass = VESSELS[vessel]

    def volume(above: float) -> float:
        n, step = 2000, (glass.bottom - above) / 2000
        areas = [pi * glass.half(above + i * step) ** 2 for i in range(n + 1)]
        return step / 3 * sum(a * (1 if i in (0, n) else 4 if i % 2 else 2) for i, a in enumerate(areas))

    assert volume(glass.level(full)) / volume(glass.top) == pytest.approx(full, abs=2e-3)


@pytest.mark.parametrize(("vessel", "told"), [("jar", "A jar with a lid"), ("bottle", "A bottle with a cap")])
def test_both_faces_are_drawn_with_their_colours_and_words(vessel: Vessel, told: str) -> None:
    pair = draw_pair(scene(vessel, 0.85), "tried", speaker())
    assert pair.description.startswith(told) and "85 per cent" in pair.description
    for svg, colour in ((pair.fresh_svg, "#d8bb86"), (pair.cured_svg, "#c8964a")):
        root = ElementTree.fromstring(svg)
        fills = [path.attrib.get("fill") for path in root.iter(f"{SVG}path")]
        assert colour in fills and root.find(f"{SVG}title") is not None
        assert len(svg) < 12_000
    (key,) = pair.legend
    assert (key.role, key.share_percent) == ("portion", 100)


def test_a_fuller_bottle_stands_higher() -> None:
    glass = VESSELS["bottle"]
    levels = [glass.level(full) for full in (0.2, 0.5, 0.8)]
    assert levels == sorted(levels, reverse=True)


def test_a_cooked_loaf_has_a_rough_top_and_says_so() -> None:
    from dataclasses import replace

    flat = scene("mould", 1.0)
    rough = replace(flat, top="rough")
    pairs = [draw_pair(one, "tried", speaker()) for one in (flat, rough)]
    assert pairs[0].fresh_svg != pairs[1].fresh_svg
    assert "rough" in pairs[1].description and "rough" not in pairs[0].description
