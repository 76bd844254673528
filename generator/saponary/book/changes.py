"""What changed between two formulas, in words a maker would use; and when a recipe last changed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from saponary.book.moved import Moved
from saponary.lye.formula import Addition, Formula, Liquid, Oil, shares
from saponary.quantity.rounding import show
from saponary.quantity.totals import totals


@dataclass(frozen=True)
class Changed:
    """When a recipe's sources last changed, by the book's history, and whether they differ from it now."""

    on: date
    again: bool


@dataclass(frozen=True)
class Version:
    """What a recipe came to at one time of its history. `about` is the first line of what was said of the
    change, `commit` its id, `moved` the figures that it moved; `lye` is grams for a kilogram of oils, `superfat` a share; neither of soap
    that is melted again."""

    on: date
    about: str
    commit: str
    fingerprint: str
    lye: float | None
    superfat: float | None
    moved: tuple[Moved, ...]


def changes(old: Formula, new: Formula) -> tuple[str, ...]:
    """Each difference of the chemistry, old to new; sizes of the batches are set aside."""
    found: list[str] = []
    found += _moved(old.shares, new.shares, 100.0, "%")
    found += _moved(_rates(old), _rates(new), 1000.0, "g/kg of oils")
    for name, was, now in (
        ("superfat", old.superfat, new.superfat),
        ("potassium hydroxide, of the equivalents", old.alkali.potassium, new.alkali.potassium),
        ("purity of sodium hydroxide", old.alkali.sodium_purity, new.alkali.sodium_purity),
        ("purity of potassium hydroxide", old.alkali.potassium_purity, new.alkali.potassium_purity),
    ):
        if abs(was - now) > 5e-7:
            found.append(f"{name} {show(100 * was, 1)} % to {show(100 * now, 1)} %")
    if old.water != new.water:
        found.append(f"water: {_water(old)} to {_water(new)}")
    if [(p.name, show(p.share, 4)) for p in old.portions] != [
        (p.name, show(p.share, 4)) for p in new.portions
    ]:
        found.append("the portions")
    values = {o.id: o.saponification_value for o in old.oils}
    for oil in new.oils:
        if oil.id in values and abs(values[oil.id] - oil.saponification_value) > 5e-4:
            found.append(
                f"saponification value of {oil.id} {show(values[oil.id], 1)} to {show(oil.saponification_value, 1)} mg/g"
            )
    return tuple(found)


def _rates(formula: Formula) -> dict[str, float]:
    parts: tuple[Oil | Liquid | Addition, ...] = (*formula.after_cook, *formula.liquids, *formula.additions)
    return totals((part.id, rate) for part, rate in shares(parts, formula.base))


def _moved(before: dict[str, float], after: dict[str, float], times: float, unit: str) -> list[str]:
    found: list[str] = []
    for name in dict.fromkeys((*before, *after)):
        was, now = before.get(name), after.get(name)
        if was is None and now is not None:
            found.append(f"{name} is new, {show(times * now, 1)} {unit}")
        elif now is None and was is not None:
            found.append(f"{name} was {show(times * was, 1)} {unit} and is gone")
        elif was is not None and now is not None and abs(was - now) > 5e-7:
            found.append(f"{name} {show(times * was, 1)} to {show(times * now, 1)} {unit}")
    return found


def _water(formula: Formula) -> str:
    value = formula.water.value
    if formula.water.convention == "to-lye":
        return f"{show(value, 2)} to one of lye"
    return f"{show(100 * value, 1)} % {'lye strength' if formula.water.convention == 'lye-strength' else 'of the oils'}"
