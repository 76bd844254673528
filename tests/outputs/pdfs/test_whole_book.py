"""The whole book: what it is composed of, and the PDF read back."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import html5lib
import pytest
from pypdf import PdfReader

from outputs.pdfs.desk import desk_of, pdfs_of, read, sheets_of
from outputs.pdfs.reading import ink_near_the_edge, sound, squeezed
from outputs.pdfs.tagged import faults
from saponary.assets.store import DiskStore
from saponary.label.cautions import LYE
from saponary.messages.speaker import speaker
from saponary.outputs.figures_json import site_object
from saponary.outputs.pdf_kind import PdfBook
from saponary.outputs.pdf_make import make
from saponary.quantity.rounding import show
from saponary.views.order import in_order
from support import some

pytestmark = pytest.mark.slow

BOOKS = ("starters", "demo")


@cache
def pdfs(book: str) -> dict[str, bytes]:
    desk = desk_of(book)
    return pdfs_of(desk, list(sheets_of(desk, "whole-book").values()))


@pytest.mark.parametrize("book", BOOKS)
def test_every_link_inside_the_book_has_its_place(book: str) -> None:
    sheets = sheets_of(desk_of(book), "whole-book")
    assert set(sheets) == {"book-a4.pdf", "book-letter.pdf"}
    book_a4 = sheets["book-a4.pdf"]
    assert isinstance(book_a4, PdfBook)
    trees = [html5lib.parse(part.html, namespaceHTMLElements=False) for part in book_a4.parts]
    elements = [element for tree in trees for element in tree.iter()]
    ids = [element.get("id") for element in elements if element.get("id")]
    links = [element for element in elements if element.tag == "a"]
    targets = {a.get("href")[1:] for a in links if (a.get("href") or "").startswith("#")}
    assert targets <= set(ids)
    assert {f"recipe-{r.slug}" for r in desk_of(book).site.recipes} <= targets
    assert all(a.get("href").startswith(("#", "http")) for a in links)


def test_a_book_without_published_recipes_has_none() -> None:
    desk = desk_of("starters")
    assert not sheets_of(replace(desk, site=replace(desk.site, recipes=())), "whole-book")


@pytest.mark.slow
@pytest.mark.parametrize("book", BOOKS)
def test_the_book_holds_every_recipe_with_its_figures(book: str) -> None:
    recipes = site_object(desk_of(book).site)["recipes"]
    for pdf in some(pdfs(book).values()):
        text = squeezed(pdf)
        for recipe in some(recipes):
            assert "".join(recipe["title"].replace("'", "\u2019").split()) in text.replace("'", "\u2019")
            assert recipe["fingerprint"] in text
            for key in {"oils_g", "water_g", "batter_g"} & recipe["figures"].keys():
                assert f"{show(recipe['figures'][key], 1)}g" in text, (recipe["slug"], key)
        for caution in LYE:
            assert "".join(speaker().say(caution.head).split()).replace("-", "") in text.replace("-", "")


@pytest.mark.slow
@pytest.mark.parametrize("book", BOOKS)
def test_the_book_is_sound_and_can_be_found_through(book: str) -> None:
    desk = desk_of(book)
    titles = [recipe.model.title for recipe in in_order(desk.site.recipes)]
    for pdf in some(pdfs(book).values()):
        sound(pdf, desk.site.book.settings.maker)
        reader = read(pdf)
        marks = [
            mark.title for part in reader.outline for mark in (part if isinstance(part, list) else [part])
        ]
        titles = [title.replace("'", "\u2019") for title in titles]
        marks = [mark.replace("'", "\u2019") for mark in marks]
        assert [mark for mark in marks if mark in titles] == titles
        assert "Colophon" in marks
        assert set(reader.attachments) == {"figures.json"}


@pytest.mark.slow
@pytest.mark.parametrize("book", BOOKS)
def test_the_contents_name_the_right_pages(book: str) -> None:
    for pdf in some(pdfs(book).values()):
        reader = read(pdf)
        contents = "".join(reader.pages[1].extract_text().split()).replace(".", "")
        for part in some(reader.outline):
            for mark in part if isinstance(part, list) else [part]:
                page = reader.get_destination_page_number(mark)
                assert page is not None
                assert f"{''.join(mark.title.split())}{page + 1}" in contents


@pytest.mark.slow
@pytest.mark.parametrize("book", BOOKS)
def test_a_recipe_opens_on_a_left_page_with_its_work_opposite(book: str) -> None:
    """Left pages have even numbers."""
    titles = {r.model.title.replace("'", "\u2019") for r in desk_of(book).site.recipes}
    for pdf in some(pdfs(book).values()):
        reader = read(pdf)
        marks = [mark for part in reader.outline for mark in (part if isinstance(part, list) else [part])]
        for mark in some(mark for mark in marks if (mark.title or "").replace("'", "\u2019") in titles):
            left = reader.get_destination_page_number(mark)
            assert left is not None and left % 2 == 1, mark.title
            assert "Work order" in reader.pages[left + 1].extract_text(), mark.title


@pytest.mark.slow
@pytest.mark.parametrize("book", BOOKS)
def test_no_ink_near_the_edge_of_the_paper(book: str, tmp_path: Path) -> None:
    for path, pdf in some(pdfs(book).items()):
        assert not ink_near_the_edge(pdf, tmp_path), path


@pytest.mark.parametrize("book", BOOKS)
def test_its_tags_hang_together_and_no_link_is_dead(book: str) -> None:
    for pdf in some(pdfs(book).values()):
        assert faults(pdf) == []
        reader = read(pdf)
        names: Any = reader.named_destinations
        links = [each.get_object() for page in reader.pages for each in page.get("/Annots", [])]
        inside = [link["/Dest"] for link in some(links) if "/Dest" in link]
        assert {name for name in inside if isinstance(name, str)} <= set(names)
        assert len(_font_files(reader)) == len(set(_font_files(reader).values()))


def _font_files(reader: PdfReader) -> dict[str, int]:
    """The number of the object that holds each font, by the font's name."""
    found: dict[str, int] = {}
    for page in reader.pages:
        fonts: Any = page["/Resources"].get("/Font", {})
        for font in fonts.values():
            about: Any = font["/DescendantFonts"][0].get_object()["/FontDescriptor"]
            number = about.raw_get("/FontFile2").idnum
            assert found.setdefault(str(about["/FontName"]), number) == number
    return found


@pytest.mark.parametrize("book", BOOKS)
def test_each_page_says_its_number_outside_as_an_artifact(book: str) -> None:
    """The margin outside is 15 mm wide; content streams count in pixels of CSS, 96 an inch."""
    for pdf in some(pdfs(book).values()):
        for number, page in enumerate(read(pdf).pages[1:], 2):
            text = page.extract_text().split()
            if not text:
                continue
            assert text[0] == str(number)
            data = page.get_contents().get_data()  # type: ignore[union-attr]
            found = re.match(
                rb"/Artifact\n<</Type /Pagination>>\nBDC\n.*?BT\n1 0 0 -1 ([\d.]+) [\d.]+ Tm\n/",
                data,
                re.DOTALL,
            )
            assert found is not None
            from_edge, width = float(found[1]), float(page.mediabox.width) / 72 * 96
            left = 15 / 25.4 * 96
            assert abs(from_edge - left) < 0.01 if number % 2 == 0 else width / 2 < from_edge < width - left


def test_it_is_the_same_bytes_from_a_store_that_lost_some_of_it(tmp_path: Path) -> None:
    desk = desk_of("starters")
    book = sheets_of(desk, "whole-book")["book-a4.pdf"]
    store = DiskStore(tmp_path)
    told: list[tuple[int, int]] = []
    first, _ = make(desk.files, [book], lambda done, of: told.append((done, of)), store)
    assert first["book-a4.pdf"] == pdfs("starters")["book-a4.pdf"]
    assert [done for done, _ in told] == list(range(1, told[-1][1])) + [told[-1][1]] * 4
    for kept in (tmp_path / "book").iterdir():
        kept.unlink()
    fragments = sorted((tmp_path / "fragment").iterdir())
    fragments[0].unlink()
    fragments[1].write_bytes(fragments[1].read_bytes()[:-9])
    again, failed = make(desk.files, [book], store=store, workers=1)
    assert (again, failed) == (first, [])


def test_no_page_is_blank_and_opposite_notes_that_went_overleaf_is_a_record() -> None:
    for pdf in some(pdfs("demo").values()):
        pages = [page.extract_text() for page in read(pdf).pages]
        assert all(len(page.split()) > 12 for page in pages[1:]), [len(page.split()) for page in pages]
        for number, page in enumerate(pages, 1):
            if ": my record" in page:
                assert number % 2 == 1 and "weighed every week" in page and "What I saw" in page
        assert any(": my record" in page for page in pages)
