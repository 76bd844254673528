"""Opening a photo: its bytes, its head, and a decoder that has not yet run.

The decoder is chosen by what the bytes are and called directly, so that no other format that an
imaging library happens to know can be reached, and our own limits hold instead of its process-wide ones.
"""

from __future__ import annotations

import importlib
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from typing import Any

from PIL.ImageFile import ImageFile
from PIL.JpegImagePlugin import JpegImageFile
from PIL.PngImagePlugin import PngImageFile
from PIL.WebPImagePlugin import WebPImageFile

from saponary.draw.photos.bytes_of import read_bytes
from saponary.draw.photos.facts import KIND_NAMES, MAX_PIXELS, Kind, PhotoFacts, PhotoFault
from saponary.draw.photos.sniff import sniff
from saponary.draw.photos.whole import check_whole, not_whole

_PLAIN: dict[Kind, Callable[[BytesIO], ImageFile]] = {
    "jpeg": JpegImageFile,
    "png": PngImageFile,
    "webp": WebPImageFile,
}


def read_photo(path: Path) -> PhotoFacts | PhotoFault:
    """The facts of a photo by its head; nothing is decoded."""
    data = read_bytes(path)
    if isinstance(data, PhotoFault):
        return data
    opened = open_photo(data)
    return opened if isinstance(opened, PhotoFault) else opened[0]


def open_photo(data: bytes) -> tuple[PhotoFacts, ImageFile] | PhotoFault:
    """The facts and a decoder that has read only the head."""
    kind = sniff(data)
    if isinstance(kind, PhotoFault):
        return kind
    decoder = _PLAIN[kind] if kind in _PLAIN else _heif()
    if isinstance(decoder, PhotoFault):
        return decoder
    fault = check_whole(kind, data)
    if fault is not None:
        return fault
    try:
        image = decoder(BytesIO(data))
        width, height = image.size
    except Exception:  # hostile bytes make a decoder raise anything at all
        return not_whole(kind)
    if width < 1 or height < 1:
        return not_whole(kind)
    if width * height > MAX_PIXELS[kind]:
        return PhotoFault(
            f"this {KIND_NAMES[kind]} has {width} x {height} pixels, which is too large",
            f"save it smaller, at most {MAX_PIXELS[kind] // 1_000_000} megapixels",
        )
    return PhotoFacts(kind, width, height), image


def _heif() -> Callable[[BytesIO], ImageFile] | PhotoFault:
    try:
        library: Any = importlib.import_module("pillow_heif")
        decoder: Callable[[BytesIO], ImageFile] = library.HeifImageFile
    except (ImportError, AttributeError):
        return PhotoFault(
            "this is a HEIC photo, and the Python library pillow-heif is not installed",
            "install it with: pip install pillow-heif; or save the photo as JPEG",
        )
    return decoder
