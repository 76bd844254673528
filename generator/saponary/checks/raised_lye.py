"""raised-lye: something that is no acid by name takes alkali, and the lye is raised for it."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.lye.alkali import weights_for
from saponary.lye.formula import LATE
from saponary.quantity.totals import totals
from saponary.reading.findings import Finding

_LEAST = 0.1
"""Grams of alkali that are worth a word."""


def check(computed: Computed) -> Iterator[Finding]:
    formula, pantry = computed.resolved.formula, computed.pantry
    taken = totals((part.id, part.grams * part.acid) for part in formula.stirred if part.stage not in LATE)
    told: set[str] = set()
    for path, what, _ in computed.additions():
        entry = pantry.additions.get(what)
        grams = weights_for(taken.get(what, 0.0), formula.alkali).total
        if entry is None or entry.kind == "acid" or grams < _LEAST or what in told:
            continue
        told.add(what)
        yield computed.finding(
            RULE.name,
            (*path, "what"),
            f"{what!r} takes {computed.weight(grams)} of alkali, and the lye is raised by as much",
            "leave it out",
            "warning",
            about=what,
        )


RULE = Rule(
    "raised-lye",
    "danger",
    "Bicarbonate and some salts take alkali before the oils do, though they are not thought of as "
    "acids. The lye is raised for them, so they must really go in.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="addition",
)
