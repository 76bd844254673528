"""Photos that can be used: every format, stored every way, comes out upright, in true colours and sized."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from typing import Any

import numpy as np
import pillow_heif
import pytest
from numpy.typing import NDArray
from PIL import Image, ImageCms

from saponary.draw.photos.facts import PhotoFacts, PhotoFault, Variant
from saponary.draw.photos.opening import read_photo
from saponary.draw.photos.publish import make_variants, variants_of

RED, GREEN, BLUE, GOLD = (200, 40, 40), (40, 150, 60), (50, 70, 190), (220, 180, 60)


def quarters(width: int = 640, height: int = 400) -> Image.Image:
    """Four quarters of four colours, so that every turn and every mirror image shows."""
    image = Image.new("RGB", (width, height), RED)
    image.paste(GREEN, (width // 2, 0, width, height // 2))
    image.paste(BLUE, (0, height // 2, width // 2, height))
    image.paste(GOLD, (width // 2, height // 2, width, height))
    return image


def stored(image: Image.Image, kind: str, **how: Any) -> bytes:
    out = BytesIO()
    image.save(out, kind, **how)
    return out.getvalue()


def made(data: bytes, **how: Any) -> list[Variant]:
    variants = variants_of(data, **how)
    assert not isinstance(variants, PhotoFault), variants
    return variants


def pixels(variant: Variant) -> NDArray[np.int64]:
    with Image.open(BytesIO(variant.data)) as image:
        assert image.mode == "RGB"
        assert image.size == (variant.width, variant.height)
        return np.asarray(image).astype(np.int64)


def corners(variant: Variant) -> list[tuple[int, ...]]:
    shown = pixels(variant)
    high, wide = shown.shape[0] // 4, shown.shape[1] // 4
    return [tuple(shown[y, x]) for y in (high, 3 * high) for x in (wide, 3 * wide)]


def assert_near(found: list[tuple[int, ...]], wanted: list[tuple[int, ...]], within: int = 10) -> None:
    assert np.abs(np.array(found) - np.array(wanted)).max() <= within, (found, wanted)


def test_widths_are_never_larger_than_the_photo() -> None:
    variants = made(stored(quarters(2000, 1250), "JPEG"))
    assert [(v.width, v.height, v.type) for v in variants] == [
        (240, 150, "image/webp"),
        (240, 150, "image/jpeg"),
        (480, 300, "image/webp"),
        (480, 300, "image/jpeg"),
        (720, 450, "image/webp"),
        (720, 450, "image/jpeg"),
        (960, 600, "image/webp"),
        (960, 600, "image/jpeg"),
        (1600, 1000, "image/webp"),
        (1600, 1000, "image/jpeg"),
    ]
    small = made(stored(quarters(640, 400), "PNG"))
    assert [v.width for v in small] == [240, 240, 480, 480, 640, 640]
    dot = made(stored(Image.new("RGB", (1, 1), RED), "PNG"))
    assert [(v.width, v.height) for v in dot] == [(1, 1), (1, 1)]


def test_names_are_neutral_stable_and_by_content(tmp_path: Path) -> None:
    path = tmp_path / "Frau Anneliese's kitchen.jpg"
    path.write_bytes(stored(quarters(), "JPEG"))
    variants = make_variants(path)
    assert not isinstance(variants, PhotoFault)
    assert [v.name.rsplit("-", 1)[1] for v in variants] == [
        f"{width}.{end}" for width in (240, 480, 640) for end in ("webp", "jpg")
    ]
    assert len({v.name.rsplit("-", 1)[0] for v in variants}) == 1
    assert all(v.name.startswith("photo-") and "nn" not in v.name for v in variants)
    other = made(stored(quarters(641, 400), "JPEG"))
    assert not {v.name for v in variants} & {v.name for v in other}
    assert [v.name for v in made(path.read_bytes(), widths=(480, 640))] != [v.name for v in variants]


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_orientation_comes_out_upright(kind: str, orientation: int) -> None:
    undo = {
        2: Image.Transpose.FLIP_LEFT_RIGHT,
        3: Image.Transpose.ROTATE_180,
        4: Image.Transpose.FLIP_TOP_BOTTOM,
        5: Image.Transpose.TRANSPOSE,
        6: Image.Transpose.ROTATE_90,
        7: Image.Transpose.TRANSVERSE,
        8: Image.Transpose.ROTATE_270,
    }
    lying = quarters()
    if orientation in undo:
        lying = lying.transpose(undo[orientation])
    exif = Image.Exif()
    exif[0x0112] = orientation
    for variant in made(stored(lying, kind, exif=exif), widths=(320,)):
        assert (variant.width, variant.height) == (320, 200)
        assert_near(corners(variant), [RED, GREEN, BLUE, GOLD])


def test_an_orientation_out_of_range_is_left_aside() -> None:
    exif = Image.Exif()
    exif[0x0112] = 99
    assert_near(corners(made(stored(quarters(), "JPEG", exif=exif))[0]), [RED, GREEN, BLUE, GOLD])


def test_heic_upright_where_the_library_is_there() -> None:
    exif = Image.Exif()
    exif[0x0112] = 6
    out = BytesIO()
    lying = quarters().transpose(Image.Transpose.ROTATE_90)
    pillow_heif.from_pillow(lying).save(out, format="HEIF", exif=exif.tobytes(), quality=90)
    first = made(out.getvalue(), widths=(320,))[0]
    assert (first.width, first.height) == (320, 200)
    assert_near(corners(first), [RED, GREEN, BLUE, GOLD])


def test_heic_without_the_library_names_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(__import__("sys").modules, "pillow_heif", None)
    head = b"\0\0\0\x18ftypheic\0\0\0\0mif1heic" + bytes(64)
    fault = variants_of(head)
    assert isinstance(fault, PhotoFault)
    assert "pillow-heif" in fault.message
    assert "pip install pillow-heif" in fault.hint


@pytest.mark.parametrize(("kind", "name"), [("JPEG", "jpeg"), ("PNG", "png"), ("WEBP", "webp")])
def test_the_format_is_told_by_content(tmp_path: Path, kind: str, name: str) -> None:
    path = tmp_path / "bar.heic"
    path.write_bytes(stored(quarters(), kind))
    facts = read_photo(path)
    assert isinstance(facts, PhotoFacts)
    assert (facts.kind, facts.width, facts.height) == (name, 640, 400)
    assert not isinstance(make_variants(path), PhotoFault)


def test_grey_palette_bits_and_print_colours() -> None:
    for image, kind in (
        (quarters().convert("L"), "JPEG"),
        (quarters().convert("1"), "PNG"),
        (quarters().convert("LA"), "PNG"),
        (quarters().quantize(8), "PNG"),
        (quarters().convert("CMYK"), "JPEG"),
    ):
        assert [v.width for v in made(stored(image, kind))] == [240, 240, 480, 480, 640, 640], image.mode
    assert_near(corners(made(stored(quarters().quantize(8), "PNG"))[0]), [RED, GREEN, BLUE, GOLD])
    assert_near(corners(made(stored(quarters().convert("CMYK"), "JPEG"))[0]), [RED, GREEN, BLUE, GOLD])


def test_sixteen_bits_are_scaled_and_not_cut_off() -> None:
    deep = np.full((40, 60), 0x4000, np.uint16)
    deep[:, 30:] = 0xC000
    variants = made(stored(Image.fromarray(deep), "PNG"))
    shown = pixels(variants[0])
    assert abs(int(shown[20, 10, 0]) - 64) <= 2
    assert abs(int(shown[20, 50, 0]) - 191) <= 2


def test_what_is_clear_lies_on_white() -> None:
    sheer = quarters().convert("RGBA")
    sheer.paste((10, 10, 10, 0), (0, 0, 320, 200))
    wanted: list[tuple[int, ...]] = [(255, 255, 255), GREEN, BLUE, GOLD]
    assert_near(corners(made(stored(sheer, "PNG"))[0]), wanted)
    assert_near(corners(made(stored(sheer, "WEBP", lossless=True))[0]), wanted)
    spotted = quarters().quantize(8)
    clear = spotted.getpixel((10, 10))
    assert_near(corners(made(stored(spotted, "PNG", transparency=clear))[0]), wanted)


def test_colours_go_through_the_photos_own_profile() -> None:
    """Red and blue change places through a profile that names them so; a broken profile changes nothing."""
    lab = ImageCms.ImageCmsProfile(ImageCms.createProfile("LAB")).tobytes()
    srgb = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    swapped = _with_red_and_blue_swapped(srgb)
    turned = made(stored(quarters(), "PNG", icc_profile=swapped))[0]
    red, green, blue, _ = corners(turned)
    assert red[2] > red[0] + 60
    assert blue[0] > blue[2] + 60
    assert green[1] > max(green[0], green[2])
    for profile in (srgb, lab, b"no profile at all", swapped[:200]):
        plain = made(stored(quarters(), "PNG", icc_profile=profile))[0]
        assert_near(corners(plain), [RED, GREEN, BLUE, GOLD])


def _with_red_and_blue_swapped(profile: bytes) -> bytes:
    """A profile whose red primary is blue and whose blue one is red."""
    return profile.replace(b"rXYZ", b"tXYZ").replace(b"bXYZ", b"rXYZ").replace(b"tXYZ", b"bXYZ")


def test_a_very_tall_photo_is_bounded() -> None:
    for variant in made(stored(Image.new("RGB", (300, 30_000), BLUE), "JPEG")):
        assert variant.height <= 4 * 1600
        assert variant.width >= 1


def test_a_hundred_megapixels_are_taken_small() -> None:
    block = stored(Image.new("L", (11_600, 8_700), 140), "JPEG", quality=30)
    variants = made(block, widths=(480,))
    assert [(v.width, v.height) for v in variants] == [(480, 360)] * 2
