"""Pots: which portions are made in one, and what lies in each."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from saponary.lye.formula import Formula, Oil, Portion, scaled


def portions_by_pot(formula: Formula) -> tuple[tuple[Portion, ...], ...]:
    """The portions of each pot, in the order of their first; none where all is made in one pot.

    Where a portion has oils of its own, it is made alone, and those without share a pot.
    Where none has, each has a pot to itself.
    """
    if not formula.separate_pots:
        return ()
    common = tuple(p for p in formula.portions if not p.own_oils)
    if len(common) == len(formula.portions):
        return tuple((p,) for p in common)
    return tuple((p,) if p.own_oils else common for p in formula.portions if p.own_oils or p is common[0])


def oils_of(portion: Portion, formula: Formula) -> tuple[Oil, ...]:
    """The oils in a portion: its own, or its share of the batch's."""
    return portion.oils if portion.oils is not None else scaled(formula.oils, portion.share)


def together(oils: Iterable[Oil]) -> tuple[Oil, ...]:
    """Oils of one id and one infusion as one line, in the order of their first; nothing of no weight."""
    found: dict[tuple[str, str], Oil] = {}
    for oil in oils:
        key = (oil.id, oil.infused_with or "")
        if oil.grams > 0:
            found[key] = replace(oil, grams=found[key].grams + oil.grams) if key in found else oil
    return tuple(found.values())


def weighed_oils(formula: Formula) -> Iterator[Oil]:
    """The oils as they are weighed: once for the batch, or for each pot."""
    apart = portions_by_pot(formula)
    if not apart:
        yield from formula.oils
    for pot in apart:
        yield from together(oil for portion in pot for oil in oils_of(portion, formula))
