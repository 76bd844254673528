"""label-lot: a label that is made for a lot which is not recorded, or which is held back."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.standing import standings
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding, suggest


def check(computed: Computed) -> Iterator[Finding]:
    label = computed.model.label
    if label is None or label.lot is None:
        return
    known, path = standings(computed), ("label", "lot")
    if label.lot not in known:
        hint = suggest(label.lot, known, "lots") if known else "record the batch first, or leave lot: out"
        yield computed.finding(RULE.name, path, f"no batch of the lot {label.lot!r} is recorded here", hint)
    elif known[label.lot].held:
        yield computed.finding(
            RULE.name,
            path,
            f"lot {label.lot} is held back, so that no labels of it are made",
            "name another lot, or record a later test that finds no free alkali",
        )


RULE = Rule(
    "label-lot",
    "label",
    "A label names a lot, and the day until which it is good, only where that lot is recorded and not "
    "held back.",
    recipe=check,
)
