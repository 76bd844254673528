"""What goes into a batch, as functions of the grams of its oils: oils, liquids, additions, portions.

Names become pantry entries and volumes become grams by a density. Whatever cannot be
resolved is a finding, and is left out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from saponary.book import blend
from saponary.book.cured import cured_water
from saponary.book.extras import addition_of, liquid_of
from saponary.book.late_parts import after_cook, melted
from saponary.lye.formula import Addition, Liquid, Oil, Portion, scaled
from saponary.lye.pots import together
from saponary.pantry.model import Pantry
from saponary.quantity.amounts import Amount
from saponary.quantity.rounding import as_decimal
from saponary.reading.alike import nearest
from saponary.reading.findings import suggest
from saponary.reading.reporter import Reporter
from saponary.reading.tree import Path
from saponary.schema import blend as written
from saponary.schema.recipe import Recipe
from saponary.schema.settings import Settings


@dataclass
class BatchParts:
    """The parts of a batch for any grams of oils in all.

    `blend` gives the oils of the recipe's own blend; `pots` gives, by portion, the oils of its
    own pot, or None where it takes its share of that blend.
    """

    blend: Callable[[float], tuple[Oil, ...]]
    additions: list[Callable[[float], Addition]] = field(default_factory=list[Callable[[float], Addition]])
    liquids: list[Callable[[float, float], Liquid]] = field(
        default_factory=list[Callable[[float, float], Liquid]]
    )
    """Each for so many grams of oils, and of the water of the lye."""
    of_water: bool = False
    """Whether any liquid is given as a share of that water."""
    after_cook: list[Callable[[float], Oil]] = field(default_factory=list[Callable[[float], Oil]])
    pots: list[tuple[str, float, Callable[[float], tuple[Oil, ...] | None]]] = field(
        default_factory=list[tuple[str, float, Callable[[float], tuple[Oil, ...] | None]]]
    )

    def oils_and_portions(self, total: float) -> tuple[tuple[Oil, ...], tuple[Portion, ...]]:
        """The oils of the whole batch, and its portions, for so many grams of oils."""
        oils = self.blend(total)
        made = [(name, share, pot(total)) for name, share, pot in self.pots]
        if all(own is None for _, _, own in made):
            return oils, tuple(Portion(name, share) for name, share, _ in made)
        common = sum(share for _, share, own in made if own is None)
        apart = [oil for _, _, own in made for oil in own or ()]
        portions = tuple(
            Portion(name, share, own if own is not None else scaled(oils, share), shares_pot=own is None)
            for name, share, own in made
        )
        return together([*scaled(oils, common), *apart]), portions


def batch_parts(
    recipe: Recipe, shares: Mapping[str, float], pantry: Pantry, settings: Settings, report: Reporter
) -> BatchParts:
    """The parts of a recipe, given the shares of its blend."""
    return _Reader(recipe, shares, pantry, cured_water(settings).share, report).read()


class _Reader:
    """Reads one recipe; every finding goes to the reporter."""

    def __init__(
        self,
        recipe: Recipe,
        shares: Mapping[str, float],
        pantry: Pantry,
        soap_water: float,
        report: Reporter,
    ) -> None:
        self.recipe, self.shares, self.pantry, self.report = recipe, shares, pantry, report
        self.soap_water = soap_water

    def read(self) -> BatchParts:
        recipe = self.recipe
        makers = [
            (blend.oil(name, part, self.pantry), self.shares.get(name, 0.0))
            for name, part in recipe.oils.parts.items()
        ]
        for name, part in recipe.oils.parts.items():
            if part.infused_with is not None:
                path: Path = ("oils", "parts", name, "infused-with")
                blend.check_botanical(part.infused_with, path, self.pantry, self.report)
        parts = BatchParts(blend=lambda total: tuple(make(total * share) for make, share in makers))
        parts.after_cook += after_cook(recipe, self.pantry, self._grams, self.report)
        parts.additions += melted(recipe, self.pantry, self.soap_water)
        self._extras(parts, recipe.liquids, recipe.additions, (), None, 1.0)
        if recipe.portions:
            self._portions(parts)
        elif recipe.pots == "separate":
            self.report.add(("pots",), "separate pots need portions", "add portions:, or leave pots out")
        return parts

    def _extras(
        self,
        parts: BatchParts,
        liquids: Iterable[written.Liquid],
        additions: Iterable[written.Addition],
        path: Path,
        portion: str | None,
        share: float,
    ) -> None:
        for index, wet in enumerate(liquids):
            liquid = self._liquid(wet, (*path, "liquids", index), portion, share)
            if liquid is not None:
                parts.liquids.append(liquid)
                parts.of_water |= wet.amount.of_water
        for index, dry in enumerate(additions):
            addition = self._addition(dry, (*path, "additions", index), portion, share)
            if addition is not None:
                parts.additions.append(addition)

    def _grams(
        self, amount: Amount, density: float | None, path: Path, name: str
    ) -> Callable[[float], float]:
        """Grams of an amount, given the grams of oil (in a rebatch, of soap) it goes into."""
        base = "oils" if self.recipe.by.weighs_lye else "soap"
        if amount.of not in ("", base):
            self.report.add(
                path, f"{amount.text.strip()!r}: this base does not exist here", f"write it as % of {base}"
            )
        if amount.is_volume:
            if density is None:
                self.report.add(
                    path,
                    f"no density is known for {name!r}, so a volume cannot be weighed",
                    "give it in grams, or add density: 0.6 g/ml in pantry.yaml",
                )
                density = 1.0
            each = amount.quantity.millilitres * density
        else:
            each = amount.quantity.grams
        per = amount.per_grams_of_oil
        return (lambda oils: each) if per is None else (lambda oils: each * oils / per)

    def _addition(
        self, item: written.Addition, path: Path, portion: str | None, share: float
    ) -> Callable[[float], Addition] | None:
        entry = self.pantry.additions.get(item.what)
        if entry is None:
            hint = (
                "it is a liquid: list it under liquids"
                if item.what in self.pantry.liquids
                else _elsewhere(item.what, self.pantry)
            )
            if item.what in self.pantry.oils:
                hint = "it is an oil: list it under oils, where it counts for the lye"
            self.report.add((*path, "what"), f"the addition {item.what!r} is not in the pantry", hint)
            return None
        grams = self._grams(item.amount, entry.density, (*path, "amount"), item.what)
        stage = item.at or self.recipe.by.moves.get(entry.stage, entry.stage)
        found = entry
        return lambda oils: addition_of(found, grams(oils * share), stage, portion)

    def _liquid(
        self, item: written.Liquid, path: Path, portion: str | None, share: float
    ) -> Callable[[float, float], Liquid] | None:
        entry = self.pantry.liquid(item.what)
        if entry is None:
            hint = (
                "it is not a liquid: list it under additions"
                if item.what in self.pantry.additions
                else suggest(item.what, self.pantry.liquids, "liquids")
            )
            self.report.add((*path, "what"), f"the liquid {item.what!r} is not in the pantry", hint)
            return None
        found = entry
        stage = item.at or self.recipe.by.liquids_at
        if item.amount.of_water:
            if not self.recipe.by.weighs_lye:
                self.report.add(
                    (*path, "amount"),
                    "no lye is weighed here, so there is no water of it",
                    "write it as % of soap",
                )
            part = item.amount.quantity.fraction * share
            return lambda oils, water: liquid_of(found, part * water, stage, portion)
        grams = self._grams(item.amount, entry.density, (*path, "amount"), item.what)
        return lambda oils, water: liquid_of(found, grams(oils * share), stage, portion)

    def _portions(self, parts: BatchParts) -> None:
        portions = self.recipe.portions
        exact = [p.share.value / (100 if p.share.unit == "%" else 1) for p in portions]
        whole = sum(exact, Fraction(0))
        if abs(whole - 1) > blend.SUM_TOLERANCE:
            gap = float(1 - whole) * 100
            self.report.add(
                ("portions",),
                f"the portions add up to {as_decimal(float(whole) * 100, 4)} %",
                f"make the shares add up to 100 %: {as_decimal(abs(gap), 4)} % {'more' if gap > 0 else 'less'}",
                key=True,
            )
        seen: set[str] = set()
        for index, portion in enumerate(portions):
            path: Path = ("portions", index)
            if portion.name in seen:
                self.report.add(
                    (*path, "name"),
                    f"two portions are called {portion.name!r}",
                    "give each portion its own name",
                )
            seen.add(portion.name)
            share = float(exact[index] / whole) if whole else 0.0
            parts.pots.append((portion.name, share, self._pot(portion, path, share)))
            self._extras(parts, portion.liquids, portion.additions, path, portion.name, share)

    def _pot(
        self, portion: written.Portion, path: Path, share: float
    ) -> Callable[[float], tuple[Oil, ...] | None]:
        """A portion's own oils, where it has a pot of its own and they differ."""
        for carrier, botanical in portion.infused.items():
            if carrier not in self.recipe.oils.parts:
                self.report.add(
                    (*path, "infused", carrier),
                    f"{carrier!r} is not among this recipe's oils",
                    suggest(carrier, self.recipe.oils.parts, "oils"),
                    key=True,
                )
            blend.check_botanical(botanical, (*path, "infused", carrier), self.pantry, self.report)
        if portion.oils is None and not portion.infused:
            return lambda total: None
        if self.recipe.pots != "separate":
            where = "oils" if portion.oils else "infused"
            self.report.add(
                (*path, where),
                "a portion with oils of its own needs a pot of its own",
                "add pots: separate to the recipe",
                key=True,
            )
        parts = portion.oils.parts if portion.oils else self.recipe.oils.parts
        own = (
            blend.shares(parts, (*path, "oils", "parts"), self.pantry, self.report)
            if portion.oils
            else self.shares
        )
        makers = [
            (blend.oil(name, part, self.pantry, portion.infused.get(name)), own.get(name, 0.0))
            for name, part in parts.items()
        ]
        return lambda total: tuple(make(total * share * of_pot) for make, of_pot in makers)


def _elsewhere(what: str, pantry: Pantry) -> str:
    """The addition that was likely meant, else the liquid."""
    if nearest(what, pantry.additions) is None and nearest(what, pantry.liquids) is not None:
        return f"{suggest(what, pantry.liquids, 'liquids')}; it is a liquid: list it under liquids"
    return suggest(what, pantry.additions, "additions")
