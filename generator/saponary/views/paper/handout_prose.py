"""A class's texts: figures at the student's size, and those a student works out left blank."""

from __future__ import annotations

from dataclasses import dataclass
from math import nan

from markupsafe import Markup

from saponary.book import quotes
from saponary.book.figure import Figure, compare
from saponary.book.plain_title import unknown_figure
from saponary.quantity.units import QuantityError
from saponary.views.prose import Prose
from saponary.views.prose_marks import Placed
from saponary.words.at_another_size import has_share, has_weight, without

BLANK = Markup('<span class="blank gap"></span>')


@dataclass(frozen=True)
class Gap(Placed):
    """A figure that is to be worked out: a line to write on."""

    @property
    def html(self) -> str:
        return str(BLANK)


@dataclass(frozen=True)
class Answer(Placed):
    """The same on the teacher's copy, where it stands out."""

    @property
    def html(self) -> str:
        return f'<strong class="answer">{super().html}</strong>'


@dataclass(frozen=True)
class ClassProse(Prose):
    """A text of a class, at the size of `figures`, which is the student's.

    Figures that a text leaves blank (`gaps`) are blank wherever they stand; `answers` fills them in. One
    that is quoted is given again for this size, to the same precision. Of a text that was written for
    another size (`travels`) a sentence with weights of its own, or with a figure that this size does
    not have, is left out, and so is one that gives a blank away.
    """

    gaps: frozenset[str] = frozenset()
    answers: bool = False
    travels: bool = False
    instead: str = ""

    def _marked(self, text: str, *, code: bool) -> tuple[str, list[Placed]]:
        return super()._marked(
            without(text, self._left_out, self.instead) if self.travels else text, code=code
        )

    def _left_out(self, sentence: str) -> bool:
        if has_weight(sentence) or any(q.name not in self.figures for q in quotes.find(sentence, code=False)):
            return True
        hides_superfat = not self.answers and bool(self.gaps & SUPERFAT)
        return hides_superfat and has_share(sentence)

    def _shown(self, quote: quotes.Quote, text: str) -> Placed | None:
        figure = self.figures.get(quote.name)
        if figure is None:
            return None
        if not figure.known:
            return Placed(text[quote.start : quote.end], unknown_figure(figure), nan)
        source, said = text[quote.start : quote.end], figure.text()
        if quote.value is not None:
            try:
                said = compare(figure, quote.value).recomputed
            except QuantityError:
                return None
        value = figure.in_unit(said.partition(" ")[2])
        if not quote.blank and not self._is_a_gap(figure):
            return Placed(source, said, value)
        return Answer(source, said, value) if self.answers else Gap(source, "…", value)

    def _is_a_gap(self, figure: Figure) -> bool:
        """Whether it is one that is left blank, by whatever name, or would give one away."""
        gaps = [self.figures[name] for name in self.gaps if name in self.figures]
        same = any(gap.kind == figure.kind and gap.value == figure.value for gap in gaps)
        return same or (self.travels and any(_gives_away(figure, gap) for gap in gaps))


SUPERFAT = frozenset({"superfat", "superfat-as-weighed"})

_KIN = (
    frozenset({"lye", "sodium-hydroxide", "potassium-hydroxide", "lye-solution"}),
    frozenset({"water", "plain-water", "lye-solution"}),
)
"""Masses that go with each other: one of a portion, or a sum with the other, gives it away."""


_PARTS = ("oil", "liquid", "addition", "after-cook")
_OF_OILS = frozenset({"oils", "oils-for-label"})


def _gives_away(figure: Figure, gap: Figure) -> bool:
    if gap.name in SUPERFAT:
        return figure.name.startswith("superfat")
    if gap.kind != "mass" or figure.kind not in ("mass", "volume"):
        return False
    last, hidden = figure.name.rpartition(" ")[2], gap.name.rpartition(" ")[2]
    kin = last == hidden or any(last in kin and hidden in kin for kin in _KIN)
    return kin or _is_part_of(gap, figure)


def _is_part_of(gap: Figure, figure: Figure) -> bool:
    """Whether a figure is a sum that the gap is a part of: with the other parts it would give it away."""
    words = figure.name.split()
    named = words[2:] if words[0] == "portion" else words
    if named[0] in _PARTS or any(named[-1] in kin for kin in _KIN):
        return False
    return named[-1] not in _OF_OILS or gap.name in _OF_OILS or gap.name.startswith("oil ")


def blanks(*texts: str) -> frozenset[str]:
    """Names of the figures that these texts leave blank."""
    return frozenset(quote.name for text in texts for quote in quotes.find(text) if quote.blank)
