"""What a page kind is, and what all pages of a site share."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import NamedTuple, get_args

from jinja2 import Environment

from saponary.assets.store import Key
from saponary.book.published import Published
from saponary.outputs.filling import fill
from saponary.outputs.frame import NavEntry, frame, top_of
from saponary.outputs.policy import with_policy
from saponary.outputs.rows import Rows
from saponary.outputs.templating import named_by_content, script
from saponary.schema.edition import Reader
from saponary.views.drawings import Drawings
from saponary.views.links import root
from saponary.views.prose_links import Links
from saponary.views.site import SiteInput


class SiteFile(NamedTuple):
    """One file of the site, not yet made.

    `uses` names every value that its bytes depend on (`outputs.rests_on`). `recipe` names the one
    recipe it is about, if it is.
    """

    path: str
    write: Callable[[], bytes]
    uses: tuple[str, ...]
    recipe: str | None = None
    key: Callable[[], Key] | None = None
    """Under which key a step of its own keeps it, in all editions that have the same; told while its recipe is at hand."""


@dataclass
class Ways:
    """What is known once a site's files have been counted, and before any is written."""

    nav: tuple[NavEntry, ...] = ()
    """The ways through the site."""
    beside: frozenset[str] = frozenset()
    """Those of `frame.BESIDE` that the site has."""


@dataclass(frozen=True)
class PageContext:
    """The site's input with what all pages share."""

    site: SiteInput
    environment: Environment
    templates: tuple[Path, ...]
    style: str
    """Address of the style sheet, from the top of the site."""
    style_sheet: bytes
    drawings: Drawings = field(compare=False)
    ways: Ways = field(default_factory=Ways, compare=False)
    root: str | None = None
    """What leads to the top, where a page's path does not tell."""
    rows: Rows = field(default_factory=Rows, compare=False)
    photos: Mapping[str, bytes] = field(default_factory=dict[str, bytes], compare=False)
    """Files of the site's photos, by their addresses."""
    _scripts: dict[str, str] = field(default_factory=dict[str, str], compare=False)

    @property
    def nav(self) -> tuple[NavEntry, ...]:
        """The ways through this site."""
        return self.ways.nav

    @property
    def top(self) -> str:
        """The address of the top of this edition, ending in a slash; '' for a book that does not say it."""
        return top_of(self.site)

    @property
    def recipes(self) -> tuple[Published, ...]:
        """The recipes of the edition."""
        return self.site.recipes

    def links(self, path: str, folder: str = "recipes") -> Links:
        """Where the texts of a file in `folder` lead from the page at `path`."""
        return Links(self.published, root(path), folder, self.site.pages)

    @property
    def published(self) -> frozenset[str]:
        """The slugs of the edition's recipes."""
        return self.site.slugs

    def script(self, name: str) -> str:
        """Where one of the scripts lies, from the top of the site."""
        if name not in self._scripts:
            self._scripts[name] = named_by_content(name, script(self.templates, name))
        return self._scripts[name]

    def page(self, template: str, path: str, **view: object) -> bytes:
        """Fill a template for the page at `path`."""
        around = frame(self.site, path, self.style, self.ways.nav, self.ways.beside, self.root)
        made = fill(self.environment, template, frame=around, **view)
        return with_policy(made, self.style_sheet.decode("utf-8", "replace")).encode("utf-8")


def _of_no_recipe(context: PageContext, recipe: Published) -> Iterator[SiteFile]:
    return iter(())


def _of_recipes_alone(context: PageContext) -> Iterator[SiteFile]:
    return iter(())


class PageKind(NamedTuple):
    """A kind of page: its name, and the files it brings to a site."""

    name: str
    render: Callable[[PageContext], Iterator[SiteFile]] = _of_recipes_alone
    """Those that are about the book."""
    each: Callable[[PageContext, Published], Iterator[SiteFile]] = _of_no_recipe
    """Those about one of its recipes, with its slug in their paths: whoever wants these asks for no other's."""
    needs: str | None = None
    """What an edition must show for this kind to be in it at all."""
    nav: NavEntry | None = None
    """Its page in the navigation. A site that lacks the page has no such link."""
    ways: Callable[[SiteInput], tuple[NavEntry, ...]] = lambda site: ()
    """More of its pages in the navigation, of those that this site has."""
    readers: tuple[Reader, ...] = get_args(Reader)
    """For whom such pages are made."""

    def is_for(self, site: SiteInput) -> bool:
        """Whether an edition has pages of this kind."""
        shown = self.needs is None or site.shows(self.needs)
        return shown and site.edition.reader in self.readers


RECIPES: tuple[Reader, ...] = ("reader", "student")
CUSTOMERS: tuple[Reader, ...] = ("customer",)
