"""How one lot cured: its curve, the day it is ready, and its photos by day of cure."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from math import inf
from typing import NamedTuple

from markupsafe import Markup

from saponary.book.cure_days import cure_days
from saponary.book.curing import BarCure, cures
from saponary.book.published import Published
from saponary.draw.charts.cure import cure_chart
from saponary.draw.charts.swatch import swatch
from saponary.lye.cure.fit import CureFit, NoFit
from saponary.lye.fingerprint import matches
from saponary.messages.message import Day, Message, grams, message, percent, short
from saponary.messages.message import day as on_day
from saponary.messages.speaker import Speaker, speaker
from saponary.quantity.numbers import WeightUnit
from saponary.schema.batch import Batch, PhotoRef
from saponary.views import names
from saponary.views.batches import Photo, photo
from saponary.views.colour_words import in_words
from saponary.views.lead_photo import lead
from saponary.views.prose import Prose
from saponary.views.readiness import loses, readiness, why_none
from saponary.views.site import SiteInput


class BarView(NamedTuple):
    """One marked bar: its chart, and in words what the curve says."""

    name: Message
    chart: Markup
    says: tuple[Message, ...]


class Reading(NamedTuple):
    """A colour the maker read off a photo: of which portion, to be seen, in words, and for the
    maker as its number."""

    portion: str
    swatch: Markup
    words: Message
    number: str


class Moment(NamedTuple):
    """A photo on its day of cure, with the colours read off it; `at_top` where the page begins with it."""

    day: int
    photo: Photo
    at_top: bool
    readings: tuple[Reading, ...]


class LotCure(NamedTuple):
    """`moments` are its photos in the order of their days. An edition that does not show batches has the
    photos alone."""

    word: Message
    ready: Day | None
    day: Message
    how: Message
    held: Message | None
    bars: tuple[BarView, ...]
    earlier: bool
    """Poured to an earlier formula, where there is something to tell of it."""
    moments: tuple[Moment, ...]


def lot_cures(computed: Published, site: SiteInput, prose: Prose) -> tuple[LotCure, ...]:
    """The lots of a recipe, the latest first."""
    made = sorted((r.batch for r in computed.batches), key=lambda b: (b.poured, b.lot), reverse=True)
    first = lead(computed)
    top = first.shot.file if first is not None else ""
    return tuple(lot_cure(batch, computed, site, prose, top) for batch in made)


def lot_cure(batch: Batch, computed: Published, site: SiteInput, prose: Prose, top: str) -> LotCure:
    """`top` is the photo that the page begins with; '' for none."""
    shown, words = site.shows("batches"), speaker(site.book.settings.language, site.book.settings.units)
    found = readiness(batch, computed.standing[batch.lot], cure_days(computed.model, computed.settings))
    earlier = batch.formula is not None and not matches(batch.formula, computed.fingerprint)
    moments = tuple(_moments(batch, computed, site, prose, earlier, top))
    return LotCure(
        word=found.head,
        ready=on_day(found.on) if shown and found.held is None else None,
        day=message("day", day=found.day),
        how=found.how,
        held=found.held if shown else None,
        bars=tuple(
            _bar(bar, number, batch.lot, words) for number, bar in enumerate(cures(batch) if shown else ())
        ),
        earlier=earlier and bool(batch.weighed or batch.bars or moments),
        moments=moments,
    )


def _bar(bar: BarCure, number: int, lot: str, words: Speaker) -> BarView:
    what = message("cure.of-bar", lot=lot, bar=bar.name) if bar.name else message("cure.of-lot", lot=lot)
    key = f"cure-{hashlib.sha256(lot.encode()).hexdigest()[:10]}-{number}"
    return BarView(
        name=message("cure.bar", bar=bar.name) if bar.name else message("cure.marked-bar"),
        chart=_chart(bar, words.say(what), key, words.language, words.units),
        says=tuple(_says(bar)),
    )


@lru_cache(maxsize=64)
def _chart(bar: BarCure, title: str, key: str, language: str, units: WeightUnit) -> Markup:
    """Drawn once for the page of the recipe and that of the lot, which are made one after the other."""
    return Markup(cure_chart(bar.weighings, bar.fit, title, key, speaker(language, units)))


def _says(bar: BarCure) -> Iterator[Message]:
    """The plateau with its interval, the day the bar is ready, and each weighing left out."""
    fit = bar.fit
    yield message("cure.no-curve", why=why_none(fit.reason)) if isinstance(fit, NoFit) else _plateau(fit)
    if bar.ready is not None:
        yield message("sentence", said=loses(bar.ready, message("cure.it")))
    for suspect in fit.suspects:
        left_out, day = grams(suspect.grams), short(suspect.day)
        if suspect.expected is None:
            yield message("cure.doubtful", weight=left_out, day=day)
        else:
            yield message("cure.doubtful-beside", weight=left_out, day=day, expected=grams(suspect.expected))


def _plateau(fit: CureFit) -> Message:
    plateau, share = grams(fit.plateau_g), percent(fit.fall_g / fit.start_g)
    settles = message("cure.settles", plateau=plateau, share=share)
    reach = fit.plateau_interval
    if reach is None:
        return message("cure.settles-unsure", settles=settles)
    if reach[0] == -inf:
        return message("cure.settles-at-most", settles=settles, most=grams(reach[1]))
    sure = percent(fit.confidence, 0)
    return message(
        "cure.settles-between", settles=settles, low=grams(reach[0]), high=grams(reach[1]), sure=sure
    )


def _moments(
    batch: Batch, computed: Published, site: SiteInput, prose: Prose, earlier: bool, top: str
) -> Iterator[Moment]:
    for ref in sorted(batch.photos, key=lambda ref: ref.day):
        found = photo(ref, site, prose, computed.model.title)
        if found is None:
            continue
        marked = (
            replace(found, caption=message("cure.earlier-photo", caption=found.caption)) if earlier else found
        )
        yield Moment(ref.day, marked, ref.file == top, tuple(_readings(ref, site)))


def _readings(ref: PhotoRef, site: SiteInput) -> Iterator[Reading]:
    for portion, colour in sorted(ref.colours.items()):
        number = colour.lower()
        told = number if site.shows("private") else ""
        yield Reading(names.spoken(portion), Markup(swatch(number)), in_words(number), told)
