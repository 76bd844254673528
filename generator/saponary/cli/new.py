"""`saponary new NAME`: a recipe with every common key, or with the formula of another."""

from __future__ import annotations

import argparse
from pathlib import Path

from saponary.book.recipe_file import RecipeFile
from saponary.cli.command import CLEAN, Misuse, book_option
from saponary.cli.shell import quoted
from saponary.reading.addresses import address_fault
from saponary.reading.files import Folder, is_book
from saponary.reading.findings import suggest


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("name", help="the recipe's name: small letters and hyphens, such as evening-bar")
    parser.add_argument(
        "--from", dest="source", metavar="RECIPE", help="take the formula and the work of this recipe"
    )
    parser.add_argument("--title", help="what it is called (default: made of its name)")
    book_option(parser)


def run(given: argparse.Namespace) -> int:
    from saponary.assets.disk import put_new
    from saponary.build.new import fresh, made_from, sound, title_of
    from saponary.cli.writing import schemas_beside, writing
    from saponary.quantity.units import QuantityError
    from saponary.schema.scalars import read_id

    book = given.book or Path()
    if not is_book(book):
        raise Misuse(f"{str(book)!r} is not a book: it has neither recipes/ nor book.yaml")
    name = given.name.removesuffix(".md")
    try:
        read_id(name)
    except QuantityError as error:
        raise Misuse(f"{error}; {error.hint}") from error
    wrong = address_fault(name)
    if wrong is not None:
        raise Misuse(f"{name!r} cannot be a recipe's address on the site: {wrong}; nothing was written")
    title = given.title or title_of(name)
    text = (
        made_from(_source(book, given.source), title, _units(book))
        if given.source
        else fresh(title, _units(book))
    )
    if not sound(name, text):
        raise Misuse(f"{given.source!r} cannot be copied key by key; correct it first, or copy its file")
    path = book / "recipes" / f"{name}.md"
    with writing(book, "new"):
        try:
            put_new(path, text.encode())
        except FileExistsError as there:
            raise Misuse(f"{path} is there already; nothing was written") from there
        schemas_beside(book)
    print(path)
    print(f"next: fill it in, then saponary proof{'' if given.book is None else ' ' + quoted(book)}")
    return CLEAN


def _source(book: Path, name: str) -> RecipeFile:
    from saponary.book.library import read_book

    stem = Path(name).name.removesuffix(".md")
    recipes = {recipe.slug: recipe for recipe in read_book(Folder(book)).recipes}
    if stem not in recipes:
        raise Misuse(f"there is no recipe {name!r}; {suggest(stem, recipes, 'recipes')}")
    return recipes[stem]


def _units(book: Path) -> str:
    from saponary.book.parts import read_settings

    return read_settings(Folder(book)).value.units
