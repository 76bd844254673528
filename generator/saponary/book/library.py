"""Reads a book: settings, pantry, recipes, batches, classes; every fault a finding, nothing raised."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property, partial
from pathlib import Path, PurePosixPath
from typing import NamedTuple, TypeVar

from saponary.book import classes, own_pages
from saponary.book.batch_files import all_batches, in_folder
from saponary.book.classes import ClassFile
from saponary.book.file_names import SETTINGS_FILE
from saponary.book.late import late
from saponary.book.logo import Logo, LogoFault, logo_of
from saponary.book.outline import Outline
from saponary.book.own_files import digests_of, own_files
from saponary.book.own_pages import OwnPage
from saponary.book.parts import PartRead, read_pantry, read_settings
from saponary.book.recipe_file import RecipeFile
from saponary.book.recipe_text import parse_recipe
from saponary.book.records import BatchRecord
from saponary.pantry.model import Pantry
from saponary.reading.addresses import address_fault
from saponary.reading.decode import printable, text_of, unmerged
from saponary.reading.files import Files, ReadOnce, Unread
from saponary.reading.findings import Finding, Place, errors, suggest
from saponary.reading.published_text import Said
from saponary.reading.stamped import Stamped
from saponary.reading.template_text import template_text
from saponary.reading.textfile import TextFile
from saponary.reading.tree import Path as TreePath
from saponary.reading.tree import Tree
from saponary.schema.settings import Settings
from saponary.schema.waivers import Waived

CLAIMS = "claims.yaml"
_SIGNED = re.compile(r"^signed\s*:", re.MULTILINE)
_TEXTS = frozenset({".css", ".html", ".js", ".svg", ".txt", ".xml"})
"""What of a book's own templates is text, by how its name ends."""

"""The book's own list of claim words, or its silencing of some."""

MAX_RECIPES = 20_000

T = TypeVar("T", bound=TextFile)


@dataclass
class Book:
    """A book, read: its settings, pantry and recipes, and what is wrong with the files."""

    root: Path
    settings: Settings
    pantry: Pantry
    recipes: list[RecipeFile]
    photos: frozenset[str]
    batches: Mapping[str, tuple[BatchRecord, ...]]
    findings: list[Finding]
    own_claims: str | None = None
    """The text of the book's own `claims.yaml`, where it has one."""
    texts: tuple[Said, ...] = ()
    """What the book says of itself on its pages, and where it stands."""
    templates: tuple[Said, ...] = ()
    """What the book's own templates say."""
    waived: tuple[Waived, ...] = ()
    """Rules waived in files other than recipes."""
    classes: tuple[ClassFile, ...] = ()
    pages: tuple[OwnPage, ...] = ()
    """Pages of the book's own."""
    logo: Logo | None = None
    settings_tree: Tree = field(default_factory=Tree)
    own: Mapping[str, str] = field(default_factory=dict[str, str])
    """By recipe, a digest of its own files, where nothing is wrong with that of its batches."""
    digests: Mapping[str, str] = field(default_factory=dict[str, str])
    """Of each of these files."""
    outlines: Mapping[str, Outline] = field(default_factory=dict[str, Outline])
    """Of recipes that are not read until they are asked about."""
    unsound: tuple[Finding, ...] = ()
    """Errors in the settings and the pantry, which enter every sum."""
    unread: bool = False
    """Whether one of these two could not be read at all, so that no sum is known."""

    @cached_property
    def slugs(self) -> Mapping[str, None]:
        """The recipes' names, in their order."""
        return dict.fromkeys(recipe.slug for recipe in self.recipes)

    def settings_at(self, path: TreePath) -> Place:
        """Where a key of the settings stands; the file itself where it is not written."""
        written = path in self.settings_tree.keys
        return self.settings_tree.place(SETTINGS_FILE, path, key=True) if written else Place(SETTINGS_FILE)


class Unlooked(NamedTuple):
    """What recipes are computed with, before any of them is read; `own` is by recipe a digest of its own files."""

    files: Files
    settings: Settings
    pantry: Pantry
    photos: frozenset[str]
    own: Mapping[str, str]
    claims: str | None
    """The text of the book's own `claims.yaml`."""


Look = Callable[[Unlooked, list[str]], Mapping[str, Outline]]
"""Tells outlines of recipes, by the names of their files, of which none is known."""


_EMPTY = Finding(
    "reading",
    "warning",
    Place("recipes"),
    "this book has no recipes yet",
    "write one to recipes/NAME.md",
)


def read_book(
    files: Files,
    outlines: Mapping[str, Outline] | None = None,
    look: Look | None = None,
    stamped: Stamped | None = None,
) -> Book:
    """Read everything a book is made of; recipes whose `outlines` are of the very same files, when they are asked about.

    `look` is asked for the outlines of all others.
    """
    files = ReadOnce(files, stamped)
    settings, pantry = read_settings(files), read_pantry(files)
    findings = [*settings.findings, *pantry.findings]
    names = _names(files, "recipes", findings)
    own, digests = digests_of(files, [name[:-3] for name in names])
    known = {slug: one for slug, one in (outlines or {}).items() if own.get(slug) == one.own}
    claims, unread_claims = text_of(files, CLAIMS) if files.has(CLAIMS) else (None, None)
    photos = files.below("photos")
    if look is not None:
        unlooked = Unlooked(files, settings.value, pantry.value, photos, own, claims)
        known |= _looked(look, unlooked, files, [name for name in names if name[:-3] not in known])
    recipes = [_late(files, name) if name[:-3] in known else read_recipe(files, name) for name in names]
    findings += [] if recipes else [_EMPTY]
    batches, faulty = all_batches(files, recipes, known, findings)
    findings += [unread_claims] if unread_claims else []
    taught = _all(files, "classes", ClassFile, classes.parse_class, findings)
    pages = _all(files, own_pages.FOLDER, OwnPage, own_pages.parse_page, findings)
    read: tuple[ClassFile | OwnPage, ...] = (*taught, *pages)
    return Book(
        root=files.root,
        settings=settings.value,
        pantry=pantry.value,
        recipes=recipes,
        photos=photos,
        batches=batches,
        findings=findings,
        own_claims=claims,
        templates=tuple(_templates(files, findings)),
        texts=(*settings.texts, *pantry.texts, *(text for each in read for text in each.texts())),
        waived=(*settings.waived, *pantry.waived, *(waiver for each in read for waiver in each.waived())),
        classes=taught,
        pages=pages,
        logo=_logo(files, settings, photos, findings),
        settings_tree=settings.tree,
        own={slug: one for slug, one in own.items() if slug not in faulty},
        outlines=known,
        digests=digests,
        unsound=tuple(errors((*settings.findings, *pantry.findings))),
        unread=settings.unread or pantry.unread,
    )


def _looked(look: Look, book: Unlooked, files: ReadOnce, names: list[str]) -> Mapping[str, Outline]:
    """Outlines of recipes that were looked at; what was read of them is let go of, so that no book lies in memory."""
    found = look(book, names)
    files.let_go(file for slug in found for file in own_files(slug))
    return found


def _late(files: Files, name: str) -> RecipeFile:
    """A recipe that is read when somebody asks what is in it."""
    return late(RecipeFile, partial(read_recipe, files, name), file=f"recipes/{name}", slug=name[:-3])


def read_recipe(files: Files, name: str) -> RecipeFile:
    """One recipe of a book, by the name of its file in `recipes/`."""
    file = f"recipes/{name}"
    text, fault = text_of(files, file)
    if text is None:
        return RecipeFile(
            file, name[:-3], findings=[fault] if fault else [], signs=_may_sign(files.read(file))
        )
    recipe = parse_recipe(file, text)
    recipe.signs = _SIGNED.search(text) is not None
    return recipe


def _may_sign(data: bytes | Unread) -> bool:
    """Whether a recipe that cannot be read may have signed figures."""
    if isinstance(data, Unread):
        return True
    wide = data.startswith((b"\xff\xfe", b"\xfe\xff"))
    return _SIGNED.search(data.decode("utf-16" if wide else "utf-8", "replace")) is not None


def _all(
    files: Files, folder: str, of: type[T], parse: Callable[[str, str], T], findings: list[Finding]
) -> tuple[T, ...]:
    """The classes or the pages of a book; what is wrong with their files goes to the book's findings."""
    found: list[T] = []
    for name in _names(files, folder, findings):
        file = f"{folder}/{name}"
        text, fault = text_of(files, file)
        found.append(of(file, name[:-3]) if text is None else parse(file, text))
        findings += [fault] if fault else found[-1].findings
    return tuple(found)


def _logo(
    files: Files, settings: PartRead[Settings], photos: frozenset[str], findings: list[Finding]
) -> Logo | None:
    """The logo that the settings name; why it cannot be used goes to the findings."""
    name = settings.value.look.logo
    if not name:
        return None
    if name not in photos:
        place = settings.tree.place(SETTINGS_FILE, ("look", "logo"))
        hint = suggest(name, [one for one in photos if one.endswith(".svg")], "logos")
        findings.append(Finding("photos", "error", place, f"there is no logo photos/{name}", hint))
        return None
    text, fault = text_of(files, f"photos/{name}")
    try:
        if text is not None:
            return logo_of(text)
        findings += [fault] if fault else []
    except LogoFault as error:
        place = Place(f"photos/{name}", error.line, error.column)
        findings.append(Finding("photos", "error", place, error.message, error.hint))
    return None


def _templates(files: Files, findings: list[Finding]) -> Iterator[Said]:
    """The words of the book's own templates, and a finding for each file there that git could not merge. What else
    keeps one from being read is met where pages are made."""
    for name in sorted(files.below("templates")):
        file = f"templates/{name}"
        data = files.read(file) if PurePosixPath(name).suffix in _TEXTS else b""
        if isinstance(data, bytes) and (fault := unmerged(data, file)) is not None:
            findings.append(fault)
        elif name.endswith(".html"):
            text, _ = text_of(files, file)
            if text is not None:
                yield template_text(text, file)


def _names(files: Files, what: str, findings: list[Finding]) -> list[str]:
    """The Markdown files of `recipes/`, `classes/` or `pages/`, by name."""
    kept: list[str] = []
    for name in in_folder(files, what, findings):
        if not name.casefold().endswith(".md"):
            continue
        slug = name[:-3] if name.endswith(".md") else ""
        fault = address_fault(slug)
        if fault is None:
            kept.append(name)
            continue
        message = f"this file's name is its address on the site and cannot serve as one: {fault}"
        hint = "small letters, digits and single hyphens, such as quarry-strata.md"
        findings.append(Finding("reading", "error", Place(f"{what}/{printable(name)}"), message, hint))
    if len(kept) > MAX_RECIPES:
        message, hint = f"this book has {len(kept)} {what}", f"a book may have {MAX_RECIPES}; split it"
        findings.append(Finding("reading", "error", Place(what), message, hint))
    return kept[:MAX_RECIPES]
