"""Labels for bars: one recipe on one grid of a maker's paper, every label alike."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from saponary.book.computed import Computed
from saponary.book.published import Published
from saponary.label.cautions import for_buyers
from saponary.label.fit import LEADING, Fitted, Misfit, Words, fit
from saponary.label.lists import Bar
from saponary.label.tables import jurisdictions
from saponary.messages.message import Message, message
from saponary.messages.speaker import speaker
from saponary.quantity.numbers import OUNCE
from saponary.quantity.rounding import show, show_down
from saponary.reading.findings import Finding
from saponary.schema.label_sheets import LabelSheet
from saponary.schema.settings import Settings
from saponary.views.prose import Prose

RULE = "label-fit"
_OUNCES_IN_A_POUND = 16.0


@dataclass(frozen=True)
class At:
    """Where a label lies on its page, in mm."""

    left: str
    top: str


@dataclass(frozen=True)
class LabelsView:
    """Everything `press/labels.html` prints: sizes in mm and points, lines of text, and places."""

    width: str
    height: str
    padding: str
    size: str
    name_size: str
    net_size: str
    leading: str
    text: Fitted
    places: tuple[At, ...]


def net_weight(grams: float) -> Message:
    """In both units, each rounded down, so that neither promises more than there is."""
    metric = show_down(grams, 0 if grams >= 10 else 1)
    ounces = grams / OUNCE
    text = message("label.net", grams=metric, ounces=show_down(ounces, 1))
    pounds = show_down(ounces / _OUNCES_IN_A_POUND, 0)
    if pounds == "0":
        return text
    rest = show_down(ounces - _OUNCES_IN_A_POUND * int(pounds), 1)
    return message("label.net-pounds", net=text, pounds=pounds, ounces=rest)


def words(computed: Computed | Published, bar: Bar, settings: Settings, law: str) -> Words | None:
    """What a recipe's label says, in the book's language, since its length says how large it is set;
    None where the recipe states no net weight.
    """
    label = computed.model.label
    if label is None or label.net_weight is None:
        return None
    say = speaker(settings.language)
    heads = (say(caution.head) for caution in for_buyers(computed))
    return Words(
        name=Prose(computed.catalogue).title(computed.model.title),
        kind=say(f"label.kind.{computed.model.serves}"),
        ingredients=say("label.ingredients", listed=bar.ingredients(jurisdictions()[law]).text),
        caution=" ".join((say("label.eyes"), *heads)),
        net_weight=say(net_weight(label.net_weight.grams)),
        lot=say("label.lot"),
        maker=", ".join(part for part in (settings.maker or settings.title, settings.place) if part),
    )


KEYS_BY_ID = {"label.kind.": ("bar", "liquid-soap", "paste")}
"""Keys that are put together here: what they start with, and the ids that may follow."""


def labels_view(said: Words, grid: LabelSheet) -> LabelsView | Misfit:
    """The labels of a sheet, or why the text does not fit on them."""
    width, height = grid.width.millimetres, grid.height.millimetres
    fitted = fit(said, width, height, grid.law)
    if isinstance(fitted, Misfit):
        return fitted
    return LabelsView(
        width=show(width, 2),
        height=show(height, 2),
        padding=show(fitted.padding, 2),
        size=show(fitted.size, 2),
        name_size=show(fitted.name_size, 2),
        net_size=show(fitted.net_size, 2),
        leading=show(LEADING, 2),
        text=fitted,
        places=tuple(At(show(left, 2), show(top, 2)) for left, top in grid.places()),
    )


def misfits(
    computed: Computed, bar: Bar, settings: Settings, grids: Mapping[str, LabelSheet]
) -> Iterator[Finding]:
    """Grids on whose labels the text of this recipe does not fit: no sheet is made of them."""
    for name, grid in grids.items():
        said = words(computed, bar, settings, grid.law)
        made = labels_view(said, grid) if said is not None else None
        if isinstance(made, Misfit):
            text = f"no labels of the grid {name!r} are made of this recipe: {made.why}"
            yield computed.finding(
                RULE, ("label",), text, "use a grid of larger labels", "warning", key=True, about=name
            )
