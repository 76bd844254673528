"""soap-cap: more ready-made soap than its cap, in a portion or the whole batch."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.about import placed
from saponary.checks.listed import IN_RECIPES
from saponary.checks.rule import Rule
from saponary.reading.findings import Finding
from saponary.reading.tree import Path


def check(computed: Computed) -> Iterator[Finding]:
    per_place: dict[tuple[str, str | None], tuple[Path, float, float]] = {}
    for addition in computed.resolved.formula.additions:
        cap = computed.pantry.additions[addition.id].cap
        if cap is None:
            continue
        path = next(
            p
            for p, what, portion in computed.additions()
            if what == addition.id and portion == addition.portion
        )
        for where in {None, addition.portion}:
            first, _, grams = per_place.get((addition.id, where), (path, cap, 0.0))
            per_place[addition.id, where] = (first, cap, grams + addition.grams)
    oils = {p.name: p.oils_grams for p in computed.figures.portions}
    for (name, portion), (path, cap, grams) in sorted(
        per_place.items(), key=lambda item: (item[0][0], item[0][1] or "")
    ):
        into = computed.figures.oils if portion is None else oils[portion]
        if grams > cap * into / 1000.0 + 1e-6:
            whose = "the batch" if portion is None else f"the portion {portion!r}"
            yield computed.finding(
                RULE.name, (*path, "amount"), f"{computed.weight(grams)} of {name} in {whose} is over its cap",
                f"at most {computed.weight(cap * into / 1000.0)} for {computed.weight(into, 0)} of oils",
                about=placed(name, portion),
            )  # fmt: skip


RULE = Rule(
    "soap-cap",
    "danger",
    "Raw plant-ash soap may bring free alkali. Common practice (no source) is at most 85 g for 1275 g "
    "of oils, checked here for each portion and for the batch.",
    recipe=check,
    waivable=IN_RECIPES,
    each="addition",
)
