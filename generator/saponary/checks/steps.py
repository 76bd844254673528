"""steps: a step of the work that names a portion which does not exist."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.checks.rule import Case, Rule
from saponary.reading.findings import Finding, suggest


def check(case: Case) -> Iterator[Finding]:
    portions = [p.name for p in case.model.portions]
    for index, step in enumerate(case.model.steps):
        if step.portion is not None and step.portion not in portions:
            yield case.finding(
                RULE.name,
                ("steps", index, "portion"),
                f"there is no portion {step.portion!r}",
                suggest(step.portion, portions, "portions"),
            )
        if step.at == "portion" and step.portion is None:
            yield case.finding(
                RULE.name, ("steps", index, "at"), "this step does not say which portion", "add portion: NAME"
            )


RULE = Rule(
    "steps",
    "sense",
    "Prose steps are set into the order of hands. One that belongs to a portion names a portion of the recipe.",
    check,
    waivable=False,
)
