"""The water of a cured bar: the book's own figure, or the assumption, said so."""

from __future__ import annotations

import pytest

from saponary.book.cured import cured_water
from saponary.schema.settings import Settings


@pytest.mark.parametrize(
    ("given", "share", "assumed", "note"),
    [({}, 0.10, True, "10.0 %"), ({"cured-water": "12.5 %"}, 0.125, False, "12.5 % is water (as the book")],
)
def test_the_share(given: dict[str, str], share: float, assumed: bool, note: str) -> None:
    """A tenth: makers' custom, from memory."""
    water = cured_water(Settings.model_validate(given))
    assert (water.share, water.assumed) == (share, assumed) and note in water.note
    assert ("assumed" in water.note) == assumed
