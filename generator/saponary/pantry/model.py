"""What the pantry holds: oils, liquids, additions with or without colour, moulds, stocks.

Values are plain numbers in the engine's units (g, ml, mm, mass fractions, mg KOH/g);
every entry carries where its values come from.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from datetime import date
from typing import Annotated, Literal

from saponary.lye.formula import Ester, Metal, Stage
from saponary.lye.mould import Mould
from saponary.pantry.rows import own_rows
from saponary.pantry.with_alkali import with_alkali
from saponary.schema.addition_entry import AdditionEntry, LyeOrder
from saponary.schema.fragrance_entry import FragranceEntry
from saponary.schema.ingredient import Allergen, Hazard, How, Origin
from saponary.schema.liquid_entry import LiquidEntry
from saponary.schema.oil_entry import OilEntry
from saponary.schema.seen import Private, Public, Seen


@dataclass(frozen=True)
class Source:
    """Where a group of values comes from: how it is known, which publication, which place in it."""

    how: How
    publication: str | None = None
    where: str | None = None


Sources = Mapping[str, Source]


@dataclass(frozen=True)
class Range:
    """A value used, with the ends of its published or certified range."""

    value: float
    low: float
    high: float


Entry = OilEntry | LiquidEntry | AdditionEntry


@dataclass(frozen=True, kw_only=True)
class Ingredient:
    """What is known of any ingredient. `entry` is all that was stated, for whoever reads more of it.

    `common` is the plain name that a table has of what the maker's entry is laid over, '' for none.
    """

    id: Public[str]
    name: Public[str]
    entry: Public[Entry]
    latin: Public[str | None] = None
    inci: Public[str | None] = None
    allergens: Public[tuple[Allergen, ...]] = ()
    hazards: Public[tuple[Hazard, ...]] = ()
    origin: Public[Origin] = "unknown"
    density: Public[float | None] = None
    price_per_kg: Annotated[float | None, Seen("costs")] = None
    note: Private[str | None] = None
    common: Public[str] = ""
    source: Public[Sources] = field(default_factory=dict[str, Source])

    @property
    def own(self) -> bool:
        """Whether the maker's pantry states anything of it."""
        return OWN in self.source

    @property
    def with_alkali(self) -> str:
        """How it takes alkali, for a hint that names it; '' where it leaves it alone."""
        return with_alkali(self)

    @property
    def unknown(self) -> tuple[str, ...]:
        """The facts that neither a table nor the maker states, by the key one would state them with."""
        wanted = {"inci": self.inci, "density": self.density}
        return tuple(key for key, value in wanted.items() if value is None)


OWN = "maker"
"""The group of sources that marks an entry of the maker's own."""


@dataclass(frozen=True, kw_only=True)
class Oil(Ingredient):
    """An oil, butter, fat, wax or fatty acid. Values in mg KOH/g and g iodine/100 g."""

    kind: Public[str]
    saponification_value: Public[Range]
    iodine_value: Public[Range | None] = None
    fatty_acids: Public[Mapping[str, float]] = field(default_factory=dict[str, float])
    unsaponifiable: Public[float] = 0.0
    inci_sodium_soap: Public[str | None] = None
    inci_potassium_soap: Public[str | None] = None

    @property
    def ester(self) -> Ester:
        if self.kind == "acid":
            return "acid"
        return "wax" if self.kind == "wax" else "triglyceride"

    @property
    def unknown(self) -> tuple[str, ...]:
        wanted = {
            "fatty-acids": self.fatty_acids or None,
            "iodine-value": self.iodine_value,
            "inci-sodium-soap": self.inci_sodium_soap,
            "inci-potassium-soap": self.inci_potassium_soap,
        }
        return (*super().unknown, *(key for key, value in wanted.items() if value is None))


@dataclass(frozen=True, kw_only=True)
class Liquid(Ingredient):
    """A liquid that stands in for water; mass fractions of water, fat and sugar.

    `acid` is mol of hydroxide taken per gram; `known` is false where nobody states it.
    """

    water: Public[float]
    fat: Public[float] = 0.0
    sugar: Public[float] = 0.0
    fat_value: Public[float] = 190.0
    acid: Public[float] = 0.0
    known: Public[bool] = True
    inci_sodium_salt: Public[str | None] = None
    inci_potassium_salt: Public[str | None] = None


@dataclass(frozen=True)
class Chip:
    """What the maker saw: the colour of a bar at a dose (g per kg of oils) on a day of its cure."""

    dose: Public[float]
    day: Public[int]
    colour: Public[str]
    note: Public[str] = ""
    lot: Public[str] = ""
    """The lot whose photo shows it; empty for a chip of its own."""


@dataclass(frozen=True)
class Colour:
    """What a colourant looks like in the fresh batter and after cure, in room light.

    `chips` are the maker's own results, which go before the table's two colours.
    """

    fresh: Public[str]
    cured: Public[str]
    full_depth: Public[float | None] = None
    lightfast: Public[str | None] = None
    stays: Public[bool] = True
    in_alkali: Public[str | None] = None
    chips: Public[tuple[Chip, ...]] = ()


@dataclass(frozen=True, kw_only=True)
class Addition(Ingredient):
    """Anything else. `acid` and `base` are mol of hydroxide taken or brought per gram;
    `density` is that of a spoonful, `displaces` that of the stuff itself in the batter.
    `base_most` is the most that it may bring, `base_of` the hydroxide it is stated as, and `known` is
    false where nobody states what it takes. `usual` and `cap` are grams per kg of oils. `dry` is what it looks like sprinkled on top, now and
    after the cure.
    """

    kind: Public[str]
    acid: Public[float] = 0.0
    base: Public[float] = 0.0
    base_most: Public[float] = 0.0
    base_of: Public[Metal] = "sodium"
    known: Public[bool] = True
    water: Public[float] = 0.0
    fat: Public[float] = 0.0
    fat_value: Public[float] = 190.0
    displaces: Public[float | None] = None
    usual: Public[tuple[float, float] | None] = None
    cap: Public[float | None] = None
    stage: Public[Stage] = "trace"
    lye_order: Public[LyeOrder] = "in-lye"
    colour: Public[Colour | None] = None
    dry: Public[tuple[str, str] | None] = None
    ci: Public[str | None] = None
    inci_sodium_salt: Public[str | None] = None
    inci_potassium_salt: Public[str | None] = None
    scrap_of: Public[str | None] = None


@dataclass(frozen=True)
class Certificate:
    """The supplier's own limit: the largest share of the finished product, for what kind of product."""

    maximum: Public[float]
    category: Public[str | None] = None
    publication: Private[str | None] = None


@dataclass(frozen=True)
class Fragrance:
    """What the papers of a scent say of it; its name and its density are those of the addition of the same id.

    `composition` is the supplier's allergen sheet, mass fractions by material: None where
    there is no sheet, empty where the sheet names no allergen. `blend` is mass fractions of
    other scents.
    """

    id: Public[str]
    kind: Public[Literal["essential-oil", "fragrance-oil"]]
    composition: Public[Mapping[str, float] | None] = None
    certificate: Public[Certificate | None] = None
    blend: Private[Mapping[str, float]] = field(default_factory=dict[str, float])


@dataclass(frozen=True)
class Infusion:
    """A stock of oil that has stood on a botanical; it counts as its carrier for lye."""

    id: Public[str]
    botanical: Public[str]
    carrier: Public[str]
    ratio: Private[str | None] = None
    made: Private[date | None] = None
    days: Private[int | None] = None


@dataclass(frozen=True)
class Term:
    """A word of the glossary."""

    term: str
    meaning: str


@dataclass(frozen=True)
class Pantry:
    """Everything a recipe may name, by id."""

    oils: Public[Mapping[str, Oil]]
    liquids: Public[Mapping[str, Liquid]]
    additions: Public[Mapping[str, Addition]]
    moulds: Public[Mapping[str, Mould]] = field(default_factory=dict[str, Mould])
    infusions: Public[Mapping[str, Infusion]] = field(default_factory=dict[str, Infusion])
    fragrances: Public[Mapping[str, Fragrance]] = field(default_factory=dict[str, Fragrance])
    terms: Public[tuple[Term, ...]] = ()
    publications: Public[Mapping[str, str]] = field(default_factory=dict[str, str])
    version: Public[str] = ""
    papers: Public[Mapping[str, FragranceEntry]] = field(default_factory=dict[str, FragranceEntry])
    """What the maker's own `pantry.yaml` states of each scent."""
    unread: Public[bool] = False
    """Whether the maker's own `pantry.yaml` is there and could not be read: what it holds is not known."""

    def liquid(self, name: str) -> Liquid | None:
        """A liquid by id; a watery addition (vinegar) may stand in for water too."""
        if name in self.liquids:
            return self.liquids[name]
        a = self.additions.get(name)
        if a is None or a.water < 0.3:
            return None
        shared = {each.name: getattr(a, each.name) for each in fields(Ingredient)}
        return Liquid(
            **shared,
            water=a.water,
            fat=a.fat,
            fat_value=a.fat_value,
            acid=a.acid,
            known=a.known,
            inci_sodium_salt=a.inci_sodium_salt,
            inci_potassium_salt=a.inci_potassium_salt,
        )

    def botanical(self, name: str) -> Addition | None:
        """What an oil was infused with: an addition by its id, or by the first word of it."""
        if name in self.additions:
            return self.additions[name]
        full = sorted(key for key in self.additions if key.startswith(f"{name}-"))
        return self.additions[full[0]] if full else None

    @property
    def own(self) -> Pantry:
        """What is not as the standard tables of this version have it."""
        return replace(
            self,
            oils=own_rows(self.oils),
            liquids=own_rows(self.liquids),
            additions=own_rows(self.additions),
            terms=(),
            publications={},
        )

    def with_changes(self, **changes: object) -> Pantry:
        return replace(self, **changes)  # type: ignore[arg-type]
