"""record-weights: a recorded weight that is not what a batch of this formula holds, at any size."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from saponary.book.computed import Computed
from saponary.book.records import BatchRecord
from saponary.book.rows import to_weigh
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.lye.fingerprint import matches
from saponary.reading.findings import Finding

FAR = 1.25
"""A weight so many times the formula's, or less than that part of it: common practice, no source. A digit that
slips changes a weight by more, more often than not."""

STEPS = 2
"""A weight so few steps of the scale from the formula's is rounded, and no slip."""


def check(computed: Computed) -> Iterator[Finding]:
    meant = to_weigh(computed.resolved.formula, computed.figures, computed.pantry)
    for record in computed.batches:
        formula = record.batch.formula
        if formula is None or matches(formula, computed.fingerprint):
            yield from _of(record, meant, computed)


def _of(record: BatchRecord, meant: Mapping[str, float], computed: Computed) -> Iterator[Finding]:
    """Each weight beside the others: a batch of half or twice the size is a batch of the formula."""
    weighed = {
        name: q.grams for name, q in record.batch.as_weighed.items() if q is not None and name in meant
    }
    near = STEPS * computed.settings.scale_step_grams
    there = sum(meant[name] for name in weighed)
    if there <= 0:
        return
    size = _middle(weighed[name] / meant[name] for name in weighed if meant[name] > 0)
    for name, grams in weighed.items():
        asked = meant[name] * (size or 1.0)
        if asked > 0 and not asked / FAR <= grams <= asked * FAR and abs(grams - asked) > near:
            yield record.finding(
                RULE.name,
                ("as-weighed", name),
                f"lot {record.batch.lot} records {computed.weight(grams)} of {name}, where the formula asks for "
                f"{computed.weight(asked)} beside its other weights",
                "write what the scale showed; a batch that was made otherwise is another formula",
                "warning",
                about=f"{record.batch.lot} {name}",
            )


def _middle(ratios: Iterator[float]) -> float:
    """The middle one: that of most weights, whatever the odd one says."""
    found = sorted(ratios)
    return found[len(found) // 2] if len(found) > 2 else 1.0


RULE = Rule(
    "record-weights",
    "sense",
    "The weights of a record are those of its formula, at the size that was made. A weight that is a "
    "quarter more than what goes with the others, or a fifth less, is a typing mistake, a mistake at "
    "the scale, or another formula (limits: common practice, no source).",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="weight",
)
