"""Lots beside one another: how quickly each dried, in what mould and what air."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from math import ceil
from typing import NamedTuple

from saponary.book.curing import cures
from saponary.lye.cure.fit import CureFit
from saponary.lye.cure.readings import half_life
from saponary.messages.message import Message, Number, Value, message, percent, short
from saponary.views.lot_rows import MANY
from saponary.views.names import spoken
from saponary.views.readiness import Lot


class CureRow(NamedTuple):
    """One marked bar whose weighings could be fitted."""

    lot: str
    href: str
    recipe: str
    mould: str
    humidity: str
    room: str
    half: Message
    loss: Number
    ready: Message


class Dried(NamedTuple):
    """A marked bar among all others: its lot, its row, the groups it is of, and the day on which it was ready."""

    poured: date
    title: str
    row: CureRow
    groups: tuple[tuple[str, str], ...]
    day: float


@dataclass(frozen=True)
class CureGroup:
    """Lots that share a mould, or a band of humidity: how many, and the days they were ready in."""

    name: Value
    count: int
    ready: Message


class CureCompare(NamedTuple):
    rows: tuple[CureRow, ...]
    """The latest alone, where they are many."""
    latest_alone: bool
    groups: tuple[CureGroup, ...]


_BANDS = ((0.5, "air-dry"), (0.65, "air-middle"), (1.01, "air-damp"))
"""Bands of humidity: below which share, and their ids."""


def compare(dried: Iterable[Dried]) -> CureCompare | None:
    """None where fewer than two bars of the book could be fitted."""
    fitted = sorted(dried, key=lambda one: (one.title.casefold(), one.poured))
    if len(fitted) < 2:
        return None
    latest = sorted((one.poured for one in fitted), reverse=True)[:MANY][-1]
    shown = [one for one in fitted if one.poured >= latest]
    groups: dict[tuple[str, str], list[float]] = {}
    for one in fitted:
        for group in one.groups:
            groups.setdefault(group, []).append(one.day)
    return CureCompare(
        tuple(one.row for one in shown),
        len(shown) < len(fitted),
        tuple(
            CureGroup(
                _name(*group),
                len(days),
                message("shelf.days-to", first=ceil(min(days)), last=ceil(max(days))),
            )
            for group, days in sorted(groups.items())
            if len(days) > 1
        ),
    )


def dried_bars(lot: Lot, up: str) -> Iterator[Dried]:
    """The marked bars of one lot."""
    for bar in cures(lot.batch):
        if isinstance(bar.fit, CureFit) and bar.ready is not None:
            shown = _row(lot, bar.fit, bar.ready.day, up)
            yield Dried(lot.batch.poured, lot.title, shown, tuple(_groups(lot)), bar.ready.day)


def _groups(lot: Lot) -> Iterator[tuple[str, str]]:
    """What a lot shares with others: bands of humidity by their id, moulds by their name."""
    mould = lot.recipe.resolved.mould_name
    if mould is not None:
        yield "mould", mould
    if lot.batch.humidity is not None:
        share = lot.batch.humidity.fraction
        yield next(band for limit, band in _BANDS if share < limit), ""


def _name(kind: str, mould: str) -> Message:
    return message("shelf.group.mould", mould=spoken(mould)) if mould else message(f"shelf.group.{kind}")


KEYS_BY_ID = {"shelf.group.": tuple(band for _, band in _BANDS)}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def _row(lot: Lot, fit: CureFit, day: float, up: str) -> CureRow:
    batch, mould = lot.batch, lot.recipe.resolved.mould_name
    return CureRow(
        lot=batch.lot,
        href=up + lot.path,
        recipe=lot.title,
        mould=spoken(mould) if mould else "",
        humidity=" ".join(batch.humidity.text.split()) if batch.humidity else "",
        room=" ".join(batch.room_temperature.text.split()) if batch.room_temperature else "",
        half=message("shelf.half-life", days=short(half_life(fit))),
        loss=percent(fit.fall_g / fit.start_g),
        ready=message("day", day=ceil(day)),
    )
