"""Recipe sheets as composed, before they are set: what they hold, and the source they carry."""

from __future__ import annotations

import json
import re
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from outputs.pdfs.desk import desk_of, sheets_of
from saponary.build.proof import prove
from saponary.label.cautions import LYE, for_recipe
from saponary.messages.speaker import speaker
from saponary.outputs.figures_json import recipe_object, site_object
from saponary.outputs.pdf_kind import PdfContext, Wanted
from saponary.views.at_class import left_blank
from saponary.views.paper.short_code import page_address
from saponary.views.prose import Prose
from saponary.views.prose_links import PaperLinks
from support import some, write_book

pytestmark = pytest.mark.slow

EDITIONS = (("starters", "public"), ("demo", "public"), ("demo", "class"), ("demo", "maker"))


@cache
def composed(book: str, edition: str = "public") -> dict[str, Wanted]:
    return sheets_of(desk_of(book, edition), "recipe-sheet")


def carried(book: str, edition: str, slug: str) -> dict[str, str]:
    sheet = composed(book, edition)[f"recipes/{slug}/{slug}-a4.pdf"]
    return {item.name: item.data.decode() for item in sheet.attachments}


def with_address(desk: PdfContext, address: str) -> PdfContext:
    settings = desk.site.book.settings.model_copy(update={"base_url": address})
    return replace(desk, site=replace(desk.site, book=replace(desk.site.book, settings=settings)))


@pytest.mark.parametrize(("book", "edition"), EDITIONS)
def test_every_recipe_has_a_sheet_in_both_sizes(book: str, edition: str) -> None:
    desk = desk_of(book, edition)
    wanted = {f"recipes/{r.slug}/{r.slug}-{size}.pdf" for r in desk.site.recipes for size in ("a4", "letter")}
    assert set(composed(book, edition)) == wanted


def test_an_edition_that_shows_no_work_has_none() -> None:
    assert not sheets_of(desk_of("demo", "shop"), "recipe-sheet", "whole-book")


@pytest.mark.parametrize(("book", "edition"), EDITIONS)
def test_the_source_inside_makes_the_same_recipe_in_an_empty_book(
    book: str, edition: str, tmp_path: Path
) -> None:
    desk = desk_of(book, edition)
    published = {r["slug"]: r for r in site_object(desk.site)["recipes"]}
    for recipe in some(desk.site.recipes):
        files = carried(book, edition, recipe.slug)
        assert json.loads(files["figures.json"]) == published[recipe.slug]
        # A rebatch is nothing without the lots of other recipes; what students work out is not told them.
        if not recipe.resolved.formula.weighs_lye or left_blank(recipe, desk.site):
            assert files.keys() == {"figures.json"}
            continue
        root = write_book(
            tmp_path / recipe.slug,
            {
                f"recipes/{recipe.slug}.md": files["recipe.md"],
                "pantry.yaml": files["pantry.yaml"],
                "book.yaml": files["book.yaml"],
            },
        )
        proof = prove(root)
        assert not proof.failed, proof.findings
        (made,) = proof.recipes
        assert made.computed.fingerprint == recipe.fingerprint
        assert recipe_object(made.computed, made.status)["figures"] == published[recipe.slug]["figures"]


def test_the_source_tells_nothing_of_the_makers_own() -> None:
    desk = desk_of("demo", "maker")
    for recipe in some(desk.site.recipes):
        files = carried("demo", "maker", recipe.slug)
        for word in ("price", "private", "supplier", "batches", "waive", "costing", "<!--", "certificate of"):
            assert word not in files["recipe.md"].split("\n---\n")[0]
            assert word not in files["pantry.yaml"]


@pytest.mark.parametrize("book", ("starters", "demo"))
def test_every_caution_is_on_the_sheet(book: str) -> None:
    desk = desk_of(book)
    sheets = composed(book)
    for recipe in some(desk.site.recipes):
        html = sheets[f"recipes/{recipe.slug}/{recipe.slug}-letter.pdf"].html
        for caution in (*LYE, *for_recipe(recipe)):
            assert speaker().say(caution.head) in html


def test_a_code_only_where_the_book_has_an_address() -> None:
    desk = desk_of("starters")
    assert '<svg class="code"' not in composed("starters")["recipes/salt-bar/salt-bar-a4.pdf"].html
    there = with_address(desk, "https://soap.example/book/")
    assert page_address(there.site, "salt-bar") == "https://soap.example/book/recipes/salt-bar/index.html"
    html = sheets_of(there, "recipe-sheet")["recipes/salt-bar/salt-bar-a4.pdf"].html
    assert "<title>Code that leads to https://soap.example/book/recipes/salt-bar/index.html</title>" in html


def test_an_edition_in_a_folder_has_its_own_address() -> None:
    there = with_address(desk_of("demo", "class"), "https://soap.example")
    assert (
        page_address(there.site, "pressure-chart-tuesday")
        == "https://soap.example/class/recipes/pressure-chart-tuesday/index.html"
    )


def test_links_on_paper_lead_to_its_own_recipes_or_to_the_web() -> None:
    prose = Prose({}, PaperLinks(frozenset({"salt-bar"})))
    text = prose.inline("[a](salt-bar.md#x) [b](https://x.example) [c](notes.txt) [d](plain.md)")
    assert text == '<a href="#recipe-salt-bar">a</a> <a href="https://x.example">b</a> c d'


@pytest.mark.parametrize("book", ("starters", "demo"))
def test_every_picture_has_words(book: str) -> None:
    for sheet in some(composed(book).values()):
        assert all('alt="' in tag for tag in re.findall(r"<img[^>]*>", sheet.html))
        assert all(
            re.match(r"<svg[^>]*><title>[^<]+</title>", sheet.html[m.start() :])
            for m in re.finditer("<svg xmlns", sheet.html)  # one inside another is a part of that picture
        )


def test_composing_twice_gives_the_same() -> None:
    assert sheets_of(desk_of("demo"), "recipe-sheet") == composed("demo")
