"""Batches as really made: weighings, tests, notes, and whether the formula was this one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import get_args

from markupsafe import Markup

from saponary.book.alkali_found import found
from saponary.book.published import Published
from saponary.lye.fingerprint import matches
from saponary.messages.message import Message, Value, clauses, message, percent, short
from saponary.quantity.numbers import WeightUnit
from saponary.quantity.units import Quantity
from saponary.schema.batch import Batch, Fault, PhotoRef
from saponary.views.cooked_lots import cook_facts
from saponary.views.facts import as_written
from saponary.views.lot_figures import good_until, test_name
from saponary.views.prose import Prose
from saponary.views.prose_links import led
from saponary.views.site import PhotoSet, SiteInput


@dataclass(frozen=True)
class Weighings:
    """Marked bars over the days: the heads of the columns, then a row a day."""

    caption: Message
    heads: tuple[Message, ...]
    rows: tuple[tuple[int, tuple[Value, ...]], ...]


@dataclass(frozen=True)
class Photo:
    """A photo with its addresses led from the page it stands on."""

    width: int
    height: int
    sources: tuple[tuple[str, str], ...]
    src: str
    alt: Value
    caption: Value
    note: Markup | None


@dataclass(frozen=True)
class BatchView:
    lot: str
    poured: str
    formula: Message
    changes: tuple[str, ...]
    facts: tuple[tuple[Message, Value], ...]
    weighings: Weighings | None
    notes: Markup | None
    photos: tuple[Photo, ...]


def batches(computed: Published, site: SiteInput, prose: Prose) -> tuple[BatchView, ...]:
    """The latest first. Who made a batch, where it lies and what it took stays with the maker."""
    made = sorted((r.batch for r in computed.batches), key=lambda b: (b.poured, b.lot), reverse=True)
    return tuple(_view(batch, computed, site, prose) for batch in made)


def _view(batch: Batch, computed: Published, site: SiteInput, prose: Prose) -> BatchView:
    since = site.earlier.get(computed.slug, {})
    return BatchView(
        lot=batch.lot,
        poured=batch.poured.isoformat(),
        formula=_formula(batch, computed),
        changes=since.get(batch.formula, ()) if batch.formula else (),
        facts=(*_facts(batch, computed), *cook_facts(batch, computed)),
        weighings=_weighings(batch, computed.settings.units),
        notes=prose.inline(batch.notes) if batch.notes else None,
        photos=tuple(
            p for ref in batch.photos if (p := photo(ref, site, prose, computed.model.title)) is not None
        ),
    )


def _facts(batch: Batch, computed: Published) -> Iterator[tuple[Message, Value]]:
    for label, temperature in (
        (message("batch.lye-at"), batch.lye_temperature),
        (message("batch.oils-at"), batch.oils_temperature),
        (message("batch.room-at"), batch.room_temperature),
    ):
        if temperature:
            yield label, " ".join(temperature.text.split())
    if batch.trace:
        yield message("batch.trace"), batch.trace
    if batch.gel:
        yield message("batch.gel"), message(f"batch.gel-is.{batch.gel}")
    if batch.unmoulded:
        yield message("batch.unmoulded"), batch.unmoulded.isoformat()
    if batch.cut:
        yield message("batch.cut"), batch.cut.isoformat()
    good = good_until(computed, batch)
    if good is not None:
        yield message("batch.good-until"), good
    for test in sorted(batch.free_alkali, key=lambda t: t.on):
        seen = found(test, computed.settings)
        result, day = message(f"batch.alkali.{seen}"), test.on.isoformat()
        key = "batch.test" if seen == "none" else "batch.test-held"
        yield (
            message("batch.free-alkali"),
            message(key, result=result, day=day, test=test_name(test, computed)),
        )
    if batch.faults:
        yield message("batch.seen"), clauses(*(message(f"fault.{fault}.meaning") for fault in batch.faults))


KEYS_BY_ID = {
    "batch.gel-is.": ("none", "partial", "full"),
    "batch.alkali.": ("none", "trace", "present"),
    "fault.": tuple(f"{fault}.meaning" for fault in get_args(Fault)),
}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def _formula(batch: Batch, computed: Published) -> Message:
    if batch.formula is None:
        return message("lot.formula.unrecorded")
    same = matches(batch.formula, computed.fingerprint)
    return message("lot.formula.this") if same else message("lot.formula.earlier")


def _weighings(batch: Batch, units: WeightUnit) -> Weighings | None:
    """One bar with what it lost, or several bars side by side."""
    named = {**batch.bars, **({"": batch.weighed} if batch.weighed else {})}
    series = {name: days for name, days in named.items() if days}
    if not series:
        return None
    if len(series) == 1:
        ((name, one),) = series.items()
        caption = message("batch.bar-weighed", bar=name) if name else message("batch.one-weighed")
        heads = (message("batch.weight"), message("batch.lost"))
        return Weighings(
            caption,
            heads,
            tuple((day, (as_written(one[day], units), _lost(one, day))) for day in sorted(one)),
        )
    days = sorted({day for each in series.values() for day in each})
    return Weighings(
        message("batch.bars-weighed"),
        tuple(message("batch.bar", bar=name) if name else message("batch.a-bar") for name in series),
        tuple(
            (day, tuple(as_written(each[day], units) if day in each else "" for each in series.values()))
            for day in days
        ),
    )


def _lost(one: Mapping[int, Quantity], day: int) -> Value:
    """What a bar lost by a day, as a share of its first weight; nothing on the first day."""
    first = one[min(one)].grams
    return percent(1 - one[day].grams / first) if day > min(one) and first > 0 else ""


def photo(ref: PhotoRef, site: SiteInput, prose: Prose, title: str) -> Photo | None:
    """A photo that is there to be shown; None where none was made of it."""
    found = site.photos.get(ref.file)
    if found is None:
        return None
    return _led(found, ref, prose, title)


def _led(found: PhotoSet, ref: PhotoRef, prose: Prose, title: str) -> Photo:
    day = message("photo.poured") if ref.day == 0 else message("photo.day", day=short(ref.day))
    first = message("photo-first.poured") if ref.day == 0 else message("photo-first.day", day=short(ref.day))
    alt: Value = prose.plain(ref.alt) if ref.alt else found.alt
    return Photo(
        width=found.width,
        height=found.height,
        sources=tuple((kind, led(srcset, prose.links.up)) for kind, srcset in found.sources),
        src=prose.links.up + found.src,
        alt=alt or message("photo.alt", title=prose.title(title), day=day),
        caption=first,
        note=prose.inline(ref.note) if ref.note else None,
    )
