"""as-poured: a batch whose recorded weights leave free lye, or name what the recipe lacks."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.rule import Rule
from saponary.lye.fingerprint import matches
from saponary.lye.poured import as_poured, names
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding, suggest


def check(computed: Computed) -> Iterator[Finding]:
    known = names(computed.resolved.formula)
    for record in computed.batches:
        batch = record.batch
        if batch.formula is not None and not matches(batch.formula, computed.fingerprint):
            continue
        recorded = {name: q.grams for name, q in batch.as_weighed.items() if q is not None}
        for name in batch.as_weighed:
            if name not in known:
                yield record.finding(
                    RULE.name,
                    ("as-weighed", name),
                    f"{name!r} is not in this recipe",
                    suggest(name, known, "names"),
                    key=True,
                )
        if not recorded:
            continue
        figures = computed.figures
        poured = as_poured(computed.resolved.formula, figures.water.plain, figures.weights, recorded)
        if poured.superfat < 0:
            yield record.finding(
                RULE.name,
                ("as-weighed",),
                f"as weighed, lot {batch.lot} has a superfat of {show(100 * poured.superfat, 1)} %: free lye",
                "do not use, sell or give away this lot; check the record against the scale",
                key=True,
            )


RULE = Rule(
    "as-poured",
    "danger",
    "A batch record's own weights are recomputed. A lot whose weights leave free lye is no soap for skin.",
    recipe=check,
)
