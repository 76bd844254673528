"""What stands beside a recipe in the order of the book."""

from __future__ import annotations

from saponary.views.order import beside, in_order


def test_a_book_without_recipes_has_none_beside() -> None:
    assert in_order(()) == [] and beside(()) == {}
