"""A recipe at the size of a class: as a case of its own, on the scale, with blanks where wanted."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from markupsafe import Markup

from saponary.book.catalogue import catalogue
from saponary.book.classes import ClassPlan, sized
from saponary.book.computed import Computed
from saponary.lye.figures import weigh
from saponary.lye.formula import Addition
from saponary.pantry.model import Pantry
from saponary.quantity.numbers import Scale
from saponary.schema import recipe as written
from saponary.views import names
from saponary.views.paper.handout_prose import BLANK, ClassProse
from saponary.views.weigh_sheet import Bench, Line
from saponary.views.work import Stage, work_order

_ALKALIS = {
    "lye": ("Sodium hydroxide", "Potassium hydroxide"),
    "sodium-hydroxide": ("Sodium hydroxide",),
    "potassium-hydroxide": ("Potassium hydroxide",),
    "water": ("Plain water",),
    "plain-water": ("Plain water",),
    "lye-solution": ("In the jug",),
    "oils": ("All the oils",),
}


def at_class_size(computed: Computed, plan: ClassPlan, students: float = 1.0) -> Computed | None:
    """A recipe as so many students of a class make it together; None where its mould is not known.

    Its own mould's cuts go: they are cuts of another mould.
    """
    built = sized(plan, computed.resolved, computed.pantry, students)
    if built is None:
        return None
    figures = weigh(built.formula)
    model = computed.model.model_copy(update={"cut": None})
    return replace(
        computed, resolved=built, figures=figures, catalogue=catalogue(figures, built), model=model, quotes=()
    )


@dataclass(frozen=True)
class ClassBench(Bench):
    """A bench of a class. `hidden` are the weighings a student works out first."""

    hidden: frozenset[str] = frozenset()

    def line(self, what: str, grams: float, *notes: str, share: str = "") -> Line:
        made = super().line(what, grams, *notes, share=share)
        return replace(made, main="", beside="") if what in self.hidden else made

    def total(self, what: str, lines: Iterable[Line]) -> Line:
        summed = tuple(lines)
        made = super().total(what, summed)
        # A sum beside all but one of its parts would give that one away.
        told = what not in self.hidden and all(line.main for line in summed)
        return made if told else replace(made, main="", beside="")

    def written_additions(self) -> Iterator[tuple[Addition, written.Addition | None]]:
        """A spoonful counted for the batch as written is none at another size."""
        for part, item in super().written_additions():
            absolute = item is not None and item.amount.is_volume and item.amount.per_grams_of_oil is None
            yield part, None if absolute else item


def hidden_lines(blank: frozenset[str], shelf: Pantry) -> frozenset[str]:
    """The weighings that would give these figures away."""
    found: set[str] = set()
    for name in blank:
        kind, _, what = name.partition(" ")
        spoken = {"oil": names.oil, "liquid": names.liquid, "addition": names.addition}.get(kind)
        found.update((spoken(shelf, what),) if what and spoken else _ALKALIS.get(name, ()))
    return frozenset(found)


def stages(bench: ClassBench, blank: frozenset[str]) -> tuple[Stage, ...]:
    """The work order, in whose sentences the figures left blank are blank too."""
    order = work_order(bench)
    texts = sorted(
        {bench.computed.catalogue[name].text() for name in blank if name in bench.computed.catalogue}
    )
    if not texts:
        return order
    found = re.compile("|".join(rf"(?<![\d.]){re.escape(text)}" for text in texts))

    def cut(said: tuple[str, ...]) -> tuple[str, ...]:
        return tuple(Markup(BLANK.join(Markup.escape(part) for part in found.split(text))) for text in said)

    return tuple(
        replace(stage, lead=cut(stage.lead), order=cut(stage.order), close=cut(stage.close))
        for stage in order
    )


def class_bench(
    computed: Computed, scale: Scale, *, answers: bool, blank: frozenset[str] = frozenset()
) -> ClassBench:
    """`answers` for the teacher's copy, which hides nothing."""
    hidden = frozenset() if answers else hidden_lines(blank, computed.pantry)
    prose = ClassProse(computed.catalogue, own=computed.catalogue, gaps=blank, answers=answers)
    return ClassBench(computed, scale, prose, hidden)
