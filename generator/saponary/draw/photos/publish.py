"""The published files of one photo: each width as WebP and as JPEG, named by content."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from io import BytesIO
from pathlib import Path

from PIL import Image, ImageFile

from saponary.draw.photos.bytes_of import read_bytes
from saponary.draw.photos.facts import WIDTHS, PhotoFault, Variant
from saponary.draw.photos.opening import open_photo
from saponary.draw.photos.pixels import fit, plain_pixels
from saponary.draw.photos.whole import not_whole

# Raised by hand with every change that alters the bytes published; it goes into their names.
SETTINGS = "1"
QUALITY = 82
STEM = "photo"


def make_variants(path: Path, widths: Sequence[int] = WIDTHS) -> list[Variant] | PhotoFault:
    """What is published of the photo at `path`, the narrowest first, WebP before JPEG."""
    data = read_bytes(path)
    return data if isinstance(data, PhotoFault) else variants_of(data, widths)


def variants_of(data: bytes, widths: Sequence[int] = WIDTHS) -> list[Variant] | PhotoFault:
    """The same, from the bytes of the photo."""
    if not widths or min(widths) < 1:
        raise ValueError("a photo is published at one width or more, each of a pixel or more")
    opened = open_photo(data)
    if isinstance(opened, PhotoFault):
        return opened
    facts, image = opened
    # WeasyPrint, once imported, has Pillow fill truncated images with grey for the whole process.
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        picture = plain_pixels(image, max(widths))
    except Exception:  # hostile bytes make a decoder raise anything at all
        return not_whole(facts.kind)
    finally:
        image.close()
    digest = content_hash(data, widths)
    variants: list[Variant] = []
    for size in sorted({fit(picture.size, width) for width in widths}):
        sized = picture if size == picture.size else picture.resize(size, Image.Resampling.LANCZOS)
        name = f"{STEM}-{digest}-{size[0]}"
        variants.append(Variant(f"{name}.webp", "image/webp", *size, _webp(sized)))
        variants.append(Variant(f"{name}.jpg", "image/jpeg", *size, _jpeg(sized)))
    return variants


def content_hash(data: bytes, widths: Sequence[int]) -> str:
    """Short and stable for the same photo under the same settings."""
    settings = f"{SETTINGS}/{QUALITY}/{','.join(map(str, sorted(set(widths))))}/"
    return hashlib.sha256(settings.encode() + data).hexdigest()[:16]


def _webp(picture: Image.Image) -> bytes:
    out = BytesIO()
    picture.save(out, "WEBP", quality=QUALITY, method=4)
    return out.getvalue()


def _jpeg(picture: Image.Image) -> bytes:
    out = BytesIO()
    picture.save(out, "JPEG", quality=QUALITY, progressive=True, optimize=True, subsampling="4:2:0")
    return out.getvalue()
