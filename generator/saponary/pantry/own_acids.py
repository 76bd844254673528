"""Acids that an entry names by another ingredient: `acid: {of: citric-acid, share: 6 %}`."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from saponary.pantry.model import Addition
from saponary.quantity.rounding import as_decimal
from saponary.quantity.units import Quantity
from saponary.reading.findings import suggest
from saponary.reading.reporter import Reporter
from saponary.reading.tree import Path
from saponary.schema.addition_entry import AdditionEntry
from saponary.schema.liquid_entry import AcidEntry, LiquidEntry

E = TypeVar("E", LiquidEntry, AdditionEntry)


@dataclass(frozen=True)
class Acids:
    """The additions an entry may name an acid from."""

    additions: Mapping[str, Addition]

    def resolved(self, entry: E, path: Path, report: Reporter) -> E:
        """The entry with its acid as an uptake, where it names one; a name that takes no alkali is a finding."""
        acid = entry.acid
        if acid is None:
            return entry
        if acid.of is None:
            if acid.takes is None and acid.molar_mass is None:
                report.add(
                    (*path, "acid"),
                    "the acid is not told",
                    "add of: citric-acid, or molar-mass: 192.124 g/mol",
                )
            return entry
        named = self.additions.get(acid.of)
        if named is None or named.acid <= 0:
            known = [name for name, other in self.additions.items() if other.acid > 0]
            report.add((*path, "acid", "of"), f"{acid.of!r} is not an acid", suggest(acid.of, known, "acids"))
            return entry.model_copy(update={"acid": None})
        share = acid.share.fraction if acid.share else 1.0
        text = as_decimal(named.acid * share * 1000)
        takes = Quantity(Fraction(text), "mmol/g", None, f"{text} mmol/g")
        said = {
            "acid": AcidEntry.model_validate({"takes": takes}),
            "inci_sodium_salt": entry.inci_sodium_salt or named.inci_sodium_salt,
            "inci_potassium_salt": entry.inci_potassium_salt or named.inci_potassium_salt,
        }
        return entry.model_copy(update=said)
