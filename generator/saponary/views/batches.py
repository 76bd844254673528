"""Batches as really made: weighings, tests, notes, and whether the formula was this one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from saponary.book.computed import Computed
from saponary.lye.fingerprint import matches
from saponary.messages.message import Value
from saponary.quantity.numbers import percent, short
from saponary.quantity.units import Quantity
from saponary.schema.batch import FAULTS, Batch, PhotoRef
from saponary.views.prose import Prose
from saponary.views.site import PhotoSet, SiteInput


@dataclass(frozen=True)
class Weighings:
    """Marked bars over the days: the heads of the columns, then a row a day."""

    caption: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True)
class Photo:
    """A photo with its addresses led from the page it stands on."""

    width: int
    height: int
    sources: tuple[tuple[str, str], ...]
    src: str
    alt: str
    caption: Value
    note: Markup | None


@dataclass(frozen=True)
class BatchView:
    lot: str
    poured: str
    formula: str
    changes: tuple[str, ...]
    facts: tuple[tuple[str, str], ...]
    weighings: Weighings | None
    notes: Markup | None
    photos: tuple[Photo, ...]


def batches(computed: Computed, site: SiteInput, prose: Prose) -> tuple[BatchView, ...]:
    """The latest first. Who made a batch, where it lies and what it took stays with the maker."""
    made = sorted((r.batch for r in computed.batches), key=lambda b: (b.poured, b.lot), reverse=True)
    return tuple(_view(batch, computed, site, prose) for batch in made)


def _view(batch: Batch, computed: Computed, site: SiteInput, prose: Prose) -> BatchView:
    since = site.earlier.get(computed.slug, {})
    return BatchView(
        lot=batch.lot,
        poured=batch.poured.isoformat(),
        formula=_formula(batch, computed),
        changes=since.get(batch.formula, ()) if batch.formula else (),
        facts=tuple((label, text) for label, text in _facts(batch) if text),
        weighings=_weighings(batch),
        notes=prose.inline(batch.notes) if batch.notes else None,
        photos=tuple(
            p for ref in batch.photos if (p := photo(ref, site, prose, computed.model.title)) is not None
        ),
    )


def _facts(batch: Batch) -> Iterator[tuple[str, str]]:
    for label, temperature in (
        ("Lye at", batch.lye_temperature),
        ("Oils at", batch.oils_temperature),
        ("Room at", batch.room_temperature),
    ):
        yield label, " ".join(temperature.text.split()) if temperature else ""
    yield "Trace", batch.trace or ""
    yield (
        "Gel",
        {"none": "none", "partial": "in part", "full": "right through"}[batch.gel] if batch.gel else "",
    )
    yield "Unmoulded", batch.unmoulded.isoformat() if batch.unmoulded else ""
    yield "Cut", batch.cut.isoformat() if batch.cut else ""
    for test in sorted(batch.free_alkali, key=lambda t: t.on):
        held = "" if test.result == "none" else "; not to be used before a later test finds none"
        yield "Free alkali", f"{test.result}, {test.on.isoformat()}, {test.test}{held}"
    yield "Seen", "; ".join(FAULTS[fault] for fault in batch.faults)


def _formula(batch: Batch, computed: Computed) -> str:
    if batch.formula is None:
        return "formula not recorded"
    return "this formula" if matches(batch.formula, computed.fingerprint) else "poured to an earlier formula"


def _weighings(batch: Batch) -> Weighings | None:
    """One bar with what it lost, or several bars side by side."""
    named = {**batch.bars, **({"": batch.weighed} if batch.weighed else {})}
    series = {name: days for name, days in named.items() if days}
    if not series:
        return None
    if len(series) == 1:
        ((name, one),) = series.items()
        first = one[min(one)].grams
        lost = {
            day: percent(1 - one[day].grams / first) if day > min(one) and first > 0 else "" for day in one
        }
        rows: tuple[tuple[str, tuple[str, ...]], ...] = tuple(
            (str(day), (_mass(one[day]), lost[day])) for day in sorted(one)
        )
        return Weighings(
            f"Bar {name}, weighed" if name else "One marked bar, weighed", ("Weight", "Lost"), rows
        )
    days = sorted({day for each in series.values() for day in each})
    rows = tuple(
        (str(day), tuple(_mass(each[day]) if day in each else "" for each in series.values())) for day in days
    )
    return Weighings("Marked bars, weighed", tuple(f"Bar {name}" if name else "Bar" for name in series), rows)


def _mass(mass: Quantity) -> str:
    return " ".join(mass.text.split())


def photo(ref: PhotoRef, site: SiteInput, prose: Prose, title: str) -> Photo | None:
    """A photo that is there to be shown; None where none was made of it."""
    found = site.photos.get(ref.file)
    if found is None:
        return None
    return _led(found, ref, prose, title)


def _led(found: PhotoSet, ref: PhotoRef, prose: Prose, title: str) -> Photo:
    day = "the day it was poured" if ref.day == 0 else f"day {short(ref.day)}"
    alt = prose.plain(ref.alt) if ref.alt else found.alt or f"{prose.title(title)}, {day}"
    return Photo(
        width=found.width,
        height=found.height,
        sources=tuple(
            (kind, ", ".join(prose.up + one.strip() for one in srcset.split(",")))
            for kind, srcset in found.sources
        ),
        src=prose.up + found.src,
        alt=alt,
        caption=day[:1].upper() + day[1:],
        note=prose.inline(ref.note) if ref.note else None,
    )
