"""A recipe at the size of a class: computed for itself, on the scale, with blanks where wanted."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from saponary.book.catalogue import catalogue
from saponary.book.classes import ClassPlan, sized
from saponary.book.published import Published
from saponary.lye.figures import weigh
from saponary.lye.formula import Addition
from saponary.messages.message import Listed, Message, Number, Value, message
from saponary.messages.speaker import speaker
from saponary.quantity.numbers import Scale
from saponary.quantity.rounding import show
from saponary.schema import blend as written
from saponary.views.paper.handout_prose import BLANK, ClassProse
from saponary.views.stages.stage import Stage
from saponary.views.weigh_sheet import WeighLine, WeighSheet, hidden
from saponary.views.work import work_order

_GIVEN_AWAY_BY = {
    "lye": ("sodium-hydroxide", "potassium-hydroxide"),
    "water": ("plain-water",),
}
"""Figures that are no line of the weigh sheet themselves: the lines that would give them away."""


def at_class_size(computed: Published, plan: ClassPlan, students: float = 1.0) -> Published | None:
    """A recipe as so many students of a class make it together; None where its mould is not known.

    Its own mould's cuts go: they are cuts of another mould. Nor does it tell of lots, which were of another size.
    """
    built = sized(plan, computed.resolved, computed.pantry, students)
    if built is None:
        return None
    figures = weigh(built.formula)
    model = computed.model.model_copy(update={"cut": None})
    return replace(
        computed,
        resolved=built,
        figures=figures,
        catalogue=catalogue(figures, built, computed.settings.units),
        model=model,
        quotes=(),
        batches=(),
    )


@dataclass(frozen=True)
class ClassBench(WeighSheet):
    """The bench of a class. `hidden` are the ids of the weighings a student works out first."""

    hidden: frozenset[str] = frozenset()

    def line(
        self, id: str, what: Value, grams: float, *notes: Value, share: Number | None = None
    ) -> WeighLine:
        made = super().line(id, what, grams, *notes, share=share)
        return hidden(made) if id in self.hidden else made

    def total(self, id: str, what: Value, lines: Iterable[WeighLine]) -> WeighLine:
        summed = tuple(lines)
        made = super().total(id, what, summed)
        # A sum beside all but one of its parts would give that one away.
        given = id not in self.hidden and all(line.main is not None for line in summed)
        return made if given else hidden(made)

    def written_additions(self) -> Iterator[tuple[Addition, written.Addition | None]]:
        """A spoonful counted for the batch as written is none at another size."""
        for part, item in super().written_additions():
            absolute = item is not None and item.amount.is_volume and item.amount.per_grams_of_oil is None
            yield part, None if absolute else item


def hidden_lines(blank: frozenset[str]) -> frozenset[str]:
    """The weighings, by their ids, that would give these figures away."""
    return frozenset(line for name in blank for line in _GIVEN_AWAY_BY.get(name, (name,)))


def stages(bench: ClassBench, blank: frozenset[str]) -> tuple[Stage, ...]:
    """The work order, in whose sentences the figures left blank are blank too."""
    order = work_order(bench).stages
    gaps = [bench.computed.catalogue[name] for name in blank if name in bench.computed.catalogue]
    if not gaps:
        return order
    shown = frozenset(_shown(figure.number()) for figure in gaps)

    def cut(sentences: tuple[Value, ...]) -> tuple[Value, ...]:
        return tuple(_blanked(sentence, shown) for sentence in sentences)

    return tuple(
        replace(stage, lead=cut(stage.lead), order=cut(stage.order), close=cut(stage.close))
        for stage in order
    )


def _blanked(what: Value, gaps: frozenset[tuple[str, str]]) -> Value:
    """A sentence with a line to write on for each number that shows one of these figures."""
    if isinstance(what, Message):
        return Message(what.key, {name: _blanked(value, gaps) for name, value in what.values.items()})
    if isinstance(what, Listed):
        return Listed(tuple(_blanked(item, gaps) for item in what.items))
    return BLANK if isinstance(what, Number) and _shown(what) in gaps else what


def _shown(number: Number) -> tuple[str, str]:
    """A number as it is printed, and its unit."""
    return show(number.value, number.decimals), number.unit


def class_bench(
    computed: Published, scale: Scale, *, answers: bool, blank: frozenset[str] = frozenset()
) -> ClassBench:
    """`answers` for the teacher's copy, which hides nothing."""
    instead = speaker(computed.settings.language, computed.settings.units).say(message("handout.left-out"))
    prose = ClassProse(computed.catalogue, gaps=blank, answers=answers, travels=True, instead=instead)
    return ClassBench(computed, scale, prose, frozenset() if answers else hidden_lines(blank))
