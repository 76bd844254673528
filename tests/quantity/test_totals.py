"""Sums by name."""

from __future__ import annotations

from collections import Counter

from hypothesis import given
from hypothesis import strategies as st

from saponary.quantity.totals import totals


@given(st.lists(st.tuples(st.sampled_from("abc"), st.integers(-1000, 1000))))
def test_sums_are_those_of_a_counter(pairs: list[tuple[str, int]]) -> None:
    expected: Counter[str] = Counter()
    for name, number in pairs:
        expected[name] += number
    assert totals((name, float(number)) for name, number in pairs) == dict(expected)


def test_names_stand_in_the_order_of_their_first() -> None:
    assert list(totals([("b", 1.0), ("a", 2.0), ("b", 3.0)]).items()) == [("b", 4.0), ("a", 2.0)]
