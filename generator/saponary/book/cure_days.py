"""How many days pass from the making of a lot until it is ready, by the method of its recipe."""

from __future__ import annotations

from typing import NamedTuple

from saponary.schema.methods.method import Waits
from saponary.schema.recipe import Recipe
from saponary.schema.settings import Settings


class CureDays(NamedTuple):
    """Days after the making.

    `least` is the day before which no lot is ready, `usual` the day that counts where weighings tell none.
    Bars are weighed for it where `weighed`. `waits` is what they pass by.
    """

    least: int
    usual: int
    weighed: bool
    waits: Waits


def cure_days(model: Recipe, settings: Settings) -> CureDays:
    """By the method, and the recipe's own days of rest; the book's days of cure where the method has none."""
    days = model.by.days
    if model.rest is not None:
        return CureDays(model.rest, model.rest, days.reads_weighings, days.waits)
    book = settings.cure
    usual = book if days.usual is None else days.usual
    return CureDays(
        usual if days.least is None else min(days.least, usual), usual, days.reads_weighings, days.waits
    )
