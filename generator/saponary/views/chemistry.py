"""What the bar is made of: fatty acids, the two values of the blend, and the fresh bar by mass."""

from __future__ import annotations

from typing import NamedTuple

from markupsafe import Markup

from saponary.book.published import Published
from saponary.draw.charts import Chart, Share, key, shares, spectrum
from saponary.draw.charts.acids import KINDS, kind
from saponary.lye.fatty_acids import FATTY_ACIDS
from saponary.messages.message import Message, Number, grams, message, percent
from saponary.messages.speaker import speaker
from saponary.views.entries import Entry, entry

_LEAST = 0.005
"""Acids below this share stand in one line with the other small ones of their group."""


class Acid(NamedTuple):
    """One fatty acid, or the small ones of a group together, which have no chain of their own."""

    name: Message
    chain: str
    share: Number


class Group(NamedTuple):
    name: Message
    share: Number
    key: Markup
    acids: tuple[Acid, ...]


class Component(NamedTuple):
    """What a part of the fresh bar is, how much of it there is, and its sign in the chart."""

    name: Message
    grams: Number
    share: Number
    key: Markup


class ChemistryView(NamedTuple):
    """`covered` is the share of the oils whose composition is known, where it is not all of them."""

    values: tuple[Entry, ...]
    spectrum: Chart | None
    groups: tuple[Group, ...]
    covered: Number | None
    balance: Chart
    parts: tuple[Component, ...]
    whole: Component


def chemistry(computed: Published) -> ChemistryView:
    found = computed.figures.chemistry
    parts = _parts(computed)
    whole = computed.figures.loaf or 1.0
    say = speaker(computed.settings.language, computed.settings.units)
    return ChemistryView(
        values=_values(computed),
        spectrum=spectrum(found.fatty_acids, say) if found.fatty_acids else None,
        groups=tuple(_group(computed, name, pattern) for name, pattern in KINDS if found.fatty_acids),
        covered=None if found.covered > 0.9995 else percent(found.covered),
        balance=shares(
            [Share(say(part), weight / whole, pattern) for part, weight, pattern in parts],
            say("chemistry.balance"),
            say,
            "balance",
        ),
        parts=tuple(
            Component(part, grams(weight), percent(weight / whole), Markup(key(pattern, f"balance-key-{i}")))
            for i, (part, weight, pattern) in enumerate(parts)
        ),
        whole=Component(message("chemistry.in-mould"), grams(whole), percent(1.0), Markup("")),
    )


def _values(computed: Published) -> tuple[Entry, ...]:
    figures = computed.catalogue
    found = [
        entry(
            figures["saponification-value"],
            message("figure.saponification-value"),
            message("figure.mg-of-alkali"),
            "saponification-value",
        )
    ]
    if "iodine-value" in figures:
        taken_up = message("figure.taken-up")
        found.append(entry(figures["iodine-value"], message("figure.iodine-value"), taken_up, "iodine-value"))
    return tuple(found)


def _group(computed: Published, name: str, pattern: str) -> Group:
    acids = [
        (k, part)
        for k, part in computed.figures.chemistry.fatty_acids.items()
        if kind(k) == name and part > 0
    ]
    small = [part for _, part in acids if part < _LEAST]
    lines = [
        Acid(message(f"acid.{k}"), k, percent(part)) for k, part in acids if part >= _LEAST or len(small) == 1
    ]
    if len(small) > 1:
        lines.append(Acid(message("chemistry.others"), "", percent(sum(small))))
    return Group(
        message(f"acids.{name}"),
        percent(computed.figures.chemistry.groups.get(name, 0.0)),
        Markup(key(pattern, f"acids-key-{name}")),
        tuple(lines),
    )


KEYS_BY_ID = {"acid.": tuple(FATTY_ACIDS), "acids.": tuple(name for name, _ in KINDS)}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def _parts(computed: Published) -> list[tuple[Message, float, str]]:
    """The batter once its alkali is spent. What is none of the four is named for what it is."""
    f = computed.figures
    known = [
        (message("chemistry.soap"), f.balance.soap, "solid"),
        (message("chemistry.glycerol"), f.balance.glycerol, "dots"),
        (message("chemistry.oil-left"), f.balance.oil_left, "hatch"),
        (message("chemistry.water"), f.fresh_water, "empty"),
    ]
    rest = f.loaf - sum(weight for _, weight, _ in known)
    return [*known, (message("chemistry.rest"), rest, "cross")] if rest > 0.05 else known
