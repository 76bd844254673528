"""What a lot's own weights come to, whatever has become of its recipe since.

A lot is recomputed from what its record says lay on the scale, by the values that the pantry
has today. What the record leaves out is taken from the formula that the lot was poured to,
where that is known; where it is not, what is lacking is named.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import NamedTuple

from saponary.book import blend
from saponary.book.computed import Computed
from saponary.book.extras import addition_of, liquid_of
from saponary.book.lye_written import stock_of
from saponary.book.rows import Row, alkalis, name_of, rows
from saponary.lye.alkali import Weights
from saponary.lye.band import Band
from saponary.lye.figures import weigh
from saponary.lye.fingerprint import matches
from saponary.lye.formula import Addition, Alkali, Formula, Liquid, Oil
from saponary.lye.poured import ALKALIS, POTASSIUM, SODIUM, STOCKS, WATER, PutIn, as_poured
from saponary.pantry.model import Pantry
from saponary.schema.batch import Batch

OILS = "oils"
"""What is lacking where no oil at all is recorded."""


class Recount(NamedTuple):
    """A lot recomputed from its record.

    `superfat` is a fraction, None where it cannot be told. `assumed` are the names that the record
    leaves out and the formula has; `lacking` those that keep the superfat from being known for
    certain; `strange` are names in the record that stand for nothing.
    """

    superfat: float | None
    assumed: tuple[str, ...] = ()
    lacking: tuple[str, ...] = ()
    strange: tuple[str, ...] = ()
    uncounted: tuple[str, ...] = ()
    """What was put in of which nobody says how much alkali it takes or brings."""
    meant: Band | None = None
    """The superfats that the formula it was poured to can come to, where that is known."""

    @property
    def astray(self) -> bool:
        """Whether the weights are those of another soap than the formula's."""
        return (
            self.superfat is not None
            and self.meant is not None
            and not self.meant.low <= self.superfat <= self.meant.high
        )

    @property
    def known(self) -> bool:
        return self.superfat is not None and not (self.lacking or self.strange or self.uncounted)

    @property
    def caustic(self) -> bool:
        """Whether the weights leave free lye."""
        return self.superfat is not None and self.superfat < 0


class Behind(NamedTuple):
    """The formulas that may stand behind a lot: the one it was poured to, and the recipe's of today.

    `then` is only taken to be today's where `sure` is false, since the record names no formula.
    `alkali` says how pure the alkalis were where `then` is not known.
    """

    then: Formula | None
    now: Formula | None
    alkali: Alkali
    sure: bool = True
    acid: str | None = None
    """The acid that the recipe takes free alkali with."""


def behind(batch: Batch, computed: Computed) -> Behind:
    """The formulas behind a lot of a recipe that can be computed."""
    now = computed.resolved.formula
    acid = computed.resolved.aims.acid.id if computed.resolved.aims.acid is not None else None
    if batch.formula is None:
        return Behind(now, now, now.alkali, sure=False, acid=acid)
    then = now if matches(batch.formula, computed.fingerprint) else computed.poured_to.get(batch.formula)
    return Behind(then, now, now.alkali, acid=acid)


def recount_of(batch: Batch, computed: Computed) -> Recount | None:
    """A lot of a recipe that can be computed, from its own weights; None where none was recorded."""
    return recount(batch, computed.pantry, behind(batch, computed))


def recount(batch: Batch, shelf: Pantry, known: Behind) -> Recount | None:
    """A lot from its own weights; None where none was recorded, or where no lye is weighed."""
    formula = known.then or known.now
    if formula is not None and not formula.weighs_lye:
        return None
    recorded = {name: q.grams for name, q in batch.as_weighed.items() if q is not None}
    return _Record(batch, _undissolved(batch, recorded), shelf, known).recount() if recorded else None


def _undissolved(batch: Batch, recorded: Mapping[str, float]) -> dict[str, float]:
    """The same with each alkali dry: of a stock weighed, what the record's own strength says is in it."""
    found, kept = dict(recorded), stock_of(batch.lye_stock)
    for alkali, strength in ((SODIUM, kept.sodium), (POTASSIUM, kept.potassium)):
        if STOCKS[alkali] in found and strength is not None:
            found[alkali] = found.get(alkali, 0.0) + strength * found.pop(STOCKS[alkali])
    return found


def names(batch: Batch, shelf: Pantry, known: Behind) -> tuple[str, ...]:
    """What a lot's record may give a weight for."""
    formula = known.then or known.now
    if formula is None:
        return (WATER, *ALKALIS, *shelf.oils, *shelf.infusions, *shelf.liquids, *shelf.additions)
    carriers = [row.id for row in formula.oils]
    named = [name_of(row, shelf) for row in rows(formula)]
    jug = [WATER, *alkalis(formula), *(STOCKS[name] for name in alkalis(formula))]
    return tuple(dict.fromkeys([*jug, *named, *carriers, *([known.acid] if known.acid else [])]))


SLIP = 0.02
"""Superfat that a pour may be off by and still be a pour of its formula: common practice, no source."""


def _meant(formula: Formula) -> Band:
    """The superfats that a formula can come to: as its oils vary by nature, or the weighing by a slip."""
    figures = weigh(formula)
    worst = figures.bands.worst
    return Band(min(worst.low, figures.superfat - SLIP), max(worst.high, figures.superfat + SLIP))


class _Record:
    """One record, its weights by name, and the rows that it may mean."""

    def __init__(self, batch: Batch, recorded: Mapping[str, float], shelf: Pantry, known: Behind) -> None:
        self.batch, self.recorded, self.shelf, self.known = batch, recorded, shelf, known
        formula = known.then or known.now
        self.rows = rows(formula) if formula else ()
        self.left = list(range(len(self.rows)))

    def recount(self) -> Recount:
        put: list[Row] = []
        strange: list[str] = []
        for name, grams in self.recorded.items():
            if name in (WATER, *ALKALIS):
                continue
            found = self._parts(name, grams)
            put += found or ()
            if found is None:
                strange.append(name)
        assumed = [self.rows[i] for i in self.left] if self.known.then else []
        no_alkali = self._alkalis_left_out()
        lacking = self._lacking(put, assumed, no_alkali)
        superfat = None
        if self.known.then is not None or not (lacking or strange):
            superfat = self._superfat([*put, *assumed])
        left_out = (*no_alkali, *(name_of(row, self.shelf) for row in assumed)) if self.known.then else ()
        return Recount(
            superfat,
            tuple(dict.fromkeys(left_out)),
            tuple(dict.fromkeys(lacking)),
            tuple(strange),
            tuple(dict.fromkeys(row.id for row in (*put, *assumed) if not taken(row, self.shelf))),
            _meant(self.known.then) if self.known.then else None,
        )

    def _parts(self, name: str, grams: float) -> list[Row] | None:
        """What a recorded weight is of, shared out as the formula shares it; None where it is of nothing."""
        found = [i for i in self.left if self._is_named(self.rows[i], name)]
        whole = sum(self.rows[i].grams for i in found)
        self.left = [i for i in self.left if i not in found]
        if found and whole > 0:
            return [replace(self.rows[i], grams=grams * self.rows[i].grams / whole) for i in found]
        if found:
            return [replace(self.rows[found[0]], grams=grams)]
        open_to = self.known.then is None or name == self.known.acid
        part = from_tables(name, grams, self.shelf) if open_to else None
        return None if part is None else [part]

    def _is_named(self, row: Row, name: str) -> bool:
        """A carrier's name stands for its infused rows too, where the record has none of their own."""
        own = name_of(row, self.shelf)
        late = isinstance(row, Oil) and row.late
        return own == name or (row.id == name and not late and own not in self.batch.as_weighed)

    def _alkalis_left_out(self) -> tuple[str, ...]:
        formula = self.known.then or self.known.now
        wanted = alkalis(formula) if formula else ()
        if not wanted and not any(name in self.recorded for name in ALKALIS):
            wanted = (SODIUM,)
        return tuple(name for name in wanted if name not in self.recorded)

    def _lacking(self, put: Iterable[Row], assumed: Iterable[Row], no_alkali: Iterable[str]) -> list[str]:
        """What keeps the superfat from being known for certain."""
        if self.known.then is not None:
            unsure = [*no_alkali, *(name_of(row, self.shelf) for row in assumed if bears(row))]
            return [] if self.known.sure else unsure
        blank = [name for name, q in self.batch.as_weighed.items() if q is None and self._may_bear(name)]
        no_oil = [] if any(isinstance(row, Oil) and not row.late for row in put) else [OILS]
        return [*no_alkali, *no_oil, *blank]

    def _may_bear(self, name: str) -> bool:
        """Whether a weight left blank would change the superfat, as far as can be told."""
        if name == WATER or name in ALKALIS:
            return name != WATER
        meant = [row for row in self.rows if self._is_named(row, name)]
        part = from_tables(name, 0.0, self.shelf)
        return any(map(bears, meant)) if meant else part is None or bears(part)

    def _superfat(self, put: Iterable[Row]) -> float:
        rows = [renewed(row, self.shelf) for row in put]
        then = self.known.then
        weighed = weigh(then).weights if then else Weights(0.0, 0.0)
        weights = Weights(
            self.recorded.get(SODIUM, weighed.sodium_hydroxide),
            self.recorded.get(POTASSIUM, weighed.potassium_hydroxide),
        )
        return as_poured(
            PutIn(
                oils=tuple(row for row in rows if isinstance(row, Oil) and not row.late),
                liquids=tuple(row for row in rows if isinstance(row, Liquid)),
                additions=tuple(row for row in rows if isinstance(row, Addition)),
                alkali=then.alkali if then else self.known.alkali,
                weights=weights,
            )
        )


def bears(row: Row) -> bool:
    """Whether the superfat depends on how much of it was put in."""
    if isinstance(row, Oil):
        return not row.late
    brings = row.base if isinstance(row, Addition) else 0.0
    return row.stage != "pour" and (row.acid != 0 or brings != 0 or not row.known)


def taken(row: Row, shelf: Pantry) -> bool:
    """Whether it is known how much alkali it takes or brings."""
    now = renewed(row, shelf)
    return isinstance(now, Oil) or now.stage == "pour" or now.known


def from_tables(name: str, grams: float, shelf: Pantry) -> Row | None:
    """So much of what a name stands for in the pantry; an infused oil is its carrier."""
    stock = shelf.infusions.get(name)
    oil = shelf.oils.get(stock.carrier if stock else name)
    if oil is not None:
        return blend.oil_of(oil, grams, stock.botanical if stock else None)
    addition = shelf.additions.get(name)
    if addition is not None:
        return addition_of(addition, grams, addition.stage, None)
    liquid = shelf.liquids.get(name)
    return liquid_of(liquid, grams, "trace", None) if liquid is not None else None


def renewed(row: Row, shelf: Pantry) -> Row:
    """The same with the values that the pantry has today; as it was where the pantry has it no more."""
    if isinstance(row, Oil):
        oil = shelf.oils.get(row.id)
        return replace(blend.oil_of(oil, row.grams, row.infused_with), late=row.late) if oil else row
    if isinstance(row, Liquid):
        liquid = shelf.liquid(row.id)
        return liquid_of(liquid, row.grams, row.stage, row.portion) if liquid else row
    addition = shelf.additions.get(row.id)
    return addition_of(addition, row.grams, row.stage, row.portion) if addition else row
