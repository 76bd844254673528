"""net-weight: what the label states must be borne out by bars that were weighed."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.cure_days import cure_days
from saponary.book.curing import cures
from saponary.checks.listed import BOTH, IN_RECIPES
from saponary.checks.rule import Rule
from saponary.lye.cure.fit import CureFit
from saponary.lye.fingerprint import matches
from saponary.quantity.rounding import to_step
from saponary.reading.findings import Finding


def check(computed: Computed) -> Iterator[Finding]:
    label = computed.model.label
    if label is None or label.net_weight is None or not computed.model.by.dries:
        return
    path, stated = ("label", "net-weight"), label.net_weight.grams
    weights: list[tuple[float, str]] = []
    least = cure_days(computed.model, computed.settings).least
    for record in computed.batches:
        batch = record.batch
        if batch.formula is None or not matches(batch.formula, computed.fingerprint):
            continue
        for bar in cures(batch):
            if bar.weighings[-1][0] >= least:
                weights.append((bar.latest_grams, batch.lot))
            if isinstance(bar.fit, CureFit) and bar.fit.plateau_interval is not None:
                weights.append((bar.fit.plateau_g, batch.lot))
    yield from _expected(computed, stated)
    if not weights:
        yield computed.finding(
            RULE.name,
            path,
            f"a net weight of {label.net_weight.text.strip()} has no weighed bar of this formula to support it",
            f"weigh a marked bar of a batch poured to it until day {least} or later",
            "warning",
        )
        return
    lightest, lot = min(weights)
    if stated > lightest:
        yield computed.finding(
            RULE.name,
            path,
            f"the label states {label.net_weight.text.strip()}; a bar of lot {lot} comes to {computed.weight(lightest)}",
            "state what the lightest cured bar weighs, or less",
        )


def _expected(computed: Computed, stated: float) -> Iterator[Finding]:
    """A bar that is poured too small to weigh so much once it has cured."""
    figures = computed.catalogue
    if "bar-for-label" not in figures or to_step(figures["cured-bar"].value, 0.1) >= stated:
        return
    yield computed.finding(
        RULE.name,
        ("label", "net-weight"),
        f"as poured, a bar is expected to come to {figures['cured-bar'].text()}, less than its label's {computed.weight(stated)}",
        f"pour {figures['bar-for-label'].text()} of each bar, {figures['oils-for-label'].text()} of oils in all, or state less",
        "warning",
    )


RULE = Rule(
    "net-weight",
    "label",
    "The net weight on a label must be true on the day of sale: no more than the lightest cured bar, or"
    " than the weight at which the fitted bars settle.",
    recipe=check,
    kinds=BOTH,
    waivable=IN_RECIPES,
)
