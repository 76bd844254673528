"""How one lot cured: its curve, the day it is ready, and its photos by day of cure."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import inf

from markupsafe import Markup

from saponary.book.computed import Computed
from saponary.book.curing import BarCure, cures
from saponary.draw.charts.cure import cure_chart
from saponary.draw.charts.swatch import swatch
from saponary.lye.cure.fit import CureFit, NoFit
from saponary.lye.fingerprint import matches
from saponary.quantity.numbers import grams, percent, short
from saponary.schema.batch import Batch, PhotoRef
from saponary.views import names
from saponary.views.batches import Photo, photo
from saponary.views.colour_words import in_words
from saponary.views.prose import Prose
from saponary.views.readiness import loses, readiness, sentence
from saponary.views.site import SiteInput


@dataclass(frozen=True)
class BarView:
    """One marked bar: its chart, and in words what the curve says."""

    name: str
    chart: Markup
    says: tuple[str, ...]


@dataclass(frozen=True)
class Reading:
    """A colour the maker read off a photo: of which portion, to be seen, in words, as its number."""

    portion: str
    swatch: Markup
    words: str
    number: str


@dataclass(frozen=True)
class Moment:
    """A photo on its day of cure, with the colours read off it."""

    day: int
    photo: Photo
    readings: tuple[Reading, ...]


@dataclass(frozen=True)
class LotCure:
    """`before` and `after` are the first and the last photo, where days lie between them;
    `moments` are the time line, left out where those two are all of it. Colours read off a photo
    stand with it once, in the time line where there is one. An edition that does not show batches
    has the photos alone."""

    word: str
    ready: str
    day: str
    how: str
    held: str
    bars: tuple[BarView, ...]
    earlier: str
    before: Moment | None
    after: Moment | None
    moments: tuple[Moment, ...]


def lot_cures(computed: Computed, site: SiteInput, prose: Prose) -> tuple[LotCure, ...]:
    """The lots of a recipe, the latest first."""
    made = sorted((r.batch for r in computed.batches), key=lambda b: (b.poured, b.lot), reverse=True)
    return tuple(lot_cure(batch, computed, site, prose) for batch in made)


def lot_cure(batch: Batch, computed: Computed, site: SiteInput, prose: Prose) -> LotCure:
    told = site.shows("batches")
    found = readiness(batch, site.book.settings.cure)
    earlier = batch.formula is not None and not matches(batch.formula, computed.fingerprint)
    moments = tuple(_moments(batch, computed, site, prose, earlier))
    pair = len(moments) > 1 and moments[0].day != moments[-1].day
    line = () if pair and len(moments) == 2 else moments
    ends = tuple(replace(one, readings=()) for one in moments) if line else moments
    return LotCure(
        word=found.word.capitalize(),
        ready=found.on.isoformat() if told else "",
        day=f"day {found.day}",
        how=found.how,
        held=sentence(found.held) if told else "",
        bars=tuple(
            _bar(bar, number, batch.lot, computed) for number, bar in enumerate(cures(batch) if told else ())
        ),
        earlier=_EARLIER if earlier and (batch.weighed or batch.bars or moments) else "",
        before=ends[0] if pair else None,
        after=ends[-1] if pair else None,
        moments=line,
    )


_EARLIER = "Poured to an earlier formula, not to the recipe as it stands."


def _bar(bar: BarCure, number: int, lot: str, computed: Computed) -> BarView:
    what = f"Cure of lot {lot}" + (f", bar {bar.name}" if bar.name else "")
    key = f"cure-{hashlib.sha256(lot.encode()).hexdigest()[:10]}-{number}"
    return BarView(
        name=f"Bar {bar.name}" if bar.name else "The marked bar",
        chart=Markup(cure_chart(bar.weighings, bar.fit, what, key)),
        says=tuple(_says(bar)),
    )


def _says(bar: BarCure) -> Iterator[str]:
    """The plateau with its interval, the day the bar is ready, and each weighing left out."""
    fit = bar.fit
    if isinstance(fit, NoFit):
        yield f"No curve: {fit.reason.value}."
    else:
        yield _plateau(fit)
    if bar.ready is not None:
        yield f"{loses(bar.ready, whose='It')}."
    for suspect in fit.suspects:
        expected = (
            f", where the others give {grams(suspect.expected)}" if suspect.expected is not None else ""
        )
        yield f"Left out as doubtful: {grams(suspect.grams)} on day {short(suspect.day)}{expected}."


def _plateau(fit: CureFit) -> str:
    told = f"Settles at {grams(fit.plateau_g)}, {percent(fit.fall_g / fit.start_g)} below its first day"
    reach = fit.plateau_interval
    if reach is None:
        return f"{told}; three weighings cannot tell how surely."
    if reach[0] == -inf:
        return f"{told}, at most {grams(reach[1])}; how far down is not sure yet."
    return (
        f"{told}: between {grams(reach[0])} and {grams(reach[1])} at {percent(fit.confidence, 0)} confidence."
    )


def _moments(
    batch: Batch, computed: Computed, site: SiteInput, prose: Prose, earlier: bool
) -> Iterator[Moment]:
    for ref in sorted(batch.photos, key=lambda ref: ref.day):
        found = photo(ref, site, prose, computed.model.title)
        if found is None:
            continue
        marked = replace(found, caption=f"{found.caption}, earlier formula") if earlier else found
        yield Moment(ref.day, marked, tuple(_readings(ref)))


def _readings(ref: PhotoRef) -> Iterator[Reading]:
    for portion, colour in sorted(ref.colours.items()):
        number = colour.lower()
        yield Reading(names.spoken(portion), Markup(swatch(number)), in_words(number), number)
