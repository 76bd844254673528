"""A marker in every private place; not a byte of any in the editions that may not show it."""

from __future__ import annotations

import contextlib
import re
import zlib
from collections.abc import Iterator
from pathlib import Path

import pypdf
import pytest
from PIL import Image
from PIL.PngImagePlugin import PngInfo

from saponary.build.proof import prove
from saponary.cli.main import main
from support import some, write_book

pytestmark = pytest.mark.slow

MARK = "zqx"
"""Begins every marker; nothing else in a book has these letters together."""

BOOK = """\
title: Open Book
superfat: 5 %
water: {lye-strength: 33 %}
scale-step: 0.1 g
about: An old saying holds that it cures eczema.
waive: [{rule: claims, about: cures eczema, because: zqxbookwaived for a reason}]
editions:
  market: {shows: [summary, photos, ingredients], formula: ingredients}
label-sheets: {wide: {width: 190 mm, height: 90 mm, columns: 1, rows: 3}}
sold-in: {eu: {responsible: {name: zqxresponsible, address: zqxaddress}, origin: zqxorigin}}
function: zqxfunction
"""
PANTRY = """\
# zqxcomment
waive: [{rule: claims, about: heals, because: zqxpantrywaived for a reason}]
liquids: {brew: {name: Heals all, water: 99 %}}
oils:
  olive: {price: 987654.25 / kg, supplier: zqxsupplier, note: zqxoilnote}
additions:
  kaolin: {price: 987654.25 / kg, supplier: zqxsupplier2, note: zqxclaynote}
fragrances:
  meadow:
    name: Meadow
    blend: {zqxsecret-a: 60 %, zqxsecret-b: 40 %}
  zqxsecret-a: {composition: {linalool: 30 %}, certificate: {maximum: 9 %, from: zqxcertificate}}
  zqxsecret-b: {composition: {}, certificate: {maximum: 9 %, from: zqxcertificate2}}
"""
LESSON = """\
---
title: A day
students: 2
oils: 500 g
recipes: [plain]
waive: [{rule: claims, about: eczema, because: zqxclasswaived for a reason}]
---
Tell us if you have eczema.
"""
SILENCE = "silence: [{id: organic, because: zqxsilenced for a reason}]\n"
RECIPE = """\
---
# zqxfrontcomment
title: Plain Bar
summary: A plain bar.
oils:
  total: 1000 g
  parts: {olive: 61.7 %, coconut: 24.9 %, sunflower-high-oleic: 13.4 %}
additions:
  - {what: kaolin, amount: 7.77 g/kg, from: zqxfrom}
  - {what: meadow, amount: 11 g/kg}
steps: [{at: lye, say: Stir slowly zqxstep.}]
vessel: steel zqxvessel
label: {net-weight: 20 g, lot: PB-1}
batches:
  - lot: PB-1
    poured: 2026-03-02
    formula: "FINGERPRINT"
    by: zqxby
    shelf: zqxshelf
    store: zqxstore
    mould: zqxmould
    as-weighed: {olive: 617.3 g}
    notes: zqxbatchnote
    private: zqxbatchprivate
    photos: [{file: zqxphoto.png, day: 40, alt: a bar, note: as it is}]
  - {lot: zqxbenchlot, poured: 2026-03-03, editions: [maker]}
waive: [{rule: fragrance, about: meadow, because: zqxwaived for a reason}]
signed: {superfat: 5.0 %, formula: FINGERPRINT}
private:
  zqxkey: zqxvalue
  list: [zqxone, {two: zqxtwo}]
---
The story {lye}. zqxbody <!-- zqxhtml -->
"""
KEPT = (
    RECIPE.replace("title: Plain Bar", "title: zqxkept\neditions: [maker]")
    .replace("PB-1", "PB-2")
    .replace("zqxbenchlot", "zqxbenchlot2")
)
DRAFT = (
    RECIPE.replace("title: Plain Bar", "title: zqxdraft")
    .replace("signed: {superfat: 5.0 %, formula: FINGERPRINT}\n", "")
    .replace("PB-1", "PB-3")
    .replace("zqxbenchlot", "zqxbenchlot3")
)
ALWAYS_PRIVATE = {
    "zqxcomment", "zqxsupplier", "zqxoilnote", "zqxclaynote", "zqxsecret", "zqxcertificate", "zqxfrontcomment",
    "zqxby", "zqxshelf", "zqxstore", "zqxmould", "zqxbatchprivate", "zqxbenchlot", "zqxkey", "zqxvalue",
    "zqxwaived", "zqxbookwaived", "zqxsilenced", "zqxpantrywaived", "zqxclasswaived",
    "zqxresponsible", "zqxaddress", "zqxorigin", "zqxfunction",
    "zqxone", "zqxtwo", "zqxhtml", "zqxkept", "zqxdraft", "zqxphoto", "zqxexif", "zqxtext", "987654",
}  # fmt: skip
"""Never outside the bench, whatever an edition shows."""

METHOD_ONLY = {"zqxstep", "zqxvessel", "zqxbody", "zqxfrom"}
"""The method's own words: in the class, not in the shop."""


def photo(path: Path) -> None:
    image = Image.new("RGB", (640, 480), "#c9b99a")
    text = PngInfo()
    text.add_text("Comment", "zqxtext")
    exif = Image.Exif()
    exif[0x010E] = "zqxexif description"
    exif[0x9286] = "zqxexif comment"
    image.save(path, pnginfo=text, exif=exif)


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = tmp_path_factory.mktemp("leaks")
    files = {"recipes/plain.md": RECIPE, "recipes/kept.md": KEPT, "recipes/draft.md": DRAFT}
    write_book(
        root,
        {"book.yaml": BOOK, "pantry.yaml": PANTRY, "claims.yaml": SILENCE, "classes/day.md": LESSON, **files},
    )
    (root / "photos").mkdir()
    photo(root / "photos" / "zqxphoto.png")
    for _ in range(2):
        marks = {one.computed.file.file: one.computed.fingerprint for one in prove(root).recipes}
        write_book(
            root,
            {name: text.replace("FINGERPRINT", marks.get(name, "abcdef")) for name, text in files.items()},
        )
    assert main(["build", str(root), "--edition", "all", "--press", "--on", "2026-06-01"]) == 0
    return root / "site"


def texts(path: Path) -> Iterator[bytes]:
    """A file's bytes, and every compressed stream inside them."""
    data = path.read_bytes()
    yield data
    at = data.find(b"stream")
    while at != -1:
        begin = at + 6 + (2 if data[at + 6 : at + 8] == b"\r\n" else 1)
        inflate = zlib.decompressobj()
        with contextlib.suppress(zlib.error):
            yield inflate.decompress(data[begin:], 50_000_000)
        at = data.find(b"stream", at + 6)
    if path.suffix == ".pdf":
        reader = pypdf.PdfReader(path)
        yield "".join(page.extract_text() for page in reader.pages).encode()
        yield repr(reader.metadata).encode()


def found(folder: Path, markers: set[str], *, top: bool = False) -> set[tuple[str, str]]:
    """Markers that stand in the files of an edition, or in their names; letter case aside."""
    others = {"shop", "class", "market"} if top else set()
    hits: set[tuple[str, str]] = set()
    files = [p for p in folder.rglob("*") if p.is_file() and p.relative_to(folder).parts[0] not in others]
    assert len(files) > 5
    for path in files:
        everything = [*texts(path), str(path.relative_to(folder)).encode()]
        for marker in markers:
            wanted = marker.encode()
            spread = marker.encode("utf-16-le")
            if any(wanted in text.lower() or spread in text for text in everything):
                hits.add((path.relative_to(folder).as_posix(), marker))
    return hits


def test_the_open_edition_keeps_what_is_private(site: Path) -> None:
    assert found(site, ALWAYS_PRIVATE, top=True) == set()


def test_nothing_private_lies_in_what_is_uploaded(site: Path) -> None:
    assert {path.name for path in site.iterdir()} >= {"shop", "class", "market"}
    assert not (site / "maker").exists()
    assert found(site, ALWAYS_PRIVATE) == set()


def test_label_sheets_lie_in_the_makers_folder_alone(site: Path) -> None:
    """A sheet is a PDF that holds what only a label says. Each is led to from a page."""
    private = site.parent / "private" / "maker"
    made = {p.relative_to(private).as_posix() for p in private.rglob("labels/*.pdf")}
    assert made == {"labels/plain-wide.pdf", "labels/kept-wide.pdf", "labels/draft-wide.pdf"}
    assert all(any(b"zqxresponsible" in text for text in texts(private / path)) for path in made)
    assert not [path for path in site.rglob("*") if "label" in path.name and path.suffix == ".pdf"]
    for path in made:
        slug = path.removeprefix("labels/").removesuffix("-wide.pdf")
        assert f'href="../../{path}"' in (private / "recipes" / slug / "index.html").read_text()


def test_no_link_leads_from_one_of_the_two_folders_into_the_other(site: Path) -> None:
    private = site.parent / "private" / "maker"
    for top in (site, private):
        for page in some(top.rglob("*.html")):
            if page.name == "404.html":  # shown at any address, so that its links begin at the root
                continue
            for address in re.findall(r'(?:href|src)="([^"#?]*)', page.read_text(encoding="utf-8")):
                if not re.match(r"[a-z]+:", address):
                    assert (page.parent / address).resolve().is_relative_to(top), (page, address)


def test_the_class_has_the_method_and_nothing_private(site: Path) -> None:
    assert found(site / "class", ALWAYS_PRIVATE | {"zqxbatchnote"}) == set()
    # On paper 617.3 may also be where a line begins, so that only what is read there counts.
    for path in some(p for p in (site / "class").rglob("*") if p.is_file()):
        if path.suffix == ".pdf":
            assert "617.3" not in "".join(page.extract_text() for page in pypdf.PdfReader(path).pages), path
        else:
            assert b"617.3" not in path.read_bytes(), path
    assert {marker for _, marker in found(site / "class", METHOD_ONLY)} >= {"zqxstep", "zqxbody"}


@pytest.mark.parametrize("edition", ["shop", "market"])
def test_the_shop_has_neither_method_nor_weights(site: Path, edition: str) -> None:
    assert found(site / edition, ALWAYS_PRIVATE | METHOD_ONLY | {"zqxbatchnote"}) == set()
    weights = ("617", "61.7", "249", "24.9", "13.4", "7.77", "NaOH", "superfat of")
    for path in (site / edition).rglob("*"):
        if path.suffix in (".html", ".json", ".ics"):
            text = path.read_text(encoding="utf-8")
        elif path.suffix == ".pdf":
            text = "".join(page.extract_text() for page in pypdf.PdfReader(path).pages)
        else:
            continue
        words = set(weights) - ({"NaOH"} if path.parent.name == "glossary" else set())
        assert [word for word in words if word in text] == [], path


def test_the_bench_has_it(site: Path) -> None:
    """So that the tests above look for something that is really there to be found."""
    seen = {marker for _, marker in found(site.parent / "private" / "maker", ALWAYS_PRIVATE | METHOD_ONLY)}
    assert seen >= {
        "zqxby", "zqxshelf", "zqxstore", "zqxbatchprivate", "zqxvalue", "zqxone", "zqxtwo", "zqxkept", "zqxdraft",
        "zqxstep", "zqxbody", "zqxbenchlot",
        "zqxwaived", "zqxbookwaived", "zqxsilenced", "zqxpantrywaived", "zqxclasswaived",
    }  # fmt: skip


def test_cautions_stand_in_every_edition(site: Path) -> None:
    for page in some(site.rglob("*.html")):
        read = page.read_text(encoding="utf-8")
        assert "Lye burns" in read or "All soap is made with lye." in read, page
