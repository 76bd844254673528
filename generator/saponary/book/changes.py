"""What changed between two formulas, in words a maker would use; and when a recipe last changed."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import get_args

from saponary.book.moved import Shift
from saponary.lye.formula import Addition, Convention, Formula, Liquid, Oil, shares
from saponary.messages.message import Message, Number, message, percent
from saponary.quantity.rounding import show
from saponary.quantity.totals import totals


@dataclass(frozen=True)
class Changed:
    """When a recipe's sources last changed, by the book's history, and whether they differ from it now."""

    on: date
    again: bool


@dataclass(frozen=True)
class Version:
    """What a recipe came to at one time of its history, `at` seconds since 1970. `about` is the first line of what was said of the
    change, `commit` its id, `moved` the figures that it moved; `lye` is grams for a kilogram of oils,
    `superfat` a share; neither of soap that is melted again.
    Nothing goes before the `first`."""

    on: date
    at: int
    about: str
    commit: str
    fingerprint: str
    lye: float | None
    superfat: float | None
    moved: tuple[Shift, ...]
    first: bool


def changes(old: Formula, new: Formula) -> tuple[Message, ...]:
    """Each difference of the chemistry, old to new; sizes of the batches are set aside."""
    found = list(_moved(old.shares, new.shares, 100.0, "%"))
    found += _moved(_rates(old), _rates(new), 1000.0, "g/kg")
    for key, was, now in (
        ("superfat", old.superfat, new.superfat),
        ("potassium", old.alkali.potassium, new.alkali.potassium),
        ("sodium-purity", old.alkali.sodium_purity, new.alkali.sodium_purity),
        ("potassium-purity", old.alkali.potassium_purity, new.alkali.potassium_purity),
    ):
        if abs(was - now) > 5e-7:
            found.append(message(f"changed.{key}", before=percent(was), after=percent(now)))
    if old.water != new.water:
        found.append(message("changed.water", before=_water(old), after=_water(new)))
    if [(p.name, show(p.share, 4)) for p in old.portions] != [
        (p.name, show(p.share, 4)) for p in new.portions
    ]:
        found.append(message("changed.portions"))
    values = {o.id: o.saponification_value for o in old.oils}
    for oil in new.oils:
        if oil.id in values and abs(values[oil.id] - oil.saponification_value) > 5e-4:
            before, after = (Number(one, 1, "mg/g") for one in (values[oil.id], oil.saponification_value))
            found.append(message("changed.saponification-value", name=oil.id, before=before, after=after))
    return tuple(found)


def _rates(formula: Formula) -> dict[str, float]:
    parts: tuple[Oil | Liquid | Addition, ...] = (*formula.after_cook, *formula.liquids, *formula.additions)
    return totals((part.id, rate) for part, rate in shares(parts, formula.base))


def _moved(before: dict[str, float], after: dict[str, float], times: float, unit: str) -> Iterator[Message]:
    """Of oils in per cent, of all else in grams for a kilogram of oils."""
    of = "oil" if unit == "%" else "rate"
    for name in dict.fromkeys((*before, *after)):
        was, now = before.get(name), after.get(name)
        old, new = (Number(times * (one or 0.0), 1, unit) for one in (was, now))
        if was is None:
            yield message(f"changed.{of}.new", name=name, after=new)
        elif now is None:
            yield message(f"changed.{of}.gone", name=name, before=old)
        elif abs(was - now) > 5e-7:
            yield message(f"changed.{of}.moved", name=name, before=old, after=new)


def _water(formula: Formula) -> Message:
    value, convention = formula.water.value, formula.water.convention
    shown = Number(value, 2) if convention == "to-lye" else percent(value)
    return message(f"changed.{convention}", value=shown)


KEYS_BY_ID = {
    "changed.": ("superfat", "potassium", "sodium-purity", "potassium-purity", *get_args(Convention)),
    "changed.oil.": ("new", "gone", "moved"),
    "changed.rate.": ("new", "gone", "moved"),
}
"""Keys that are put together here: what they start with, and the ids that may follow."""
