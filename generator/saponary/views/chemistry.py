"""What the bar is made of: fatty acids, the two values of the blend, and the fresh bar by mass."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from saponary.book.computed import Computed
from saponary.draw.charts import Chart, Share, key, shares, spectrum
from saponary.draw.charts.acids import KINDS, kind
from saponary.lye.fatty_acids import FATTY_ACIDS
from saponary.messages.speaker import speaker
from saponary.quantity.numbers import grams, percent
from saponary.views.panel import Entry, entry

_LEAST = 0.005
"""Acids below this share stand in one line with the other small ones of their group."""


@dataclass(frozen=True)
class Acid:
    name: str
    shorthand: str
    share: str


@dataclass(frozen=True)
class Group:
    name: str
    share: str
    key: Markup
    acids: tuple[Acid, ...]


@dataclass(frozen=True)
class Part:
    name: str
    grams: str
    share: str
    key: Markup


@dataclass(frozen=True)
class ChemistryView:
    values: tuple[Entry, ...]
    spectrum: Chart | None
    groups: tuple[Group, ...]
    short: str
    covered: str
    balance: Chart
    parts: tuple[Part, ...]
    whole: Part


def chemistry(computed: Computed) -> ChemistryView:
    found = computed.figures.chemistry
    parts = _parts(computed)
    say = speaker(computed.settings.language)
    whole = computed.figures.loaf or 1.0
    return ChemistryView(
        values=_values(computed),
        spectrum=spectrum(found.fatty_acids, say) if found.fatty_acids else None,
        groups=tuple(_group(computed, name, pattern) for name, pattern in KINDS if found.fatty_acids),
        short=percent(found.groups.get("short", 0.0)) if found.fatty_acids else "",
        covered="" if found.covered > 0.9995 else percent(found.covered),
        balance=shares(
            [Share(name, weight / whole, pattern) for name, weight, pattern in parts],
            "The fresh bar by mass",
            say,
            "balance",
        ),
        parts=tuple(
            Part(name, grams(weight), percent(weight / whole), Markup(key(pattern, f"balance-key-{i}")))
            for i, (name, weight, pattern) in enumerate(parts)
        ),
        whole=Part("In the mould", grams(whole), percent(1.0), Markup("")),
    )


def _values(computed: Computed) -> tuple[Entry, ...]:
    figures = computed.catalogue
    found = [
        entry(
            figures["saponification-value"],
            "Saponification value",
            "mg of potassium hydroxide for a gram of the oils",
            "saponification value",
        )
    ]
    if "iodine-value" in figures:
        found.append(
            entry(
                figures["iodine-value"], "Iodine value", "iodine taken up by the double bonds", "iodine value"
            )
        )
    return tuple(found)


def _group(computed: Computed, name: str, pattern: str) -> Group:
    acids = [
        (k, part)
        for k, part in computed.figures.chemistry.fatty_acids.items()
        if kind(k) == name and part > 0
    ]
    small = [part for _, part in acids if part < _LEAST]
    lines = [
        Acid(FATTY_ACIDS[k].name, k, percent(part)) for k, part in acids if part >= _LEAST or len(small) == 1
    ]
    if len(small) > 1:
        lines.append(Acid("others", "", percent(sum(small))))
    return Group(
        name,
        percent(computed.figures.chemistry.groups.get(name, 0.0)),
        Markup(key(pattern, f"acids-key-{name}")),
        tuple(lines),
    )


def _parts(computed: Computed) -> list[tuple[str, float, str]]:
    """The batter once its alkali is spent. What is none of the four is named for what it is."""
    f = computed.figures
    known = [
        ("soap", f.balance.soap, "solid"),
        ("glycerol", f.balance.glycerol, "dots"),
        ("oil left over", f.balance.oil_left, "hatch"),
        ("water", f.fresh_water, "empty"),
    ]
    rest = f.loaf - sum(weight for _, weight, _ in known)
    return [*known, ("all else", rest, "cross")] if rest > 0.05 else known
