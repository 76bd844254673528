"""Lines of a weigh sheet: what, how much on the scale, and what to know about it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from markupsafe import Markup

from saponary.book.published import Published
from saponary.lye.formula import Addition, Liquid, Oil, shares
from saponary.messages.message import Message, Number, Value, Within, message, percent
from saponary.pantry.model import Pantry
from saponary.quantity.numbers import Scale, Weighed
from saponary.schema import blend as written
from saponary.views import names
from saponary.views.prose import Prose


@dataclass(frozen=True)
class WeighLine:
    """One weighing, or the sum of several; `grams` is what lies on the scale.

    `id` is the name of its figure where the catalogue has one (`oil olive`, `plain-water`), else one
    of its own. `main` and `beside` are None where the weight is to be worked out.
    """

    id: str
    what: Value
    grams: float
    main: Number | None
    beside: Number | None
    share: Number | None = None
    notes: tuple[Value, ...] = ()


@dataclass(frozen=True)
class WeighTable:
    """Weighings that belong together, in the order of hands; `shares` where each line has its share."""

    id: str
    caption: Value
    lines: tuple[WeighLine, ...]
    total: WeighLine | None = None
    shares: bool = False


@dataclass(frozen=True)
class WeighSheet:
    """One recipe on the bench: its figures, its scale, and its maker's words."""

    computed: Published
    scale: Scale
    prose: Prose

    @property
    def shelf(self) -> Pantry:
        return self.computed.pantry

    def weight(self, grams: float) -> Number:
        """As it lies on the scale, with its unit."""
        weighed = self.scale.weigh(grams)
        return Number(weighed.shown, weighed.decimals, self.scale.unit)

    def line(
        self, id: str, what: Value, grams: float, *notes: Value, share: Number | None = None
    ) -> WeighLine:
        weighed = self.scale.weigh(grams)
        finer = (message("work.finer", step=scale_step(self.scale)),) if weighed.fine else ()
        return _line(id, what, weighed, share, (*notes, *finer))

    def total(self, id: str, what: Value, lines: Iterable[WeighLine]) -> WeighLine:
        """The sum of what lies on the scale, so that the column adds up as printed."""
        return _line(id, what, self.scale.weigh(sum(line.grams for line in lines)), None, ())

    def oils(self, id: str, caption: Value, oils: Iterable[Oil], total: Message) -> WeighTable:
        parts = tuple(oils)
        lines = tuple(
            self.line(
                f"oil {oil.id}",
                names.oil(self.shelf, oil.id),
                oil.grams,
                *self.infused(oil),
                share=percent(share),
            )
            for oil, share in shares(parts, parts)
        )
        return WeighTable(
            id, caption, lines, self.total("oils", total, lines) if len(lines) > 1 else None, shares=True
        )

    def liquid(self, part: Liquid, *notes: Value) -> WeighLine:
        return self.line(f"liquid {part.id}", names.liquid(self.shelf, part.id), part.grams, *notes)

    def addition(self, part: Addition, item: written.Addition | None, *notes: Value) -> WeighLine:
        what = names.addition(self.shelf, part.id)
        return self.line(f"addition {part.id}", what, part.grams, *notes, *_as_written(item))

    def written_additions(self) -> Iterator[tuple[Addition, written.Addition | None]]:
        """Every addition of the formula beside the entry that brought it; both keep one order."""
        model = self.computed.model
        items: list[written.Addition | None] = [None] * len(model.soap)
        items += [*model.additions, *(item for portion in model.portions for item in portion.additions)]
        parts = self.computed.resolved.formula.additions
        yield from zip(parts, items if len(items) == len(parts) else [None] * len(parts), strict=True)

    def steps(self, *at: str, portion: str | None = None) -> tuple[Markup, ...]:
        """The maker's own steps at a stage."""
        return tuple(
            self.prose.inline(step.say)
            for step in self.computed.model.steps
            if step.at in at and (portion is None or step.portion == portion)
        )

    def infused(self, oil: Oil) -> tuple[Message, ...]:
        if not oil.infused_with:
            return ()
        return (message("work.infused", botanical=Within(names.botanical(self.shelf, oil.infused_with))),)


def scale_step(scale: Scale) -> Number:
    """The least that the scale shows."""
    return Number(scale.step_shown, 3, scale.unit, short=True)


def hidden(line: WeighLine) -> WeighLine:
    """The same line with its weight left to be worked out."""
    return replace(line, main=None, beside=None)


def _line(id: str, what: Value, weighed: Weighed, share: Number | None, notes: Iterable[Value]) -> WeighLine:
    return WeighLine(
        id,
        what,
        weighed.grams,
        Number(weighed.shown, weighed.decimals),
        Number(weighed.shown_beside, weighed.decimals_beside),
        share,
        tuple(note for note in notes if note != ""),
    )


def _as_written(item: written.Addition | None) -> Iterator[Value]:
    """A spoonful keeps its spoon beside the grams."""
    if item is None:
        return
    if item.amount.is_volume:
        key = "work.written-of-oils" if item.amount.per_grams_of_oil else "work.written"
        yield message(key, amount=" ".join(item.amount.text.split()))
    if item.from_:
        yield item.from_
