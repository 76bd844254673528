"""Molar masses and the limits of a lye, as printed elsewhere."""

from __future__ import annotations

import pytest

from saponary.lye import constants as c


@pytest.mark.parametrize(
    ("ours", "printed"),
    [(c.NAOH, 39.9971), (c.KOH, 56.1056), (c.GLYCEROL, 92.0938), (c.WATER, 18.0153), (c.IODINE, 253.809)],
)
def test_molar_masses(ours: float, printed: float) -> None:
    """By the IUPAC atomic weights, to the last figure printed."""
    assert ours == pytest.approx(printed, abs=1e-4)


def test_no_lye_is_stronger_than_half() -> None:
    """Water at least equal to the alkali; 40 % and 25 % are common practice, no source."""
    assert (c.STRONGEST_LYE, c.STRONG_LYE, c.WEAK_LYE) == (0.50, 0.40, 0.25)
