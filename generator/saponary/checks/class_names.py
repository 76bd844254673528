"""class-names: a class of what the book does not hold."""

from __future__ import annotations

from collections.abc import Iterator

from saponary.book.classes import ALKALIS, WATER
from saponary.checks.rule import ProofContext, Rule
from saponary.reading.findings import Finding, suggest
from saponary.reading.reporter import Reporter


def check(context: ProofContext) -> Iterator[Finding]:
    shelf = context.book.pantry
    recipes = {recipe.slug for recipe in context.book.recipes}
    known = {*shelf.oils, *shelf.liquids, *shelf.additions, *ALKALIS, WATER}
    for read in context.book.classes:
        plan = read.plan
        if plan is None:
            continue
        report = Reporter(read.tree, read.file, RULE.name)
        for index, slug in enumerate(plan.recipes):
            if slug not in recipes:
                report.add(
                    ("recipes", index), f"there is no recipe {slug!r}", suggest(slug, recipes, "recipes")
                )
            elif slug in plan.recipes[:index]:
                report.add(("recipes", index), f"the recipe {slug!r} is named twice", "name each recipe once")
        if plan.mould is not None and plan.mould not in shelf.moulds:
            message = f"the mould {plan.mould!r} is not in the pantry"
            report.add(("mould",), message, suggest(plan.mould, shelf.moulds, "moulds"))
        for name in plan.packs:
            if name not in known:
                message = f"{name!r} is not in the pantry"
                report.add(("packs", name), message, suggest(name, known, "ingredients"), key=True)
        yield from report.findings


RULE = Rule(
    "class-names",
    "sense",
    "A class names recipes of this book, each once, and a mould and packs that the pantry knows.",
    book=check,
)
