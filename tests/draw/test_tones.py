"""Colours by number, against what Pillow makes of the same colours."""

from __future__ import annotations

import pytest
from PIL import Image, ImageColor

from saponary.draw.tones import Tones

SIZE = (4, 4)
WHOLE = Image.new("1", SIZE, 1)


def held(tones: Tones, image: Image.Image) -> tuple[int, ...]:
    found = tones.coloured(image).getpixel((1, 1))
    assert isinstance(found, tuple)
    return found


@pytest.mark.parametrize("opacity", [0.15, 0.5, 0.62, 0.85])
def test_a_veil_mixes_as_the_library_blends_two_pictures(opacity: float) -> None:
    below, veil = "#c86432", "#20231d"
    tones = Tones()
    image = Image.new("L", SIZE, tones.number(below))
    found = held(tones, tones.veiled(image, veil, opacity, WHOLE))
    blended = Image.blend(Image.new("RGB", SIZE, below), Image.new("RGB", SIZE, veil), opacity)
    assert found == pytest.approx(blended.getpixel((1, 1)), abs=1)


def test_where_numbers_are_scarce_what_lies_outside_the_mask_takes_none() -> None:
    tones = Tones()
    for part in range(200):
        tones.number(f"#{part:02x}0000")
    image = Image.new("L", SIZE, tones.number("#ffffff"))
    image.paste(tones.number("#000000"), (0, 0, 2, 4))
    left = Image.new("1", SIZE)
    left.paste(1, (0, 0, 2, 4))
    tones.veiled(image, "#00ff00", 0.5, left)
    assert tones.number("#008000") == 201 and tones.number("#abcdef") == 202


def test_a_colour_too_many_is_shown_as_the_nearest() -> None:
    tones = Tones()
    for part in range(256):
        tones.number(f"#{part:02x}0000")
    image = Image.new("L", SIZE, tones.number("#640203"))
    assert held(tones, image) == ImageColor.getrgb("#640000")
