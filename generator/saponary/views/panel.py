"""The figures panel: what the engine makes of the formula, to a tenth of a gram."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from saponary.book.catalogue import Figure
from saponary.book.computed import Computed
from saponary.draw.charts import Chart, Superfat, superfat_band
from saponary.messages.speaker import speaker
from saponary.quantity.numbers import Scale, minus, percent, short
from saponary.views import links, names


@dataclass(frozen=True)
class Entry:
    """A figure with its label, its unrounded value in the unit shown, and a word beside it."""

    name: str
    label: str
    text: str
    value: str
    note: str = ""
    word: str | None = None
    """The anchor of its meaning on the page of words."""


@dataclass(frozen=True)
class Panel:
    weights: tuple[Entry, ...]
    lye: tuple[Entry, ...]
    superfat: tuple[Entry, ...]
    band: Chart


def panel(computed: Computed, scale: Scale) -> Panel:
    f = computed.figures
    spread = Superfat(f.superfat, f.superfat_as_weighed, f.bands.likely, f.bands.worst)
    band = superfat_band(spread, speaker(computed.settings.language))
    return Panel(tuple(_weights(computed)), tuple(_lye(computed)), tuple(_superfat(computed, scale)), band)


def entry(figure: Figure, label: str, note: str = "", word: str | None = None) -> Entry:
    text = figure.text()
    value = figure.in_unit(text.partition(" ")[2])
    return Entry(
        figure.name, label, minus(text), repr(float(value)), note, links.anchor(word) if word else None
    )


def _weights(computed: Computed) -> Iterator[Entry]:
    figures, alkali, built = computed.catalogue, computed.resolved.formula.alkali, computed.resolved
    yield entry(figures["oils"], "Oils")
    if alkali.sodium > 0:
        yield entry(figures["sodium-hydroxide"], "Sodium hydroxide", _purity(alkali.sodium_purity), "purity")
    if alkali.potassium > 0:
        yield entry(
            figures["potassium-hydroxide"], "Potassium hydroxide", _purity(alkali.potassium_purity), "purity"
        )
    yield entry(figures["water"], "Water", _sources(computed))
    bars = f"{built.bars} bars of {figures['bar'].text()} fresh" if built.bars else ""
    yield entry(
        figures["batter"],
        "Batter",
        ", ".join(filter(None, (figures["batter-volume"].text(), bars))),
        "batter",
    )


def _purity(share: float) -> str:
    return f"of {short(100 * share)} % purity" if share < 1.0 else "taken as pure"


def _sources(computed: Computed) -> str:
    """Where the water comes from, if not all of it from the tap."""
    shelf, liquids = computed.pantry, computed.resolved.formula.liquids
    if not liquids:
        return "all of it plain"
    brought = names.listed(
        [names.inside(names.liquid(shelf, name)) for name in dict.fromkeys(q.id for q in liquids)]
    )
    return f"{computed.catalogue['plain-water'].text()} plain, {computed.catalogue['liquids-water'].text()} in {brought}"


def _lye(computed: Computed) -> Iterator[Entry]:
    figures, f = computed.catalogue, computed.figures
    dissolved = ""
    if abs(f.lye_strength_dissolved - f.lye_strength) > 0.0005:
        dissolved = f"{percent(f.lye_strength_dissolved)} as the alkali dissolves"
    yield entry(figures["lye-strength"], "Lye strength", dissolved, "lye strength")
    ratio = figures["water-to-lye"]
    yield Entry(
        ratio.name,
        "Water to lye",
        ratio.text(),
        repr(ratio.value),
        "parts to one of alkali",
        links.anchor("water to lye"),
    )
    yield entry(figures["water-of-oils"], "Water of oils", "", "water of oils")


def _superfat(computed: Computed, scale: Scale) -> Iterator[Entry]:
    figures, f = computed.catalogue, computed.figures
    yield entry(figures["superfat"], "Superfat, nominal", "", "superfat")
    yield entry(figures["superfat-as-weighed"], "As weighed", f"every weight rounded to {scale.step_text}")
    yield _range(
        f.bands.likely.low,
        f.bands.likely.high,
        "superfat-likely",
        "Likely",
        "oils vary apart from each other",
    )
    yield _range(
        f.bands.worst.low,
        f.bands.worst.high,
        "superfat-worst",
        "Worst case",
        "all oils at one end of their ranges",
    )
    if f.liquids_fat > 0:
        yield entry(
            figures["superfat-with-liquids-fat"],
            "With the liquids' fat",
            f"{short(f.liquids_fat)} g of it, counted in",
        )


def _range(low: float, high: float, name: str, label: str, note: str) -> Entry:
    text = f"{percent(low).removesuffix(' %')} to {percent(high)}"
    return Entry(name, label, text, f"{100 * low!r} {100 * high!r}", note)
