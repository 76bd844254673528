"""The rule `record-weights`. Limits: common practice, no source."""

from __future__ import annotations

import pytest

from checks.books import batch, with_batch
from saponary.checks.record_weights import check
from support import PLAIN, prove_one

WEIGHTS = "olive: 600 g, coconut: 250 g, sunflower-high-oleic: 150 g, sodium-hydroxide: 138 g"
BREAKER = batch(f", as-weighed: {{{WEIGHTS}, water: 900 g}}")
TOLD = [
    (
        "recipes/tried.md:11:168",
        "warning",
        "lot A1 records 900.0 g of water, where the formula asks for 283.9 g beside its other weights",
        "write what the scale showed; a batch that was made otherwise is another formula",
    ),
]
NEIGHBOUR = batch(f", as-weighed: {{{WEIGHTS}, water: 300 g}}")


@pytest.mark.parametrize(
    ("weights", "strange"),
    [
        ("olive: 600 g, coconut: 250 g, water: 280 g", []),
        ("olive: 1200 g, coconut: 500 g, sunflower-high-oleic: 300 g, water: 560 g", []),
        ("olive: 6 kg, coconut: 2.5 kg, sunflower-high-oleic: 1.5 kg, sodium-hydroxide: 138 g", ["sodium-hydroxide"]),
        ("olive: 600 g, coconut: 2500 g, sunflower-high-oleic: 150 g", ["coconut"]),
        ("olive: 600 g, coconut: 199 g, sunflower-high-oleic: 150 g", ["coconut"]),
        ("olive: 600 g, coconut: 201 g, sunflower-high-oleic: 187 g", []),
        ("sodium-hydroxide: 0 g, water: 0 g", ["sodium-hydroxide", "water"]),
        ("olive: 0 g, coconut: 250 g, sunflower-high-oleic: 150 g, water: 0 g, sodium-hydroxide: 138 g", ["olive", "water"]),
    ],
)  # fmt: skip
def test_a_quarter_more_and_a_fifth_less_than_goes_with_the_others_are_the_limits(
    weights: str, strange: list[str]
) -> None:
    found = list(check(with_batch(f"as-weighed: {{{weights}}}")))
    assert [one.about for one in found] == [f"A1 {name}" for name in strange]


def test_a_batch_of_an_earlier_formula_is_not_held_to_todays() -> None:
    kept = PLAIN.index("---", 4)
    for formula, count in (("", 1), ("formula: abcdef, ", 0)):
        record = f"batches: [{{lot: A1, poured: 2026-03-02, {formula}as-weighed: {{olive: 600 g, water: 900 g}}}}]\n"
        (one,) = prove_one(PLAIN[:kept] + record + PLAIN[kept:]).recipes
        assert len(list(check(one.computed))) == count
