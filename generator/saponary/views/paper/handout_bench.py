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
from saponary.views.pots import BATTER
from saponary.views.stages.stage import Stage
from saponary.views.weigh_sheet import WeighLine, WeighSheet, hidden, scale_step
from saponary.views.work import work_order

_GIVEN_AWAY_BY = {
    "lye": ("sodium-hydroxide", "potassium-hydroxide"),
    "water": ("plain-water",),
}
"""Figures that are no line of the weigh sheet themselves: the lines that would give them away."""
_JUG = frozenset({"sodium-hydroxide", "potassium-hydroxide", "plain-water"})
_STRENGTHS = ("lye-strength", "lye-strength-dissolved")
"""What gives the lye away beside its water, and the water beside its lye."""


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
        return hidden(made) if id in self.hidden or self._holds_hidden(id) else made

    def _holds_hidden(self, id: str) -> bool:
        """Whether what is taken of a pot or of a jug would give a hidden weighing away, with the others."""
        if id in BATTER:
            return bool(self.hidden)
        return id.startswith("lye-solution ") and any(not name.startswith("oil ") for name in self.hidden)

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
    """The work order, in whose sentences the figures left blank are blank too, and all weights of which
    they are a part.
    """
    order = work_order(bench).stages
    names = {*blank, *(_STRENGTHS if bench.hidden & _JUG else ())}
    gaps = [bench.computed.catalogue[name] for name in names if name in bench.computed.catalogue]
    if not gaps:
        return order
    shown = frozenset(_shown(figure.number()) for figure in gaps)
    given = frozenset(_plainly_given(bench)) if bench.hidden else None

    def cut(sentences: tuple[Value, ...]) -> tuple[Value, ...]:
        return tuple(_blanked(sentence, shown, given) for sentence in sentences)

    return tuple(
        replace(stage, lead=cut(stage.lead), order=cut(stage.order), close=cut(stage.close))
        for stage in order
    )


_MASSES = ("g", "kg", "oz")


def _plainly_given(bench: ClassBench) -> Iterator[tuple[str, str]]:
    """The weights that stand on the scale as they are, as printed: parts of the formula that are not hidden; and its step."""
    formula = bench.computed.resolved.formula
    yield _shown(scale_step(bench.scale))
    for kind, parts in (("oil", formula.oils), ("liquid", formula.liquids), ("addition", formula.additions)):
        yield from (
            _shown(bench.weight(part.grams)) for part in parts if f"{kind} {part.id}" not in bench.hidden
        )


def _blanked(
    what: Value, gaps: frozenset[tuple[str, str]], given: frozenset[tuple[str, str]] | None
) -> Value:
    """A sentence with a line to write on for each number that shows one of these figures, or that is a
    weight and none of those `given` (any may stand where that is None).
    """
    if isinstance(what, Message):
        return Message(what.key, {name: _blanked(value, gaps, given) for name, value in what.values.items()})
    if isinstance(what, Listed):
        return Listed(tuple(_blanked(item, gaps, given) for item in what.items))
    if not isinstance(what, Number):
        return what
    sums = given is not None and what.unit in _MASSES and _shown(what) not in given
    return BLANK if sums or _shown(what) in gaps else what


def _shown(number: Number) -> tuple[str, str]:
    """A number as it is printed, and its unit."""
    return show(number.value, number.decimals), number.unit


def class_bench(
    computed: Published, scale: Scale, *, answers: bool, blank: frozenset[str] = frozenset()
) -> ClassBench:
    """`answers` for the teacher's copy, which hides nothing."""
    instead = speaker(computed.settings.language, computed.settings.units).say(message("handout.left-out"))
    prose = ClassProse(computed.catalogue, gaps=blank, answers=answers, travels=True, instead=instead)
    figures = computed.catalogue
    weights = frozenset(name for name in blank if name in figures and figures[name].kind == "mass")
    return ClassBench(computed, scale, prose, frozenset() if answers else hidden_lines(weights))
