"""What pages say of themselves: addresses, pictures, feeds, icons and data for programs."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from datetime import date, datetime
from functools import cache
from html import unescape
from io import BytesIO
from urllib.parse import urljoin
from xml.etree import ElementTree

import pytest
from PIL import Image

from composed import composed
from outputs.pages.test_site import parse
from saponary.book.changes import Changed
from saponary.label.lists import bar
from saponary.outputs.pages.feed import MOST
from saponary.schema.edition import STANDARD
from saponary.views.for_edition import Unpublished, for_edition
from saponary.views.mark import icon
from saponary.views.site import PhotoSet, SiteInput
from support import PLAIN, proof_of, prove_one

BASE = "https://soap.example/book"
ATOM = "{http://www.w3.org/2005/Atom}"
ON = date(2026, 11, 26)


def site_of(edition: str, base: str | None = BASE) -> SiteInput:
    proof = proof_of("demo")
    shots = [
        shot.file for one in proof.recipes for record in one.computed.batches for shot in record.batch.photos
    ]
    photos = {name: PhotoSet(640, 480, (), f"photos/{name}", "a bar") for name in shots}
    settings = proof.book.settings.model_copy(update={"base_url": base})
    book = proof.book.__class__(**{**vars(proof.book), "settings": settings})
    changed = {one.computed.slug: Changed(date(2026, 3, 2), False) for one in proof.recipes}
    labels = {one.slug: bar(one.computed) for one in proof.recipes}
    whole = Unpublished(book, proof.recipes, "e", "t", labels=labels, photos=photos, changed=changed, on=ON)
    return for_edition(whole, STANDARD[edition])


@cache
def made(edition: str, base: str | None = BASE) -> Mapping[str, bytes]:
    return composed(site_of(edition, base))


def meta(page: bytes, name: str) -> list[str]:
    found = re.findall(rf'<meta (?:name|property)="{re.escape(name)}" content="([^"]*)">', page.decode())
    return [unescape(one) for one in found]


def linked(page: bytes, rel: str) -> list[str]:
    return re.findall(rf'<link rel="{rel}"[^>]* href="([^"]*)"', page.decode())


@pytest.mark.parametrize(("edition", "top"), [("public", f"{BASE}/"), ("shop", f"{BASE}/shop/")])
def test_every_page_says_its_own_address(edition: str, top: str) -> None:
    pages = {
        path: data for path, data in made(edition).items() if path.endswith(".html") and path != "404.html"
    }
    assert len(pages) > 8
    for path, page in pages.items():
        address = top + path.removesuffix("index.html")
        assert linked(page, "canonical") == [address] == meta(page, "og:url"), path
        (title,) = re.findall(r"<title>([^<]*)</title>", page.decode())
        assert meta(page, "og:title") == [unescape(title)], path
        assert meta(page, "og:description") == meta(page, "description"), path


def test_without_an_address_nothing_is_made_up() -> None:
    files = made("public", None)
    assert "feed.xml" not in files and "sitemap.xml" not in files
    assert all(
        b"canonical" not in page and b"og:image" not in page
        for path, page in files.items()
        if path.endswith(".html")
    )
    assert b"Sitemap" not in files["robots.txt"]


def is_of_a_recipe(path: str) -> bool:
    return re.fullmatch(r"recipes/[^/]+/index.html", path) is not None


@pytest.mark.parametrize(("edition", "top"), [("public", f"{BASE}/"), ("shop", f"{BASE}/shop/")])
def test_a_card_stands_for_the_page_of_a_recipe(edition: str, top: str) -> None:
    """Source: ogp.me, structured properties: the address of the picture is whole, its size in pixels."""
    files = made(edition)
    pages = [path for path in files if is_of_a_recipe(path)]
    assert len(pages) > 5
    for path in pages:
        (address,) = meta(files[path], "og:image")
        assert address == top + path.replace("index.html", "card.jpg") and address.removeprefix(top) in files
        assert all(meta(files[path], "og:image:alt"))
    told = [meta(files[pages[0]], f"og:image:{side}") for side in ("width", "height")]
    size = Image.open(BytesIO(files[pages[0].replace("index.html", "card.jpg")])).size
    assert told == [[str(side)] for side in size]


def test_a_card_is_made_only_where_it_can_be_found() -> None:
    for files in (made("public", None), made("maker")):
        assert not [path for path in files if path.endswith("card.jpg")]
        assert not any(meta(page, "og:image") for path, page in files.items() if is_of_a_recipe(path))


def test_what_a_page_names_beside_itself_is_there() -> None:
    for edition in ("public", "shop"):
        files = made(edition)
        for path, page in files.items():
            if path.endswith(".html") and path != "404.html":
                there = [*linked(page, "icon"), *linked(page, "alternate")]
                assert there and all(urljoin(f"/{path}", one)[1:] in files for one in there), (path, there)


def test_the_makers_pages_are_listed_nowhere() -> None:
    hidden = made("maker")
    assert all(meta(page, "robots") == ["noindex"] for path, page in hidden.items() if path.endswith(".html"))
    assert not any(meta(page, "robots") for page in made("public").values() if page.startswith(b"<!doctype"))
    assert not {"robots.txt", "404.html", "feed.xml"} & hidden.keys()


@pytest.mark.parametrize(
    ("slug", "outline", "parts"), [("quarry-strata", "path", 3), ("bell-in-a-drainpipe", "circle", 3)]
)
def test_the_icon_is_the_bar_with_its_largest_portions(slug: str, outline: str, parts: int) -> None:
    site = site_of("public")
    root = ElementTree.fromstring(icon(site.by_slug[slug]))
    drawn = [one for one in root.iter() if one.get("fill")]
    assert {one.tag.rpartition("}")[2] for one in drawn} == {outline}
    fills = [one.get("fill") for one in drawn if one.get("fill") != "none"]
    assert len(fills) == parts and all(re.fullmatch(r"#[0-9a-f]{6}", str(one)) for one in fills)
    assert ElementTree.fromstring(made("public")["icon.svg"]).get("viewBox") == "0 0 32 32"


def test_the_feed_has_what_the_standard_asks_for() -> None:
    """Source: RFC 4287, 4.1.1 and 4.1.2: id, title and updated once each; an author; a link of its own."""
    root = ElementTree.fromstring(made("public")["feed.xml"])
    entries = root.findall(f"{ATOM}entry")
    assert root.tag == f"{ATOM}feed" and 8 <= len(entries) <= MOST
    for one in (root, *entries):
        for name in ("id", "title", "updated"):
            (found,) = one.findall(f"{ATOM}{name}")
            assert found.text
        updated = datetime.fromisoformat(str(one.findtext(f"{ATOM}updated")))
        assert updated.tzinfo is not None and updated.date() <= ON
    ids = [one.findtext(f"{ATOM}id") for one in entries]
    assert len(set(ids)) == len(ids)
    days = [one.findtext(f"{ATOM}updated") for one in entries]
    assert days == sorted(days, key=str, reverse=True) and root.findtext(f"{ATOM}updated") == days[0]
    assert root.find(f"{ATOM}author/{ATOM}name") is not None
    (own,) = [link for link in root.findall(f"{ATOM}link") if link.get("rel") == "self"]
    assert own.get("href") == f"{BASE}/feed.xml"
    for one in entries:
        link = one.find(f"{ATOM}link")
        assert link is not None and str(link.get("href")).removeprefix(f"{BASE}/") in made("public")


def data(page: bytes) -> list[dict[str, object]]:
    return [
        json.loads(one)
        for one in re.findall(r'<script type="application/ld\+json">(.*?)</script>', page.decode())
    ]


def test_a_method_is_told_to_programs() -> None:
    """Source: schema.org/HowTo; a HowTo has a name, steps with texts, and supplies with a quantity as a text."""
    for path, page in made("public").items():
        if re.fullmatch(r"recipes/[^/]+/index.html", path):
            (told,) = data(page)
            assert told["@context"] == "https://schema.org" and told["@type"] == "HowTo" and told["name"]
            steps, supply = told["step"], told["supply"]
            assert isinstance(steps, list) and isinstance(supply, list)
            assert len(steps) > 3 and all(step["text"] and "<" not in step["text"] for step in steps)
            weighed = {one["name"]: one["requiredQuantity"] for one in supply}
            assert all(re.fullmatch(r"[\d.]+\W(g|oz)", much) for much in weighed.values()), path
            assert any("ydroxide" in name for name in weighed) and not any(
                "atter" in name for name in weighed
            )
    (quarry,) = data(made("public")["recipes/quarry-strata/index.html"])
    found = {one["name"] for one in quarry["supply"]}  # type: ignore[attr-defined]
    assert {"Olive oil", "Kaolin, white", "Turmeric, ground"} <= found, "what goes into one portion alone too"


def test_a_soap_is_told_to_programs_with_its_price() -> None:
    """Source: schema.org/Product and schema.org/Offer: a price is digits and a point, its currency ISO 4217."""
    offers = 0
    for path, page in made("shop").items():
        if re.fullmatch(r"recipes/[^/]+/index.html", path):
            (told,) = data(page)
            assert told["@type"] == "Product" and told["name"]
            weight = told.get("weight")
            if isinstance(weight, dict):
                assert weight["unitCode"] == "GRM" and 20 <= weight["value"] <= 500
            offer = told.get("offers")
            if isinstance(offer, dict):
                offers += 1
                assert re.fullmatch(r"\d+(\.\d+)?", offer["price"]) and re.fullmatch(
                    "[A-Z]{3}", offer["priceCurrency"]
                )
                assert offer["availability"].removeprefix("https://schema.org/") in (
                    "InStock",
                    "PreOrder",
                    "OutOfStock",
                )
    assert offers > 0


def test_no_text_of_a_maker_ends_the_data() -> None:
    one = prove_one(PLAIN.replace("title: Plain Bar", "title: 'A </script><b>bar & \"co\"'"))
    whole = Unpublished(one.book, one.recipes, "e", "t")
    files = composed(for_edition(whole, STANDARD["public"]))
    (path,) = [path for path in files if re.fullmatch(r"recipes/[^/]+/index.html", path)]
    (told,) = data(files[path])
    assert told["name"] == 'A </script><b>bar & "co"'
    parse(files[path])


def test_a_page_that_is_not_there_leads_to_the_book_from_anywhere() -> None:
    assert b'href="/book/index.html"' in made("public")["404.html"]
    assert b'href="/index.html"' in made("public", None)["404.html"]
    assert re.search(rb'rel="stylesheet" href="/book/assets/style-', made("public")["404.html"])


@pytest.mark.parametrize(
    ("edition", "path", "name", "how"),
    [
        ("public", "index.html", "Recipes", "page"),
        ("public", "recipes/quarry-strata/index.html", "Recipes", "true"),
        ("public", "lots/quarry-strata/qs-014/index.html", "Lots", "true"),
        ("shop", "recipes/quarry-strata/index.html", "Soaps", "true"),
        ("class", "recipes/quarry-strata/index.html", "Recipes", "true"),
        ("class", "index.html", "The class", "page"),
    ],
)
def test_the_menu_marks_the_part_of_the_book_that_a_page_is_of(
    edition: str, path: str, name: str, how: str
) -> None:
    found = re.findall(r'<a href="[^"]*" aria-current="([^"]*)">([^<]*)<', made(edition)[path].decode())
    assert set(found) == {(how, name)}
