"""Files that are no photos, broken photos, and photos made to do harm: each is reported, none is half shown."""

from __future__ import annotations

import os
import struct
import time
import tracemalloc
import zlib
from io import BytesIO
from pathlib import Path
from typing import Any

import numpy as np
import pillow_heif
import pytest
from PIL import Image

from saponary.draw.photos.facts import PhotoFault
from saponary.draw.photos.opening import read_photo
from saponary.draw.photos.publish import make_variants, variants_of


def noisy(width: int = 320, height: int = 200) -> Image.Image:
    return Image.fromarray(np.random.default_rng(7).integers(0, 255, (height, width, 3), np.uint8))


def stored(image: Image.Image, kind: str, **how: Any) -> bytes:
    out = BytesIO()
    image.save(out, kind, **how)
    return out.getvalue()


def chunk(name: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))


def png(width: int, height: int, depth: int = 8, colour: int = 2, body: bytes = b"") -> bytes:
    head = struct.pack(">IIBBBBB", width, height, depth, colour, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", body) + chunk(b"IEND", b"")


def fault_of(data: bytes) -> PhotoFault:
    found = variants_of(data)
    assert isinstance(found, PhotoFault), [v.name for v in found]
    assert found.message and found.hint
    return found


@pytest.mark.parametrize(
    ("data", "word"),
    [
        (b"", "empty"),
        (b"This is not a photo.\n" * 60, "text"),
        ("Größe: ünbekannt\n".encode() * 60, "text"),
        (b"\xff\xd8\xff", "cut short"),
        (b"\xff\xd8\xff\xd9", "cut short"),
        (b"\xff\xd8\xff\xe0" + bytes(2000), "cut short"),
        (b"\x89PNG\r\n\x1a\n", "cut short"),
        (b"RIFF\x10\0\0\0WEBPVP8 ", "cut short"),
        (b"RIFF\x0c\0\0\0WEBPVP8 \0\0\0\0", "cut short"),
        (b"\0\0\0\x18ftypavif\0\0\0\0mif1avif", "AVIF"),
        (b"\0\0\0\x18ftypisom\0\0\0\0isomavc1", "film"),
        (b"MM\0*" + bytes(40), "TIFF"),
        (b"%PDF-1.7\n", "PDF"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "text"),
        (bytes(1000), "no photo"),
        (bytes(range(256)) * 9, "no photo"),
    ],
)
def test_what_is_no_photo_is_named(data: bytes, word: str) -> None:
    assert word in fault_of(data).message


def test_the_extension_is_not_believed(tmp_path: Path) -> None:
    path = tmp_path / "bar.jpg"
    path.write_text("see attachment", encoding="utf-8")
    for found in (read_photo(path), make_variants(path)):
        assert isinstance(found, PhotoFault)
        assert "text" in found.message


def test_odd_places_are_reported(tmp_path: Path) -> None:
    missing, folder, pipe = tmp_path / "none.jpg", tmp_path / "folder.jpg", tmp_path / "pipe.jpg"
    folder.mkdir()
    os.mkfifo(pipe)
    for path in (missing, folder, pipe, tmp_path / "a\0b.jpg", tmp_path / ("x" * 400)):
        assert isinstance(make_variants(path), PhotoFault), path
    loop = tmp_path / "loop.jpg"
    loop.symlink_to(loop)
    assert isinstance(make_variants(loop), PhotoFault)


def test_a_file_too_large_is_not_read(tmp_path: Path) -> None:
    path = tmp_path / "huge.jpg"
    with path.open("wb") as file:
        file.truncate(3_000_000_000)
    found = make_variants(path)
    assert isinstance(found, PhotoFault)
    assert "3000 MB" in found.message


@pytest.mark.parametrize(
    "data",
    [
        stored(noisy(), "JPEG"),
        stored(noisy(), "JPEG", progressive=True),
        stored(noisy(), "PNG"),
        stored(noisy(), "WEBP"),
        stored(noisy(), "WEBP", lossless=True),
    ],
    ids=["jpeg", "progressive", "png", "webp", "lossless"],
)
def test_no_half_picture_of_a_photo_cut_short(data: bytes) -> None:
    assert not isinstance(variants_of(data), PhotoFault)
    for part in (0.02, 0.3, 0.7, 0.95, 0.999):
        assert "cut short" in fault_of(data[: int(len(data) * part)]).message
    filled_up = data[: len(data) // 2] + bytes(len(data) - len(data) // 2)
    assert "cut short" in fault_of(filled_up).message


def test_no_half_heic() -> None:
    out = BytesIO()
    pillow_heif.from_pillow(noisy()).save(out, format="HEIF")
    data = out.getvalue()
    assert not isinstance(variants_of(data), PhotoFault)
    for part in (0.1, 0.5, 0.95):
        assert "HEIC" in fault_of(data[: int(len(data) * part)]).message


def test_a_thumbnails_end_does_not_pass_for_the_photos() -> None:
    exif = Image.Exif()
    exif[0x010E] = "x\xff\xd9x"
    whole = stored(noisy(), "JPEG", exif=exif.tobytes() + stored(noisy(40, 30), "JPEG"))
    assert not isinstance(variants_of(whole), PhotoFault)
    assert "cut short" in fault_of(whole[: len(whole) - 4000]).message


def test_huge_dimensions_in_a_tiny_file_are_refused_unseen() -> None:
    tracemalloc.start()
    began = time.process_time()
    for data in (
        png(60_000, 60_000),
        png(2**31 - 1, 2**31 - 1),
        png(12_000, 6_000, body=zlib.compress(b"")),
        png(40_000, 40_000, depth=1, colour=0, body=zlib.compress(bytes(1000))),
        _jpeg_of(65_500, 65_500),
        _webp_of(16_384, 16_384),
    ):
        assert any(word in fault_of(data).message for word in ("too large", "claims", "cut short"))
    assert time.process_time() - began < 1.0
    assert tracemalloc.get_traced_memory()[1] < 5_000_000
    tracemalloc.stop()


def test_an_honest_bomb_is_refused_by_its_head() -> None:
    """Whole and valid, many pixels in each byte, 400 megapixels of nothing."""
    row = bytes(1 + 20_000 // 8)
    deflate = zlib.compressobj(9)
    body = b"".join(deflate.compress(row) for _ in range(20_000)) + deflate.flush()
    data = png(20_000, 20_000, depth=1, colour=0, body=body)
    began = time.process_time()
    assert "too large" in fault_of(data).message
    assert time.process_time() - began < 0.5


def test_a_jpeg_of_countless_scans_is_refused() -> None:
    data = stored(Image.new("L", (320, 200), 90), "JPEG", progressive=True)
    at = data.rindex(b"\xff\xda")
    scan = data[at : data.rindex(b"\xff\xd9")]
    assert "claims" in fault_of(data[:at] + scan * 400 + b"\xff\xd9").message


def test_a_text_that_unpacks_without_end_is_refused() -> None:
    data = stored(noisy(), "PNG")
    bomb = chunk(b"zTXt", b"Comment\0\0" + zlib.compress(bytes(20_000_000), 9))
    profile = chunk(b"iCCP", b"profile\0\0" + zlib.compress(bytes(20_000_000), 9))
    for extra in (bomb, profile):
        made = variants_of(data[:33] + extra + data[33:])
        assert isinstance(made, PhotoFault) or len(made) == 2


def test_moving_pictures_give_their_first_frame_or_a_fault() -> None:
    frames = [Image.new("RGB", (200, 100), colour) for colour in ("#c02020", "#2020c0", "#20c020")]
    gif = stored(frames[0], "GIF", save_all=True, append_images=frames[1:])
    assert "GIF" in fault_of(gif).message
    for kind in ("WEBP", "PNG"):
        made = variants_of(stored(frames[0], kind, save_all=True, append_images=frames[1:], duration=80))
        assert not isinstance(made, PhotoFault)
        with Image.open(BytesIO(made[1].data)) as shown:
            red, green, blue = shown.convert("RGB").resize((1, 1)).tobytes()
        assert red > 150 and green < 80 and blue < 80


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.filterwarnings("ignore")
def test_flipped_bytes_never_raise(kind: str) -> None:
    exif = Image.Exif()
    exif[0x0112] = 6
    data = stored(noisy(96, 64), kind, exif=exif)
    dice = np.random.default_rng(3)
    for _ in range(100):
        hurt = bytearray(data)
        for place in dice.integers(0, len(data), 6):
            hurt[int(place) if dice.random() < 0.5 else int(place) % 120] = int(dice.integers(0, 256))
        found = variants_of(bytes(hurt), (64,))
        assert isinstance(found, PhotoFault) or all(v.width <= 64 for v in found)


def _jpeg_of(width: int, height: int) -> bytes:
    data = bytearray(stored(noisy(16, 16), "JPEG"))
    at = data.index(b"\xff\xc0")
    data[at + 5 : at + 9] = struct.pack(">HH", height, width)
    return bytes(data)


def _webp_of(width: int, height: int) -> bytes:
    body = bytes((0x10, 0, 0, 0)) + (width - 1).to_bytes(3, "little") + (height - 1).to_bytes(3, "little")
    chunks = b"VP8X" + struct.pack("<I", len(body)) + body
    return b"RIFF" + struct.pack("<I", 4 + len(chunks)) + b"WEBP" + chunks
