"""What every page of every kind, in every edition, does as pages on the web do: one test a custom, all of them over one
book with photos, lots, a class, pages of its own and an address."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from importlib.resources import files as files_of
from posixpath import dirname, join, normpath
from xml.etree import ElementTree

import pytest

from composed import composed, drawings, spoken
from outputs.pages.test_site import X, parse
from outputs.test_head import site_of
from saponary.assets import resources
from saponary.outputs.pages import KINDS
from saponary.outputs.pdf_kind import PdfContext
from saponary.outputs.pdf_make import sheets
from saponary.views.site import SiteInput
from support import some

EDITIONS = ("public", "shop", "class", "maker")
Page = ElementTree.Element
_OF_LAW = files_of("saponary.tables").joinpath("jurisdictions.yaml").read_text("utf-8")
"""Sentences about a law, which are shown as they stand there."""


@cache
def site(edition: str) -> SiteInput:
    """An edition with all the PDFs that a build sets for it."""
    bare = site_of(edition)
    drawn = drawings(bare)
    settings = bare.book.settings
    desk = PdfContext(
        bare, composed(bare), spoken((resources.templates(),), settings.language, settings.units), drawn
    )
    return replace(bare, pdfs=frozenset(sheet.path for sheet in sheets(desk)))


@cache
def files(edition: str) -> Mapping[str, bytes]:
    return composed(site(edition))


def alike(path: str) -> str:
    """The kind of a page by its address: of pages that differ in a name alone, one is looked at."""
    return re.sub(r"(recipes|lots|pages|classes)/[^/]+/(?:(?<=/)[^/]+/)?(?=[^/]+$)", r"\1/*/", path)


@cache
def pages(edition: str) -> Mapping[str, Page]:
    """A page of every kind, by its address."""
    chosen = {alike(path): path for path in files(edition) if path.endswith(".html")}
    return {path: parse(files(edition)[path]) for path in chosen.values()}


ALL = [
    pytest.param(edition, id=edition, marks=() if edition in ("public", "shop") else pytest.mark.slow)
    for edition in EDITIONS
]


def named(page: Page, tag: str) -> Iterator[Page]:
    return page.iter(f"{X}{tag}")


def metas(page: Page, name: str) -> list[str]:
    return [str(m.get("content")) for m in named(page, "meta") if name in (m.get("name"), m.get("property"))]


def alternates(page: Page) -> dict[str, list[str]]:
    """Where other forms of a page lie, by their type."""
    found: dict[str, list[str]] = {}
    for link in named(page, "link"):
        if link.get("rel") == "alternate":
            found.setdefault(str(link.get("type")), []).append(str(link.get("href")))
    return found


@pytest.mark.parametrize("edition", ALL)
def test_the_head_of_every_page(edition: str) -> None:
    hidden = edition in ("class", "maker")
    for path, page in some(pages(edition).items()):
        assert metas(page, "theme-color") == ["#f6f4ec", "#171914"], path
        assert metas(page, "robots") == (["noindex"] if hidden else []), path
        for name in ("og:title", "og:description", "og:type", "og:site_name", "description", "viewport"):
            (said,) = metas(page, name)
            assert said, (path, name)
        links = {str(link.get("rel")): str(link.get("href")) for link in named(page, "link")}
        assert links["icon"].endswith("icon.svg"), path
        if path != "404.html":
            assert links["canonical"].startswith("https://soap.example/book/"), path
        others = alternates(page)
        assert ("application/atom+xml" in others) == ("feed.xml" in files(edition)), path
        if "ready.ics" in files(edition):
            assert any(to.endswith("ready.ics") for to in others["text/calendar"]), path
        assert ("application/pdf" in others) == (
            alike(path) == "recipes/*/index.html" and has_sheet(edition)
        ), path


def has_sheet(edition: str) -> bool:
    return any(path.startswith("recipes/") for path in site(edition).pdfs)


@pytest.mark.parametrize("edition", ALL)
def test_every_date_is_one_for_programs_too(edition: str) -> None:
    """Source: HTML, 4.5.14: the time element. A day that a reader reads stands in one."""
    written = re.compile(r"\b\d{4}-\d{2}-\d{2}\b|\b\d{1,2}[ \u00a0](?:January|February|March|April|May|June|July|"
                         r"August|September|October|November|December)[ \u00a0]\d{4}\b")  # fmt: skip
    seen = 0
    for path, page in some(pages(edition).items()):
        own = {id(e) for part in page.iter() if part.get("class") == "notes" for e in part.iter()}
        own |= {id(e) for tag in ("script", "title") for e in named(page, tag)}
        for element in page.iter():
            if id(element) in own or element.tag == f"{X}time":
                seen += element.tag == f"{X}time"
                continue
            inside = [element.text or "", *(child.tail or "" for child in element)]
            told = [text for text in inside if text.strip() not in _OF_LAW]
            assert not [found for text in told for found in written.findall(text)], (path, inside)
        for day in named(page, "time"):
            assert re.fullmatch(
                r"\d{4}-\d{2}-\d{2}|\d{2}:\d{2}", day.get("datetime") or "".join(day.itertext())
            ), path
    assert seen >= {"shop": 3, "class": 3}.get(edition, 20)


@pytest.mark.parametrize("edition", ALL)
def test_every_picture_says_its_size(edition: str) -> None:
    pictures = 0
    for path, page in some(pages(edition).items()):
        for image in named(page, "img"):
            assert all(re.fullmatch(r"[1-9]\d*", str(image.get(side))) for side in ("width", "height")), path
            pictures += 1
    assert pictures > 9


@pytest.mark.parametrize("edition", ALL)
def test_every_page_has_a_policy_and_asks_nobody_else(edition: str) -> None:
    for path, page in some(pages(edition).items()):
        (policy,) = (m.get("content") for m in named(page, "meta") if m.get("http-equiv"))
        assert str(policy).startswith("default-src 'none'") and "http" not in str(policy), path
        asked = [e.get("src") for e in page.iter() if e.get("src")]
        asked += [str(e.get("srcset")) for e in page.iter() if e.get("srcset")]
        asked += [str(e.get("href")) for e in named(page, "link") if e.get("rel") != "canonical"]
        assert not [one for one in asked if one and "//" in one], path


@pytest.mark.parametrize("edition", ALL)
def test_every_pdf_is_linked_from_a_page(edition: str) -> None:
    pdfs = site(edition).pdfs
    assert pdfs or edition == "shop", "nothing is printed"
    linked = set[str]()
    for path in (path for path in files(edition) if path.endswith(".html")):
        for address in re.findall(rb'<a [^>]*?href="([^"]*\.pdf)"', files(edition)[path]):
            linked.add(normpath(join(dirname(path), address.decode())))
    assert linked == set(pdfs), linked ^ set(pdfs)


def test_the_style_sheet_is_for_every_reader() -> None:
    """Sources: Media Queries Level 5, forced-colors and prefers-contrast; the budget of type is our own."""
    data = files("public")
    (style,) = (data[path] for path in data if path.endswith(".css"))
    for query in (
        b"(forced-colors: active)",
        b"(prefers-contrast: more)",
        b"(prefers-color-scheme: dark)",
        b"print",
    ):
        assert query in style, query
    type_ = {path: len(data[path]) for path in data if path.endswith(".woff2")}
    assert len(type_) == 5 and sum(type_.values()) <= 130_000


@pytest.mark.parametrize("edition", ["public", "shop"])
def test_the_map_names_pages_that_are_there(edition: str) -> None:
    root = ElementTree.fromstring(files(edition)["sitemap.xml"])
    found = [str(loc.text) for loc in root.iter("{http://www.sitemaps.org/schemas/sitemap/0.9}loc")]
    top = "https://soap.example/book/" + ("" if edition == "public" else f"{edition}/")
    assert all(one.startswith(top) for one in some(found)), found
    named_ = {link.get("href") for page in pages(edition).values() for link in named(page, "link")}
    there = {re.sub(r"(^|/)$", r"\1index.html", one.removeprefix(top)) for one in found}
    assert there <= files(edition).keys() and set(found) & named_, there
    assert {path for path in files(edition) if alike(path) == "recipes/*/index.html"} <= there


def test_a_lost_reader_finds_the_way_back() -> None:
    page = parse(files("public")["404.html"])
    assert "/book/index.html" in [a.get("href") for a in named(page, "a")]


@pytest.mark.slow
def test_every_kind_of_page_is_looked_at() -> None:
    """A kind of which no edition has a page here would pass unseen."""
    made = {kind.name for kind in KINDS for edition in EDITIONS if kind.is_for(site(edition))}
    assert made == {kind.name for kind in KINDS}
    assert len({alike(path) for edition in EDITIONS for path in pages(edition)}) > 16


def test_a_track_that_takes_a_share_of_the_width_may_be_narrower_than_its_longest_word() -> None:
    """CSS Grid Layout 1, 7.2.4: `1fr` alone is no narrower than its content, so that a long word widens the page."""
    written = "".join(one.read_text("utf-8") for one in some((resources.templates() / "style").glob("*.css")))
    tracks = some(re.findall(r"grid-template-columns: ([^;}]*)", written))
    assert [one for one in tracks if "fr" in re.sub(r"minmax\((?:[^()]|\([^()]*\))*\)", "", one)] == []
