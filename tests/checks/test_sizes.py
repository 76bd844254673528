"""The rule `sizes`: another size keeps its superfat on the scale."""

from __future__ import annotations

import pytest

from checks.books import found, more, recipe

BREAKER = recipe(more("sizes: [20 g]\n"))
TOLD = [
    (
        "recipes/tried.md:11:9",
        "error",
        "at the size 20 g the superfat as weighed is -1.9 %",
        "offer a larger size, or set a finer scale-step in book.yaml",
    ),
]
NEIGHBOUR = recipe(more("sizes: [500 g, 2000 g]\n"))
ALSO = [
    (
        recipe(more("sizes: [500 g, 60 g]\n")),
        [
            (
                "recipes/tried.md:11:16",
                "warning",
                "at the size 60 g the superfat as weighed is 9.4 %",
                "offer a larger size, or set a finer scale-step in book.yaml",
            )
        ],
    ),
]


@pytest.mark.parametrize("size", [f"{n} g" for n in range(10, 60, 5)])
def test_what_the_scale_makes_of_a_size_decides(size: str) -> None:
    """Worked here: each weight to a whole gram, as the book's scale shows it."""
    book = "scale-step: 1 g\n"
    findings = found(recipe(more(f"sizes: [{size}]\n"), book=book), "sizes")
    told = [float(f.message.split(" is ")[-1].removesuffix(" %")) for f in findings]
    assert all((value < 0) == (f.severity == "error") for value, f in zip(told, findings, strict=True))
    assert all(value < 0 or abs(value - 5.0) > 0.95 for value in told)
