"""Additions and liquids of the pantry, as the engine has them."""

from __future__ import annotations

from saponary.lye.formula import Addition, Liquid, Stage
from saponary.pantry import model as shelf


def addition_of(entry: shelf.Addition, grams: float, stage: Stage, portion: str | None) -> Addition:
    """So many grams of an addition of the pantry, for the engine."""
    return Addition(
        entry.id,
        grams,
        stage,
        portion,
        entry.acid,
        entry.base,
        entry.water,
        entry.displaces,
        base_most=entry.base_most,
        base_of=entry.base_of,
        fat=entry.fat,
        fat_value=entry.fat_value,
        cooled=entry.lye_order == "cooled-lye",
        known=entry.known,
    )


def liquid_of(entry: shelf.Liquid, grams: float, stage: Stage, portion: str | None) -> Liquid:
    """So many grams of a liquid of the pantry, for the engine."""
    return Liquid(
        id=entry.id,
        grams=grams,
        water=entry.water,
        fat=entry.fat,
        fat_value=entry.fat_value,
        sugar=entry.sugar,
        stage=stage,
        portion=portion,
        acid=entry.acid,
        density=entry.density,
        known=entry.known,
    )
