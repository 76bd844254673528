"""Batches as really made: weighings, tests, notes, and whether the formula was this one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple, get_args

from markupsafe import Markup

from saponary.book.alkali_found import found
from saponary.book.published import Published
from saponary.lye.fingerprint import matches
from saponary.messages.message import Day, Message, Value, clauses, message, percent, short
from saponary.messages.message import day as on_day
from saponary.quantity.numbers import WeightUnit
from saponary.quantity.units import Quantity
from saponary.schema.batch import Batch, Fault, PhotoRef
from saponary.views.cooked_lots import cook_facts
from saponary.views.facts import as_written
from saponary.views.lot_figures import good_until, test_name
from saponary.views.prose import Prose
from saponary.views.prose_links import led
from saponary.views.readiness import lots_of
from saponary.views.site import PhotoSet, SiteInput


class Weighings(NamedTuple):
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


class BatchView(NamedTuple):
    lot: str
    href: str
    """The lot's own page; '' where there is none."""
    poured: Day
    formula: Message
    changes: tuple[Message, ...]
    made: tuple[tuple[Message, Value], ...]
    """How it was made, within `facts`."""
    facts: tuple[tuple[Message, Value], ...]
    weighings: Weighings | None
    notes: Markup | None
    photos: tuple[Photo, ...]


def batches(computed: Published, site: SiteInput, prose: Prose) -> tuple[BatchView, ...]:
    """The latest first. Who made a batch, where it lies and what it took stays with the maker."""
    made = [
        (lot.batch, prose.links.up + lot.path if site.shows("batches") else "") for lot in lots_of(computed)
    ]
    made.sort(key=lambda pair: (pair[0].poured, pair[0].lot), reverse=True)
    return tuple(batch_view(batch, computed, site, prose, href) for batch, href in made)


def batch_view(batch: Batch, computed: Published, site: SiteInput, prose: Prose, href: str = "") -> BatchView:
    """One batch; `href` leads to its own page."""
    made = (*_made(batch), *cook_facts(batch, computed))
    since = site.earlier.get(computed.slug, {})
    return BatchView(
        lot=batch.lot,
        href=href,
        poured=on_day(batch.poured),
        formula=_formula(batch, computed),
        changes=since.get(batch.formula, ()) if batch.formula else (),
        made=made,
        facts=(*made, *_found(batch, computed)),
        weighings=_weighings(batch, computed.settings.units),
        notes=prose.inline(batch.notes) if batch.notes else None,
        photos=tuple(
            p for ref in batch.photos if (p := photo(ref, site, prose, computed.model.title)) is not None
        ),
    )


def _made(batch: Batch) -> Iterator[tuple[Message, Value]]:
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
        yield message("batch.unmoulded"), on_day(batch.unmoulded)
    if batch.cut:
        yield message("batch.cut"), on_day(batch.cut)


def _found(batch: Batch, computed: Published) -> Iterator[tuple[Message, Value]]:
    good = good_until(computed, batch)
    if good is not None:
        yield message("batch.good-until"), good
    for test in sorted(batch.free_alkali, key=lambda t: t.on):
        seen = found(test, computed.settings)
        result, day = message(f"batch.alkali.{seen}"), on_day(test.on)
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
