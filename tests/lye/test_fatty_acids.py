"""Fatty acids by saturation, and what is asked of a composition."""

from __future__ import annotations

import pytest

from saponary.lye.fatty_acids import groups, iodine_value, mean_molar_mass, saponification_value

COCONUT = {"C8:0": 7.5, "C10:0": 6.0, "C12:0": 48.0, "C14:0": 19.0, "C16:0": 9.0, "C18:1": 8.0, "C18:2": 2.5}


def test_groups_are_shares_of_what_is_given() -> None:
    assert groups(COCONUT) == pytest.approx(
        {"saturated": 0.895, "monounsaturated": 0.08, "polyunsaturated": 0.025}
    )
    assert groups({"C18:3": 3.0, "C18:0": 1.0}) == {
        "saturated": 0.25, "monounsaturated": 0.0, "polyunsaturated": 0.75,
    }  # fmt: skip
    assert groups({}) == {"saturated": 0.0, "monounsaturated": 0.0, "polyunsaturated": 0.0}


def test_what_takes_no_alkali_lowers_the_value_by_its_share() -> None:
    whole = saponification_value(COCONUT)
    assert saponification_value(COCONUT, unsaponifiable=0.05) == pytest.approx(0.95 * whole)


@pytest.mark.parametrize("composition", [{}, {"C18:1": 0.0}])
def test_nothing_has_no_value(composition: dict[str, float]) -> None:
    with pytest.raises(ValueError, match="at least one"):
        mean_molar_mass(composition)
    with pytest.raises(ValueError, match="at least one"):
        iodine_value(composition)


def test_a_wax_is_refused() -> None:
    with pytest.raises(ValueError, match="wax"):
        saponification_value(COCONUT, ester="wax")


def test_stearic_acid_by_its_molar_mass() -> None:
    """56.1056 x 1000 / 284.477 = 197.223 (molar mass of the acid by IUPAC weights)."""
    assert saponification_value({"C18:0": 1.0}, ester="acid") == pytest.approx(197.223, abs=0.002)
