"""The rule `as-poured`: recorded weights that leave free lye."""

from __future__ import annotations

import pytest

from checks.books import batch, with_batch
from saponary.checks.as_poured import check
from support import PLAIN, prove_one

KOH, NAOH = 56.1056, 39.9971
BREAKER = batch(", as-weighed: {sodium-hydroxide: 160 g}")
TOLD = [
    (
        "recipes/tried.md:11:64",
        "error",
        "as weighed, lot A1 has a superfat of -8.7 %: free lye",
        "do not use, sell or give away this lot; check the record against the scale",
    ),
]
NEIGHBOUR = batch(", as-weighed: {sodium-hydroxide: 136 g}")

POTASH = PLAIN.replace(
    "superfat: 5 %\n",
    "superfat: 5 %\nlye: {sodium: {share: 60 %}, potassium: {share: 40 %, purity: 90 %}}\n",
    1,
)


@pytest.mark.parametrize(("above", "count"), [(-0.02, 0), (0.02, 1)])
def test_zero_is_the_limit_for_sodium_hydroxide(above: float, count: int) -> None:
    """All the oils take, worked here by plain arithmetic, and 0.02 g to either side of it."""
    most = _takes(PLAIN) * NAOH
    one = with_batch(f"as-weighed: {{sodium-hydroxide: {most + above:.3f} g}}")
    assert len(list(check(one))) == count


@pytest.mark.parametrize(("above", "count"), [(-0.02, 0), (0.02, 1)])
def test_recorded_potassium_hydroxide_is_read(above: float, count: int) -> None:
    """The sodium hydroxide as the formula has it; the flakes are 90 % potassium hydroxide."""
    figures = prove_one(POTASH).recipes[0].computed.figures
    left = _takes(POTASH) - figures.weights.sodium_hydroxide / NAOH
    one = with_batch(f"as-weighed: {{potassium-hydroxide: {left * KOH / 0.9 + above:.3f} g}}", POTASH)
    assert len(list(check(one))) == count


def _takes(text: str) -> float:
    """Moles of alkali that the oils of a recipe take."""
    oils = prove_one(text).recipes[0].computed.resolved.formula.oils
    return sum(oil.grams * oil.saponification_value for oil in oils) / 1000 / KOH


def test_a_lot_of_another_formula_is_not_held_to_this_one() -> None:
    one = with_batch("as-weighed: {sodium-hydroxide: 160 g}")
    other = prove_one(
        PLAIN.replace(
            "stated:\n",
            "batches: [{lot: A1, poured: 2026-03-02, formula: 123456, as-weighed: {sodium-hydroxide: 160 g}}]\n"
            "stated:\n",
        )
    )
    assert [f.severity for f in check(one)] == ["error"]
    assert list(check(other.recipes[0].computed)) == []


def test_a_name_that_the_recipe_lacks_is_found() -> None:
    (found,) = check(with_batch("as-weighed: {olives: 600 g, sodium-hydroxide: 136 g}"))
    assert found.message == "'olives' is not in this recipe" and found.hint == "did you mean 'olive'?"
