"""From a recipe as written to a formula in grams, with everything that does not add up.

This is where shares become grams, volumes become grams by a density, names become pantry
entries, and a mould becomes so much oil. Whatever cannot be resolved is a finding; a
formula comes back only where nothing that matters to the lye was left open.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from saponary.book import blend
from saponary.lye import formula as lye
from saponary.lye import mould as geometry
from saponary.lye.figures import weigh
from saponary.pantry import model as pantry
from saponary.quantity.units import Amount
from saponary.reading.findings import Finding, suggest
from saponary.reading.reporter import Reporter
from saponary.reading.tree import Path, Tree
from saponary.schema import recipe as written
from saponary.schema.settings import Settings

FILL = 0.95
"""How full a mould is poured where nothing is said: common practice, no source."""


@dataclass(frozen=True)
class Sized:
    """The formula at another size: a mould filled, or a weight of oils."""

    name: str
    formula: lye.Formula
    bars: int | None


@dataclass(frozen=True)
class Resolved:
    """A formula, and what of the recipe stays outside the engine."""

    formula: lye.Formula
    mould: geometry.Mould | None = None
    mould_name: str | None = None
    bars: int | None = None
    sizes: tuple[Sized, ...] = ()


@dataclass
class _Draft:
    """The formula for any total of oils, as functions of that total."""

    oils: Callable[[float], tuple[lye.Oil, ...]]
    extras: list[Callable[[float], lye.Addition]] = field(default_factory=list)
    liquids: list[Callable[[float], lye.Liquid]] = field(default_factory=list)
    portions: Callable[[float], tuple[lye.Portion, ...]] = lambda total: ()


def resolve(
    recipe: written.Recipe, settings: Settings, shelf: pantry.Pantry, tree: Tree, file: str
) -> tuple[Resolved | None, list[Finding]]:
    """Resolve a recipe against the book's settings and pantry."""
    return _Builder(recipe, settings, shelf, Reporter(tree, file, "sense")).run()


class _Builder:
    def __init__(
        self, recipe: written.Recipe, settings: Settings, shelf: pantry.Pantry, report: Reporter
    ) -> None:
        self.recipe, self.settings, self.shelf, self.report = recipe, settings, shelf, report

    def run(self) -> tuple[Resolved | None, list[Finding]]:
        shares = blend.shares(self.recipe.oils.parts, ("oils", "parts"), self.shelf, self.report)
        total = blend.total(self.recipe.oils, self.report)
        alkali = self.alkali()
        superfat = self.recipe.superfat or self.settings.superfat
        if superfat is None:
            self.report.add((), "no superfat is given", "add superfat: 5 % here or in book.yaml")
        water = self.recipe.water or self.settings.water
        if water is None:
            self.report.add((), "no water is given", "add water: {lye-strength: 33 %} here or in book.yaml")
        draft = self.draft(shares)
        mould_name, mould = self.mould()
        if (
            superfat is None
            or water is None
            or alkali is None
            or any(f.severity == "error" for f in self.report.findings)
        ):
            return None, self.report.findings
        convention, value = _convention(water)

        def at(oils: float) -> lye.Formula:
            portions = draft.portions(oils)
            own = [oil for p in portions if p.oils for oil in p.oils]
            oils_of_batch = draft.oils(oils)
            if own:
                common = sum(p.share for p in portions if p.oils is None)
                oils_of_batch = blend.merge([*(blend.scaled(o, common) for o in oils_of_batch), *own])
            return lye.Formula(
                oils=oils_of_batch,
                alkali=alkali,
                superfat=superfat.fraction,
                water=lye.Water(convention, value),
                liquids=tuple(make(oils) for make in draft.liquids),
                additions=tuple(make(oils) for make in draft.extras),
                portions=tuple(
                    p
                    if p.oils is not None or not own
                    else lye.Portion(
                        p.name, p.share, tuple(blend.scaled(o, p.share) for o in draft.oils(oils))
                    )
                    for p in portions
                ),
                separate_pots=self.recipe.pots == "separate",
                scale_step=self.settings.scale_step_grams,
            )

        if total is None:
            total = self.fill(at, mould)
        if total is None:
            return None, self.report.findings
        whole = at(total)
        built = Resolved(whole, mould, mould_name, self.bars(mould), self.sizes(whole))
        return built, self.report.findings

    # --- lye and mould ----------------------------------------------------------------

    def alkali(self) -> lye.Alkali | None:
        given = self.recipe.lye
        if given is None or (given.sodium is None and given.potassium is None):
            purity = self.settings.purity.sodium
            return lye.Alkali(sodium_purity=purity.fraction if purity else 1.0)
        shares, purities = [], []
        for name, own, default in (
            ("sodium", given.sodium, self.settings.purity.sodium),
            ("potassium", given.potassium, self.settings.purity.potassium),
        ):
            shares.append(own.share.value / (100 if own.share.unit == "%" else 1) if own else Fraction(0))
            purity = own.purity if own and own.purity else default
            pure = purity.fraction if purity else 1.0
            if not 0.5 <= pure <= 1.0:
                self.report.add(
                    ("lye", name, "purity"),
                    f"a purity of {100 * pure:g} % is no alkali of the trade",
                    "from 50 % to 100 %",
                )
                return None
            purities.append(pure)
        whole = sum(shares, Fraction(0))
        if abs(whole - 1) > blend.SUM_TOLERANCE:
            self.report.add(
                ("lye",),
                f"the alkalis sum to {float(whole) * 100:.4g} %",
                "sodium and potassium share 100 % of the equivalents",
                key=True,
            )
            return None
        return lye.Alkali(float(shares[0] / whole), float(shares[1] / whole), *purities)

    def mould(self) -> tuple[str | None, geometry.Mould | None]:
        fill = self.recipe.oils.fill
        name = fill.mould if fill else self.recipe.mould
        if name is None:
            return None, None
        path: Path = ("oils", "fill", "mould") if fill else ("mould",)
        if name not in self.shelf.moulds:
            self.report.add(
                path, f"the mould {name!r} is not in the pantry", suggest(name, self.shelf.moulds, "moulds")
            )
            return name, None
        return name, self.shelf.moulds[name]

    def bars(self, mould: geometry.Mould | None) -> int | None:
        if mould is None:
            return None
        if mould.kind == "cavities":
            return mould.count
        cut = self.recipe.cut
        if cut is None:
            return None
        return geometry.bars(mould, cut.along.millimetres, cut.across.millimetres if cut.across else None)

    def sizes(self, whole: lye.Formula) -> tuple[Sized, ...]:
        """The other sizes offered, each the whole formula times one factor."""
        made: list[Sized] = []
        fill = self.recipe.oils.fill
        for index, size in enumerate(self.recipe.sizes):
            if size.oils is not None:
                factor = size.oils.grams / whole.oils_grams
                made.append(Sized(size.oils.text.strip(), whole.scaled(factor), None))
                continue
            name = size.mould or ""
            mould = self.shelf.moulds.get(name)
            if mould is None:
                self.report.add(
                    ("sizes", index),
                    f"the mould {name!r} is not in the pantry",
                    suggest(name, self.shelf.moulds, "moulds"),
                )
                continue
            to = size.to.fraction if size.to else fill.to.fraction if fill else FILL
            factor = geometry.millilitres(mould) * to / weigh(whole).loaf_ml
            made.append(Sized(name, whole.scaled(factor), self.bars(mould)))
        return tuple(made)

    def fill(self, at: Callable[[float], lye.Formula], mould: geometry.Mould | None) -> float | None:
        """Grams of oils that fill the mould."""
        fill = self.recipe.oils.fill
        if fill is None or mould is None:
            return None
        wanted = geometry.millilitres(mould) * fill.to.fraction
        grams = geometry.filled_by(lambda oils: weigh(at(oils)).loaf_ml, wanted)
        if grams is None:
            self.report.add(
                ("oils", "fill"), "this mould has no room for any oil", "fill it further, or add less"
            )
            return None
        return grams

    # --- additions, liquids, portions ---------------------------------------------------

    def grams(self, amount: Amount, density: float | None, path: Path, name: str) -> Callable[[float], float]:
        """Grams of an amount, given the grams of oil it goes into."""
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

    def addition(
        self, item: written.Addition, path: Path, portion: str | None, share: float
    ) -> Callable[[float], lye.Addition] | None:
        entry = self.shelf.additions.get(item.what)
        if entry is None:
            hint = (
                "it is a liquid: list it under liquids"
                if item.what in self.shelf.liquids
                else suggest(item.what, self.shelf.additions, "additions")
            )
            if item.what in self.shelf.oils:
                hint = "it is an oil: list it under oils, where it counts for the lye"
            self.report.add((*path, "what"), f"the addition {item.what!r} is not in the pantry", hint)
            return None
        grams = self.grams(item.amount, entry.density, (*path, "amount"), item.what)
        stage = item.at or entry.stage
        found = entry
        return lambda oils: lye.Addition(
            found.id,
            grams(oils * share),
            stage,
            portion,
            found.acid,
            found.base,
            found.water,
            found.displaces,
        )

    def liquid(
        self, item: written.Liquid, path: Path, portion: str | None, share: float
    ) -> Callable[[float], lye.Liquid] | None:
        entry = self.shelf.liquid(item.what)
        if entry is None:
            hint = (
                "it is no liquid: list it under additions"
                if item.what in self.shelf.additions
                else suggest(item.what, self.shelf.liquids, "liquids")
            )
            self.report.add((*path, "what"), f"the liquid {item.what!r} is not in the pantry", hint)
            return None
        grams = self.grams(item.amount, entry.density, (*path, "amount"), item.what)
        found = entry
        return lambda oils: lye.Liquid(
            id=found.id, grams=grams(oils * share), water=found.water, fat=found.fat, fat_value=found.fat_value,
            sugar=found.sugar, stage=item.at, portion=portion, acid=found.acid, density=found.density,
        )  # fmt: skip

    def draft(self, shares: Mapping[str, float]) -> _Draft:
        recipe = self.recipe
        makers = [
            (blend.oil(name, part, self.shelf), shares.get(name, 0.0))
            for name, part in recipe.oils.parts.items()
        ]
        for name, part in recipe.oils.parts.items():
            if part.infused_with is not None:
                blend.check_botanical(
                    part.infused_with, ("oils", "parts", name, "infused-with"), self.shelf, self.report
                )
        draft = _Draft(oils=lambda total: tuple(make(total * share) for make, share in makers))
        self.extras(draft, recipe.liquids, recipe.additions, (), None, 1.0)
        if recipe.portions:
            self.portions(draft, shares)
        elif recipe.pots == "separate":
            self.report.add(("pots",), "separate pots need portions", "add portions:, or leave pots out")
        return draft

    def extras(
        self, draft: _Draft, liquids: Iterable[written.Liquid], additions: Iterable[written.Addition],
        path: Path, portion: str | None, share: float,
    ) -> None:  # fmt: skip
        for index, wet in enumerate(liquids):
            liquid = self.liquid(wet, (*path, "liquids", index), portion, share)
            if liquid is not None:
                draft.liquids.append(liquid)
        for index, dry in enumerate(additions):
            addition = self.addition(dry, (*path, "additions", index), portion, share)
            if addition is not None:
                draft.extras.append(addition)

    def portions(self, draft: _Draft, shares: Mapping[str, float]) -> None:
        recipe = self.recipe
        exact = [p.share.value / (100 if p.share.unit == "%" else 1) for p in recipe.portions]
        whole = sum(exact, Fraction(0))
        if abs(whole - 1) > blend.SUM_TOLERANCE:
            gap = float(1 - whole) * 100
            self.report.add(
                ("portions",),
                f"the portions sum to {float(whole) * 100:.4g} %",
                f"{abs(gap):.4g} percentage points {'are missing' if gap > 0 else 'are too many'}",
                key=True,
            )
        made: list[tuple[str, float, Callable[[float], tuple[lye.Oil, ...] | None]]] = []
        seen: set[str] = set()
        for index, portion in enumerate(recipe.portions):
            path: Path = ("portions", index)
            if portion.name in seen:
                self.report.add(
                    (*path, "name"),
                    f"two portions are called {portion.name!r}",
                    "give each portion its own name",
                )
            seen.add(portion.name)
            share = float(exact[index] / whole) if whole else 0.0
            made.append((portion.name, share, self.pot(portion, path, share, shares)))
            self.extras(draft, portion.liquids, portion.additions, path, portion.name, share)
        draft.portions = lambda total: tuple(
            lye.Portion(name, share, pot(total)) for name, share, pot in made
        )

    def pot(
        self, portion: written.Portion, path: Path, share: float, shares: Mapping[str, float]
    ) -> Callable[[float], tuple[lye.Oil, ...] | None]:
        """A portion's own oils, where it has a pot of its own and they differ."""
        for carrier, botanical in portion.infused.items():
            if carrier not in self.recipe.oils.parts:
                self.report.add(
                    (*path, "infused", carrier),
                    f"{carrier!r} is not among this recipe's oils",
                    suggest(carrier, self.recipe.oils.parts, "oils"),
                    key=True,
                )
            blend.check_botanical(botanical, (*path, "infused", carrier), self.shelf, self.report)
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
            blend.shares(parts, (*path, "oils", "parts"), self.shelf, self.report)
            if portion.oils
            else dict(shares)
        )
        makers = [
            (blend.oil(name, part, self.shelf, portion.infused.get(name)), own.get(name, 0.0))
            for name, part in parts.items()
        ]
        return lambda total: tuple(make(total * share * of_pot) for make, of_pot in makers)


def _convention(water: written.Water) -> tuple[lye.Convention, float]:
    if water.lye_strength is not None:
        return "lye-strength", water.lye_strength.fraction
    if water.to_lye is not None:
        return "to-lye", water.to_lye.number
    assert water.of_oils is not None
    return "of-oils", water.of_oils.fraction
