"""Nothing but pixels is published, the same bytes each time, and the cache neither lies nor breaks."""

from __future__ import annotations

import random
import struct
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import Any

import numpy as np
import pillow_heif
import pytest
from PIL import Image, ImageCms, PngImagePlugin

from saponary.assets.store import DiskStore
from saponary.draw.photos.facts import PhotoFault, Variant
from saponary.draw.photos.many import make_all
from saponary.draw.photos.publish import make_variants, variants_of

MARK = "Velda-Nordquill-57N03W"
LEFTOVERS = (
    MARK.encode(),
    MARK.encode("utf-16-le"),
    b"Exif",
    b"http://ns.adobe.com",
    b"xpacket",
    b"ICC_PROFILE",
    b"ICCP",
    b"acsp",
    b"MPF\0",
    b"Photoshop",
    b"JFXX",
    b"EXIF",
    b"XMP ",
)


def scene(width: int = 560, height: int = 400) -> Image.Image:
    y, x = np.mgrid[0:height, 0:width]
    return Image.fromarray(np.stack([x % 256, y % 256, (x + y) % 256], -1).astype(np.uint8))


def telling() -> dict[str, Any]:
    """Every kind of metadata, each with the mark in it."""
    exif = Image.Exif()
    exif[0x010F] = MARK
    exif[0x013B] = MARK
    exif[0x0112] = 6
    exif[0xA431] = MARK
    place = exif.get_ifd(0x8825)
    place[1], place[2], place[3], place[4] = "N", (57.0, 3.0, 1.0), "W", (3.0, 2.0, 1.0)
    place[29] = MARK
    return {
        "exif": exif,
        "xmp": f"<?xpacket begin=''?><x:xmpmeta>{MARK}</x:xmpmeta>".encode(),
        "icc_profile": ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes(),
    }


def jpeg() -> bytes:
    """With a comment, an embedded thumbnail, print settings, and a second picture after the end."""
    out = BytesIO()
    inner = BytesIO()
    scene(160, 120).save(inner, "JPEG", comment=MARK.encode())
    settings = b"Photoshop 3.0\0" + MARK.encode()
    more = b"".join(
        b"\xff" + bytes([mark]) + struct.pack(">H", 2 + len(body)) + body
        for mark, body in (
            (0xED, settings),
            (0xE0, b"JFXX\0\x10" + inner.getvalue()),
            (0xE2, b"MPF\0" + MARK.encode()),
        )
    )
    scene().save(out, "JPEG", comment=MARK.encode(), extra=more, **telling())
    return out.getvalue() + inner.getvalue()


def png() -> bytes:
    out = BytesIO()
    words = PngImagePlugin.PngInfo()
    words.add_text("Author", MARK)
    words.add_itxt("XML:com.adobe.xmp", MARK)
    words.add_text("Comment", MARK, zip=True)
    told = telling()
    scene().save(out, "PNG", pnginfo=words, exif=told["exif"], icc_profile=told["icc_profile"])
    return out.getvalue() + MARK.encode()


def webp() -> bytes:
    out = BytesIO()
    told = telling()
    scene().save(out, "WEBP", exif=told["exif"].tobytes(), xmp=told["xmp"], icc_profile=told["icc_profile"])
    return out.getvalue() + MARK.encode()


def heic() -> bytes:
    out = BytesIO()
    told = telling()
    pillow_heif.from_pillow(scene()).save(out, format="HEIF", exif=told["exif"].tobytes(), xmp=told["xmp"])
    return out.getvalue()


def made(data: bytes) -> list[Variant]:
    variants = variants_of(data)
    assert not isinstance(variants, PhotoFault), variants
    return variants


def jpeg_marks(data: bytes) -> Iterator[tuple[int, bytes]]:
    """The segments of a JPEG up to its last scan; what follows the end is an error."""
    at = 2
    while at < len(data):
        assert data[at] == 0xFF
        mark = data[at + 1]
        if mark == 0xD9:
            assert at + 2 == len(data), "bytes behind the picture"
            return
        length = int.from_bytes(data[at + 2 : at + 4], "big")
        yield mark, data[at + 4 : at + 2 + length]
        at += 2 + length
        if mark == 0xDA:
            while not (data[at] == 0xFF and data[at + 1] != 0 and not 0xD0 <= data[at + 1] <= 0xD7):
                at += 1
    pytest.fail("a JPEG without an end")


def webp_chunks(data: bytes) -> list[bytes]:
    assert int.from_bytes(data[4:8], "little") + 8 == len(data), "bytes behind the picture"
    names, at = [], 12
    while at < len(data):
        names.append(data[at : at + 4])
        length = int.from_bytes(data[at + 4 : at + 8], "little")
        at += 8 + length + length % 2
    return names


@pytest.mark.parametrize("source", [jpeg, png, webp, heic])
def test_no_published_byte_tells_anything(source: Any) -> None:
    data = source()
    assert MARK.encode() in data
    for variant in made(data):
        for leftover in LEFTOVERS:
            assert leftover not in variant.data, (variant.name, leftover)
            assert leftover not in variant.name.encode()
        with Image.open(BytesIO(variant.data)) as shown:
            assert not shown.getexif()
            assert set(shown.info) <= {
                "jfif", "jfif_version", "jfif_unit", "jfif_density", "progressive", "progression",
                "loop", "background", "timestamp", "duration",
            }  # fmt: skip


def test_only_the_segments_that_a_picture_needs() -> None:
    for variant in made(jpeg()):
        if variant.type == "image/webp":
            assert webp_chunks(variant.data) == [b"VP8 "]
            continue
        marks = list(jpeg_marks(variant.data))
        assert {mark for mark, _ in marks} <= {0xE0, 0xDB, 0xC2, 0xC4, 0xDA}
        assert [body[:5] for mark, body in marks if mark == 0xE0] == [b"JFIF\0"]
        # The last two bytes of this segment are the size of its thumbnail.
        assert all(body[-2:] == b"\0\0" and len(body) == 14 for mark, body in marks if mark == 0xE0)


def test_the_same_photo_gives_the_same_bytes() -> None:
    for data in (jpeg(), png(), webp()):
        assert made(data) == made(data)


def photos(folder: Path) -> dict[str, Path]:
    found = {}
    for number in range(5):
        path = folder / f"{number}.png"
        scene(300 + number, 200).save(path)
        found[f"name {number}"] = path
    found["bad"] = folder / "bad.jpg"
    found["bad"].write_bytes(b"")
    return found


def test_all_at_once_in_the_order_given(tmp_path: Path) -> None:
    given = photos(tmp_path)
    names = list(given)
    random.Random(1).shuffle(names)
    told: list[str] = []
    found = make_all({name: given[name] for name in names}, None, done=told.append)
    assert list(found) == names == told
    assert isinstance(found["bad"], PhotoFault)
    assert found["name 2"] == make_variants(given["name 2"])
    assert make_all({}, DiskStore(tmp_path / "cache")) == {}


def test_the_cache_is_used_and_mended(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    given, cache = photos(tmp_path), tmp_path / "deep" / "cache"
    first = make_all(given, DiskStore(cache))
    entries = sorted((cache / "photo").iterdir())
    assert len(entries) == 5
    kept = {path: path.read_bytes() for path in entries}
    entries[0].write_bytes(b"")
    entries[1].write_bytes(kept[entries[1]][:-7])
    entries[2].write_bytes(kept[entries[2]].replace(b"WEBP", b"WEBQ", 1))
    entries[3].unlink()
    assert make_all(given, DiskStore(cache)) == first
    assert {path: path.read_bytes() for path in sorted((cache / "photo").iterdir())} == kept

    def refuse(*_: object) -> None:
        raise AssertionError("made again in spite of the cache")

    monkeypatch.setattr("saponary.draw.photos.publish.variants_of", refuse)
    good = {name: path for name, path in given.items() if name != "bad"}
    assert make_all(good, DiskStore(cache)) == {name: first[name] for name in good}


def test_a_changed_photo_under_the_same_name_is_made_anew(tmp_path: Path) -> None:
    path, cache = tmp_path / "bar.png", DiskStore(tmp_path / "cache")
    scene(300, 200).save(path)
    before = make_all({"bar": path}, cache)["bar"]
    scene(301, 200).save(path)
    after = make_all({"bar": path}, cache)["bar"]
    assert before != after == make_variants(path)


def test_a_cache_that_cannot_be_written_costs_only_time(tmp_path: Path) -> None:
    given = photos(tmp_path)
    blocked = tmp_path / "file"
    blocked.write_bytes(b"")
    assert make_all(given, DiskStore(blocked / "cache")) == make_all(given, None)
