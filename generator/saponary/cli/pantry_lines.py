"""What a recipe may name: every oil, liquid, addition, scent and mould, the maker's own included."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from saponary.lye.mould import Mould, millilitres
from saponary.pantry.model import Addition, Liquid, Oil, Pantry
from saponary.quantity.rounding import show


def _oil(oil: Oil) -> str:
    value = oil.saponification_value
    band = f", {show(value.low, 0)} to {show(value.high, 0)}" if value.high > value.low else ""
    return f"{oil.name}: saponification value {show(value.value, 1)} mg/g{band}"


def _liquid(liquid: Liquid) -> str:
    return f"{liquid.name}: {show(100 * liquid.water, 1)} % water"


def _addition(addition: Addition) -> str:
    if addition.usual is None:
        return addition.name
    low, high = addition.usual
    return f"{addition.name}: usually {show(low, 1)} to {show(high, 1)} g per kg of oils"


def _mould(mould: Mould) -> str:
    return f"{mould.kind}, {show(millilitres(mould), 0)} ml"


def _lines(entries: Iterable[tuple[str, str]]) -> list[str]:
    rows = sorted(entries)
    width = max((len(name) for name, _ in rows), default=0)
    return [f"{name:<{width}}  {told}" for name, told in rows]


GROUPS: dict[str, Callable[[Pantry], list[str]]] = {
    "oils": lambda shelf: _lines((n, _oil(oil)) for n, oil in shelf.oils.items()),
    "liquids": lambda shelf: _lines((n, _liquid(liquid)) for n, liquid in shelf.liquids.items()),
    "additions": lambda shelf: _lines(
        (n, _addition(one)) for n, one in shelf.additions.items() if one.colour is None
    ),
    "colourants": lambda shelf: _lines(
        (n, _addition(one)) for n, one in shelf.additions.items() if one.colour is not None
    ),
    "infusions": lambda shelf: _lines(
        (n, f"{one.botanical} in {one.carrier}") for n, one in shelf.infusions.items()
    ),
    "moulds": lambda shelf: _lines((n, _mould(mould)) for n, mould in shelf.moulds.items()),
}
"""By the word asked for: the lines of that part of the pantry, a name and what it is."""
