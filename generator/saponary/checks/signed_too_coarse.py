"""signed-too-coarse: a signed figure too rough to notice a change that matters."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.figure import FINGERPRINT
from saponary.checks.listed import IN_RECIPES, WARNING
from saponary.checks.rule import Rule
from saponary.quantity.units import MASS, QuantityError, parse
from saponary.reading.findings import Finding

_ROUGHEST = 0.02


def check(computed: Computed) -> Iterator[Finding]:
    for name, text in computed.model.signed.items():
        figure = computed.catalogue.get(name)
        if name == FINGERPRINT or figure is None or figure.kind != "mass" or figure.value <= 0:
            continue
        try:
            written = parse(text, units=tuple(MASS), example="138.7 g")
        except QuantityError:
            continue
        decimals = written.decimals or 0
        size = figure.in_unit(written.unit)
        if 10.0**-decimals > _ROUGHEST * size:
            while 10.0**-decimals > _ROUGHEST * size:
                decimals += 1
            yield computed.finding(
                RULE.name,
                ("signed", name),
                f"{text.strip()} is too rough a figure to hold {name} to",
                f"write it as {figure.text(written.unit, decimals)}",
                "warning",
                about=name,
            )


RULE = Rule(
    "signed-too-coarse",
    "sense",
    "A signed weight that is rounded by more than a fiftieth of itself would hide a change in the formula.",
    recipe=check,
    kinds=WARNING,
    waivable=IN_RECIPES,
    each="figure",
)
