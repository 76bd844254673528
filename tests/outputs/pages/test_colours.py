"""The colour shelf: every colourant with its words, its doses, and how it is known."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from pathlib import Path
from xml.etree import ElementTree

import pytest

from lot_books import X, built, having, mark, parsed, site_of, words
from saponary.book.library import Book
from saponary.build.proof import prove
from saponary.messages.speaker import speaker
from saponary.pantry.model import Chip, Colour, Source
from saponary.pantry.standard import standard
from saponary.schema.edition import PUBLIC, STANDARD
from saponary.schema.settings import Settings
from saponary.views.colour_uses import by_title
from saponary.views.colour_uses import coloured as uses_of
from saponary.views.colour_words import in_words
from saponary.views.colours import KEYS_BY_ID, colours_view
from saponary.views.for_edition import Unpublished, for_edition
from support import BOOKS, PLAIN, proof_of, prove_one, write_book

pytestmark = pytest.mark.slow

PAGE = "colours/index.html"
say = speaker().say
KNOWN = "Source: (" + "|".join(re.escape(speaker()(f"known.{how}")) for how in KEYS_BY_ID["known."]) + r")\."

COLOURED = PLAIN.replace(
    "signed:",
    """portions:
  - name: plain
    share: 1/2
  - name: gold
    share: 1/2
    additions: [{what: turmeric, amount: 3 g}]
batches:
  - lot: G-1
    poured: 2026-01-02
    formula: MARK
    photos: [{file: g.jpg, day: 42, colours: {gold: "#D9C080"}}]
signed:""",
)


def coloured() -> str:
    return COLOURED.replace(
        "MARK", prove_one(COLOURED.replace("    formula: MARK\n", "")).recipes[0].computed.fingerprint
    )


def entry_of(page: ElementTree.Element, name: str) -> ElementTree.Element:
    (found,) = [e for e in page.iter() if e.get("id") == f"colour-{name}"]
    return found


@pytest.mark.parametrize("name", sorted(BOOKS))
def test_every_colourant_stands_once_with_its_words_and_numbers(name: str) -> None:
    proof = proof_of(name)
    page = parsed(site_of(proof, edition="maker"), PAGE)
    shelf = [entry for entry in proof.book.pantry.additions.values() if entry.colour is not None]
    assert len(shelf) > 50
    for entry in shelf:
        assert entry.colour is not None
        told = words(entry_of(page, entry.id))
        for colour in (entry.colour.fresh, entry.colour.cured):
            assert colour.lower() in told and say(in_words(colour)) in told, entry.id
        assert ("The colour stays." if entry.colour.stays else "The colour changes.") in told
        assert re.search(KNOWN, told), entry.id
        if entry.colour.in_alkali:
            assert " ".join(entry.colour.in_alkali.split()) in told
        if entry.colour.lightfast:
            assert "In light" in told


def test_no_swatch_speaks_by_colour_alone() -> None:
    page = parsed(built(coloured(), edition="maker"), PAGE)
    parents = {child: parent for parent in page.iter() for child in parent}
    swatches = having(page, "swatch")
    assert len(swatches) > 100
    for swatch in swatches:
        (fill,) = {e.get("fill") for e in swatch if e.get("fill")}
        around = swatch
        while around.tag not in (f"{X}td", f"{X}li", f"{X}div"):
            around = parents[around]
        assert str(fill) in words(around) and say(in_words(str(fill))) in words(around)
        assert swatch.get("aria-hidden") == "true"


@pytest.mark.parametrize("edition", ["public", "class"])
def test_numbers_are_for_the_maker_and_words_for_all(edition: str) -> None:
    page = parsed(built(coloured(), edition=edition), PAGE)
    assert not re.search(r"#[0-9a-f]{6}", words(page)) and not list(page.iter(f"{X}code"))
    assert say(in_words("#d9c080")) in words(page)


def test_what_is_in_no_recipe_is_folded_by_kind() -> None:
    page = parsed(built(coloured()), PAGE)
    folded = having(page, "kind")
    heads = [words(e) for part in folded for e in part.iter(f"{X}h3")]
    assert len(folded) > 4 and len(heads) == len(folded)
    inside = {e.get("id") for part in folded for e in part.iter(f"{X}li") if e.get("id")}
    assert inside and all("open" not in part.attrib for part in folded)
    assert "colour-turmeric" not in inside


def test_what_the_book_uses_comes_first_and_links_back() -> None:
    page = parsed(built(coloured()), PAGE)
    (used,) = having(page, "colourant")
    assert used.get("id") == "colour-turmeric"
    (link,) = used.iter(f"{X}a")
    assert link.get("href") == "../recipes/tried/index.html"
    assert "gold 6 g/kg" in words(used)
    assert "Other colourants" in words(page)


def test_the_ladder_climbs_to_the_full_depth() -> None:
    page = parsed(built(coloured()), PAGE)
    rows = [words(row) for row in entry_of(page, "turmeric").iter(f"{X}tr")][1:]
    assert [re.match(r"(.*? g/kg)", row)[1] for row in rows] == [
        "A quarter 1.5 g/kg",
        "Half 3 g/kg",
        "Full depth 6 g/kg",
    ]  # type: ignore[index]


def test_a_photo_of_the_book_stands_behind_a_colour() -> None:
    told = words(entry_of(parsed(built(coloured(), edition="maker"), PAGE), "turmeric"))
    assert "day 42, 6 g/kg: yellow #d9c080 lot G-1" in told
    assert "Calculated from this book's own results, lot G-1." in told
    plain = words(entry_of(parsed(built(coloured()), PAGE), "madder"))
    assert "An estimate, calculated from the two colours above." in plain
    assert "an estimate, unless a colour chip or a photo of this book shows it" in words(
        parsed(built(coloured()), PAGE)
    )


def test_a_lot_that_is_not_shown_is_not_named() -> None:
    told = words(parsed(site_of(replace(prove_one(coloured()), recipes=())), PAGE))
    assert "G-1" not in told and "#d9c080" not in told
    kept_back = coloured().replace("    poured: 2026-01-02", "    poured: 2026-01-02\n    editions: [maker]")
    for edition, shown in (("maker", True), ("class", False)):
        told = words(parsed(built(kept_back, edition=edition), PAGE))
        assert ("#d9c080 lot G-1" in told) == shown, edition


def test_the_makers_own_colour_is_called_so(tmp_path: Path) -> None:
    book = write_book(
        tmp_path,
        {
            "recipes/plain.md": PLAIN,
            "pantry.yaml": """colourants:
  field-madder: {fresh: "#a4503c", cured: "#b98f86", usual: [1 g/kg, 8 g/kg], chips: [{dose: 4 g/kg, day: 40, colour: "#B0807A", note: the window sill}]}
  turmeric: {price: 77.70 / kg, supplier: SUPPLIERMARK, usual: [1 g/kg, 5 g/kg]}
""",
        },
    )
    made = site_of(prove(book), date(2026, 3, 20))
    page = parsed(made, PAGE)
    assert "dusty pink the window sill" in words(page)
    own = words(entry_of(page, "field-madder"))
    assert "Source: the maker's own." in own and "the upper end of the usual range is used" in own
    assert "day 40, 4 g/kg" in own and "dusty pink the window sill" in own
    refined = words(entry_of(page, "turmeric"))
    assert "Source: makers' experience, not published." in refined and "Usual: 1 to 5 g/kg" in refined
    for data in made.values():
        assert b"77.7" not in data and b"SUPPLIERMARK" not in data


def test_without_any_dose_there_is_no_ladder() -> None:
    shelf = standard()
    bare = replace(
        shelf.additions["turmeric"],
        id="bare",
        usual=None,
        source={"colours": Source("memory")},
        colour=Colour("#808080", "#909090", chips=(Chip(1.0, 0, "#707070", "a card"),)),
    )
    book = Book(
        Path("/nowhere"), Settings(), shelf.with_changes(additions={"bare": bare}), [], frozenset(), {}, []
    )
    view = colours_view(for_edition(Unpublished(book, (), "1", "t"), STANDARD[PUBLIC]), [])
    ((one,),) = [kind.colourants for kind in view.others]
    assert one.ladder == () and one.ladder_from == () and one.known == "memory"
    assert say(one.chips[0].day) == "the day it was poured" and one.chips[0].where == "a card"


def test_infused_and_dusted_colourants_count_as_used() -> None:
    proof = proof_of("demo")
    site = for_edition(Unpublished(proof.book, proof.recipes, "1", "t"), STANDARD[PUBLIC])
    shelf = site.book.pantry
    view = colours_view(site, [use for one in by_title(site.recipes) for use in uses_of(one, shelf, "../")])
    used = {one.id.removeprefix("colour-"): [say(use.much) for use in one.uses] for one in view.used}
    assert any("infused" in much for much in used["alkanet"])
    assert any("dusted line" in much for much in used["activated-charcoal"])
    assert not {one.id for one in view.used} & {one.id for kind in view.others for one in kind.colourants}


def test_same_input_same_bytes() -> None:
    assert mark() and built(coloured())[PAGE] == built(coloured())[PAGE]
