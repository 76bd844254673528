"""The rule `label-facts`.

Regulation (EC) 1223/2009, Article 19(1): responsible person with address, and date or period after opening, as
two authorities state it (second-hand). United States: name and place of business, 21 CFR 701.12 (from memory), and
a contact for reports of reactions since 29 December 2024, as three law pages have it (second-hand).
"""

from __future__ import annotations

import pytest

from checks.books import batch, found, more, recipe

GRID = "{width: 90 mm, height: 60 mm, columns: 2, rows: 4, left: 10 mm, top: 15 mm, law: LAW}"
LABELLED = more("label: {net-weight: 100 g}\n")
SOMEONE = "{name: A Maker, address: 1 Quay}"
WEIGHED = batch(", weighed: {0: 120 g, 42: 101 g}", LABELLED)
"""Its net weight is borne out."""
STATED = f"sold-in: {{eu: {{responsible: {SOMEONE}}}}}\ndurability-months: 24\n"


def book(law: str, more_settings: str = "") -> str:
    return f"title: A book\nlabel-sheets:\n  wide: {GRID.replace('LAW', law)}\n{more_settings}"


BREAKER = {**WEIGHED, "book.yaml": book("eu")}
TOLD = [
    (
        "book.yaml:3:3",
        "warning",
        "labels of the grid 'wide' lack what the European Union asks for: who answers for it, with the address, "
        "a date of durability or a period after opening",
        "state sold-in.eu.responsible, durability-months or after-opening-months (Regulation (EC) 1223/2009, "
        "Article 19; defer to the law where you sell)",
    ),
]
NEIGHBOUR = {**WEIGHED, "book.yaml": book("eu", STATED)}
ALSO = [
    (
        recipe(
            more("label: {net-weight: 1 g}\n"),
            book="label-sheets: {wide: {page: a4, width: 90 mm, height: 60 mm, columns: 2, rows: 4, left: 10 mm, top: 15 mm, law: eu}, us: {page: a4, width: 90 mm, height: 60 mm, columns: 2, rows: 4, left: 10 mm, top: 15 mm, law: us}}\nafter-opening-months: 12\nsold-in: {us: {contact: a@example.org}}\n",
        ),
        [
            (
                "book.yaml:1:16",
                "warning",
                "labels of the grid 'wide' lack what the European Union asks for: who answers for it, with the address",
                "state sold-in.eu.responsible (Regulation (EC) 1223/2009, Article 19; defer to the law where you sell); or waive it with your reason: waive: [{rule: label-facts, about: wide, because: …}]",
            ),
            (
                "book.yaml:1:118",
                "warning",
                "labels of the grid 'us' lack what the United States asks for: who answers for it, with the address",
                "state sold-in.us.responsible (21 CFR 701.3; defer to the law where you sell); or waive it with your reason: waive: [{rule: label-facts, about: us, because: …}]",
            ),
        ],
    ),
]


@pytest.mark.parametrize(
    ("law", "settings", "count"),
    [
        ("gb", STATED, 1),
        ("gb", STATED.replace("eu:", "gb:"), 0),
        ("eu", STATED.replace("durability-months: 24", "after-opening-months: 12"), 0),
        ("us", f"sold-in: {{us: {{responsible: {SOMEONE}}}}}\n", 1),
        ("us", f"sold-in: {{us: {{responsible: {SOMEONE}, contact: reports@soap.example}}}}\n", 0),
    ],
)
def test_each_place_asks_for_its_own(law: str, settings: str, count: int) -> None:
    assert len(found(recipe(LABELLED, book=book(law, settings)), "label-facts")) == count


def test_a_book_without_labels_is_not_asked() -> None:
    assert found(recipe(more(""), book=book("eu")), "label-facts") == []


@pytest.mark.parametrize(
    ("sold", "place"), [("us: {}", "United States"), ("gb: {}, us: {}", "Great Britain"), ("", "European")]
)
def test_a_grid_without_a_law_follows_the_first_place_of_sale(sold: str, place: str) -> None:
    settings = book("eu", f"sold-in: {{{sold}}}\n").replace(", law: eu", "")
    (told,) = found(recipe(LABELLED, book=settings), "label-facts")
    assert place in told.message
