"""Lines of a weigh sheet: what, how much on the scale, and what to know about it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from markupsafe import Markup

from saponary.book.computed import Computed
from saponary.lye.formula import Addition, Liquid, Oil
from saponary.pantry.model import Pantry
from saponary.quantity.numbers import Scale, Weighed, percent
from saponary.schema import recipe as written
from saponary.views import names
from saponary.views.prose import Prose


@dataclass(frozen=True)
class Line:
    """One weighing, or the sum of several; `grams` is what lies on the scale."""

    what: str
    main: str
    beside: str
    grams: float
    share: str = ""
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Table:
    """Weighings that belong together, in the order of hands."""

    caption: str
    lines: tuple[Line, ...]
    total: Line | None = None
    share_of: str = ""


@dataclass(frozen=True)
class Bench:
    """One recipe on the bench: its case, its scale, and its maker's words."""

    computed: Computed
    scale: Scale
    prose: Prose

    @property
    def shelf(self) -> Pantry:
        return self.computed.pantry

    def line(self, what: str, grams: float, *notes: str, share: str = "") -> Line:
        weighed = self.scale.weigh(grams)
        return _line(what, weighed, share, notes)

    def total(self, what: str, lines: Iterable[Line]) -> Line:
        """The sum of what lies on the scale, so that the column adds up as printed."""
        weighed = self.scale.weigh(sum(line.grams for line in lines))
        return _line(what, replace(weighed, note=""), "", ())

    def oils(self, caption: str, oils: Iterable[Oil], total: str) -> Table:
        there = tuple(oils)
        whole = sum(oil.grams for oil in there) or 1.0
        lines = tuple(
            self.line(
                names.oil(self.shelf, oil.id),
                oil.grams,
                *self._infused(oil),
                share=percent(oil.grams / whole),
            )
            for oil in there
        )
        return Table(caption, lines, self.total(total, lines) if len(lines) > 1 else None, "of the oils")

    def liquid(self, part: Liquid, *notes: str) -> Line:
        return self.line(names.liquid(self.shelf, part.id), part.grams, *notes)

    def addition(self, part: Addition, item: written.Addition | None, *notes: str) -> Line:
        return self.line(names.addition(self.shelf, part.id), part.grams, *notes, *_as_written(item))

    def written_additions(self) -> Iterator[tuple[Addition, written.Addition | None]]:
        """Every addition of the formula beside the entry that brought it; both keep one order."""
        model = self.computed.model
        items = [*model.additions, *(item for portion in model.portions for item in portion.additions)]
        parts = self.computed.resolved.formula.additions
        yield from zip(parts, items if len(items) == len(parts) else [None] * len(parts), strict=True)

    def steps(self, *at: str, portion: str | None = None) -> tuple[Markup, ...]:
        """The maker's own steps at a stage."""
        return tuple(
            self.prose.inline(step.say)
            for step in self.computed.model.steps
            if step.at in at and (portion is None or step.portion == portion)
        )

    def _infused(self, oil: Oil) -> tuple[str, ...]:
        return (f"infused with {names.botanical(self.shelf, oil.infused_with)}",) if oil.infused_with else ()


def _line(what: str, weighed: Weighed, share: str, notes: Iterable[str]) -> Line:
    return Line(
        what,
        weighed.main,
        weighed.beside,
        weighed.grams,
        share,
        tuple(n for n in (*notes, weighed.note) if n),
    )


def _as_written(item: written.Addition | None) -> tuple[str, ...]:
    """A spoonful keeps its spoon beside the grams."""
    if item is None:
        return ()
    spoon = (
        (f"{' '.join(item.amount.text.split())} of oils",)
        if item.amount.is_volume and item.amount.per_grams_of_oil
        else ()
    )
    if item.amount.is_volume and not spoon:
        spoon = (" ".join(item.amount.text.split()),)
    return (*((f"written as {s}") for s in spoon), *((item.from_,) if item.from_ else ()))
