"""Reads a book from disk: settings, pantry, recipes; every fault a finding, nothing raised.

Files are read whole, as bytes, and decoded without touching their line endings, so that
a position is a position in the very file and `restate` can put back what it took.
"""

from __future__ import annotations

import os
import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import TypeVar

from pydantic import BaseModel

from saponary.book import classes, quotes
from saponary.book.classes import ClassFile
from saponary.book.records import BatchesFile, BatchRecord, records
from saponary.pantry import own as pantry_file
from saponary.pantry.model import Pantry
from saponary.pantry.standard import standard
from saponary.reading import front_matter as front
from saponary.reading.findings import Finding, Place, suggest
from saponary.reading.published_text import BOOK, PANTRY, Said, said
from saponary.reading.reporter import Reporter
from saponary.reading.textfile import TextFile
from saponary.reading.tree import Tree
from saponary.reading.yaml_tree import read_yaml
from saponary.schema import validate as schema
from saponary.schema.pantry import PantryFile
from saponary.schema.recipe import Recipe
from saponary.schema.settings import Purity, Settings
from saponary.schema.waivers import Waived, placed

MAX_FILE_BYTES = 2_000_000
CLAIMS = "claims.yaml"
"""The book's own list of claim words, or its silencing of some."""

MAX_RECIPES = 20_000

M = TypeVar("M", bound=BaseModel)


@dataclass
class RecipeFile(TextFile):
    """One recipe as read. `model` is None where the front matter does not hold."""

    model: Recipe | None = None

    def waived(self) -> tuple[Waived, ...]:
        """What it sets aside, and why."""
        return placed(self.model.waive, self.tree, self.file) if self.model is not None else ()


@dataclass
class Book:
    """A book on disk, read: its settings, pantry and recipes, and what is wrong with the files."""

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
    waived: tuple[Waived, ...] = ()
    """Rules set aside in files other than recipes."""
    classes: tuple[ClassFile, ...] = ()


def read_book(root: Path) -> Book:
    """Read everything. `root` must be a folder that `is_book`."""
    findings: list[Finding] = []
    settings, own_tree, found = _read_part(root, "book.yaml", Settings)
    findings += found
    texts = tuple(said(own_tree, "book.yaml", BOOK)) if settings is not None else ()
    settings = settings or Settings()
    waived = placed(settings.waive, own_tree, "book.yaml")
    settings, found = _with_sound_purity(settings, own_tree)
    findings += found
    own, own_tree, found = _read_part(root, "pantry.yaml", PantryFile)
    findings += found
    pantry = standard()
    if own is not None:
        texts += tuple(said(own_tree, "pantry.yaml", PANTRY))
        waived += placed(own.waive, own_tree, "pantry.yaml")
        pantry, found = pantry_file.apply(pantry, own, own_tree, "pantry.yaml")
        findings += found
    recipes = [read_recipe(root, name) for name in _names(root, "recipes", findings)]
    if not recipes:
        findings.append(
            Finding(
                "reading",
                "warning",
                Place("recipes"),
                "this book has no recipes yet",
                "write one to recipes/NAME.md",
            )
        )
    batches = _batches(root, recipes, findings)
    claims = None
    if os.path.lexists(root / CLAIMS):
        claims, fault = read_text(root, CLAIMS)
        findings += [fault] if fault else []
    taught = tuple(_read_class(root, name, findings) for name in _names(root, "classes", findings))
    texts += tuple(text for each in taught for text in each.texts())
    waived += tuple(waiver for each in taught for waiver in each.waived())
    photos = _photo_names(root)
    return Book(root, settings, pantry, recipes, photos, batches, findings, claims, texts, waived, taught)


def _read_class(root: Path, name: str, findings: list[Finding]) -> ClassFile:
    """One class of a book; what is wrong with its file goes to the book's findings."""
    file = f"classes/{name}"
    text, fault = read_text(root, file)
    read = ClassFile(file, name[:-3]) if text is None else classes.parse_class(file, text)
    findings += [fault] if fault else read.findings
    return read


def _batches(
    root: Path, recipes: list[RecipeFile], findings: list[Finding]
) -> dict[str, tuple[BatchRecord, ...]]:
    """Every recipe's batches, by slug: those in its own file, then those in `batches/`."""
    found = {
        recipe.slug: records(recipe.model.batches, recipe.file, recipe.tree)
        for recipe in recipes
        if recipe.model
    }
    known = {recipe.slug for recipe in recipes}
    for path in sorted((root / "batches").glob("*.yaml")):
        file = f"batches/{_printable(path.name)}"
        if path.stem not in known:
            findings.append(
                Finding("reading", "error", Place(file), f"there is no recipe {path.stem!r} for these batches",
                        suggest(path.stem, known, "recipes"))
            )  # fmt: skip
            continue
        own, tree, faults = _read_part(root, f"batches/{path.name}", BatchesFile)
        findings += faults
        if own is not None:
            found[path.stem] = (*found.get(path.stem, ()), *records(own.batches, file, tree))
    return found


def _with_sound_purity(settings: Settings, tree: Tree) -> tuple[Settings, list[Finding]]:
    """The settings, an alkali's purity that cannot be put aside, and what is wrong with it."""
    report = Reporter(tree, "book.yaml", "sense")
    for name in ("sodium", "potassium"):
        given = getattr(settings.purity, name)
        if given is not None and not 0.5 <= given.fraction <= 1.0:
            report.add(
                ("purity", name),
                f"a purity of {100 * given.fraction:g} % is no alkali of the trade",
                "from 50 % to 100 %",
            )
    return (
        settings.model_copy(update={"purity": Purity()}) if report.findings else settings
    ), report.findings


def _photo_names(root: Path) -> frozenset[str]:
    """Photos by their path inside `photos/`, links that lead out of the book left aside."""
    folder = root / "photos"
    home = root.resolve()
    return frozenset(
        path.relative_to(folder).as_posix()
        for path in folder.rglob("*")
        if path.is_file() and path.resolve().is_relative_to(home)
    )


def _names(root: Path, what: str, findings: list[Finding]) -> list[str]:
    """The Markdown files of `recipes/` or `classes/`, by name."""
    folder = root / what
    try:
        names = sorted(name for name in os.listdir(folder) if name.casefold().endswith(".md"))
    except FileNotFoundError:
        return []
    except OSError as error:
        fault = f"the {what} cannot be read: {error.strerror or error}"
        findings.append(
            Finding("reading", "error", Place(what), fault, f"{what}/ is a folder that you may read")
        )
        return []
    kept: list[str] = []
    for name in names:
        slug = name[:-3] if name.endswith(".md") else ""
        if not re.fullmatch(r"[a-z0-9]+(?:-[a-z0-9]+)*", slug):
            findings.append(
                Finding("reading", "error", Place(f"{what}/{_printable(name)}"), "this file's name is its address on the site and cannot serve as one",
                        "small letters, digits and single hyphens, such as quarry-strata.md")
            )  # fmt: skip
        else:
            kept.append(name)
    if len(kept) > MAX_RECIPES:
        findings.append(
            Finding("reading", "error", Place(what), f"this book has {len(kept)} {what}",
                    f"a book may have {MAX_RECIPES}; split it")
        )  # fmt: skip
    return kept[:MAX_RECIPES]


def _printable(name: str) -> str:
    """A file's name as a message may show it, whatever bytes it is made of."""
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in name)


def read_text(root: Path, file: str) -> tuple[str | None, Finding | None]:
    """The text of a file of the book, or the finding that says why it cannot be had."""

    def fault(message: str, hint: str, place: Place | None = None) -> tuple[None, Finding]:
        return None, Finding("reading", "error", place or Place(file), message, hint)

    path = root / file
    try:
        if not path.resolve(strict=True).is_relative_to(root.resolve()):
            return fault("this link leads out of the book", "put the file itself into the book")
        if not path.is_file():
            return fault("this is not a file", "a text file is needed here")
        data, size = _bytes(path)
        if size > MAX_FILE_BYTES:
            return fault(
                f"this file has {size / 1e6:.0f} MB",
                f"keep a recipe below {MAX_FILE_BYTES / 1e6:.0f} MB; photos go into photos/",
            )
    except FileNotFoundError:
        return fault("this link leads nowhere", "put the file itself into the book")
    except OSError as error:
        return fault(
            f"this file cannot be read: {error.strerror or error}", "check its permissions and links"
        )
    except RuntimeError:
        return fault("this link leads back to itself", "put the file itself into the book")
    if not data.strip():
        recipe = "write `---`, the front matter, `---` and the notes"
        return fault("this file is empty", recipe if file.endswith(".md") else "write to it, or delete it")
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return fault("this file is in UTF-16", "save it as UTF-8")
    if b"\0" in data:
        at = data.index(b"\0")
        return fault("this is not a text file", "save it as UTF-8 text", _byte_place(file, data, at))
    try:
        return data.decode("utf-8"), None
    except UnicodeDecodeError as error:
        return fault(
            f"the byte 0x{data[error.start]:02x} is not UTF-8",
            "save the file as UTF-8",
            _byte_place(file, data, error.start),
        )


def _bytes(path: Path) -> tuple[bytes, int]:
    """A file's bytes, no more than may be read, and its size."""
    with path.open("rb") as opened:
        data = opened.read(MAX_FILE_BYTES + 1)
        return data, max(len(data), os.fstat(opened.fileno()).st_size)


def _byte_place(file: str, data: bytes, at: int) -> Place:
    before = data[:at].replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    line = before[before.rfind(b"\n") + 1 :].decode("utf-8", "replace")
    row = before.count(b"\n") + 1
    return Place(file, row, len(line) + (0 if row == 1 and data.startswith(b"\xef\xbb\xbf") else 1))


def _read_part(root: Path, file: str, model: type[M]) -> tuple[M | None, Tree, list[Finding]]:
    """One of the book's optional YAML files."""
    if not os.path.lexists(root / file):
        return None, Tree(), []
    text, fault = read_text(root, file)
    if text is None:
        return None, Tree(), [fault] if fault else []
    shift = 1 if text.startswith("\ufeff") else 0
    tree, findings = read_yaml(text[shift:], file, offset=shift)
    if findings and tree.data is None:
        return None, tree, findings
    if tree.data is None:
        tree.data = {}
    value, faults = schema.validate(model, tree, file)
    return value, tree, findings + faults


def read_recipe(root: Path, name: str) -> RecipeFile:
    """Read one recipe file of a book."""
    file = f"recipes/{name}"
    text, fault = read_text(root, file)
    if text is None:
        return RecipeFile(file, name[:-3], findings=[fault] if fault else [])
    return parse_recipe(file, text)


def parse_recipe(file: str, text: str) -> RecipeFile:
    """A recipe from its text: front matter, then notes. `file` is its path in the book."""
    recipe = RecipeFile(file, PurePosixPath(file).stem, text)
    if not front.read_into(recipe, "recipe", "begin with title: and oils:"):
        return recipe
    recipe.model, faults = schema.validate(Recipe, recipe.tree, file)
    recipe.findings += faults
    if quotes.braces(recipe) > quotes.MAX_FIGURES:
        place = recipe.place_at(recipe.body_start)
        message = f"the texts of this recipe open more than {quotes.MAX_FIGURES} braces"
        recipe.findings.append(Finding("reading", "error", place, message, "keep fewer figures in the text"))
    if any(f.severity == "error" for f in recipe.findings):
        recipe.model = None
    return recipe
