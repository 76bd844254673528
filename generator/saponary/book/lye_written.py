"""The lye of a recipe as written: its alkalis by equivalents and purity, and its water by convention."""

from __future__ import annotations

from fractions import Fraction

from saponary.book import blend
from saponary.lye.formula import Alkali, Stock, Water
from saponary.quantity.rounding import as_decimal
from saponary.quantity.units import Quantity
from saponary.reading.reporter import Reporter
from saponary.schema import lye_written as written
from saponary.schema.settings import Settings
from saponary.schema.stock import LyeStock

_LEAST_PURE = 0.5


def alkali(given: written.Lye | None, settings: Settings, report: Reporter) -> Alkali | None:
    """The alkali of a recipe, the book's purities where it gives none; None with a finding where it cannot be."""
    if given is None or (given.sodium is None and given.potassium is None):
        purity = settings.purity.sodium
        return Alkali(sodium_purity=purity.fraction if purity else 1.0)
    shares: list[Fraction] = []
    purities: list[float] = []
    for name, own, default in (
        ("sodium", given.sodium, settings.purity.sodium),
        ("potassium", given.potassium, settings.purity.potassium),
    ):
        shares.append(own.share.value / (100 if own.share.unit == "%" else 1) if own else Fraction(0))
        purity = own.purity if own and own.purity else default
        pure = purity.fraction if purity else 1.0
        if not _LEAST_PURE <= pure <= 1.0:
            report.add(
                ("lye", name, "purity"),
                f"a purity of {as_decimal(100 * pure, 6)} % is not a purity that is sold",
                "from 50 % to 100 %",
            )
            return None
        purities.append(pure)
    whole = sum(shares, Fraction(0))
    if abs(whole - 1) > blend.SUM_TOLERANCE:
        report.add(
            ("lye",),
            f"the alkalis add up to {as_decimal(float(whole) * 100, 4)} %",
            "the two shares must add up to 100 %, such as lye: {sodium: 60 %, potassium: 40 %}",
            key=True,
        )
        return None
    return Alkali(float(shares[0] / whole), float(shares[1] / whole), *purities)


def stock(recipe: LyeStock | None, settings: Settings) -> Stock:
    """The stocks that the lye is weighed from: the recipe's own, else the book's."""
    return stock_of(recipe or settings.lye_stock)


def stock_of(given: LyeStock | None) -> Stock:
    """The stocks as they are written; both alkalis dry where nothing is."""
    if given is None:
        return Stock()
    return Stock(*(_strength(own or given.strength) for own in (given.sodium, given.potassium)))


def _strength(share: Quantity | None) -> float | None:
    return share.fraction if share is not None and share.fraction > 0 else None


def water(given: written.Water) -> Water:
    """The water by the one convention that it is given in."""
    if given.lye_strength is not None:
        return Water("lye-strength", given.lye_strength.fraction)
    if given.to_lye is not None:
        return Water("to-lye", given.to_lye.number)
    assert given.of_oils is not None
    return Water("of-oils", given.of_oils.fraction)
