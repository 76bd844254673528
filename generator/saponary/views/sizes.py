"""Other sizes of a recipe: each weighed and checked as the batch itself is, none scaled by eye."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from saponary.book.published import Published
from saponary.lye.figures import weigh
from saponary.lye.formula import Formula
from saponary.lye.stock import from_stock
from saponary.messages.message import Message, Number, Value, message
from saponary.quantity.numbers import Scale
from saponary.views.names import charge, spoken


class Size(NamedTuple):
    """One size: its mould, or that it is the batch as written; its weights; how many bars, where known."""

    name: Value
    weights: tuple[Number, ...]
    bars: int | None


class Sizes(NamedTuple):
    """A table: its columns of weights, and a row for each size, the batch as written first."""

    heads: tuple[Message, ...]
    rows: tuple[Size, ...]


def sizes(computed: Published, scale: Scale) -> Sizes | None:
    """None where no other size is offered."""
    built = computed.resolved
    if not built.sizes:
        return None
    heads, _ = _weighed(built.formula)
    written = (built.mould_name or "", built.formula, built.bars)
    rows = tuple(
        Size(spoken(name) or message("sizes.as-written"), tuple(_weights(formula, scale)), bars or None)
        for name, formula, bars in (written, *((s.name, s.formula, s.bars) for s in built.sizes))
    )
    return Sizes((message("figure.oils"), *heads), rows)


def _weights(formula: Formula, scale: Scale) -> Iterator[Number]:
    for grams in (formula.oils_grams, *_weighed(formula)[1]):
        weighed = scale.weigh(grams)
        yield Number(weighed.shown, weighed.decimals)


def _weighed(formula: Formula) -> tuple[tuple[Message, ...], tuple[float, ...]]:
    """What goes into the lye jug and how much: each alkali or its stock, and the plain water beside it."""
    found, alkali = weigh(formula), formula.alkali
    drawn = from_stock(found.weights, found.water.plain, formula.stock)
    heads, weights = list[Message](), list[float]()
    for name, share, dry, stock in (
        ("sodium-hydroxide", alkali.sodium, found.weights.sodium_hydroxide, drawn.sodium),
        ("potassium-hydroxide", alkali.potassium, found.weights.potassium_hydroxide, drawn.potassium),
    ):
        if share > 0:
            heads.append(message("figure.stock", alkali=charge(name)) if stock else charge(name))
            weights.append(stock or dry)
    kept = drawn.sodium > 0 or drawn.potassium > 0
    heads.append(message("figure.beside-stock") if kept else charge("plain-water"))
    return tuple(heads), (*weights, drawn.beside)
