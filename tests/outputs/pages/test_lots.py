"""The page of lots and the page of each lot: what they tell of a batch, and what stays with the maker."""

from __future__ import annotations

from datetime import date
from xml.etree import ElementTree

import pytest

from lot_books import CLEAN, FITTED, ON, X, built, having, mark, parsed, recipe, site_of, words
from saponary.book.alkali_found import clean_test
from saponary.book.cure_days import cure_days
from saponary.book.curing import ready_on
from saponary.book.published import published
from saponary.build.proof import prove
from saponary.label.lists import bar
from saponary.messages.message import Day
from saponary.messages.speaker import speaker
from saponary.schema.edition import PUBLIC, STANDARD
from saponary.views.lot_rows import LATEST, MANY
from saponary.views.readiness import later, lots_of
from support import BOOKS, PLAIN, prove_one, some

pytestmark = pytest.mark.slow

PAGE = "lots/index.html"


EACH = "lots/tried/"


def lot_texts(text: str, on: date = ON, **more: object) -> list[str]:
    """What the page of each lot says."""
    made = built(text, on, **more)
    return [words(having(parsed(made, path), "one-lot")[0]) for path in sorted(made) if path.startswith(EACH)]


def rows(page: ElementTree.Element) -> list[str]:
    """The rows of the tables of lots, and what is curing."""
    listed = [e for e in page.iter(f"{X}li") if (e.get("id") or "").startswith("lot_")]
    return [words(e) for e in (*having(page, "on-shelf"), *listed)]


def test_held_lots_stand_first_then_what_is_curing_then_the_newest() -> None:
    page = parsed(
        built(
            recipe(
                "lot: A-1\npoured: 2025-11-02",
                "lot: A-3\npoured: 2026-02-01",
                "lot: A-2\npoured: 2026-01-05",
                "lot: A-4\npoured: 2025-10-05\nfree-alkali: {test: zap, result: trace, on: 2026-01-05}",
                "lot: A-5\npoured: 2026-03-10",
            )
        ),
        PAGE,
    )
    heads = [words(e) for e in page.iter(f"{X}h2")]
    assert heads[:3] == ["Held back", "Curing", "Cured"]
    table = [words(lot).split()[0] for lot in having(page, "on-shelf")]
    assert table == ["A-4", "A-3", "A-2", "A-1"]
    assert [row.split()[0] for row in rows(page)][-1] == "A-5"
    rule = "a lot counts as ready once a test then finds no free alkali"
    assert words(page).count(rule) == 1


def test_many_lots_stand_on_a_page_a_year() -> None:
    many = [f"lot: A-{n}\npoured: {2024 + n % 2}-{n % 12 + 1:02}-03" for n in range(MANY + 1)]
    made = built(recipe(*many))
    assert len(rows(parsed(made, PAGE))) == LATEST
    of_year = {year: rows(parsed(made, f"lots/poured-{year}.html")) for year in (2024, 2025)}
    assert {year: len(found) for year, found in of_year.items()} == {2024: 31, 2025: 30}
    links = [a.get("href") for a in parsed(made, PAGE).iter(f"{X}a")]
    assert {"../lots/poured-2024.html", "../lots/poured-2025.html"} <= set(links)
    assert "lots/poured-2024.html" not in built(recipe(*many[:-1]))


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
        "Poured 2 March 2026",
        "the recipe's, as it stands",
        "Ready 10 April 2026 day 39 of its cure",
        "from day 39",
        "0 128.2 g",
        "42 113.6 g 11.4 %",
        "none found 19 March 2026, phenolphthalein",
        f"soda ash {speaker()('fault.soda-ash.meaning')}",
        f"ricing {speaker()('fault.ricing.meaning')}",
    ):
        assert part in told, part


@pytest.mark.parametrize(
    ("on", "said"),
    [
        (date(2026, 3, 1), "Poured after this day 10 Apr 2026"),
        (date(2026, 3, 2), "cure over 10 Apr 2026, in 39 days"),
        (date(2026, 4, 9), "cure over 10 Apr 2026, in 1 day"),
        (date(2026, 4, 10), "Cured, not tested 10 Apr 2026"),
    ],
)
def test_the_day_moves_a_lot_along_and_leaves_its_own_page_alone(on: date, said: str) -> None:
    text = recipe(f"lot: A-1\npoured: 2026-03-02\n{FITTED}")
    (told,) = rows(parsed(built(text, on), PAGE))
    assert said in told
    assert lot_texts(text, on) == lot_texts(text, date(2027, 1, 1))


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
    assert "Formula not recorded" in unknown


def test_free_lye_is_named() -> None:
    (told,) = lot_texts(
        recipe(f"lot: A-1\npoured: 2026-03-02\nformula: {mark()}\nas-weighed: {{sodium-hydroxide: 190 g}}")
    )
    assert "free lye: do not use" in told


def test_an_earlier_formula_is_told_with_what_changed() -> None:
    text = recipe("lot: A-1\npoured: 2026-03-02\nformula: 0123456789ab")
    (told,) = lot_texts(text)
    assert "an earlier one of the recipe" in told and "0123456789ab" in told and mark() in told
    (told,) = lot_texts(text, earlier={"tried": {"0123456789ab": ("olive 70.0 to 60.0 %", "the portions")}})
    assert "changed since: olive 70.0 to 60.0 %; the portions" in told


@pytest.mark.parametrize("result", ["trace", "present"])
def test_a_lot_that_held_free_alkali_is_not_called_ready(result: str) -> None:
    test = f"free-alkali: {{test: phenolphthalein, result: {result}, on: 2026-02-20}}"
    made = built(recipe(f"lot: A-1\npoured: 2026-01-02\n{test}"))
    for path in (PAGE, "cure-shelf/index.html", "recipes/tried/index.html", "lots/tried/a-1/index.html"):
        told = words(parsed(made, path))
        assert "Held back: its last test, 20 Feb 2026" in told, path
        assert "Ready since" not in told and "ready 2026" not in told, path
    assert "ready.ics" not in made and b"ready.ics" not in made["cure-shelf/index.html"]
    assert "Lot A-1. Held back: its last test" in words(parsed(made, "recipes/tried/index.html"))


def test_a_later_clean_test_lets_it_go() -> None:
    tests = "free-alkali: [{test: a, result: trace, on: 2026-02-20}, {test: b, result: none, on: 2026-03-01}]"
    (told,) = lot_texts(recipe(f"lot: A-1\npoured: 2026-01-02\n{tests}"))
    assert "Held back" not in told and "Ready 30 January 2026" in told
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
    for path in (PAGE, "lots/tried/b-a/index.html"):
        page = parsed(made, path)
        assert not list(page.iter(f"{X}script"))
        assert '<b>&"A' in words(page)


def test_lots_alike_but_for_signs_have_addresses_of_their_own() -> None:
    proof = prove_one(
        recipe("lot: A 1\npoured: 2026-03-02", "lot: A-1\npoured: 2026-03-03", "lot: A.1\npoured: 2026-03-03")
    )
    one = proof.recipes[0]
    found = lots_of(published(one, STANDARD[PUBLIC], ON))
    assert len({lot.anchor for lot in found}) == 3
    assert {lot.path for lot in found} == {
        f"lots/tried/{name}/index.html" for name in ("a-1", "a-1--2", "a-1--3")
    }


def test_a_bar_named_but_never_weighed_is_passed_over() -> None:
    (told,) = lot_texts(recipe("lot: A-1\npoured: 2026-03-02\nbars: {left: {}, right: {0: 100 g}}"))
    assert "Bar right, weighed" in told and "0 100 g" in told and "left" not in told


def test_no_day_lies_beyond_the_calendar() -> None:
    assert later(date(9999, 12, 20), 400) == date.max
    assert later(date(2026, 2, 1), 28) == date(2026, 3, 1)


@pytest.mark.parametrize("name", sorted(BOOKS))
def test_every_batch_of_a_published_recipe_is_there_with_its_ready_day(name: str) -> None:
    proof = prove(BOOKS[name])
    made = site_of(proof)
    told = rows(parsed(made, PAGE))
    published = [one for one in proof.recipes if one.status.name != "draft"]
    batches = [(one, record.batch) for one in published for record in one.computed.batches]
    assert len(told) == len(batches)
    for one, batch in batches:
        day, _ = ready_on(batch, cure_days(one.computed.model, proof.book.settings))
        assert [lot for lot in told if lot.startswith(f"{batch.lot} ")]
        of_lot = words(parsed(made, f"lots/{one.slug}/{batch.lot.lower()}/index.html"))
        if clean_test(batch, proof.book.settings) is not None:
            assert spelt(later(batch.poured, day)) in of_lot
        assert f"Poured {spelt(batch.poured)}" in of_lot


def spelt(day: date) -> str:
    return " ".join(speaker().say(Day(day)).split())


def test_a_book_without_lots_says_so() -> None:
    made = built(PLAIN)
    assert "No batch is recorded yet." in words(parsed(made, PAGE))
    assert "ready.ics" not in made
    assert b"ready.ics" not in made["cure-shelf/index.html"]


OWN = f"{EACH}lotmark/index.html"


@pytest.mark.parametrize(
    ("edition", "pages"),
    [
        ("public", {PAGE, OWN, "cure-shelf/index.html", "ready.ics", "colours/index.html"}),
        ("maker", {PAGE, OWN, "cure-shelf/index.html", "ready.ics", "colours/index.html"}),
        ("class", {"colours/index.html"}),
        ("shop", set()),
    ],
)
def test_an_edition_has_the_pages_it_may_show_and_no_way_to_the_others(edition: str, pages: set[str]) -> None:
    made = built(recipe(f"lot: LOTMARK\npoured: 2026-03-02\n{FITTED}\n{CLEAN}"), edition=edition)
    every = {PAGE, OWN, "cure-shelf/index.html", "ready.ics", "colours/index.html"}
    assert every & made.keys() == pages
    for path in every - pages:
        assert path.encode() not in made["index.html"]
    if PAGE not in pages:
        assert not [path for path, data in made.items() if b"LOTMARK" in data]


FOR_SALE = f"lot: SOLD\npoured: 2026-01-02\nformula: FORMULA\nnotes: NOTEMARK\ngel: full\n{CLEAN}"


@pytest.mark.parametrize(
    ("more", "sold"),
    [
        ("", True),
        ("\nfaults: [soda-ash]", False),
        ("\nformula: 0123456789ab", False),
        ("\nfree-alkali: {test: zap, result: trace, on: 2026-03-01}", False),
        ("\npoured: 2026-03-12", False),
        ("\neditions: [maker]", False),
    ],
)
def test_a_customer_has_the_page_of_a_lot_that_is_for_sale_and_of_no_other(more: str, sold: bool) -> None:
    lines = dict(line.split(":", 1) for line in FOR_SALE.replace("FORMULA", mark()).splitlines())
    lines.update(line.split(":", 1) for line in more.split("\n") if line)
    text = recipe("\n".join(":".join(pair) for pair in lines.items()))
    listed = bar(prove_one(text).recipes[0].computed)
    made = built(text, edition="shop", labels={"tried": listed})
    path = f"{EACH}sold/index.html"
    assert (path in made) == sold
    assert b"NOTEMARK" not in b"".join(made.values())
    if not sold:
        assert not [path for path, data in made.items() if b"SOLD" in data]
        return
    page = parsed(made, path)
    told = words(having(page, "one-lot")[0])
    for part in (
        "Poured 2 January 2026",
        "Ready 30 January 2026",
        "none found 20 February 2026",
        "olive oil",
    ):
        assert part in told, part
    assert "gel" not in told.casefold() and "Formula" not in told
    ways = [a.get("href") for a in parsed(made, "recipes/tried/index.html").iter(f"{X}a")]
    assert f"../../{path}" in ways
    assert "../../../recipes/tried/index.html" in [a.get("href") for a in page.iter(f"{X}a")]


def test_recipe_shelf_and_lots_lead_to_a_lot() -> None:
    made = built(recipe(f"lot: A-1\npoured: 2026-03-02\n{CLEAN}"))
    path = f"{EACH}a-1/index.html"
    for page in (PAGE, "cure-shelf/index.html", "recipes/tried/index.html"):
        up = "../" * page.count("/")
        assert up + path in [a.get("href") for a in parsed(made, page).iter(f"{X}a")], page
