"""Is the file whole, and can it hold what its head promises? Judged from the bytes, before any decoding."""

from __future__ import annotations

import struct

from saponary.draw.photos.facts import KIND_NAMES, Kind, PhotoFault

COPY_AGAIN = "copy the photo again from the camera or phone"

# The densest stream that deflate can write holds 1032 bytes in one.
_DEFLATE_LIMIT = 1032
# A progressive JPEG has about ten scans; each one costs a pass over the whole picture.
_MAX_SCANS = 64
# Squeezed picture data is never this many zeros in a row.
_NEVER_ALL_ZERO = 256


def not_whole(kind: Kind) -> PhotoFault:
    return PhotoFault(f"this {KIND_NAMES[kind]} is cut short or damaged", COPY_AGAIN)


def not_believed(kind: Kind) -> PhotoFault:
    return PhotoFault(
        f"this {KIND_NAMES[kind]} claims far more picture than so small a file can hold",
        "it is no photo from a camera; save the picture afresh as JPEG",
    )


def check_whole(kind: Kind, data: bytes) -> PhotoFault | None:
    """A fault where the bytes cannot be a whole photo of this kind."""
    if kind == "jpeg":
        return _check_jpeg(data)
    if kind == "png":
        return _check_png(data)
    if kind == "webp":
        return _check_webp(data)
    return None


def _check_jpeg(data: bytes) -> PhotoFault | None:
    """Everything up to the picture's own end mark must be there.

    A decoder fills what is missing with grey without a word, so the mark is looked for. It is
    looked for behind the first scan: the thumbnail in the head has an end mark of its own.
    """
    at = 2
    while at + 4 <= len(data) and data[at] == 0xFF:
        mark = data[at + 1]
        if mark == 0xFF:
            at += 1
            continue
        if mark == 0xDA:
            break
        length = int.from_bytes(data[at + 2 : at + 4], "big")
        at += 2 if mark == 0x01 or 0xD0 <= mark <= 0xD8 else 2 + max(2, length)
    else:
        return not_whole("jpeg")
    end = data.find(b"\xff\xd9", at)
    if end < 0:
        return not_whole("jpeg")
    return not_believed("jpeg") if data.count(b"\xff\xda", at, end) > _MAX_SCANS else None


def _check_png(data: bytes) -> PhotoFault | None:
    if len(data) < 33 or data[12:16] != b"IHDR":
        return not_whole("png")
    width, height, depth, colour = struct.unpack(">IIBB", data[16:26])
    samples = {0: 1, 2: 3, 3: 1, 4: 2, 6: 4}.get(colour, 1)
    raw = (width * samples * depth + 7) // 8 * height
    if raw > len(data) * _DEFLATE_LIMIT:
        return not_believed("png")
    return None if data.rfind(b"IEND") > 0 else not_whole("png")


def _check_webp(data: bytes) -> PhotoFault | None:
    """This format has no checksum: a copy that broke off and was filled up with zeros would decode to a smear."""
    end = int.from_bytes(data[4:8], "little") + 8
    if end > len(data):
        return not_whole("webp")
    at = 12
    while at + 8 <= end:
        length = int.from_bytes(data[at + 4 : at + 8], "little")
        if data[at : at + 4] in (b"VP8 ", b"VP8L") and length > 1024:
            tail = data[at + 8 + length - _NEVER_ALL_ZERO : at + 8 + length]
            if not any(tail):
                return not_whole("webp")
        at += 8 + length + length % 2
    return None
