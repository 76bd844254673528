"""rebatch: only lots of this book that were tested clean are melted."""

from __future__ import annotations

import pytest

from checks.books import GOOD, found, more, proofed, recipe
from saponary.book.poured import recount_of
from saponary.book.standing import standings

LOT = more(
    "batches: [{lot: A1, poured: 2026-03-02, formula: FINGERPRINT, "
    "free-alkali: {test: phenolphthalein, result: none, on: 2026-04-02}}]\n",
    GOOD,
)
MELTED = """\
---
title: Melted Again
method: rebatch
soap: [{of: tried, lot: A1, amount: 500 g}]
waive: [{rule: draft, because: this one is only for a test}]
---
Grate it and melt it.
"""


def melted(old: str = "", new: str = "", lot: str = LOT) -> dict[str, str]:
    """A book of a recipe with one lot, and of a rebatch of it."""
    assert old in MELTED
    return recipe(lot, **{"recipes/again.md": MELTED.replace(old, new, 1)})


BREAKER = melted("lot: A1", "lot: A2")
TOLD = [
    (
        "recipes/again.md:4:25",
        "error",
        "the recipe 'tried' has no lot 'A2'",
        "did you mean 'A1'?",
    )
]
NEIGHBOUR = melted()


@pytest.mark.parametrize(
    ("result", "told"),
    [
        ("none", ""),
        ("trace", "lot A1 is held back"),
        ("present", "lot A1 is held back"),
        ("", "lot A1 was not tested"),
    ],
)
def test_a_lot_must_have_been_tested_clean(result: str, told: str) -> None:
    text = LOT.replace("result: none", f"result: {result}")
    if not result:
        text = more("batches: [{lot: A1, poured: 2026-03-02, formula: FINGERPRINT}]\n", GOOD)
    findings = found(melted(lot=text), "rebatch")
    assert [(f.severity, f.message.startswith(told)) for f in findings] == ([("error", True)] if told else [])


def test_a_lot_whose_own_weights_leave_free_lye_is_not_melted() -> None:
    weights = (
        "as-weighed: {olive: 600 g, coconut: 250 g, sunflower-high-oleic: 150 g, sodium-hydroxide: 160 g}, "
    )
    text = LOT.replace("free-alkali:", f"{weights}free-alkali:")
    (finding,) = found(melted(lot=text), "rebatch")
    assert finding.message.startswith("lot A1 is held back")


def test_the_recipe_must_be_in_the_book() -> None:
    (finding,) = found(melted("of: tried", "of: tired"), "rebatch")
    assert (finding.message, finding.hint) == (
        "there is no recipe 'tired' in this book",
        "did you mean 'tried'?",
    )


def test_a_lot_of_a_rebatch_has_no_superfat_to_tell() -> None:
    weighed = "batches: [{lot: B1, poured: 2026-05-02, as-weighed: {soap-of-tried: 500 g}}]\nwaive:"
    again = next(r.computed for r in proofed(melted("waive:", weighed)).recipes if r.computed.slug == "again")
    (record,) = again.batches
    assert recount_of(record.batch, again) is None
    assert standings(again)["B1"].name == "untested"
