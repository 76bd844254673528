"""cook-loss: a pot that is heavier after its cook than before, or that lost more than all its water."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.rule import Rule
from saponary.lye.cook import cooked
from saponary.reading.findings import Finding

_HINT = "weigh the pot with its spoon and without its lid both times, and look for a typing mistake"


def check(computed: Computed) -> Iterator[Finding]:
    for record in computed.batches:
        pot = record.batch.pot
        if pot is None:
            continue
        found = cooked(computed.figures, pot.before.grams, pot.after.grams)
        if found.lost < 0:
            said = f"lot {record.batch.lot}: the pot is {computed.weight(-found.lost)} heavier after the cook than before it"
            yield record.finding(RULE.name, ("pot", "after"), said, _HINT)
        elif found.left < 0:
            said = (
                f"lot {record.batch.lot}: the pot lost {computed.weight(found.lost)}, and there were "
                f"{computed.weight(found.water)} of water in all"
            )
            yield record.finding(RULE.name, ("pot", "after"), said, _HINT)


RULE = Rule(
    "cook-loss",
    "sense",
    "A cook boils off water and nothing else. A pot cannot gain weight by it, and cannot lose more than"
    " the water in it.",
    recipe=check,
)
