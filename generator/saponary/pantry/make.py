"""Makes an ingredient of what is stated of it: from quantities with units to plain numbers.

The same for a row of a table, an entry of the maker's, and the two laid over one another.
Pure; no entry is refused here.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from saponary.lye import fatty_acids as acids
from saponary.lye.alkali import MOLAR
from saponary.lye.formula import Metal
from saponary.pantry.colour import near
from saponary.pantry.model import Addition, Chip, Colour, Entry, Liquid, Oil, Range, Source
from saponary.quantity.units import Quantity
from saponary.schema.addition_entry import AdditionEntry
from saponary.schema.liquid_entry import AcidEntry, FreeAlkaliEntry, LiquidEntry
from saponary.schema.oil_entry import IodineEntry, OilEntry

DISPLACES: Mapping[str, float] = {
    "clay": 2.6,
    "mineral": 3.5,
    "salt": 2.16,
    "sugar": 1.59,
    "acid": 1.6,
    "chelator": 1.6,
    "carbon": 1.9,
}
"""g/ml of the solid itself in the batter, by kind, from handbooks (from memory); 1 otherwise.
A spoonful's own density would count the air in it."""

_BEFORE_ALKALI = frozenset({"acid", "salt", "sugar", "chelator"})
"""Kinds that dissolve in the water before the alkali, where an entry does not say otherwise."""

FAT_VALUE = 190.0
"""mg KOH/g of the fat in a liquid, where nothing is said: that of most fats (from memory)."""


def title(name: str) -> str:
    """An id as a name."""
    return name.replace("-", " ").capitalize()


def oil(name: str, entry: OilEntry) -> Oil | None:
    """An oil; None where no saponification value is stated."""
    value = entry.saponification_value
    if value is None:
        return None
    low, high = value.range or (value.value, value.value)
    kind = entry.kind or "oil"
    composition = {key: share.fraction for key, share in (entry.fatty_acids or {}).items()}
    return Oil(
        **_shared(name, entry),
        kind=kind,
        saponification_value=Range(value.value.number, low.number, high.number),
        iodine_value=_iodine(entry.iodine_value, composition, kind),
        fatty_acids=composition,
        unsaponifiable=entry.unsaponifiable.value.fraction if entry.unsaponifiable else 0.0,
        inci_sodium_soap=entry.inci_sodium_soap,
        inci_potassium_soap=entry.inci_potassium_soap,
    )


def liquid(name: str, entry: LiquidEntry) -> Liquid:
    fat_value = entry.fat_saponification_value
    return Liquid(
        **_shared(name, entry),
        water=_fraction(entry.water),
        fat=_fraction(entry.fat),
        sugar=_fraction(entry.sugar),
        fat_value=fat_value.number if fat_value else FAT_VALUE,
        acid=acid(entry.acid),
        known=entry.uptake != "unknown",
        inci_sodium_salt=entry.inci_sodium_salt,
        inci_potassium_salt=entry.inci_potassium_salt,
    )


def addition(name: str, entry: AdditionEntry) -> Addition:
    kind = entry.kind or "other"
    shared = _shared(name, entry)
    solid = DISPLACES.get(kind, 1.0)
    free = entry.free_alkali or FreeAlkaliEntry()
    metal: Metal = "potassium" if free.as_ == "potassium-hydroxide" else "sodium"
    molar = MOLAR[metal]
    displaces = shared["density"] if entry.liquid else solid
    return Addition(
        **shared,
        kind=kind,
        acid=acid(entry.acid),
        base=_fraction(free.share) / molar,
        base_most=_fraction(free.most) / molar,
        base_of=metal,
        known=entry.uptake != "unknown",
        water=_fraction(entry.water),
        fat=_fraction(entry.fat),
        fat_value=entry.fat_saponification_value.number if entry.fat_saponification_value else FAT_VALUE,
        displaces=entry.displaces.number if entry.displaces else displaces,
        usual=(entry.usual[0].number, entry.usual[1].number) if entry.usual else None,
        cap=_number(entry.cap),
        stage=entry.stage or "trace",
        lye_order=entry.lye_order or ("before-alkali" if kind in _BEFORE_ALKALI else "in-lye"),
        colour=colour(entry),
        dry=(entry.dry, entry.dry_cured or entry.dry) if entry.dry else None,
        ci=entry.ci,
        inci_sodium_salt=entry.inci_sodium_salt,
        inci_potassium_salt=entry.inci_potassium_salt,
    )


def colour(entry: AdditionEntry) -> Colour | None:
    """The colour in the bar; None where neither of its two is stated."""
    fresh, cured = entry.fresh or entry.cured, entry.cured or entry.fresh
    if fresh is None or cured is None:
        return None
    return Colour(
        fresh=fresh,
        cured=cured,
        full_depth=_number(entry.full_depth),
        lightfast=entry.lightfast,
        stays=entry.stays if entry.stays is not None else near(fresh, cured),
        in_alkali=entry.in_alkali,
        chips=tuple(Chip(c.dose.number, c.day, c.colour, c.note or "") for c in entry.chips),
    )


def acid(stated: AcidEntry | None) -> float:
    """Mol of hydroxide taken per gram. An acid named by `of` has been resolved before."""
    if stated is None:
        return 0.0
    if stated.takes is not None:
        return stated.takes.number / 1000.0
    if stated.molar_mass is None:
        return 0.0
    share = stated.share.fraction if stated.share else 1.0
    return (stated.groups or 1) * share / stated.molar_mass.number


def _shared(name: str, entry: Entry) -> dict[str, Any]:
    """The fields that every ingredient has."""
    return {
        "id": name,
        "name": entry.name or title(name),
        "entry": entry,
        "latin": entry.latin,
        "inci": entry.inci,
        "allergens": tuple(entry.allergens or ()),
        "hazards": tuple(entry.hazards or ()),
        "origin": entry.origin or "unknown",
        "density": entry.density.value.number if entry.density else None,
        "price_per_kg": entry.price,
        "note": entry.note,
        "source": {
            group: Source(stated.how, stated.publication, stated.where)
            for group, stated in (entry.source or {}).items()
        },
    }


def _iodine(stated: IodineEntry | None, composition: Mapping[str, float], kind: str) -> Range | None:
    """As stated, or computed from the fatty acids."""
    if stated is not None:
        low, high = stated.range or (stated.value, stated.value)
        return Range(stated.value.number, low.number, high.number)
    if sum(composition.values()) <= 0:
        return None
    computed = acids.iodine_value(composition, ester="acid" if kind == "acid" else "triglyceride")
    return Range(computed, computed, computed)


def _fraction(share: Quantity | None) -> float:
    return share.fraction if share else 0.0


def _number(quantity: Quantity | None) -> float | None:
    return quantity.number if quantity else None
