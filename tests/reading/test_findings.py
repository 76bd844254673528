"""Suggestions lead to what was likely meant, and never to what binds an unknown amount of alkali."""

from __future__ import annotations

import pytest

from saponary.pantry.standard import standard
from saponary.quantity.units import QuantityError, parse
from saponary.reading.alike import nearest
from saponary.reading.findings import suggest


@pytest.mark.parametrize("word", ["sea-salt", "epsom-salt", "bath-salt", "dead", "sea"])
def test_no_salt_is_answered_with_one_that_binds_an_unknown_amount_of_alkali(word: str) -> None:
    assert (
        "dead-sea-salt"
        not in suggest(word, standard().additions, "additions").partition("known additions")[0]
    )


def test_a_slip_of_a_letter_is_one_whatever_it_names() -> None:
    assert nearest("dead-sea-slat", standard().additions) == "dead-sea-salt"
    assert nearest("sea-salt", standard().additions) == "salt"


@pytest.mark.parametrize("text", ["1,000 g", "12,500 g", "1,234 kg"])
def test_a_comma_before_three_figures_may_part_thousands(text: str) -> None:
    with pytest.raises(QuantityError) as raised:
        parse(text, units=("g", "kg"), example="12 g")
    plain, parted = text.replace(",", ""), text.replace(",", ".")
    assert raised.value.hint == f"write {plain}, or {parted}"


@pytest.mark.parametrize(("text", "value"), [("12,5 g", 12.5), ("0,25 g", 0.25), ("1,2345 g", 1.2345)])
def test_any_other_comma_is_a_decimal_one(text: str, value: float) -> None:
    assert parse(text, units=("g",), example="12 g").number == value
