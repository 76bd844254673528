"""PDFs, and the parts of books, as a store keeps them: by what is set and by what sets it, with the files of the
site that they show.

Which files a sheet shows is known when it has been set. Their digests are kept beside the PDF, and it
is set again where one of them has changed.
"""

from __future__ import annotations

import ctypes
import hashlib
import json
from collections.abc import Mapping
from functools import cache

from saponary.assets.step import Step
from saponary.assets.store import Key, Store
from saponary.outputs.grafted.making import PartJob
from saponary.outputs.pdf_kind import PdfBook, PdfSheet, SetPdf

_CODE = (
    "outputs/pdf_engine.py",
    "outputs/pdf_fit.py",
    "outputs/pdf_columns.py",
    "outputs/pdf_tags.py",
    "assets/fonts.py",
)
_LIBRARIES = (
    "weasyprint",
    "pydyf",
    "tinycss2",
    "tinyhtml5",
    "cssselect2",
    "pyphen",
    "fonttools",
    "pillow",
    "font-source-sans-pro",
    "font-source-serif-pro",
)
PDF = Step("pdf", ("system libraries", "html", "attachments"), _CODE, _LIBRARIES)
"""The files of the site that a sheet shows are its inputs too; they are known when it has been set."""
FRAGMENT = Step(
    "fragment",
    ("system libraries", "name", "html", "side", "numbers"),
    (*_CODE, "outputs/grafted"),
    _LIBRARIES,
)
"""A part of a book as it was set. The number of its first page is no input."""
BOUND = Step("book", ("system libraries", "parts", "attachments"), (*_CODE, "outputs/grafted"), _LIBRARIES)
"""A book, put together of fragments."""
Kept = PdfSheet | PdfBook | PartJob

_SHARED = (
    ("libpango-1.0.so.0", "pango_version"),
    ("libharfbuzz.so.0", "hb_version_string"),
    ("libfontconfig.so.1", "FcGetVersion"),
)
"""What sets the text of a PDF besides: a library of the system, and its function that tells the version."""


def recall(store: Store, files: Mapping[str, bytes], sheet: Kept) -> SetPdf | None:
    """What came of setting a sheet, a book or a part, where it is kept and every file that it shows is as it was."""
    kept = store.recall(_key(sheet))
    if kept is None:
        return None
    head, _, data = kept.partition(b"\n")
    try:
        shown = json.loads(head)
    except ValueError:
        return None
    now = {name: _digest(files.get(name)) for name in shown}
    sound = shown == now and (isinstance(sheet, PartJob) or data.startswith(b"%PDF-"))
    return SetPdf(data, tuple(now)) if sound else None


def keep(store: Store, files: Mapping[str, bytes], sheet: Kept, made: SetPdf) -> None:
    """Keep what came of it."""
    head = json.dumps({name: _digest(files.get(name)) for name in sorted(set(made.shown))})
    store.keep(_key(sheet), head.encode() + b"\n" + made.data)


def _key(sheet: Kept) -> Key:
    match sheet:
        case PdfSheet():
            return PDF.key(_system(), sheet.html, sheet.attachments)
        case PdfBook():
            return BOUND.key(_system(), sheet.parts, sheet.attachments)
        case PartJob():
            side, numbers = "left" if sheet.left else "right", sheet.numbers
            return FRAGMENT.key(_system(), sheet.name, sheet.html, side, numbers)


def _digest(data: bytes | None) -> str | None:
    return None if data is None else hashlib.sha256(data).hexdigest()


@cache
def _system() -> list[str | None]:
    """The versions of the system's libraries. Nothing is imported for it."""
    return [_told(*one) for one in _SHARED]


def _told(library: str, function: str) -> str | None:
    """A system library's version; None where it is not found under this name."""
    try:
        tell = getattr(ctypes.CDLL(library), function)
    except (OSError, AttributeError):
        return None
    tell.restype = ctypes.c_char_p if function.endswith("string") else ctypes.c_int
    return str(tell())
