"""Cautions about lye stand on every page of every kind, and on every sheet of every kind of PDF."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from html import unescape
from itertools import chain

import pytest

from outputs.pdfs.desk import desk_of
from saponary.assets import resources
from saponary.book.changes import Version
from saponary.label.cautions import LYE
from saponary.messages.speaker import speaker
from saponary.outputs.compose import composition
from saponary.outputs.page_kind import CUSTOMERS, PageKind
from saponary.outputs.pages import KINDS as PAGES
from saponary.outputs.pdf_kind import PdfKind
from saponary.outputs.pdf_make import sheets
from saponary.outputs.pdfs import KINDS as PDFS
from saponary.views import links

NO_PAGE = {
    "calendar",
    "card",
    "choosing",
    "changes-feed",
    "class-day",
    "feed",
    "figures",
    "icon",
    "logo",
    "robots",
    "searching",
    "sitemap",
    "style",
    "type",
}
"""Kinds whose files are no pages: a calendar, pictures, data, and what pages are made of."""

SAID = [speaker().say(said) for caution in LYE for said in (caution.head, caution.text)]


def assert_said(where: str, html: str) -> None:
    read = " ".join(unescape(html).split())
    for sentence in SAID:
        assert " ".join(sentence.split()) in read, (where, sentence)


def assert_led(path: str, files: Mapping[str, bytes]) -> None:
    """A customer, who never handles lye, reads one line and is led to the page that has them all."""
    read, up = files[path].decode(), links.root(path)
    assert "All soap is made with lye." in read and f'href="{up}{links.LYE}"' in read
    assert_said(links.LYE, files[links.LYE].decode())


@pytest.mark.parametrize("kind", PAGES, ids=lambda kind: kind.name)
def test_every_page_of_a_kind_has_them(kind: PageKind) -> None:
    of = {CUSTOMERS: "shop", ("student",): "class"}
    desk = desk_of("demo", "public" if kind.name == "not-found" else of.get(kind.readers, "maker"))
    first = Version(
        date(2026, 3, 2), 1_772_440_000, "as first made", "0f", "123456", 139.8, 0.05, (), first=True
    )
    site = replace(desk.site, versions={recipe.slug: (first,) for recipe in desk.site.recipes})
    context = composition(site, [resources.templates()], desk.drawings).context
    files = chain(kind.render(context), *(kind.each(context, recipe) for recipe in context.recipes))
    pages = {file.path: file for file in files if file.path.endswith(".html")}
    assert bool(pages) == (kind.name not in NO_PAGE)
    for path, file in pages.items():
        if kind.readers == CUSTOMERS:
            assert_led(path, desk.files)
        else:
            assert_said(path, file.write().decode())


@pytest.mark.parametrize("kind", PDFS, ids=lambda kind: kind.name)
def test_every_sheet_of_a_kind_has_them(kind: PdfKind) -> None:
    made = list(sheets(desk_of("demo", "maker"), [kind.name]))
    assert made
    for sheet in made:
        assert_said(sheet.path, sheet.html)
