"""The rule `label-fit`: text that is too long for the book's labels."""

from __future__ import annotations

from checks.books import batch, found, more, recipe

LABELLED = more("label: {net-weight: 100 g}\n")
LOT = "batches: [{lot: A1, poured: 2026-03-02, formula: FINGERPRINT, weighed: {0: 120 g, 42: 101 g}}]\n"
GRID = "{page: a4, width: %s, height: %s, columns: 2, rows: 5, left: 10 mm, top: 15 mm}"
SOLD = "sold-in: {eu: {responsible: {name: Somebody, address: Quay}}}\ndurability-months: 24\n"
BOOK = SOLD + "label-sheets:\n  plain: " + GRID + "\n"
BREAKER = recipe(more(LOT, LABELLED), book=BOOK % ("20 mm", "10 mm"))
TOLD = [
    (
        "recipes/tried.md:11:1",
        "warning",
        "no labels of the grid 'plain' are made of this recipe: 'Sunflowerseedate,' is wider than the label",
        "labels of 43 mm by 29 mm would do, two for each bar",
    ),
]
NEIGHBOUR = recipe(more(LOT, LABELLED), book=BOOK % ("90 mm", "50 mm"))
ALSO = [
    (
        recipe(
            more("label: {net-weight: 1 g}\n"),
            book="label-sheets: {tiny: {page: a4, width: 20 mm, height: 10 mm, columns: 2, rows: 4, left: 10 mm, top: 15 mm}, wide: {page: a4, width: 90 mm, height: 60 mm, columns: 2, rows: 4, left: 10 mm, top: 15 mm}}\n",
        ),
        [
            (
                "recipes/tried.md:11:1",
                "warning",
                "no labels of the grid 'tiny' are made of this recipe: 'Sunflowerseedate,' is wider than the label",
                "use the grid 'wide', whose labels hold it; or waive it with your reason: waive: [{rule: label-fit, about: tiny, because: …}]",
            )
        ],
    ),
]


def test_each_grid_is_tried_on_its_own() -> None:
    book = BOOK % ("90 mm", "50 mm") + "  tiny: " + GRID % ("20 mm", "10 mm") + "\n"
    (one,) = found(recipe(more(LOT, LABELLED), book=book), "label-fit")
    assert one.about == "tiny" and "no labels of the grid 'tiny'" in one.message


def test_a_list_that_has_room_on_a_second_label_is_no_finding() -> None:
    assert found(recipe(more(LOT, LABELLED), book=BOOK % ("48 mm", "26 mm")), "label-fit") == []


def test_what_no_label_holds_is_told_so() -> None:
    book = BOOK.replace("address: Quay", f"address: {'q' * 150}")
    (one,) = found(recipe(more(LOT, LABELLED), book=book % ("48 mm", "26 mm")), "label-fit")
    assert one.hint.startswith("no label of a bar is large enough: shorten what stands beside the list")


def test_a_recipe_without_a_net_weight_has_no_label() -> None:
    assert found(batch("") | {"book.yaml": BOOK % ("20 mm", "10 mm")}, "label-fit") == []
