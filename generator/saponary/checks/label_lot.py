"""label-lot: a label that is made for a lot which is not recorded, is held back, or is another soap."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.standing import Unlabelled, standings, unlabelled
from saponary.checks.listed import BOTH
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding, Severity, suggest


def check(computed: Computed) -> Iterator[Finding]:
    label = computed.model.label
    if label is None or label.lot is None:
        return
    known, path = standings(computed), ("label", "lot")
    if label.lot not in known:
        hint = suggest(label.lot, known, "lots") if known else "record the batch first, or leave lot: out"
        yield computed.finding(RULE.name, path, f"no batch of the lot {label.lot!r} is recorded here", hint)
        return
    why = unlabelled(computed, label.lot)
    if why is not None and why != "unrecorded":
        said, hint = WHY[why]
        severity: Severity = "error" if why == "held" else "warning"
        said = f"lot {label.lot} {said}, so that no labels of it are made"
        yield computed.finding(RULE.name, path, said, hint, severity)


WHY: dict[Unlabelled, tuple[str, str]] = {
    "held": ("is held back", "name another lot, or record a later test that finds no free alkali"),
    "astray": (
        "is another soap than the recipe by the weights of its record",
        "correct what it weighed, or name another lot",
    ),
    "formula": (
        "was poured to another formula than the recipe has now",
        "name a lot of this formula; labels of any lot, with a line to write on, are made without lot:",
    ),
}
"""What is said of a lot of which no labels are made, and what to do."""


RULE = Rule(
    "label-lot",
    "label",
    "A label names a lot, and the day until which it is good, only where that lot is recorded, is not held "
    "back, and was poured to the formula that its list of ingredients tells of.",
    recipe=check,
    kinds=BOTH,
)
