"""The blend of oils as written, resolved: names to pantry entries, shares to parts of one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction

from saponary.lye.formula import Oil
from saponary.pantry import model as pantry
from saponary.quantity.rounding import as_decimal
from saponary.quantity.units import MASS
from saponary.reading.findings import suggest
from saponary.reading.reporter import Reporter
from saponary.reading.tree import Path
from saponary.schema import blend as written

SUM_TOLERANCE = Fraction(1, 2000)
"""Shares may miss the whole by a twentieth of a per cent: three times 33.33 %."""


def _elsewhere(name: str, shelf: pantry.Pantry) -> str:
    """Where a thing that is not an oil is listed; '' for one that is on no shelf."""
    if name in shelf.additions:
        return "it is an addition: list it under additions"
    return "it is a liquid: list it under liquids" if shelf.liquid(name) is not None else ""


def shares(
    parts: Mapping[str, written.OilPart], path: Path, shelf: pantry.Pantry, report: Reporter
) -> dict[str, float]:
    """Shares of the blend, normalised; an unknown oil or a wrong sum is a finding."""
    for name in parts:
        if name not in shelf.oils and name not in shelf.infusions:
            known = {**shelf.infusions, **shelf.oils}
            report.add(
                (*path, name),
                f"the oil {name!r} is not in the pantry",
                _elsewhere(name, shelf) or suggest(name, known, "oils"),
                key=True,
            )
    weights = [name for name, part in parts.items() if part.share.unit in MASS]
    if weights and len(weights) != len(parts):
        odd = next(name for name in parts if name not in weights)
        report.add((*path, odd), "shares and weights are mixed", "give all oils in per cent, or all in grams")
        return {}
    if weights:
        grams = {name: part.share.grams for name, part in parts.items()}
        whole = sum(grams.values())
        if whole < 1e-6:
            report.add(path, "the oils weigh nothing", "give each oil a weight above zero", key=True)
            return {}
        return {name: g / whole for name, g in grams.items()}
    exact = {name: part.share.value / (100 if part.share.unit == "%" else 1) for name, part in parts.items()}
    whole_share = sum(exact.values(), Fraction(0))
    if abs(whole_share - 1) > SUM_TOLERANCE:
        gap = float(1 - whole_share) * 100
        word = "more" if gap > 0 else "less"
        report.add(
            path,
            f"the oils add up to {as_decimal(float(whole_share) * 100, 4)} %",
            f"make the shares add up to 100 %: {as_decimal(abs(gap), 4)} % {word}",
            key=True,
        )
        return {}
    return {name: float(share / whole_share) for name, share in exact.items()}


def total(oils: written.Oils, report: Reporter) -> float | None:
    """The total of the oils in grams, or None where a mould decides it."""
    weights = [part.share.grams for part in oils.parts.values() if part.share.unit in MASS]
    if oils.fill is not None:
        if oils.total is not None:
            report.add(
                ("oils", "fill"),
                "the oils have a total and a mould to fill",
                "keep one of total and fill",
                key=True,
            )
        return None
    if weights and len(weights) == len(oils.parts):
        whole = sum(weights)
        if oils.total is not None and abs(oils.total.grams - whole) > 0.005 * whole:
            report.add(
                ("oils", "total"),
                f"the oils weigh {as_decimal(whole, 6)} g, the total says {oils.total.text.strip()}",
                "leave total out, or give shares instead of weights",
            )
        return whole
    if oils.total is None:
        report.add(
            ("oils",),
            "the oils have shares and no total",
            "add total: 1000 g, or fill: {mould: …, to: 95 %}",
            key=True,
        )
    return oils.total.grams if oils.total else None


def oil(
    name: str, part: written.OilPart, shelf: pantry.Pantry, infused: str | None = None
) -> Callable[[float], Oil]:
    """An oil of the engine, given its grams. An infused oil is its carrier."""
    stock = shelf.infusions.get(name)
    entry = shelf.oils.get(stock.carrier if stock else name)
    soaked = infused or part.infused_with or (stock.botanical if stock else None)
    if entry is None:
        return lambda grams: Oil(name, grams, 1.0, 1.0, 1.0)
    found = entry
    return lambda grams: oil_of(found, grams, soaked)


def oil_of(entry: pantry.Oil, grams: float, infused: str | None) -> Oil:
    """So many grams of an oil of the pantry, for the engine."""
    value = entry.saponification_value
    return Oil(
        id=entry.id,
        grams=grams,
        saponification_value=value.value,
        low=value.low,
        high=value.high,
        iodine_value=entry.iodine_value.value if entry.iodine_value else None,
        fatty_acids=entry.fatty_acids,
        ester=entry.ester,
        unsaponifiable=entry.unsaponifiable,
        density=entry.density,
        infused_with=infused,
    )


def check_botanical(name: str, path: Path, shelf: pantry.Pantry, report: Reporter) -> None:
    if shelf.botanical(name) is None and name not in shelf.infusions:
        report.add(
            path,
            f"the botanical {name!r} is not in the pantry",
            suggest(name, shelf.additions, "additions"),
            "warning",
        )
