"""What the engine is given: a formula in plain numbers.

Grams, fractions of one, moles per gram, g/ml and mm throughout; nothing here knows how
a maker wrote it. Saponification values are mg of KOH per g (ISO 3657).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Literal, NamedTuple, TypeVar

from saponary.quantity.totals import totals

Ester = Literal["triglyceride", "acid", "wax"]
Convention = Literal["lye-strength", "to-lye", "of-oils"]
Stage = Literal["lye", "oils", "trace", "melt", "after-cook", "pour"]
LATE: frozenset[Stage] = frozenset(("melt", "after-cook", "pour"))
"""Stages at which no lye is left that an acid could take, or that water could dissolve."""
Metal = Literal["sodium", "potassium"]


@dataclass(frozen=True)
class Oil:
    """So many grams of one oil, with the values used for it.

    `low` and `high` are the ends of the published (or certified) range of the
    saponification value. `unsaponifiable` is a mass fraction; `fatty_acids` maps a
    fatty acid's shorthand (C18:1) to its mass fraction of all fatty acids.
    """

    id: str
    grams: float
    saponification_value: float
    low: float
    high: float
    iodine_value: float | None = None
    fatty_acids: Mapping[str, float] = field(default_factory=dict[str, float])
    ester: Ester = "triglyceride"
    unsaponifiable: float = 0.0
    density: float | None = None
    infused_with: str | None = None
    late: bool = False
    """Stirred in after the cook."""


def scaled(oils: Iterable[Oil], by: float) -> tuple[Oil, ...]:
    """The same oils, every weight times `by`."""
    return tuple(replace(oil, grams=oil.grams * by) for oil in oils)


@dataclass(frozen=True)
class Alkali:
    """How the alkali is split, by equivalents, and how pure each is as weighed."""

    sodium: float = 1.0
    potassium: float = 0.0
    sodium_purity: float = 1.0
    potassium_purity: float = 1.0


@dataclass(frozen=True)
class Stock:
    """How strong each alkali is kept as a solution: the mass fraction of the hydroxide as weighed into it.
    None for an alkali that is weighed dry."""

    sodium: float | None = None
    potassium: float | None = None


class Water(NamedTuple):
    """The water of the lye by one convention: a strength, a ratio or a share of the oils."""

    convention: Convention
    value: float


@dataclass(frozen=True)
class Liquid:
    """A liquid in place of water; `portion` is None where the whole batch takes it.

    `fat_value` is the saponification value of its fat, by which that fat joins the
    superfat where no alkali was weighed for it. `acid` is mol of hydroxide taken per gram.
    `known` is false where nobody says how much alkali it binds or brings.
    """

    id: str
    grams: float
    water: float
    fat: float = 0.0
    fat_value: float = 190.0
    sugar: float = 0.0
    stage: Stage = "trace"
    portion: str | None = None
    acid: float = 0.0
    density: float | None = None
    known: bool = True


@dataclass(frozen=True)
class Addition:
    """Anything else. What goes in at the `pour` (embeds, a pencil line, petals on top) is set
    into or onto the batter and stirred into no portion. `acid` and `base` are mol of hydroxide taken or brought per gram.

    `base_most` is the most that it may bring, where that is more than `base`: it counts in the worst
    case alone. `base_of` is the alkali that it brings. `fat` and `fat_value` are as a liquid's.
    `displaces` is the density (g/ml) of the stuff itself in the batter, not of a spoonful. `cooled` is true
    where it goes into the lye once that has cooled, so that its water dissolves no alkali. `known` is
    false where nobody says how much alkali it binds or brings. `remelted` is true for the soap of earlier
    lots that a rebatch is made of.
    """

    id: str
    grams: float
    stage: Stage = "trace"
    portion: str | None = None
    acid: float = 0.0
    base: float = 0.0
    water: float = 0.0
    displaces: float | None = None
    base_most: float = 0.0
    base_of: Metal = "potassium"
    fat: float = 0.0
    fat_value: float = 190.0
    cooled: bool = False
    known: bool = True
    remelted: bool = False


P = TypeVar("P", bound="Oil | Liquid | Addition")


def shares(parts: Iterable[P], base: Sequence[Oil | Addition]) -> list[tuple[P, float]]:
    """Each of these with its grams per gram of the base, which is oils or soap that is melted: its share of
    them, or the rate of what goes with them. Nought where the base weighs nothing."""
    whole = sum(part.grams for part in base)
    return [(part, part.grams / whole if whole > 0 else 0.0) for part in parts]


@dataclass(frozen=True)
class Portion:
    """A share of the batter. `oils` is None where it takes its share of the batch's oils.

    `shares_pot` marks a portion whose oils are given here and lie in one pot with those of the
    other portions so marked.
    """

    name: str
    share: float
    oils: tuple[Oil, ...] | None = None
    shares_pot: bool = False

    @property
    def own_oils(self) -> bool:
        """True where its oils are its own, in a pot by itself."""
        return self.oils is not None and not self.shares_pot


@dataclass(frozen=True)
class Formula:
    """A whole batch. Portion shares sum to one; `oils` already holds every pot's oils.

    `after_cook` are oils that are stirred in once the alkali is spent: no lye is weighed for them, and
    none of them is saponified. A formula without `oils` weighs no lye at all.
    """

    oils: tuple[Oil, ...]
    alkali: Alkali
    superfat: float
    water: Water
    liquids: tuple[Liquid, ...] = ()
    additions: tuple[Addition, ...] = ()
    portions: tuple[Portion, ...] = ()
    separate_pots: bool = False
    scale_step: float = 1.0
    stock: Stock = Stock()
    after_cook: tuple[Oil, ...] = ()

    @property
    def oils_grams(self) -> float:
        return sum(oil.grams for oil in self.oils)

    @property
    def shares(self) -> dict[str, float]:
        """Share of all oils by mass, by an oil's id, however it was infused."""
        return totals((oil.id, share) for oil, share in shares(self.oils, self.oils))

    @property
    def after_cook_grams(self) -> float:
        return sum(oil.grams for oil in self.after_cook)

    @property
    def weighs_lye(self) -> bool:
        """Whether lye is weighed: not where soap of earlier lots is melted."""
        return bool(self.oils)

    @property
    def remelted(self) -> tuple[Addition, ...]:
        """The soap of earlier lots."""
        return tuple(part for part in self.additions if part.remelted)

    @property
    def base(self) -> tuple[Oil, ...] | tuple[Addition, ...]:
        """What rates and shares are counted on: the oils, or the soap that is melted."""
        return self.oils or self.remelted

    @property
    def base_grams(self) -> float:
        return sum(part.grams for part in self.base)

    @property
    def stirred(self) -> tuple[Addition, ...]:
        """Additions that are stirred in, and so are part of the batter."""
        return tuple(a for a in self.additions if a.stage != "pour")

    @property
    def placed(self) -> tuple[Addition, ...]:
        """Additions that are set into or onto the poured batter."""
        return tuple(a for a in self.additions if a.stage == "pour")

    def scaled(self, factor: float) -> Formula:
        """The same formula at another size: every weight times `factor`."""

        return replace(
            self,
            oils=scaled(self.oils, factor),
            after_cook=scaled(self.after_cook, factor),
            liquids=tuple(replace(q, grams=q.grams * factor) for q in self.liquids),
            additions=tuple(replace(a, grams=a.grams * factor) for a in self.additions),
            portions=tuple(
                replace(p, oils=scaled(p.oils, factor) if p.oils is not None else None) for p in self.portions
            ),
        )
