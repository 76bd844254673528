"""fragrance: a scent above the limit of its certificate, or without one."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.computed import Computed
from saponary.book.cured import cured_water
from saponary.checks.listed import BOTH, IN_RECIPES
from saponary.checks.rule import Rule
from saponary.label.bar_input import bar_input, scraps_of
from saponary.label.contents import found
from saponary.label.scents import Scent, first_uses, scent, uncertified
from saponary.label.tables import as_on_paper
from saponary.quantity.rounding import as_decimal, show
from saponary.reading.findings import Finding
from saponary.reading.tree import Path


def check(computed: Computed) -> Iterator[Finding]:
    pantry, water, lookup = computed.pantry, cured_water(computed.settings), scraps_of(computed)
    uses = first_uses(computed.additions(), pantry, lookup, water)
    if not uses:
        return
    bar = found(bar_input(computed), pantry, lookup, water)
    all_scents = scent(bar, pantry)
    for name, path in uses.items():
        yield from _over(computed, all_scents, name, path)
    for name in uncertified(bar.parts, pantry):
        yield computed.finding(
            RULE.name, (*uses[name], "what"), f"no certificate says how much {name!r} a bar may hold",
            "add certificate: {maximum: …, from: …} to it under fragrances: in pantry.yaml", "warning",
            about=name,
        )  # fmt: skip


def _over(computed: Computed, scents: Scent, name: str, path: Path) -> Iterator[Finding]:
    papers = computed.pantry.fragrances.get(name)
    if papers is None or papers.certificate is None or name not in scents.grams:
        return
    most, share = papers.certificate.maximum, as_on_paper(scents.share(name))
    if share > most:
        yield computed.finding(
            RULE.name, (*path, "amount"),
            f"{name!r} makes {show(100 * share, 2)} % of the cured bar; its certificate allows {as_decimal(100 * most, 6)} %",
            f"stay below {computed.weight(most * scents.cured_grams)} in all; the batch is calculated as "
            f"{computed.weight(scents.cured_grams, 0)} of cured soap",
            about=name,
        )  # fmt: skip


RULE = Rule(
    "fragrance",
    "label",
    "A supplier's certificate gives the largest share of a scent in the finished product; no general "
    "figure can replace it. The share is of the cured bar, summed over all blends and scraps in it.",
    recipe=check,
    kinds=BOTH,
    waivable=IN_RECIPES,
    each="scent",
)
