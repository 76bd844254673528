"""steps: a step of the work that names a portion which does not exist."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding, suggest


def check(computed: Computed) -> Iterator[Finding]:
    portions = [p.name for p in computed.model.portions]
    for index, step in enumerate(computed.model.steps):
        if step.portion is not None and step.portion not in portions:
            yield computed.finding(
                RULE.name,
                ("steps", index, "portion"),
                f"there is no portion {step.portion!r}",
                suggest(step.portion, portions, "portions"),
            )
        if step.at == "portion" and step.portion is None:
            yield computed.finding(
                RULE.name, ("steps", index, "at"), "this step does not say which portion", "add portion: NAME"
            )


RULE = Rule(
    "steps",
    "sense",
    "Your own steps are placed in the order of the work. A step for a portion must name a portion of "
    "the recipe.",
    recipe=check,
)
