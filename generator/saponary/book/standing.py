"""What may be said of a lot: whether it is held back, and whether it may be called ready.

The one place where this is decided. Labels, calendar, pages, editions and the status of a recipe ask here.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal, NamedTuple, get_args

from saponary.book.alkali_found import found as alkali_found
from saponary.book.computed import Computed
from saponary.book.poured import Recount, recount_of
from saponary.lye.fingerprint import matches
from saponary.schema.batch import Batch

Name = Literal["caustic", "present", "trace", "unknown", "astray", "untested", "clean"]
"""From the worst. `caustic`: its own weights leave free lye. `present` and `trace`: its last test found free
alkali. `unknown`: weights are recorded, and do not tell its superfat. `astray`: they tell of another soap than
the formula that it was poured to. `clean`: its last test found none."""

HELD: frozenset[Name] = frozenset({"caustic", "present", "trace"})


@dataclass(frozen=True)
class Standing:
    """Where a lot stands; `tested` is the day of its last test, `recount` what its weights come to."""

    name: Name
    tested: date | None = None
    recount: Recount | None = None

    @property
    def held(self) -> bool:
        """Whether no bar of it may be used, sold, labelled or published."""
        return self.name in HELD

    @property
    def astray(self) -> bool:
        """Whether its weights are those of another soap, so that it says nothing of its formula."""
        return self.recount is not None and self.recount.astray

    @property
    def ready(self) -> bool:
        """Whether it may be called ready once it has cured."""
        return self.name == "clean"


def standing(batch: Batch, computed: Computed) -> Standing:
    """Where a lot of a recipe stands. No clock is asked."""
    found, last = recount_of(batch, computed), batch.last_test()
    on = last.on if last is not None else None
    if found is not None and found.caustic:
        return Standing("caustic", on, found)
    tested = alkali_found(last, computed.settings) if last is not None else "none"
    if tested != "none":
        return Standing(tested, on, found)
    if found is not None and not found.known:
        return Standing("unknown", on, found)
    if found is not None and found.astray:
        return Standing("astray", on, found)
    return Standing("untested" if last is None else "clean", on, found)


def standings(computed: Computed) -> dict[str, Standing]:
    """Where each lot of a recipe stands, by its name; of two of one name, the worse counts."""
    found: dict[str, Standing] = {}
    for record in computed.batches:
        one, known = standing(record.batch, computed), found.get(record.batch.lot)
        if known is None or _ORDER.index(one.name) < _ORDER.index(known.name):
            found[record.batch.lot] = one
    return found


_ORDER: tuple[Name, ...] = get_args(Name)


def held(computed: Computed) -> tuple[tuple[Batch, Standing], ...]:
    """The lots of a recipe that are held back, in the order of their records."""
    every = ((record.batch, standing(record.batch, computed)) for record in computed.batches)
    return tuple((batch, found) for batch, found in every if found.held)


Unlabelled = Literal["unrecorded", "held", "astray", "formula"]
"""Why no labels may be made of a lot: no batch has its name, it is held back, or it is another soap than the list
on the label tells of: by its weights, or since the recipe has another formula now."""


def unlabelled(computed: Computed, lot: str) -> Unlabelled | None:
    """Why no labels may be made of a lot; None where they may. A record that names no formula is believed."""
    found = standings(computed).get(lot)
    if found is None:
        return "unrecorded"
    if found.held:
        return "held"
    if found.astray:
        return "astray"
    formulas = [r.batch.formula for r in computed.batches if r.batch.lot == lot]
    if any(one is not None and not matches(one, computed.fingerprint) for one in formulas):
        return "formula"
    return None


class Labelled(NamedTuple):
    """Whether labels may be made of a recipe, and the lot that they must name, '' for any."""

    made: bool = True
    lot: str = ""


ANY_LOT = Labelled()


def labelled(computed: Computed) -> Labelled:
    """Labels of the lot that the recipe names, if they may be made of it. Where it names none, of any lot while
    none is held back; else of the newest of which they may be made; none where there is no such lot."""
    label = computed.model.label
    if label is not None and label.lot is not None:
        return Labelled(lot=label.lot) if unlabelled(computed, label.lot) is None else Labelled(made=False)
    if not held(computed):
        return ANY_LOT
    free = [r.batch for r in computed.batches if unlabelled(computed, r.batch.lot) is None]
    if not free:
        return Labelled(made=False)
    return Labelled(lot=max(free, key=lambda batch: batch.poured).lot)
