"""From a checked book to the files of its site."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import chain
from pathlib import Path

from jinja2 import Environment

from saponary.book.published import Published
from saponary.outputs.frame import BESIDE
from saponary.outputs.page_kind import PageContext, PageKind, SiteFile
from saponary.outputs.pages import KINDS
from saponary.outputs.rows import Rows
from saponary.outputs.templating import accent_style, environment_of, named_by_content, style_sheet
from saponary.outputs.values import value_of
from saponary.views.drawings import Drawings
from saponary.views.site import Output, SiteInput


@dataclass(frozen=True)
class Composition:
    """The files of a site before they are made, so that a caller may leave some unmade."""

    context: PageContext
    of_book: tuple[SiteFile, ...]
    """The files that are about the book."""
    _kinds: tuple[PageKind, ...]

    @cached_property
    def files(self) -> tuple[SiteFile, ...]:
        """All of them."""
        each = (file for recipe in self.context.recipes for file in self.of_recipe(recipe))
        return (*self.of_book, *each)

    def of_recipe(self, recipe: Published) -> Iterator[SiteFile]:
        """The files that are about one recipe."""
        return (file for kind in self._kinds for file in kind.each(self.context, recipe))

    def file(self, path: str) -> SiteFile | None:
        """The file at a path, with no others listed than those of the book and of one recipe."""
        own = (self.context.site.by_slug.get(part) for part in path.split("/"))
        of_one = (file for recipe in own if recipe is not None for file in self.of_recipe(recipe))
        return next((file for file in chain(self.of_book, of_one) if file.path == path), None)

    @property
    def _ways(self) -> object:
        return self.context.nav, sorted(self.context.ways.beside)

    def value(self, name: str) -> object:
        """What is under a name that files of this site say they rest on."""
        of_rows = self.context.rows.value(name)
        if of_rows is not None:
            return of_rows
        return value_of(name, self.context.site, self.context.templates, self._ways)


def compose(site: SiteInput, templates: Sequence[Path], drawings: Drawings | None = None) -> Iterator[Output]:
    """Every file of the site, one at a time. `templates` are searched in their order."""
    for file in composition(site, templates, drawings).files:
        yield Output(file.path, file.write())


def composition(
    site: SiteInput,
    templates: Sequence[Path],
    drawings: Drawings | None = None,
    spoken: Environment | None = None,
    rows: Rows | None = None,
    photos: Mapping[str, bytes] | None = None,
) -> Composition:
    """Which files the site has, and what they rest on.

    `spoken` fills these templates in the book's language; a build hands one to all its editions.
    """
    style = style_sheet(templates) + accent_style(site.book.settings.look.accent)
    context = PageContext(
        site=site,
        environment=spoken
        or environment_of(templates, site.book.settings.language, site.book.settings.units),
        templates=tuple(templates),
        style=named_by_content("style.css", style),
        style_sheet=style,
        drawings=drawings or Drawings(site),
        rows=rows or Rows(),
        photos=photos or {},
    )
    kinds = tuple(kind for kind in KINDS if kind.is_for(site))
    of_book = tuple(file for kind in kinds for file in kind.render(context))
    paths = {file.path for file in of_book}
    entries = (entry for kind in kinds for entry in (kind.nav, *kind.ways(site)))
    context.ways.nav = tuple(entry for entry in entries if entry is not None and entry.path in paths)
    context.ways.beside = BESIDE & paths
    return Composition(context, of_book, kinds)
