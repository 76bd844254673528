"""pour: portions left unpoured, and steps of the pour that name what is not there."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.pour_uses import pour_uses
from saponary.checks.listed import BOTH
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding, suggest
from saponary.reading.tree import Path
from saponary.schema.pour import PourStep


def check(computed: Computed) -> Iterator[Finding]:
    portions = [p.name for p in computed.model.portions]
    pantry = computed.pantry.additions
    laid: set[str] = set()
    unread = False
    for index, step in enumerate(computed.model.pour):
        path: Path = ("pour", index)
        if not step.kind:
            yield computed.finding(
                RULE.name,
                path,
                "a step of the pour has exactly one key",
                "begin a new line with a dash for each key",
            )
            unread = True
            continue
        for where, name in _portion_names(step, path):
            laid.add(name)
            if name not in portions:
                yield computed.finding(
                    RULE.name, where, f"there is no portion {name!r}", suggest(name, portions, "portions")
                )
    for use in pour_uses(computed):
        if use.what not in pantry:
            yield computed.finding(
                RULE.name,
                use.path,
                f"{use.what!r} is not in the pantry",
                computed.instead[use.what],
            )
    if computed.model.pour and not unread and laid <= set(portions):
        for index, name in enumerate(portions):
            if name not in laid:
                yield computed.finding(
                    RULE.name,
                    ("portions", index, "name"),
                    f"the portion {name!r} is never poured",
                    f"name it in a step of the pour, such as - beds: [{{of: {name}}}]",
                    "warning",
                )


def _portion_names(step: PourStep, path: Path) -> Iterator[tuple[Path, str]]:
    for index, bed in enumerate(step.beds or ()):
        yield (*path, "beds", index, "of"), bed.of
    if step.drops is not None:
        yield (*path, "drops", "into"), step.drops.into
    for kind, laying in (("columns", step.columns), ("drops", step.drops), ("plops", step.plops)):
        for index, name in enumerate(laying.of if laying is not None else ()):
            yield (*path, kind, "of", index), name
    if step.line is not None:
        yield (*path, "line", "over"), step.line.over


RULE = Rule(
    "pour",
    "sense",
    "The pour is drawn from its steps. Every portion must be in one of them, and every name in them "
    "must be a portion of the recipe or an addition of the pantry.",
    recipe=check,
    kinds=BOTH,
)
