"""The whole book: what it is composed of, and the PDF read back."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import html5lib
import pytest

from outputs.pdfs.desk import desk_of, pdfs_of, read, sheets_of
from outputs.pdfs.reading import ink_near_the_edge, sound, squeezed
from saponary.label.cautions import LYE
from saponary.messages.speaker import speaker
from saponary.outputs.figures_json import site_object
from saponary.quantity.rounding import show
from saponary.views.gallery import in_order
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
    tree = html5lib.parse(sheets["book-a4.pdf"].html, namespaceHTMLElements=False)
    ids = [element.get("id") for element in tree.iter() if element.get("id")]
    targets = {a.get("href")[1:] for a in tree.iter("a") if (a.get("href") or "").startswith("#")}
    assert targets <= set(ids)
    assert {f"recipe-{r.slug}" for r in desk_of(book).site.recipes} <= targets
    assert all(a.get("href").startswith(("#", "http")) for a in tree.iter("a"))


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
