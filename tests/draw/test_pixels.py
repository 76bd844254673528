"""A drawing as pixels, against shapes whose areas and colours are known from geometry."""

from __future__ import annotations

from math import pi

import pytest
from PIL import Image

from saponary.draw.pixels import pixels, rings, size_within
from saponary.draw.pour import DrawnPortion, Face, Scene, Shade
from saponary.draw.vessel.drawing import draw_vessel
from saponary.draw.vessel.shape import VESSELS
from saponary.messages.speaker import speaker
from saponary.schema.methods.method import Vessel

GROUND, INK = "#ffffff", "#000000"


def drawn(inside: str) -> Image.Image:
    svg = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 100">{inside}</svg>'
    return pixels(svg, (200, 100), GROUND, INK)


def share(image: Image.Image, colour: tuple[int, int, int]) -> float:
    found = {tone: count for count, tone in image.getcolors(20_000) or ()}
    return found.get(colour, 0) / (image.width * image.height)


@pytest.mark.parametrize(
    ("path", "points"),
    [
        ("M10 10l5 0 0-5z", [(10, 10), (15, 10), (15, 5), (10, 10)]),
        ("M1 2L3 4-5 6", [(1, 2), (3, 4), (-5, 6)]),
        ("M3 4V9h2H1v-1", [(3, 4), (3, 9), (5, 9), (1, 9), (1, 8)]),
    ],
)
def test_steps_are_read_as_the_standard_has_them(path: str, points: list[tuple[float, float]]) -> None:
    """Source: SVG 1.1, 8.3: small letters are relative, and pairs after a moveto are linetos."""
    assert rings(path) == [points]


def test_a_quadratic_curve_is_drawn_out_and_its_mirror_image_after_it() -> None:
    """By the formula of Bézier's curve: at its middle (a + 2b + c) / 4. `t` mirrors the control (SVG 1.1, 8.3.7)."""
    (line,) = rings("M0 0q4 8 8 0t8 0")
    assert line[2] == (4, 4) and line[4] == (8, 0)
    assert line[6] == (12, -4) and line[8] == (16, 0)


def test_other_curves_are_refused() -> None:
    with pytest.raises(ValueError, match="'c' is no straight step"):
        rings("M0 0c1 1 2 2 3 3")


def test_areas_are_those_of_the_shapes() -> None:
    assert share(drawn('<path fill="#ff0000" d="M0 0h100v100h-100z"/>'), (255, 0, 0)) == pytest.approx(
        0.5, abs=0.02
    )
    round_ = drawn('<ellipse fill="#ff0000" cx="100" cy="50" rx="80" ry="40"/>')
    assert share(round_, (255, 0, 0)) == pytest.approx(pi * 80 * 40 / 20_000, abs=0.03)


def test_a_hole_is_left_open() -> None:
    ring = '<path fill="#0000ff" fill-rule="evenodd" d="M20 10h80v80h-80zM40 30h40v40h-40z"/>'
    image = drawn(ring)
    assert image.getpixel((60, 50)) == (255, 255, 255) and image.getpixel((30, 50)) == (0, 0, 255)


def test_what_stands_out_of_a_clip_is_cut_off() -> None:
    image = drawn(
        '<defs><clipPath id="c"><path d="M0 0h50v100h-50z"/></clipPath></defs>'
        '<g clip-path="url(#c)"><path fill="#ff0000" d="M0 0h200v100h-200z"/></g>'
    )
    assert image.getpixel((25, 50)) == (255, 0, 0) and image.getpixel((100, 50)) == (255, 255, 255)


def test_a_face_within_covers_its_box() -> None:
    """Source: SVG 1.1, 7.8: `slice` scales until the whole box is covered, from the middle."""
    within = '<svg x="100" y="0" width="100" height="100" viewBox="0 0 20 10"><path fill="{}" d="{}"/></svg>'
    image = drawn(within.format("#00ff00", "M5 0h10v10h-10z"))
    assert share(image, (0, 255, 0)) == pytest.approx(0.5, abs=0.03)


def test_opacity_mixes_with_what_lies_below() -> None:
    image = drawn('<path fill="currentColor" fill-opacity=".5" d="M0 0h200v100h-200z"/>')
    assert image.getpixel((100, 50)) == pytest.approx((127, 127, 127), abs=2)


def test_a_drawing_fits_its_box_in_its_own_proportions() -> None:
    svg = '<svg viewBox="0 0 200 100"/>'
    assert size_within(svg, 250, 200) == (250, 125) and size_within(svg, 250, 50) == (100, 50)


@pytest.mark.parametrize("vessel", VESSELS)
def test_what_is_drawn_for_a_vessel_is_read_whole(vessel: Vessel) -> None:
    poured = Scene(
        "Tried", (DrawnPortion("soap", 1.0, Shade("#d8bb86", "#c8964a")),), (), Face("loaf", 80, 60), (), vessel=vessel
    )  # fmt: skip
    svg = draw_vessel(poured, "tried", speaker("en")).cured_svg
    image = pixels(svg, size_within(svg, 300, 300), GROUND, INK)
    assert image.getpixel((image.width // 2, image.height * 3 // 4)) == (0xC8, 0x96, 0x4A)
