"""The rule `alkali-purity`: flakes of potassium hydroxide hold 85 to 92 % (from memory)."""

from __future__ import annotations

import pytest

from checks.books import found, more, recipe

BREAKER = recipe(more("lye: {sodium: 60 %, potassium: 40 %}\n"))
TOLD = [
    (
        "recipes/tried.md:11:21",
        "warning",
        "potassium hydroxide is weighed here as if it were pure, and no purity is given",
        "add purity: 90 % as the bag has it, here or in book.yaml; flakes of the trade hold 85 to 92 %",
    ),
]
NEIGHBOUR = recipe(more("lye: {sodium: 60 %, potassium: {share: 40 %, purity: 90 %}}\n"))
ALSO = [
    (
        recipe(more("lye: {sodium: {share: 50 %}, potassium: {share: 50 %}}\n")),
        [
            (
                "recipes/tried.md:11:30",
                "warning",
                "potassium hydroxide is weighed here as if it were pure, and no purity is given",
                "add purity: 90 % as the bag has it, here or in book.yaml; flakes of the trade hold 85 to 92 %; or waive it with your reason: waive: [{rule: alkali-purity, because: …}]",
            )
        ],
    ),
    (
        recipe(
            more("lye: {sodium: {share: 50 %}, potassium: {share: 50 %}}\n"),
            book="purity: {potassium: 90 %}\n",
        ),
        [],
    ),
]


@pytest.mark.parametrize(
    ("lye", "book", "count"),
    [
        ("potassium: 40 %", "", 1),
        ("potassium: {share: 40 %, purity: 100 %}", "", 0),
        ("potassium: 40 %", "purity: {potassium: 89 %}\n", 0),
        ("potassium: 40 %", "purity: {sodium: 98 %}\n", 1),
    ],
)
def test_a_purity_may_stand_here_or_in_the_book(lye: str, book: str, count: int) -> None:
    files = recipe(more(f"lye: {{sodium: 60 %, {lye}}}\n"), **({"book": book} if book else {}))
    assert len(found(files, "alkali-purity")) == count


def test_sodium_hydroxide_is_taken_as_pure() -> None:
    """97 to 99 % in the trade (from memory): a point or two of superfat, on the side of oil."""
    assert found(recipe(more("lye: {sodium: 100 %}\n")), "alkali-purity") == []
    assert found(recipe(more("lye: {sodium: 100 %, potassium: 0 %}\n")), "alkali-purity") == []
