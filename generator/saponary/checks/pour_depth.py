"""pour-depth: a bed's stated depth that its portion's volume cannot fill."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding

_NEAR = 0.03


def check(computed: Computed) -> Iterator[Finding]:
    whole = sum(p.batter_ml for p in computed.figures.portions)
    if whole <= 0:
        return
    shares = {p.name: p.batter_ml / whole for p in computed.figures.portions}
    beds = [
        (("pour", s, "beds", b, "depth"), bed)
        for s, step in enumerate(computed.model.pour)
        for b, bed in enumerate(step.beds or ())
    ]
    elsewhere: set[str] = set()
    for step in computed.model.pour:
        elsewhere |= {
            name for laying in (step.columns, step.drops, step.plops) if laying for name in laying.of
        }
        elsewhere |= {step.drops.into} if step.drops else set()
    for path, bed in beds:
        if bed.depth is None or bed.of not in shares or bed.of in elsewhere:
            continue
        alone = sum(other.of == bed.of for _, other in beds) == 1
        part = bed.part.fraction if bed.part is not None else 1.0 if alone else None
        if part is None:
            continue
        real = shares[bed.of] * part
        if abs(real - bed.depth.fraction) > _NEAR:
            yield computed.finding(
                RULE.name,
                path,
                f"this bed is said to fill {bed.depth.text.strip()} and its batter fills {show(100 * real, 0)} %",
                "the drawing uses the volume; correct the depth, or the portion's share",
                "warning",
                about=bed.of,
            )


RULE = Rule(
    "pour-depth",
    "sense",
    "You read a bed's depth from the mould. The batter of its portion must fill the same share of the "
    "volume, so that the drawing is true.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="portion",
)
