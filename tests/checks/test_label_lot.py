"""The rule `label-lot`: labels are made for a lot that is recorded and not held back."""

from __future__ import annotations

from checks.books import batch, found, more, put

LABEL = more("label: {net-weight: 100 g, lot: LOT}\n")
WEIGHED = ", weighed: {0: 120 g, 42: 101 g}"
BREAKER = batch(WEIGHED, LABEL.replace("LOT", "A2"))
TOLD = [
    ("recipes/tried.md:11:33", "error", "no batch of the lot 'A2' is recorded here", "did you mean 'A1'?"),
]
NEIGHBOUR = batch(WEIGHED, LABEL.replace("LOT", "A1"))


def test_a_lot_that_is_held_back_gets_no_label() -> None:
    test = ", free-alkali: {test: paper, result: present, on: 2026-04-01}"
    (one,) = found(batch(WEIGHED + test, LABEL.replace("LOT", "A1")), "label-lot")
    assert one.message == "lot A1 is held back, so that no labels of it are made"


def test_a_lot_of_another_formula_gets_no_label_and_stops_nothing() -> None:
    """Its list of ingredients may be another."""
    files = batch(WEIGHED, LABEL.replace("LOT", "A1"))
    other = {path: put(f"FINGERPRINT{WEIGHED}", f'"0123456789ab"{WEIGHED}', t) for path, t in files.items()}
    (one,) = found(other, "label-lot")
    assert one.severity == "warning"
    assert one.message.startswith("lot A1 was poured to another formula than the recipe has now")
