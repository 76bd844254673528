"""Fatty acids, and how saponification and iodine value follow from a composition.

Molar masses come from the formula of each acid. Iodine value: 3·d·I2 over the molar mass
of the acid's triglyceride, d being its double bonds; this gives back the six factors of
AOCS Cd 1c-85 to 0.001. Saponification value: mean molar mass of the triglyceride, as the
calculation of ISO 3657 (Annex B) and AOCS Cd 3a-94 has it by title; the texts were not
seen, so the formula is derived here.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from saponary.lye.constants import ATOMIC_WEIGHT, GLYCEROL, IODINE, KOH, WATER
from saponary.lye.formula import Ester


class FattyAcid(NamedTuple):
    """One acid: shorthand (carbons:double bonds), names, and its make-up."""

    key: str
    systematic: str
    common: str | None
    carbons: int
    double_bonds: int
    oxygens: int = 2

    @property
    def molar_mass(self) -> float:
        """g/mol, from the formula C(n)H(2n-2d)O(o)."""
        hydrogens = 2 * self.carbons - 2 * self.double_bonds
        return (
            self.carbons * ATOMIC_WEIGHT["C"]
            + hydrogens * ATOMIC_WEIGHT["H"]
            + self.oxygens * ATOMIC_WEIGHT["O"]
        )

    @property
    def triglyceride_molar_mass(self) -> float:
        """g/mol of the triglyceride of this acid alone."""
        return 3 * self.molar_mass + GLYCEROL - 3 * WATER

    @property
    def iodine_factor(self) -> float:
        """g of iodine taken up per g of its triglyceride."""
        return 3 * self.double_bonds * IODINE / self.triglyceride_molar_mass

    @property
    def acid_iodine_factor(self) -> float:
        """g of iodine taken up per g of the free acid."""
        return self.double_bonds * IODINE / self.molar_mass

    @property
    def name(self) -> str:
        return self.common or self.systematic


_ACIDS = (
    FattyAcid("C4:0", "butanoic acid", "butyric", 4, 0),
    FattyAcid("C6:0", "hexanoic acid", "caproic", 6, 0),
    FattyAcid("C8:0", "octanoic acid", "caprylic", 8, 0),
    FattyAcid("C10:0", "decanoic acid", "capric", 10, 0),
    FattyAcid("C12:0", "dodecanoic acid", "lauric", 12, 0),
    FattyAcid("C14:0", "tetradecanoic acid", "myristic", 14, 0),
    FattyAcid("C16:0", "hexadecanoic acid", "palmitic", 16, 0),
    FattyAcid("C16:1", "9-hexadecenoic acid", "palmitoleic", 16, 1),
    FattyAcid("C17:0", "heptadecanoic acid", "margaric", 17, 0),
    FattyAcid("C17:1", "heptadecenoic acid", None, 17, 1),
    FattyAcid("C18:0", "octadecanoic acid", "stearic", 18, 0),
    FattyAcid("C18:1", "9-octadecenoic acid", "oleic", 18, 1),
    FattyAcid("C18:1-OH", "12-hydroxy-9-octadecenoic acid", "ricinoleic", 18, 1, 3),
    FattyAcid("C18:2", "9,12-octadecadienoic acid", "linoleic", 18, 2),
    FattyAcid("C18:3", "octadecatrienoic acid", "linolenic", 18, 3),
    FattyAcid("C18:4", "octadecatetraenoic acid", "stearidonic", 18, 4),
    FattyAcid("C20:0", "eicosanoic acid", "arachidic", 20, 0),
    FattyAcid("C20:1", "eicosenoic acid", "gadoleic", 20, 1),
    FattyAcid("C20:2", "eicosadienoic acid", None, 20, 2),
    FattyAcid("C22:0", "docosanoic acid", "behenic", 22, 0),
    FattyAcid("C22:1", "docosenoic acid", "erucic", 22, 1),
    FattyAcid("C22:2", "docosadienoic acid", None, 22, 2),
    FattyAcid("C24:0", "tetracosanoic acid", "lignoceric", 24, 0),
    FattyAcid("C24:1", "15-tetracosenoic acid", "nervonic", 24, 1),
)
FATTY_ACIDS: Mapping[str, FattyAcid] = {acid.key: acid for acid in _ACIDS}


def mean_molar_mass(composition: Mapping[str, float]) -> float:
    """g/mol of the mixed fatty acids, from mass fractions in any common scale.

    Raises KeyError for an unknown acid and ValueError where nothing is given.
    """
    total = sum(composition.values())
    moles = sum(part / FATTY_ACIDS[key].molar_mass for key, part in composition.items())
    if moles <= 0:
        raise ValueError("a composition needs at least one fatty acid")
    return total / moles


def saponification_value(
    composition: Mapping[str, float], *, ester: Ester = "triglyceride", unsaponifiable: float = 0.0
) -> float:
    """mg KOH per g of fat of this composition.

    `unsaponifiable` is the mass fraction that takes no alkali. A wax's value cannot be had
    from its acids alone, so `wax` is refused.
    """
    mean = mean_molar_mass(composition)
    if ester == "acid":
        value = KOH * 1000 / mean
    elif ester == "triglyceride":
        value = 3 * KOH * 1000 / (3 * mean + GLYCEROL - 3 * WATER)
    else:
        raise ValueError("the saponification value of a wax does not follow from its acids")
    return value * (1 - unsaponifiable)


def iodine_value(composition: Mapping[str, float], *, ester: Ester = "triglyceride") -> float:
    """g of iodine per 100 g of triglyceride of this composition (AOCS Cd 1c-85), or of the free acids."""
    total = sum(composition.values())
    if total <= 0:
        raise ValueError("a composition needs at least one fatty acid")
    taken = sum(
        part * (FATTY_ACIDS[key].acid_iodine_factor if ester == "acid" else FATTY_ACIDS[key].iodine_factor)
        for key, part in composition.items()
    )
    return 100 * taken / total


def groups(composition: Mapping[str, float]) -> dict[str, float]:
    """Mass fractions of the fatty acids by saturation, of the sum given."""
    total = sum(composition.values()) or 1.0
    out = {"saturated": 0.0, "monounsaturated": 0.0, "polyunsaturated": 0.0}
    for key, part in composition.items():
        acid = FATTY_ACIDS[key]
        kind = (
            ("saturated", "monounsaturated")[acid.double_bonds]
            if acid.double_bonds < 2
            else "polyunsaturated"
        )
        out[kind] += part / total
    return out
