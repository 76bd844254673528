"""The format of a photo by its first bytes; its file name is not asked."""

from __future__ import annotations

import codecs

from saponary.draw.photos.facts import Kind, PhotoFault

ASK_FOR = "save it as JPEG, PNG, WebP or HEIC"

_HEIF_BRANDS = {b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"mif2", b"msf1"}
_AVIF_BRANDS = {b"avif", b"avis"}

_OTHERS: tuple[tuple[bytes, str], ...] = (
    (b"GIF87a", "a GIF"),
    (b"GIF89a", "a GIF"),
    (b"II*\0", "a TIFF or a camera's raw file"),
    (b"MM\0*", "a TIFF or a camera's raw file"),
    (b"BM", "a BMP"),
    (b"%PDF", "a PDF"),
    (b"\0\0\0\x0cJXL ", "a JPEG XL"),
    (b"\xff\x0a", "a JPEG XL"),
    (b"\0\0\0\x0cjP  ", "a JPEG 2000"),
    (b"8BPS", "a layered picture of a paint program"),
    (b"PK\x03\x04", "an archive"),
)


def sniff(data: bytes) -> Kind | PhotoFault:
    """The format, or why these bytes are no photo that can be used."""
    if not data:
        return PhotoFault("this file is empty", "copy the photo again from where it came")
    if data.startswith(b"\xff\xd8\xff"):
        return "jpeg"
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        return "png"
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return "webp"
    if data[4:8] == b"ftyp":
        return _boxed(data)
    for head, name in _OTHERS:
        if data.startswith(head):
            return PhotoFault(f"this is {name}, which is not taken as a photo", ASK_FOR)
    if _is_text(data[:512]):
        return PhotoFault("this is text and not a photo", "put the photo itself here, under this name")
    return PhotoFault("this is no photo in a known format", ASK_FOR)


def _boxed(data: bytes) -> Kind | PhotoFault:
    """HEIC, AVIF and films share one container; the brands in its first box tell them apart."""
    end = min(max(int.from_bytes(data[:4], "big"), 16), 256, len(data))
    major = data[8:12]
    brands = {major, *(data[at : at + 4] for at in range(16, end - 3, 4))}
    if major in _AVIF_BRANDS or (brands & _AVIF_BRANDS and not brands & {b"heic", b"heix"}):
        return PhotoFault("this is an AVIF, which is not taken as a photo", ASK_FOR)
    if brands & _HEIF_BRANDS:
        return "heif"
    return PhotoFault("this is a film or a camera's raw file, which is not taken as a photo", ASK_FOR)


def _is_text(head: bytes) -> bool:
    try:
        # The cut may fall inside a letter of several bytes.
        text = codecs.getincrementaldecoder("utf-8")().decode(head)
    except UnicodeDecodeError:
        return False
    return all(letter.isprintable() or letter in "\t\r\n\f" for letter in text)
