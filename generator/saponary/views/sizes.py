"""Other sizes of a recipe: each weighed and checked as the batch itself is, none scaled by eye."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from saponary.book.published import Published
from saponary.lye.figures import weigh
from saponary.lye.formula import Formula
from saponary.messages.message import Message, Number, Value, message
from saponary.quantity.numbers import Scale
from saponary.views.names import charge


@dataclass(frozen=True)
class Size:
    """One size: its mould, or that it is the batch as written; its weights; how many bars, where known."""

    name: Value
    weights: tuple[Number, ...]
    bars: int | None


@dataclass(frozen=True)
class Sizes:
    """A table: its columns of weights, and a row for each size, the batch as written first."""

    heads: tuple[Message, ...]
    rows: tuple[Size, ...]


def sizes(computed: Published, scale: Scale) -> Sizes | None:
    """None where no other size is offered."""
    built = computed.resolved
    if not built.sizes:
        return None
    alkali = built.formula.alkali
    used = ["sodium-hydroxide"] if alkali.sodium > 0 else []
    used += ["potassium-hydroxide"] if alkali.potassium > 0 else []
    written: tuple[Value, Formula, int | None]
    written = (built.mould_name or message("sizes.as-written"), built.formula, built.bars)
    rows = tuple(
        Size(name, tuple(_weights(formula, used, scale)), bars or None)
        for name, formula, bars in (written, *((s.name, s.formula, s.bars) for s in built.sizes))
    )
    return Sizes((message("figure.oils"), *map(charge, used), charge("plain-water")), rows)


def _weights(formula: Formula, used: Sequence[str], scale: Scale) -> Iterator[Number]:
    found = weigh(formula)
    alkalis = {
        "sodium-hydroxide": found.weights.sodium_hydroxide,
        "potassium-hydroxide": found.weights.potassium_hydroxide,
    }
    for grams in (found.oils, *(alkalis[name] for name in used), found.water.plain):
        weighed = scale.weigh(grams)
        yield Number(weighed.shown, weighed.decimals)
