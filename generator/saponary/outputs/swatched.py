"""The swatches of the colours that one may choose by on a page: only bars that give one are drawn."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import Generic, Protocol, TypeVar

from saponary.outputs import rests_on
from saponary.outputs.page_kind import PageContext
from saponary.outputs.rows import Pick, RowsOf
from saponary.views.choices import Choice
from saponary.views.swatches import Swatch, Tinted, most_of, swatches, with_swatches


class Row(Protocol):
    """A row of such a page."""

    @property
    def tinted(self) -> tuple[Tinted, ...]:
        """The parts of its bar."""
        ...


T = TypeVar("T", bound=Row)


@dataclass(frozen=True)
class Swatched(Generic[T]):
    """The swatches of a page: from its rows follow the choices, from these which bars are drawn."""

    context: PageContext
    rows: RowsOf[T]
    choices: Callable[[Sequence[T]], Sequence[Choice]]

    def name(self) -> str:
        """That under which a page rests on the bars that give its swatches."""
        name = rests_on.picked(self.rows.name)
        self.context.rows.picks[name] = Pick(self.rows.texts, self._rest)
        return name

    def on(self, found: Sequence[T]) -> tuple[Choice, ...]:
        """The choices of these rows, with their swatches."""
        choices, most = self._most(found)
        recipes = [self.context.site.by_slug[slug] for slug in _slugs(most)]
        rests = rests_on.Rests((rests_on.SETTINGS,), self._names)
        drawn = self.context.rows.all(
            "swatches", Swatch, recipes, rests, lambda one: swatches(one, self.context.drawings)
        )
        return with_swatches(choices, most, drawn.found())

    def _most(self, found: Sequence[T]) -> tuple[Sequence[Choice], dict[str, Tinted]]:
        choices = self.choices(found)
        return choices, most_of(choices, [part for row in found for part in row.tinted])

    def _names(self, slug: str) -> tuple[str, ...]:
        scraps = rests_on.scraps(self.context.site.by_slug[slug])
        return rests_on.recipe(slug), *scraps

    def _rest(self) -> object:
        digest_of, pick = self.context.rows.digest_of, partial(self._picked)
        slugs = self.rows.texts.picked("swatches", pick)
        return [[digest_of(name) for name in self._names(slug)] for slug in slugs] if digest_of else slugs

    def _picked(self) -> list[str]:
        return _slugs(self._most(self.rows.found())[1])


def _slugs(most: dict[str, Tinted]) -> list[str]:
    return sorted({one.slug for one in most.values()})
