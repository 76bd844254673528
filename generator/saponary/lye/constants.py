"""Molar masses and limits, each with its one home here.

Atomic weights: the IUPAC values as printed in handbooks to five figures (C 12.0107,
H 1.00794, O 15.9994, Na 22.98977, K 39.0983, I 126.90447).
"""

from __future__ import annotations

ATOMIC_WEIGHT = {
    "H": 1.00794,
    "C": 12.0107,
    "O": 15.9994,
    "Na": 22.98977,
    "K": 39.0983,
    "I": 126.90447,
}

NAOH = ATOMIC_WEIGHT["Na"] + ATOMIC_WEIGHT["O"] + ATOMIC_WEIGHT["H"]
"""Sodium hydroxide, g/mol (39.9971)."""

KOH = ATOMIC_WEIGHT["K"] + ATOMIC_WEIGHT["O"] + ATOMIC_WEIGHT["H"]
"""Potassium hydroxide, g/mol (56.1056)."""

GLYCEROL = 3 * ATOMIC_WEIGHT["C"] + 8 * ATOMIC_WEIGHT["H"] + 3 * ATOMIC_WEIGHT["O"]
"""Glycerol C3H8O3, g/mol (92.0938)."""

WATER = 2 * ATOMIC_WEIGHT["H"] + ATOMIC_WEIGHT["O"]
"""Water, g/mol (18.0153)."""

IODINE = 2 * ATOMIC_WEIGHT["I"]
"""Molecular iodine I2, g/mol (253.809)."""

STRONGEST_LYE = 0.50
"""Never stronger, as a mass fraction of alkali in alkali and water. Handbook solubilities
of NaOH lie at 50 to 53 % near room temperature (CRC Handbook, from memory; an encyclopaedia
table gives 52.2 % at 20 °C), so half is under all of them."""

STRONG_LYE = 0.40
"""Above this a lye is hot, thick and quick: common practice, no source."""

WEAK_LYE = 0.25
"""Below this a batter may part or stay soft: common practice, no source."""
