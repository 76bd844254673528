"""A lot that is held back is said to be so at the head of its recipe, or is not there at all: in every edition.

Nothing that is composed may call a lot ready unless a test found it clean.
"""

from __future__ import annotations

import random
import re
from collections.abc import Mapping
from datetime import date
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from composed import composed
from lot_books import having, parsed, words
from outputs.pdfs.desk import desk_for, sheets_of
from saponary.build.proof import Proof, prove
from saponary.schema.edition import STANDARD, Edition
from saponary.schema.seen import FIELDS
from saponary.views.for_edition import Unpublished, for_edition
from saponary.views.site import PhotoSet
from support import PLAIN, in_part, write_book

PAGE = "recipes/tried/index.html"
HELD = ("trace", "present")
ON = date(2026, 12, 1)
SHEET = "wide: {page: a4, width: 90 mm, height: 60 mm, columns: 2, rows: 4, left: 10 mm, top: 15 mm}"
DICE = random.Random(7)
EDITIONS = [
    *STANDARD.values(),
    *(Edition(f"own-{i}", frozenset(DICE.sample(FIELDS, DICE.randint(2, 14))), "full") for i in range(6)),
]


def files(result: str, more: str = "") -> dict[str, str]:
    test = f"    free-alkali: {{test: zap, result: {result}, on: 2026-04-10}}\n" if result else ""
    lot = (
        "batches:\n  - lot: HELDLOT\n    poured: 2026-03-02\n"
        f"{test}    photos: [{{file: heldphoto.jpg, day: 3}}]\n{more}"
    )
    photo = "photo: {file: heldphoto.jpg, day: 3}\n"
    sheets = f"title: Tried\nlabel-sheets:\n  {SHEET}\n"
    shown = "\n![the heldphoto bar](../photos/heldphoto.jpg)\n"
    return {
        "book.yaml": sheets,
        "recipes/beside.md": PLAIN.replace("Plain Bar", "Beside") + shown,
        "recipes/tried.md": shown.join(
            (PLAIN.replace("signed:\n", f"label: {{net-weight: 100 g}}\n{photo}{lot}signed:\n", 1), "")
        ),
    }


@cache
def proved(result: str, more: str = "") -> Proof:
    with TemporaryDirectory() as folder:
        return prove(write_book(Path(folder), files(result, more)))


def made(result: str, edition: Edition) -> Mapping[str, bytes]:
    proof = proved(result)
    shot = PhotoSet(8, 6, (("image/webp", "photos/heldphoto.webp 8w"),), "photos/heldphoto.jpg", "")
    whole = Unpublished(proof.book, proof.recipes, "1", "t", on=ON, photos={"heldphoto.jpg": shot})
    return composed(for_edition(whole, edition))


LOTS = [(result, edition) for edition in EDITIONS for result in (*HELD, "")]


@pytest.mark.parametrize(
    "case",
    in_part(LOTS, lambda case: case[1].name),
    ids=lambda case: f"{case[0] or 'untested'}-{case[1].name}",
)
def test_a_lot_is_told_for_what_it_is_or_is_not_there(case: tuple[str, Edition]) -> None:
    result, edition = case
    site = made(result, edition)
    assert PAGE in site
    _none_is_called_ready(site)
    if result:
        _held(site, edition)
    elif "batches" in edition.shows:
        told = words(parsed(site, "cure-shelf/index.html"))
        assert "Cured, not tested" in told and "HELDLOT" in told


def _held(site: Mapping[str, bytes], edition: Edition) -> None:
    if "batches" not in edition.shows:
        assert not [path for path, data in site.items() if b"heldphoto" in data]
        # A remark of the checks says in so many words that it held alkali.
        left = b"".join(site.values()).replace(b"lot HELDLOT held", b"")
        assert b"HELDLOT" not in left
        return
    beside = b"heldphoto" in site["recipes/beside/index.html"]
    assert beside == ({"photos", "notes"} <= edition.shows)
    (header,) = having(parsed(site, PAGE), "face")
    assert "Lot HELDLOT. Held back: its last test, 10 Apr 2026" in words(header)
    if "work" in edition.shows:
        assert "Lot HELDLOT. Held back" in words(parsed(site, "recipes/tried/at-the-bench.html"))
    for path in ("lots/index.html", "cure-shelf/index.html", "lots/tried/heldlot/index.html"):
        assert "Held back" in words(parsed(site, path))


def _none_is_called_ready(site: Mapping[str, bytes]) -> None:
    assert b"SUMMARY:Ready" not in site.get("ready.ics", b"")
    pages = [path for path in site if path.endswith(".html")]
    assert PAGE in pages
    for path in pages:
        told = " ".join(re.sub("<[^>]*>", " ", site[path].decode()).split())
        assert not re.search(r"\bready (since|on|by|about)?\s*(day )?\d", told, re.IGNORECASE), path


def test_a_clean_lot_is_called_ready() -> None:
    site = made("none", STANDARD["public"])
    assert b"SUMMARY:Ready: Plain Bar" in site["ready.ics"]
    assert "Ready 30 March 2026" in words(parsed(site, "lots/tried/heldlot/index.html"))


def test_labels_are_made_of_no_lot_that_is_held_back() -> None:
    newer = "  - {lot: FREELOT, poured: 2026-05-02}\n"
    for result, more, lot in (
        ("none", "", "Lot"),
        ("", "", "Lot"),
        ("present", newer, "Lot FREELOT"),
        ("trace", newer, "Lot FREELOT"),
    ):
        (sheet,) = sheets_of(desk_for(proved(result, more), "maker"), "labels").values()
        assert re.search(rf">\s*{lot}\s*<", sheet.html)
    for result in HELD:
        assert not sheets_of(desk_for(proved(result), "maker"), "labels")


def test_paper_says_it_too() -> None:
    desk = desk_for(proved("present"), "maker")
    for kind in ("recipe-sheet", "whole-book"):
        for sheet in sheets_of(desk, kind).values():
            if "beside" not in sheet.path:
                assert "Lot HELDLOT. Held back: its last test" in sheet.html
