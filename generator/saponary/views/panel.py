"""The figures panel: what the engine makes of the formula, to a tenth of a gram."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from saponary.book.published import Published
from saponary.draw.charts import Chart, Superfat, superfat_band
from saponary.lye.formula import LATE
from saponary.messages.message import Listed, Message, Number, Value, Within, message, percent, short
from saponary.messages.speaker import speaker
from saponary.quantity.numbers import Scale
from saponary.quantity.rounding import as_decimal
from saponary.views import names
from saponary.views.entries import Entry, entry
from saponary.views.made_to import made_to, stocks
from saponary.views.uptake import unknown_uptake
from saponary.views.weigh_sheet import scale_step


class Panel(NamedTuple):
    weights: tuple[Entry, ...]
    lye: tuple[Entry, ...]
    superfat: tuple[Entry, ...]
    band: Chart | None
    """None where the superfat is not known."""


def panel(computed: Published, scale: Scale) -> Panel:
    reason = unknown_uptake(computed)
    superfat = tuple(_superfat(computed, scale)) if reason is None else (_not_known(computed, reason),)
    band = _spread(computed) if reason is None else None
    return Panel((*_weights(computed), *made_to(computed, scale)), tuple(_lye(computed)), superfat, band)


def _spread(computed: Published) -> Chart:
    f = computed.figures
    spread = Superfat(f.superfat, f.superfat_as_weighed, f.bands.likely, f.bands.worst)
    return superfat_band(spread, speaker(computed.settings.language, computed.settings.units))


def _not_known(computed: Published, reason: Message) -> Entry:
    label, word = message("figure.superfat"), "superfat"
    if not computed.resolved.formula.weighs_lye:
        return Entry("superfat", label, message("figure.not-given"), "", message("figure.no-lye-here"), word)
    return Entry("superfat", label, reason, "", word=word)


def span(low: float, high: float) -> Message:
    """From one share to another."""
    return message("figure.span", low=Number(100.0 * low, 1), high=percent(high))


def _weights(computed: Published) -> Iterator[Entry]:
    figures = computed.catalogue
    if computed.resolved.formula.weighs_lye:
        yield from _into_lye(computed)
    else:
        yield entry(figures["grated-soap"], message("figure.grated-soap"))
        yield from (
            entry(
                figures[f"liquid {name}"],
                names.liquid(computed.pantry, name),
            )
            for name in dict.fromkeys(part.id for part in computed.resolved.formula.liquids)
        )
    volume = figures["batter-volume"].number()
    note: Value = volume
    if computed.resolved.bars:
        bars = computed.resolved.bars
        note = message("figure.bars", volume=volume, count=bars, each=figures["bar"].number())
    if computed.resolved.formula.weighs_lye:
        yield entry(figures["batter"], message("figure.batter"), note, "batter")
    else:
        yield entry(figures["batter"], message("figure.in-the-pot"), note)


def _into_lye(computed: Published) -> Iterator[Entry]:
    """Oils, alkali and water; and the oils that meet no lye."""
    figures, alkali = computed.catalogue, computed.resolved.formula.alkali
    yield entry(figures["oils"], message("figure.oils"))
    for name, share, purity in (
        ("sodium-hydroxide", alkali.sodium, alkali.sodium_purity),
        ("potassium-hydroxide", alkali.potassium, alkali.potassium_purity),
    ):
        if share > 0:
            yield entry(figures[name], names.charge(name), _purity(purity), "purity")
    yield entry(figures["water"], message("figure.water"), _sources(computed))
    if "after-cook-oils" in figures:
        late = message("figure.not-saponified")
        yield entry(figures["after-cook-oils"], message("figure.after-cook-oils"), late)


def _purity(share: float) -> Message:
    if share < 1.0:
        return message("figure.purity", purity=short(100 * share, unit="%"))
    return message("figure.pure")


def _sources(computed: Published) -> Message:
    """Where the water comes from, if not all of it from the tap."""
    liquids = dict.fromkeys(q.id for q in computed.resolved.formula.liquids if q.stage not in LATE)
    if not liquids:
        return message("figure.all-plain")
    return message(
        "figure.water-from",
        plain=computed.catalogue["plain-water"].number(),
        brought=computed.catalogue["liquids-water"].number(),
        liquids=Listed(tuple(Within(names.liquid(computed.pantry, name)) for name in liquids)),
    )


def _lye(computed: Published) -> Iterator[Entry]:
    figures, f = computed.catalogue, computed.figures
    if not computed.resolved.formula.weighs_lye:
        yield Entry("lye", message("figure.lye"), message("figure.none"), "", message("figure.no-lye-here"))
        return
    dissolved: Value = ""
    if abs(f.lye_strength_dissolved - f.lye_strength) > 0.0005:
        dissolved = message("figure.dissolving", strength=percent(f.lye_strength_dissolved))
    yield entry(figures["lye-strength"], message("figure.lye-strength"), dissolved, "lye-strength")
    parts = message("figure.parts")
    yield entry(figures["water-to-lye"], message("figure.water-to-lye"), parts, "water-to-lye")
    yield entry(figures["water-of-oils"], message("figure.water-of-oils"), "", "water-of-oils")
    yield from stocks(computed)


def _superfat(computed: Published, scale: Scale) -> Iterator[Entry]:
    figures, f = computed.catalogue, computed.figures
    likely, worst = f.bands.likely, f.bands.worst
    yield entry(figures["superfat"], message("figure.superfat"), "", "superfat")
    rounded = message("figure.rounded", step=scale_step(scale))
    yield entry(figures["superfat-as-weighed"], message("figure.as-weighed"), rounded)
    yield _band("superfat-likely", message("figure.likely"), likely.low, likely.high, message("figure.apart"))
    yield _band("superfat-worst", message("figure.worst"), worst.low, worst.high, message("figure.one-end"))
    if "superfat-after-cook" in figures:
        of_all = message("figure.of-all-demand")
        yield entry(figures["superfat-after-cook"], message("figure.superfat-after-cook"), of_all)
        yield entry(figures["superfat-in-all"], message("figure.superfat-in-all"))
    if f.liquids_fat > 0:
        counted = message("figure.counted-in", fat=short(f.liquids_fat, unit="g"))
        yield entry(figures["superfat-with-liquids-fat"], message("figure.with-fat"), counted)


def _band(name: str, label: Message, low: float, high: float, note: Message) -> Entry:
    return Entry(name, label, span(low, high), f"{as_decimal(100 * low)} {as_decimal(100 * high)}", note)
