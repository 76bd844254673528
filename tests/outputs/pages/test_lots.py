"""The page of lots: what it tells of a batch, and what stays with the maker."""

from __future__ import annotations

from datetime import date

import pytest

from lot_books import CLEAN, FITTED, ON, built, having, mark, parsed, recipe, site_of, words
from saponary.book.alkali_found import clean_test
from saponary.book.cure_days import cure_days
from saponary.book.curing import ready_on
from saponary.book.published import published
from saponary.build.proof import prove
from saponary.messages.speaker import speaker
from saponary.schema.edition import PUBLIC, STANDARD
from saponary.views.readiness import later, lots
from support import BOOKS, PLAIN, prove_one, some

pytestmark = pytest.mark.slow

PAGE = "lots/index.html"


def lot_texts(text: str, on: date = ON, **more: object) -> list[str]:
    return [words(lot) for lot in having(parsed(built(text, on, **more), PAGE), "lot")]


def test_the_newest_comes_first_and_years_stand_apart() -> None:
    page = parsed(
        built(
            recipe(
                "lot: A-1\npoured: 2025-11-02", "lot: A-3\npoured: 2026-02-01", "lot: A-2\npoured: 2026-01-05"
            )
        ),
        PAGE,
    )
    assert [words(lot).split()[0] for lot in having(page, "lot")] == ["A-3", "A-2", "A-1"]
    assert [words(year).split()[0] for year in having(page, "year")] == ["2026", "2025"]


def test_a_lot_is_told_in_full() -> None:
    text = recipe(
        f"lot: A-1\npoured: 2026-03-02\nformula: {mark()}\nfaults: [soda-ash, ricing]\nshelf: third plank\n{FITTED}\n"
        "free-alkali: {test: phenolphthalein, result: none, on: 2026-03-19}"
    )
    (told,) = lot_texts(text)
    (own,) = lot_texts(text, edition="maker")
    assert "third plank" in own and "third plank" not in told
    for part in (
        "Plain Bar",
        "this formula",
        "Curing, 18 days so far",
        "Ready on 2026-04-10",
        "from day 39",
        "128.2 g to 113.6 g, 11.4 % lost",
        "5 weighings, day 0 to day 42",
        "none found",
        "2026-03-19, phenolphthalein",
        f"soda ash {speaker()('fault.soda-ash.meaning')}",
        f"ricing {speaker()('fault.ricing.meaning')}",
    ):
        assert part in told, part


@pytest.mark.parametrize(
    ("on", "said"),
    [
        (date(2026, 3, 1), "Poured after 2026-03-01"),
        (date(2026, 3, 2), "Curing, 0 days so far"),
        (date(2026, 3, 3), "Curing, 1 day so far"),
        (date(2026, 4, 9), "Curing, 38 days so far"),
        (date(2026, 4, 10), "Cured 39 days"),
    ],
)
def test_the_day_moves_a_lot_along(on: date, said: str) -> None:
    (told,) = lot_texts(recipe(f"lot: A-1\npoured: 2026-03-02\n{FITTED}"), on)
    assert said in told


def test_superfat_as_poured_is_told_whatever_the_formula_and_says_what_is_not_known() -> None:
    weights = "as-weighed: {olive: 620 g, sodium-hydroxide: 140.0 g, coconut: }"
    same, other, unknown = (
        lot_texts(recipe(f"lot: A-1\npoured: 2026-03-02\n{formula}{weights}"))[0]
        for formula in (f"formula: {mark()}\n", "formula: 0123456789ab\n", "")
    )
    assert "Superfat as poured" in same and "by the weights recorded" in same
    assert "taken from the formula, because not recorded: coconut oil and" in same
    assert "Superfat as poured not known no weight is recorded of coconut oil" in other
    assert "no weight is recorded of coconut oil and" in unknown
    assert "formula not recorded" in unknown


def test_free_lye_is_named() -> None:
    (told,) = lot_texts(
        recipe(f"lot: A-1\npoured: 2026-03-02\nformula: {mark()}\nas-weighed: {{sodium-hydroxide: 190 g}}")
    )
    assert "free lye: do not use" in told


def test_an_earlier_formula_is_told_with_what_changed() -> None:
    text = recipe("lot: A-1\npoured: 2026-03-02\nformula: 0123456789ab")
    (told,) = lot_texts(text)
    assert "poured to an earlier formula" in told and "0123456789ab" in told and mark() in told
    (told,) = lot_texts(text, earlier={"tried": {"0123456789ab": ("olive 70.0 to 60.0 %", "the portions")}})
    assert "changed since: olive 70.0 to 60.0 %; the portions" in told


@pytest.mark.parametrize("result", ["trace", "present"])
def test_a_lot_that_held_free_alkali_is_not_called_ready(result: str) -> None:
    test = f"free-alkali: {{test: phenolphthalein, result: {result}, on: 2026-02-20}}"
    made = built(recipe(f"lot: A-1\npoured: 2026-01-02\n{test}"))
    for path in (PAGE, "cure-shelf/index.html", "recipes/tried/index.html"):
        told = words(parsed(made, path))
        assert "Held back: its last test, 2026-02-20" in told, path
        assert "Ready since" not in told and "ready 2026" not in told, path
    assert "ready.ics" not in made and b"ready.ics" not in made["cure-shelf/index.html"]
    assert "Lot A-1. Held back: its last test" in words(parsed(made, "recipes/tried/index.html"))


def test_a_later_clean_test_lets_it_go() -> None:
    tests = "free-alkali: [{test: a, result: trace, on: 2026-02-20}, {test: b, result: none, on: 2026-03-01}]"
    (told,) = lot_texts(recipe(f"lot: A-1\npoured: 2026-01-02\n{tests}"))
    assert "Held back" not in told and "Ready since 2026-01-30" in told
    assert told.index("a trace") < told.index("none found")


def test_what_is_the_makers_own_never_leaves() -> None:
    hidden = ("BYMARK", "STOREMARK", "PRIVATEMARK", "SUPPLIERMARK")
    text = recipe(
        f"lot: A-1\npoured: 2026-03-02\nformula: {mark()}\nby: BYMARK\nstore: STOREMARK\n{FITTED}\n"
        "private: {note: PRIVATEMARK}\nas-weighed: {olive: 601 g}"
    ).replace("signed:", "private:\n  supplier-notes: SUPPLIERMARK\nsigned:")
    for path, data in some(built(text).items()):
        for word in hidden:
            assert word.encode() not in data, (path, word)


def test_prices_never_leave() -> None:
    proof = prove(BOOKS["demo"])
    made = site_of(proof)
    prices = [oil.price_per_kg for oil in proof.book.pantry.oils.values() if oil.price_per_kg]
    assert prices
    for path in (PAGE, "cure-shelf/index.html", "colours/index.html", "ready.ics"):
        for price in prices:
            assert f"{price:.2f} /" not in made[path].decode(), path


def test_words_of_a_record_stay_words() -> None:
    made = built(recipe("lot: '<b>&\"A'\npoured: 2026-03-02\nshelf: '<script>x</script>'"))
    page = parsed(made, PAGE)
    assert not list(page.iter("{http://www.w3.org/1999/xhtml}script"))
    assert '<b>&"A' in words(page)


def test_lots_alike_but_for_signs_have_fragments_of_their_own() -> None:
    proof = prove_one(
        recipe("lot: A 1\npoured: 2026-03-02", "lot: A-1\npoured: 2026-03-03", "lot: A.1\npoured: 2026-03-03")
    )
    one = proof.recipes[0]
    found = lots([published(one, STANDARD[PUBLIC], ON)])
    assert len({lot.anchor for lot in found}) == 3


def test_a_bar_named_but_never_weighed_is_passed_over() -> None:
    (told,) = lot_texts(recipe("lot: A-1\npoured: 2026-03-02\nbars: {left: {}, right: {0: 100 g}}"))
    assert "Weighed, bar right 100.0 g once, on day 0" in told and "bar left" not in told


def test_no_day_lies_beyond_the_calendar() -> None:
    assert later(date(9999, 12, 20), 400) == date.max
    assert later(date(2026, 2, 1), 28) == date(2026, 3, 1)


@pytest.mark.parametrize("name", sorted(BOOKS))
def test_every_batch_of_a_published_recipe_is_there_with_its_ready_day(name: str) -> None:
    proof = prove(BOOKS[name])
    page = parsed(site_of(proof), PAGE)
    told = [words(lot) for lot in having(page, "lot")]
    published = [one for one in proof.recipes if one.status.name != "draft"]
    batches = [(one, record.batch) for one in published for record in one.computed.batches]
    assert len(told) == len(batches)
    for one, batch in batches:
        day, _ = ready_on(batch, cure_days(one.computed.model, proof.book.settings))
        (of_lot,) = [lot for lot in told if lot.startswith(f"{batch.lot} ")]
        if clean_test(batch, proof.book.settings) is not None:
            assert later(batch.poured, day).isoformat() in of_lot
        assert batch.poured.isoformat() in of_lot


def test_a_book_without_lots_says_so() -> None:
    made = built(PLAIN)
    assert "No batch is recorded yet." in words(parsed(made, PAGE))
    assert "ready.ics" not in made
    assert b"ready.ics" not in made["cure-shelf/index.html"]


@pytest.mark.parametrize(
    ("edition", "pages"),
    [
        ("public", {PAGE, "cure-shelf/index.html", "ready.ics", "colours/index.html"}),
        ("maker", {PAGE, "cure-shelf/index.html", "ready.ics", "colours/index.html"}),
        ("class", {"colours/index.html"}),
        ("shop", set()),
    ],
)
def test_an_edition_has_the_pages_it_may_show_and_no_way_to_the_others(edition: str, pages: set[str]) -> None:
    made = built(recipe(f"lot: LOTMARK\npoured: 2026-03-02\n{FITTED}\n{CLEAN}"), edition=edition)
    every = {PAGE, "cure-shelf/index.html", "ready.ics", "colours/index.html"}
    assert every & made.keys() == pages
    for path in every - pages:
        assert path.encode() not in made["index.html"]
    if PAGE not in pages:
        assert not [path for path, data in made.items() if b"LOTMARK" in data]
