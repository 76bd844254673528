"""What a test for free alkali found: as its maker saw it, or by a titration held against the book's limit."""

from __future__ import annotations

from typing import NamedTuple

from saponary.lye.formula import Metal
from saponary.lye.titration import Titration
from saponary.schema.batch import Batch, Found, FreeAlkali
from saponary.schema.settings import Settings
from saponary.schema.titration_entry import TitrationEntry

_METAL: dict[str, Metal] = {"sodium-hydroxide": "sodium", "potassium-hydroxide": "potassium"}
_FROM_THE_WORST: tuple[Found, ...] = ("present", "trace", "none")


class Titrated(NamedTuple):
    """Free caustic alkali as a mass fraction of the soap, and the most that the book allows; None where it
    sets no limit, and then any at all is too much."""

    titration: Titration
    limit: float | None

    @property
    def over(self) -> bool:
        return self.titration.free_caustic > (self.limit or 0.0)


def titration(entry: TitrationEntry) -> Titration:
    """A titration as written, for the engine."""
    return Titration(entry.acid.millilitres, entry.strength.number, entry.sample.grams, _METAL[entry.as_])


def titrated(test: FreeAlkali, settings: Settings) -> Titrated | None:
    """None where the test was no titration."""
    if test.titration is None:
        return None
    limit = settings.free_alkali_limit
    return Titrated(titration(test.titration), limit.fraction if limit is not None else None)


def found(test: FreeAlkali, settings: Settings) -> Found:
    """What the test found; of what was seen and what was titrated, the worse."""
    measured = titrated(test, settings)
    said = [test.result] if test.result is not None else []
    if measured is not None:
        said.append("present" if measured.over else "none")
    return next(one for one in _FROM_THE_WORST if one in said)


def clean_test(batch: Batch, settings: Settings) -> FreeAlkali | None:
    """The last free-alkali test of a lot, where it found none."""
    last = batch.last_test()
    return last if last is not None and found(last, settings) == "none" else None
