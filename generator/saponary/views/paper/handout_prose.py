"""A class's texts: figures at the student's size, and those a student works out left blank."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import nan

from markupsafe import Markup

from saponary.book import quotes
from saponary.book.catalogue import Figure, compare
from saponary.book.plain_title import unknown_figure
from saponary.quantity.units import QuantityError
from saponary.views.prose import Placed, Prose

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
    """A text of a class. `own` are the figures at the student's size, which are left blank where the
    text says so, and wherever else the same figure stands; `answers` fills them in. Where `figures`
    are of that size too, one that is quoted is given again for it, to the same precision.
    """

    own: Mapping[str, Figure] = field(default_factory=dict[str, Figure])
    gaps: frozenset[str] = frozenset()
    answers: bool = False

    def _shown(self, quote: quotes.Quote, text: str) -> Placed | None:
        if not quote.blank and self.figures is not self.own:
            return super()._shown(quote, text)
        figure = self.own.get(quote.name)
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
        """Whether it is one that is left blank, by whatever name."""
        return any(
            gap.kind == figure.kind and gap.value == figure.value
            for gap in (self.own[name] for name in self.gaps if name in self.own)
        )


def blanks(*texts: str) -> frozenset[str]:
    """Names of the figures that these texts leave blank."""
    return frozenset(quote.name for text in texts for quote in quotes.find(text) if quote.blank)
