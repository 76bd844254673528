"""Reading PDFs back: their text, whether they are sound, and whether any ink is near the edge."""

from __future__ import annotations

import subprocess
from math import hypot
from pathlib import Path
from typing import Any

from PIL import Image

from outputs.pdfs.desk import read
from outputs.pdfs.tagged import faults

DPI = 60
EDGE_MM = 5


def squeezed(pdf: bytes) -> str:
    """All of the text without spaces."""
    return "".join("".join(page.extract_text().split()) for page in read(pdf).pages)


def sound(pdf: bytes, author: str) -> None:
    """Language, title, author and tags are there and right; every font is embedded and one of the book's own."""
    assert not faults(pdf)
    reader = read(pdf)
    root: Any = reader.trailer["/Root"]
    assert root["/Lang"] == "en"
    assert root["/MarkInfo"]["/Marked"] == True  # noqa: E712
    assert root["/ViewerPreferences"]["/DisplayDocTitle"] == True  # noqa: E712
    assert "/StructTreeRoot" in root
    assert reader.metadata is not None
    assert reader.metadata.title
    if author:
        assert reader.metadata.author == author
    assert b'pdfuaid:part="1"' in root["/Metadata"].get_object().get_data()
    used = set()
    for page in reader.pages:
        fonts: Any = page["/Resources"].get("/Font", {})
        for font in fonts.values():
            inner = font.get_object()["/DescendantFonts"][0].get_object()
            descriptor = inner["/FontDescriptor"].get_object()
            assert any(key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3"))
            used.add(str(inner["/BaseFont"]).partition("+")[2])
    assert used
    assert all(name.startswith("Source") for name in used), used


def smallest_type(pdf: bytes) -> float:
    """The size of the smallest letters, in points as printed: that of the text times its two matrices."""
    sizes: list[float] = []

    def look(text: str, cm: list[float], tm: list[float], font: Any, size: float) -> None:
        if text.strip():
            sizes.append(size * hypot(tm[2], tm[3]) * hypot(cm[2], cm[3]))

    for page in read(pdf).pages:
        page.extract_text(visitor_text=look)
    return min(sizes)


def ink_near_the_edge(pdf: bytes, folder: Path) -> list[str]:
    """Pages whose outermost millimetres are not white."""
    folder.mkdir(parents=True, exist_ok=True)
    for old in folder.glob("page-*"):
        old.unlink()
    subprocess.run(
        ["pdftoppm", "-gray", "-png", "-r", str(DPI), "-", str(folder / "page")], input=pdf, check=True
    )
    found = []
    for path in sorted(folder.glob("page-*.png")):
        with Image.open(path).convert("L") as image:
            edge = round(EDGE_MM / 25.4 * DPI)
            width, height = image.size
            strips = (
                (0, 0, width, edge),
                (0, height - edge, width, height),
                (0, 0, edge, height),
                (width - edge, 0, width, height),
            )
            if any(image.crop(strip).getextrema()[0] < 250 for strip in strips):
                found.append(path.stem)
    assert sorted(folder.glob("page-*.png"))
    return found
