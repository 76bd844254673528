"""What a site is composed from, and what comes out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from functools import cached_property
from typing import Any, NamedTuple

from saponary.assets.once import Once
from saponary.book.changes import Changed, Version
from saponary.book.classes import ClassFile
from saponary.book.logo import Logo
from saponary.book.published import Published
from saponary.label.lists import Bar
from saponary.messages.message import Message
from saponary.pantry.model import Pantry
from saponary.schema.edition import PUBLIC, STANDARD, Edition
from saponary.schema.settings import Settings
from saponary.schema.waivers import Waived
from saponary.views.on_the_web import OnTheWeb
from saponary.views.order import Beside, beside, in_order


@dataclass(frozen=True)
class PhotoSet:
    """A photo in several sizes. Addresses are relative to the top of the site.

    `sources` are pairs of a media type and a `srcset`, best first; `src` is what every
    browser can show.
    """

    width: int
    height: int
    sources: tuple[tuple[str, str], ...]
    src: str
    alt: str


@dataclass(frozen=True)
class PublishedPage:
    """A page of the book's own, as an edition has it; `body` is Markdown, `pictures` the photos that it may show."""

    slug: str
    title: str
    menu: str
    body: str
    pictures: tuple[str, ...]


@dataclass(frozen=True)
class PublishedBook:
    """What of the book's own files an edition may show."""

    settings: Settings
    pantry: Pantry
    own_pantry: Pantry
    """What of it is not as the standard tables have it."""
    classes: tuple[ClassFile, ...] = ()
    waived: tuple[Waived, ...] = ()
    pages: tuple[PublishedPage, ...] = ()
    """In the order of the menu."""
    logo: Logo | None = None


@dataclass(frozen=True)
class SiteInput:
    """An edition of a book. Photos are named as recipes name them, by their path inside `photos/`."""

    book: PublishedBook
    recipes: tuple[Published, ...]
    engine: str
    tables: str
    photos: Mapping[str, PhotoSet] = field(default_factory=dict[str, PhotoSet])
    earlier: Mapping[str, Mapping[str, tuple[Message, ...]]] = field(
        default_factory=dict[str, Mapping[str, tuple[Message, ...]]]
    )
    """By recipe, then by the fingerprint a batch records: what of the formula changed since."""
    changed: Mapping[str, Changed] = field(default_factory=dict[str, Changed])
    """By recipe, where the book is kept in a history: when what its figures come from last changed."""
    versions: Mapping[str, tuple[Version, ...]] = field(default_factory=dict[str, tuple[Version, ...]])
    """By recipe, where the book is kept in a history: its versions, the latest first."""
    labels: Mapping[str, Bar] = field(default_factory=dict[str, Bar])
    """What is in each recipe's bar, by its slug."""
    on_the_web: Mapping[str, OnTheWeb] = field(default_factory=dict[str, OnTheWeb])
    """By recipe: where its pages lie in what is uploaded."""
    edition: Edition = STANDARD[PUBLIC]
    pdfs: frozenset[str] = frozenset()
    """Paths of the PDFs that are made of this edition beside its pages."""
    on: date = date.max
    """The day the site speaks of: what is curing and what is ready is told as of it."""
    digested: Once = field(default_factory=dict[int, tuple[object, Any]], compare=False)
    """Digests of the entries of the pantry, which stand in many recipes."""

    @cached_property
    def by_slug(self) -> Mapping[str, Published]:
        """The recipes by their slugs."""
        return {recipe.slug: recipe for recipe in self.recipes}

    @cached_property
    def slugs(self) -> frozenset[str]:
        """The recipes, by what others call them."""
        return frozenset(recipe.slug for recipe in self.recipes)

    @cached_property
    def beside(self) -> Mapping[str, Beside]:
        """By its slug, the recipes before and after each."""
        return beside(self.in_order)

    @cached_property
    def in_order(self) -> Sequence[Published]:
        """The recipes in the order in which the book tells them."""
        return in_order(self.recipes)

    @cached_property
    def pages(self) -> frozenset[str]:
        """The pages of the book's own, by the names of their files."""
        return frozenset(page.slug for page in self.book.pages)

    def shows(self, what: str) -> bool:
        """Whether this edition may show it."""
        return what in self.edition.shows


class Output(NamedTuple):
    """One file of the site: its path from the top, and its bytes."""

    path: str
    data: bytes
