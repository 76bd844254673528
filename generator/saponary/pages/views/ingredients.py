"""The ingredients as charged: what was put in, by falling weight."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from saponary.checks.rule import Case
from saponary.pages import names
from saponary.pages.numbers import percent


@dataclass(frozen=True)
class Ingredient:
    name: str
    inci: str
    latin: str
    share: str


def ingredients(case: Case) -> tuple[Ingredient, ...]:
    """Heaviest first; of equal weights the first by name. What is only dusted or strewn comes last."""
    whole = case.figures.loaf or 1.0
    weighed = sorted(_weighed(case).values(), key=lambda item: (-item[0], item[1]))
    lines = [
        Ingredient(name, inci, latin, _share(grams / whole))
        for grams, name, inci, latin in weighed
        if grams > 0
    ]
    return (*lines, *_dry(case, {line.name for line in lines}))


def _share(fraction: float) -> str:
    return percent(fraction) if fraction >= 0.0005 else "below 0.1 %"


def _weighed(case: Case) -> dict[str, tuple[float, str, str, str]]:
    found: dict[str, tuple[float, str, str, str]] = {}
    for grams, name, inci, latin in _parts(case):
        before = found[name][0] if name in found else 0.0
        found[name] = (before + grams, name, inci, latin)
    return found


def _parts(case: Case) -> Iterator[tuple[float, str, str, str]]:
    shelf, f = case.book.pantry, case.figures
    for oil in case.built.formula.oils:
        entry = shelf.oils.get(oil.id)
        name = names.oil(shelf, oil.id)
        if oil.infused_with:
            name = f"{name}, infused with {names.botanical(shelf, oil.infused_with)}"
        yield oil.grams, name, (entry.inci if entry else None) or "", (entry.latin if entry else None) or ""
    yield f.water.plain, "Water", "Aqua", ""
    yield f.weights.sodium_hydroxide, "Sodium hydroxide", "Sodium Hydroxide", ""
    yield f.weights.potassium_hydroxide, "Potassium hydroxide", "Potassium Hydroxide", ""
    for part in case.built.formula.liquids:
        liquid = shelf.liquid(part.id)
        yield (
            part.grams,
            names.liquid(shelf, part.id),
            (liquid.inci if liquid else None) or "",
            (liquid.latin if liquid else None) or "",
        )
    for added in case.built.formula.additions:
        yield added.grams, *_addition(case, added.id)


def _addition(case: Case, name: str) -> tuple[str, str, str]:
    found = case.book.pantry.additions.get(name)
    inci = ", ".join(filter(None, (found.inci, f"CI {found.ci}" if found.ci else None))) if found else ""
    return names.addition(case.book.pantry, name), inci, (found.latin if found else None) or ""


def _dry(case: Case, listed: set[str]) -> Iterator[Ingredient]:
    for step in case.model.pour:
        for name, how in (
            (step.line.of if step.line else None, "dusted"),
            (step.embeds.of if step.embeds else None, "set in"),
            (step.top.strewn if step.top else None, "strewn"),
        ):
            if name is None:
                continue
            called, inci, latin = _addition(case, name)
            if called not in listed:
                listed.add(called)
                yield Ingredient(called, inci, latin, how)
