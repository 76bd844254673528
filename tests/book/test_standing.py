"""What may be said of a lot is decided in one place, from its weights and its tests."""

from __future__ import annotations

from itertools import product

import pytest

from checks.books import with_batch
from saponary.book.standing import Labelled, held, labelled, standing
from support import PLAIN, prove_one

WEIGHTS = {
    "": "",
    "good": "as-weighed: {sodium-hydroxide: 136 g}",
    "caustic": "as-weighed: {sodium-hydroxide: 160 g}",
}
TESTS = {result: f"free-alkali: {{test: zap, result: {result}, on: 2026-04-10}}" for result in ("none", "trace", "present")}  # fmt: skip
TESTS[""] = ""


@pytest.mark.parametrize(("weights", "test"), list(product(WEIGHTS, TESTS)))
def test_the_worst_that_is_known_of_a_lot_decides(weights: str, test: str) -> None:
    fields = ", ".join(filter(None, (WEIGHTS[weights], TESTS[test], "cut: 2026-03-05")))
    one = with_batch(fields)
    found = standing(one.batches[0].batch, one)
    tested = {"none": "clean", "": "untested"}.get(test, test)
    assert found.name == ("caustic" if weights == "caustic" else tested)
    assert found.held == (weights == "caustic" or test in ("trace", "present"))
    assert found.ready == (weights != "caustic" and test == "none")
    assert bool(held(one)) == found.held
    assert labelled(one) == Labelled(made=not found.held)


def lots(*records: str) -> str:
    listed = "".join(f"  - {{lot: L{i}, poured: 2026-03-0{i + 1}, {r}}}\n" for i, r in enumerate(records))
    return PLAIN.replace("signed:\n", f"batches:\n{listed}signed:\n")


def test_a_clean_test_does_not_tell_what_was_weighed() -> None:
    text = lots(f"formula: 0123456789ab, as-weighed: {{sodium-hydroxide: 136 g}}, {TESTS['none']}")
    one = prove_one(text).recipes[0].computed
    found = standing(one.batches[0].batch, one)
    assert found.name == "unknown" and not found.ready and not found.held


def test_labels_name_the_newest_lot_that_is_not_held_back() -> None:
    one = prove_one(lots(TESTS["none"], TESTS["none"], TESTS["present"])).recipes[0].computed
    assert labelled(one) == Labelled(lot="L1")


@pytest.mark.parametrize("result", ["trace", "present"])
def test_a_recipe_is_not_tested_while_a_lot_of_its_formula_is_held_back(result: str) -> None:
    mark = prove_one(PLAIN).recipes[0].computed.fingerprint
    clean = f"formula: {mark}, {TESTS['none']}"
    assert prove_one(lots(clean)).recipes[0].status.name == "tested"
    assert prove_one(lots(clean, f"formula: {mark}, {TESTS[result]}")).recipes[0].status.name == "signed"
    assert prove_one(lots(clean, TESTS[result])).recipes[0].status.name == "tested"
