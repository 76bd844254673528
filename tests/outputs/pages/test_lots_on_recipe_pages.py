"""A lot on its recipe's page: its curve, and its photos by day."""

from __future__ import annotations

import re
from collections.abc import Iterable
from xml.etree import ElementTree

import pytest

from lot_books import FITTED, X, built, having, mark, parsed, recipe, site_of, words
from saponary.views.site import PhotoSet
from support import prove_one

pytestmark = pytest.mark.slow

PAGE = "recipes/tried/index.html"


def photo_sets(names: Iterable[str]) -> dict[str, PhotoSet]:
    return {
        name: PhotoSet(
            800,
            600,
            (("image/webp", f"photos/{name}-400.webp 400w, photos/{name}-800.webp 800w"),),
            f"photos/{name}-800.jpg",
            "",
        )
        for name in names
    }


def with_photos(days: list[int], formula: str = "") -> ElementTree.Element:
    listed = ", ".join(f'{{file: d{day}.jpg, day: {day}, colours: {{gold: "#D8BF78"}}}}' for day in days)
    text = recipe(f"lot: A-1\npoured: 2026-01-02\n{formula}photos: [{listed}]")
    return parsed(built(text, photos=photo_sets(f"d{day}.jpg" for day in days)), PAGE)


def captions(part: ElementTree.Element) -> list[str]:
    return [words(e) for e in part.iter(f"{X}figcaption")]


def test_photos_stand_once_in_order_of_days_and_the_last_at_the_head() -> None:
    page = with_photos([42, 0, 14])
    (line,) = having(page, "moments")
    assert captions(line) == ["The day it was poured", "Day 14"]
    assert "Day 42: at the head of this page" in words(line)
    shown = [str(e.get("src")) for e in page.iter(f"{X}img") if "photos/" in str(e.get("src"))]
    assert shown == [f"../../photos/d{day}.jpg-800.jpg" for day in (42, 0, 14)]
    (first,) = [e for e in page.iter() if e.get("id") == "lead"]
    assert captions(first) == ["Lot A-1 on day 42."]
    assert len(having(line, "readings")) == 3 and "gold: yellow" in words(line)
    assert all(img.get("alt") for img in page.iter(f"{X}img"))
    assert [e.get("type") for e in page.iter(f"{X}script")] == ["application/ld+json"], "data alone"


def test_earlier_lots_are_folded_and_one_that_is_held_back_is_not() -> None:
    lots = "lot: A-3\npoured: 2026-03-02", "lot: A-2\npoured: 2026-02-02", "lot: A-1\npoured: 2026-01-02"
    held = "\nfree-alkali: {test: phenolphthalein, result: trace, on: 2026-02-20}"
    page = parsed(built(recipe(lots[0], lots[1] + held, lots[2])), PAGE)
    shown = {words(next(e.iter(f"{X}h3"))): bool(having(e, "earlier-lot")) for e in having(page, "batch")}
    assert shown == {"Lot A-3": False, "Lot A-2": False, "Lot A-1": True}


def test_the_number_of_a_colour_is_for_the_maker() -> None:
    listed = '{file: d0.jpg, day: 0, colours: {gold: "#D8BF78"}}'
    text = recipe(f"lot: A-1\npoured: 2026-01-02\nphotos: [{listed}]")
    for edition, told in (("public", False), ("maker", True)):
        made = site_of(prove_one(text), edition=edition, photos=photo_sets(["d0.jpg"]))
        assert (b"#d8bf78" in re.sub(rb"<svg.*?</svg>", b"", made[PAGE])) == told


def test_photos_of_an_earlier_formula_say_so() -> None:
    page = with_photos([0, 14, 42], "formula: 0123456789ab\n")
    for part in having(page, "moments"):
        assert all("earlier formula" in caption for caption in captions(part))
    assert "Poured to an earlier formula, not to the recipe as it stands." in words(page)
    assert "earlier formula" not in words(with_photos([0, 42], f"formula: {mark()}\n"))


def test_photos_that_were_not_made_are_left_out() -> None:
    page = parsed(built(recipe("lot: A-1\npoured: 2026-01-02\nphotos: [{file: gone.jpg, day: 0}]")), PAGE)
    assert not having(page, "moments")


def test_the_curve_comes_with_its_words() -> None:
    page = parsed(built(recipe(f"lot: A-1\npoured: 2026-01-02\n{FITTED}")), PAGE)
    (part,) = having(page, "lot-cure")
    told = words(part)
    assert "Cure over 10 February 2026, day 39" in told
    assert (
        "Settles at 112.6 g, 12.1 % below its first day: between 112.2 g and 113.0 g at 95 % confidence."
        in told
    )
    assert "from day 39 (36 to 41)." in told
    assert [e for e in part.iter() if str(e.tag).endswith("svg")]


def test_a_weighing_that_was_left_out_is_named() -> None:
    weighed = "weighed: {0: 127.0 g, 7: 121.5 g, 14: 118.0 g, 21: 123.0 g, 28: 114.2 g, 42: 112.8 g}"
    told = words(
        having(parsed(built(recipe(f"lot: A-1\npoured: 2026-01-02\n{weighed}")), PAGE), "lot-cure")[0]
    )
    assert "Left out as doubtful: 123.0 g on day 21, where the others give 115.7 g." in told


def test_no_curve_says_why_and_the_book_s_days_stand() -> None:
    told = words(
        having(parsed(built(recipe("lot: A-1\npoured: 2026-01-02\nweighed: {0: 127 g}")), PAGE), "lot-cure")[
            0
        ]
    )
    assert "No curve: a curve needs weighings on at least three different days." in told
    assert "Cure over 30 January 2026, day 28" in told


def test_several_bars_and_lots_keep_their_ids_apart() -> None:
    bars = "bars: {A: {0: 128 g, 7: 122 g, 14: 119 g, 28: 115 g}, A.: {0: 100 g}, 'B/': {0: 90 g}}"
    page = parsed(
        built(recipe(f"lot: A-1\npoured: 2026-01-02\n{bars}", f"lot: A.1\npoured: 2026-01-02\n{FITTED}")),
        PAGE,
    )
    ids = [e.get("id") for e in page.iter() if e.get("id")]
    assert len(ids) == len(set(ids))
    assert "Bar A" in words(page) and "Bar B/" in words(page)


def test_an_edition_without_batches_tells_nothing_of_a_cure() -> None:
    photos = "photos: [{file: d0.jpg, day: 0}, {file: d42.jpg, day: 42}]"
    test = "free-alkali: {test: phenolphthalein, result: trace, on: 2026-02-20}"
    text = recipe(f"lot: A-1\npoured: 2026-01-02\n{FITTED}\n{test}\n{photos}")
    clean = text.replace("trace", "none")
    page = parsed(built(clean, photos=photo_sets(["d0.jpg", "d42.jpg"]), edition="shop"), PAGE)
    assert not having(page, "lot-cure") and "Settles at" not in words(page) and "Held back" not in words(page)
    bench = words(parsed(built(text, photos=photo_sets(["d0.jpg", "d42.jpg"]), edition="maker"), PAGE))
    assert "Held back" in bench and "Settles at" in bench
