"""fragrance: a scent above the limit of its certificate, or without one."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.checks.rule import Case, Rule
from saponary.label.contents import found
from saponary.label.cured import cured_water
from saponary.label.made import lookup_in, made
from saponary.label.scents import Scent, first_uses, scent, uncertified
from saponary.label.tables import as_on_paper
from saponary.quantity.rounding import show
from saponary.reading.findings import Finding
from saponary.reading.yaml_tree import Path


def check(case: Case) -> Iterator[Finding]:
    pantry, water, lookup = case.book.pantry, cured_water(case.book.settings), lookup_in(case.book)
    uses = first_uses(case.additions(), pantry, lookup, water)
    if not uses:
        return
    bar = found(made(case.model, case.built.formula, case.figures), pantry, lookup, water)
    all_scents = scent(bar, pantry)
    for name, path in uses.items():
        yield from _over(case, all_scents, name, path)
    for name in uncertified(bar.parts, pantry):
        yield case.finding(
            RULE.name, (*uses[name], "what"), f"no certificate says how much {name!r} a bar may hold",
            "add certificate: {maximum: …, from: …} to it under fragrances: in pantry.yaml", "warning",
        )  # fmt: skip


def _over(case: Case, scents: Scent, name: str, path: Path) -> Iterator[Finding]:
    papers = case.book.pantry.fragrances.get(name)
    if papers is None or papers.certificate is None or name not in scents.grams:
        return
    most, share = papers.certificate.maximum, as_on_paper(scents.share(name))
    if share > most:
        yield case.finding(
            RULE.name, (*path, "amount"),
            f"{name!r} makes {show(100 * share, 2)} % of the cured bar; its certificate allows {100 * most:g} %",
            f"stay below {show(most * scents.cured_grams, 1)} g in all; the bar is reckoned at "
            f"{show(scents.cured_grams, 0)} g of soap cured",
        )  # fmt: skip


RULE = Rule(
    "fragrance",
    "label",
    "A supplier's certificate gives the largest share of the finished product for its own scent; no general "
    "figure stands in for it. The share is of the cured bar, summed over all blends and scraps in it.",
    check,
)
