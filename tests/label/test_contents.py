"""Scraps: another recipe's ingredients and allergens, through chains and round circles."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

import pytest

from saponary.build.proof import Proof, prove
from saponary.label import lists
from saponary.label.tables import jurisdictions
from support import PLAIN, write_book

EU, US = jurisdictions()["eu"], jurisdictions()["us"]

PANTRY = """\
fragrances: {rosy: {composition: {geraniol: 20 %}, certificate: {maximum: 5 %}}}
scraps: {of-a: {of: a}, of-b: {of: b}, of-c: {of: c}, of-nobody: {of: nobody}}
"""


def recipe(title: str, oil: str, *additions: str) -> str:
    text = PLAIN.replace("Plain Bar", title).replace("olive", oil)
    return text.replace("signed:\n", f"additions: [{', '.join(additions)}]\nsigned:\n")


def proved(folder: Path, recipes: Mapping[str, str]) -> Proof:
    files = {f"recipes/{slug}.md": text for slug, text in recipes.items()}
    return prove(write_book(folder, {"pantry.yaml": PANTRY, **files}))


def bar(proof: Proof, slug: str) -> lists.Bar:
    computed = next(r.computed for r in proof.recipes if r.computed.file.slug == slug)
    return lists.bar(computed)


def grams(one: lists.Bar) -> dict[tuple[str, str], float]:
    found: dict[tuple[str, str], float] = {}
    for part in one.found.parts:
        found[part.kind, part.id] = found.get((part.kind, part.id), 0.0) + part.grams
    return found


def test_a_chain_of_scraps_carries_ingredients_and_allergens(tmp_path: Path) -> None:
    proof = proved(
        tmp_path,
        {
            "a": recipe("First", "tallow", "{what: rosy, amount: 30 g}"),
            "b": recipe("Second", "lard", "{what: of-a, amount: 100 g}"),
            "c": recipe("Third", "olive", "{what: of-b, amount: 100 g}"),
        },
    )
    first, second, third = (bar(proof, slug) for slug in "abc")
    # Each bar takes 100 g of the one before: the scent in it is that bar's share times 100.
    rosy = 30.0
    for one, before in ((second, first), (third, second)):
        rosy *= 100.0 / before.found.grams
        assert grams(one)["addition", "rosy"] == pytest.approx(rosy, rel=1e-9)
    assert {"Sodium Olivate", "Sodium Lardate", "Sodium Tallowate", "Parfum"} <= set(
        third.ingredients(EU).text.split(", ")
    )
    assert {"Tallow", "Lard", "Fragrance"} <= set(third.ingredients(US).text.split(", "))
    # Geraniol: 0.2 x 30/1290 = 0.46 % of the first bar, about 0.034 % of the second, 0.0025 % of the third.
    assert ["Geraniol" in one.ingredients(EU).text for one in (first, second, third)] == [True, True, False]


def test_what_comes_in_sums_to_what_there_is(tmp_path: Path) -> None:
    proof = proved(
        tmp_path,
        {"a": recipe("First", "tallow"), "b": recipe("Second", "lard", "{what: of-a, amount: 100 g}")},
    )
    one = bar(proof, "b")
    assert one.charged.grams == pytest.approx(proof.recipes[1].computed.figures.loaf, rel=1e-9)
    assert grams(one)["soap", "tallow"] == pytest.approx(
        100 * grams(bar(proof, "a"))["soap", "tallow"] / bar(proof, "a").found.grams, rel=1e-9
    )


def test_its_own_trimmings_change_nothing(tmp_path: Path) -> None:
    """A bar with its own scrap has the make-up of the rest of it."""
    with_scrap = proved(
        tmp_path, {"a": recipe("First", "olive", "{what: rosy, amount: 30 g}", "{what: of-a, amount: 200 g}")}
    )
    one = bar(with_scrap, "a")
    rest = one.found.grams - 200.0
    assert grams(one)["addition", "rosy"] == pytest.approx(30 * (1 + 200 / rest), rel=1e-9)
    assert one.scent.share("rosy") == pytest.approx(30 / rest, rel=1e-9)


def test_a_circle_of_scraps_settles(tmp_path: Path) -> None:
    proof = proved(
        tmp_path,
        {
            "a": recipe("First", "olive", "{what: rosy, amount: 30 g}", "{what: of-b, amount: 300 g}"),
            "b": recipe("Second", "lard", "{what: of-a, amount: 300 g}"),
        },
    )
    first, second = bar(proof, "a"), bar(proof, "b")
    x, y = first.scent.share("rosy"), second.scent.share("rosy")
    # Two equations: the first holds 30 g and 300 g of the second, the second 300 g of the first.
    assert x * first.found.grams == pytest.approx(30 + 300 * y, rel=1e-9)
    assert y * second.found.grams == pytest.approx(300 * x, rel=1e-9)


def test_scrap_of_what_is_not_there_is_named_as_scrap(tmp_path: Path) -> None:
    one = bar(proved(tmp_path, {"a": recipe("First", "olive", "{what: of-nobody, amount: 100 g}")}), "a")
    assert "Of nobody" in one.ingredients(EU).text
    assert "'nobody' is not known" in " ".join(one.ingredients(EU).notes)


def test_the_rules_look_into_scraps(tmp_path: Path) -> None:
    pantry = "scraps: {of-a: {of: a}}\n"
    files = {
        "recipes/a.md": recipe("First", "olive", "{what: essential-oil-lavender, amount: 20 g}"),
        "recipes/b.md": recipe("Second", "lard", "{what: of-a, amount: 100 g}"),
        "pantry.yaml": pantry,
    }
    found = [f for f in prove(write_book(tmp_path, files)).findings if f.rule in ("allergens", "fragrance")]
    assert [(f.rule, f.place.file) for f in found] == [
        ("allergens", "recipes/a.md"), ("fragrance", "recipes/a.md"),
        ("allergens", "recipes/b.md"), ("fragrance", "recipes/b.md"),
    ]  # fmt: skip
