"""A recipe that is as it was is not read, and comes to the same as one that is."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from saponary.assets.digest import digest
from saponary.book import library
from saponary.book.computed_all import AllComputed, compute_all
from saponary.manual.held import Held
from support import PLAIN

ADDED = "superfat: 5 %%\nadditions:\n  - {what: %s, amount: 9 g, at: trace}\n"
BATCHES = """\
batches:
  - lot: A-1
    poured: 2026-03-02
    formula: %s
    photos: [{file: bar.jpg, day: 40, alt: A bar, colours: {gold: '#cc9966'}}]
"""
PORTIONS = """\
portions:
  - {name: light, share: 1/2}
  - {name: gold, share: 1/2, additions: [{what: own, amount: 4 g/kg}]}
pour: [{beds: [{of: light}, {of: gold}]}]
"""
BOOK = {
    "book.yaml": "title: A Small Book\n",
    "pantry.yaml": (
        "oils: {olive: {price: 8 / kg}}\n"
        "scraps: {odds: {of: plain}}\n"
        "colourants:\n  own: {name: Own, fresh: '#a4503c', cured: '#b98f86', usual: [1 g/kg, 2 g/kg]}\n"
    ),
    "recipes/plain.md": PLAIN,
    "recipes/scrappy.md": PLAIN.replace("Plain Bar", "Scrappy").replace("superfat: 5 %\n", ADDED % "odds", 1),
    "recipes/red.md": PLAIN.replace("Plain Bar", "Red").replace("superfat: 5 %\n", ADDED % "own", 1),
}


def compute(files: Mapping[str, str], before: AllComputed | None = None) -> AllComputed:
    held = Held(dict(files), frozenset({"bar.jpg"}))
    return compute_all(library.read_book(held, before.outlines if before is not None else None))


def told(found: AllComputed) -> dict[str, str]:
    """All that each recipe comes to."""
    return {
        slug: digest([one.figures, one.pantry, one.photos, one.quotes, one.model, one.batches[:0], sorted(one.scraps)])
        for slug, one in found.recipes.items()
    }  # fmt: skip


def changed(name: str, old: str, new: str) -> dict[str, str]:
    assert old in BOOK[name], name
    return {**BOOK, name: BOOK[name].replace(old, new)}


EDITS: dict[str, tuple[dict[str, str], set[str]]] = {
    "nothing": (BOOK, set()),
    "a recipe": (changed("recipes/plain.md", "total: 1000 g", "total: 900 g"), {"plain"}),
    "an entry": (changed("pantry.yaml", "2 g/kg", "3 g/kg"), {"red"}),
    "a scrap of another": (
        {**changed("pantry.yaml", "of: plain", "of: red")},
        {"scrappy"},
    ),
    "an entry of the tables": (
        changed("pantry.yaml", "scraps:", "additions: {kaolin: {price: 9 / kg}}\nscraps:"),
        set(),
    ),
    "an oil that all name": (
        changed("pantry.yaml", "olive: {", "olive: {name: Our olive, "),
        {"plain", "red", "scrappy"},
    ),
    "its price": (changed("pantry.yaml", "8 / kg", "9 / kg"), set()),
    "a setting": (changed("book.yaml", "A Small Book", "A Smaller Book"), {"plain", "red", "scrappy"}),
    "a batch": (
        {**BOOK, "batches/red.yaml": "batches: [{lot: R-1, poured: 2026-03-02}]\n"},
        {"red"},
    ),
    "a recipe gone": ({name: text for name, text in BOOK.items() if "scrappy" not in name}, set()),
    "an entry of a name that meant nothing": (
        changed("pantry.yaml", "colourants:\n", "colourants:\n  plain: {name: P, fresh: '#a4503c', cured: '#b98f86'}\n"),
        set(),
    ),
}  # fmt: skip


@pytest.fixture(scope="module")
def before() -> AllComputed:
    found = compute(BOOK)
    assert found.findings == [] and found.outlines.keys() == found.recipes.keys() == set(found.anew)
    return found


@pytest.mark.parametrize("what", EDITS)
def test_what_an_edit_does_not_reach_is_not_computed_and_comes_to_the_same(
    what: str, before: AllComputed
) -> None:
    files, reached = EDITS[what]
    clean, after = compute(files), compute(files, before)
    assert set(after.anew) == reached
    assert (after.identities, after.outlines) == (clean.identities, clean.outlines)
    assert told(after) == told(clean)


def test_a_recipe_as_it_was_is_not_read(before: AllComputed, monkeypatch: pytest.MonkeyPatch) -> None:
    with monkeypatch.context() as watched:
        watched.setattr(library, "parse_recipe", lambda *_: pytest.fail("a recipe was read"))
        after = compute(BOOK, before)
        assert after.identities == before.identities
        assert after.recipes["red"].slug == "red" and after.recipes["red"].path == "recipes/red.md"
    assert after.recipes["red"].fingerprint == before.recipes["red"].fingerprint


def test_an_identity_holds_what_scrap_brings(before: AllComputed) -> None:
    after = compute(EDITS["a recipe"][0])
    moved = {slug for slug, one in after.identities.items() if before.identities[slug] != one}
    assert moved == {"plain", "scrappy"}


def test_photos_of_one_recipe_tell_of_anothers_colours() -> None:
    gold = PLAIN.replace("Plain Bar", "Gold").replace("signed:\n", PORTIONS + "signed:\n")
    plain = {**BOOK, "recipes/gold.md": gold}
    before = compute(plain)
    mark = before.recipes["gold"].fingerprint
    shown = {**plain, "recipes/gold.md": gold.replace("signed:\n", BATCHES % mark + "signed:\n")}
    clean, after = compute(shown), compute(shown, before)
    assert after.anew == ("gold",)
    assert told(after) == told(clean) and after.identities == clean.identities
    assert after.identities["red"] != before.identities["red"]
    assert after.identities["plain"] == before.identities["plain"]


def test_a_recipe_with_anything_to_say_of_what_is_not_there_is_read_each_time() -> None:
    lacking = changed("recipes/red.md", "signed:", "photo: {file: none.jpg, day: 0, alt: A bar}\nsigned:")
    found = compute(lacking)
    assert found.recipes["red"].instead and "red" not in found.outlines
    assert compute(lacking, found).anew == ("red",)
