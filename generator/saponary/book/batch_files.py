"""The batches of a book: those in a recipe's own file, then those in `batches/`."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from functools import partial
from pathlib import PurePosixPath

from saponary.book.late import LateMap
from saponary.book.parts import read_yaml_file
from saponary.book.recipe_file import RecipeFile
from saponary.book.records import BatchesFile, BatchRecord, in_recipe, records
from saponary.reading.decode import printable
from saponary.reading.files import Files, Unread
from saponary.reading.findings import Finding, Place, suggest

Records = tuple[BatchRecord, ...]


def all_batches(
    files: Files, recipes: list[RecipeFile], outlined: Collection[str], findings: list[Finding]
) -> tuple[Mapping[str, Records], set[str]]:
    """Every recipe's batches, by slug: those in its own file, then those in `batches/`; whose file there has faults."""
    found = {recipe.slug: partial(in_recipe, recipe) for recipe in recipes}
    makers: dict[str, Callable[[], Records]] = dict(found)
    faulty: set[str] = set()
    for name in in_folder(files, "batches", findings):
        path = PurePosixPath(name)
        if path.suffix != ".yaml":
            continue
        file, slug = f"batches/{printable(name)}", path.stem
        if slug not in found:
            message = f"there is no recipe {slug!r} for these batches"
            findings.append(
                Finding("reading", "error", Place(file), message, suggest(slug, found, "recipes"))
            )
        elif slug in outlined:
            makers[slug] = partial(_all_batches, files, file, found[slug])
        else:
            own, tree, faults = read_yaml_file(files, f"batches/{name}", BatchesFile)
            findings += faults
            if faults:
                faulty.add(slug)
            if own is not None:
                makers[slug] = partial(_joined, found[slug], records(own.batches, file, tree))
    return LateMap(makers, _called), faulty


def _called(make: Callable[[], Records]) -> Records:
    return make()


def _joined(first: Callable[[], Records], others: Records) -> Records:
    return (*first(), *others)


def batches_of(files: Files, recipe: RecipeFile) -> tuple[Records, list[Finding]]:
    """The batches of one recipe, and what is wrong with its file in `batches/`."""
    file = f"batches/{recipe.slug}.yaml"
    if not files.has(file):
        return in_recipe(recipe), []
    own, tree, faults = read_yaml_file(files, file, BatchesFile)
    return _joined(partial(in_recipe, recipe), records(own.batches, file, tree) if own else ()), faults


def _all_batches(files: Files, file: str, first: Callable[[], Records]) -> Records:
    own, tree, _ = read_yaml_file(files, file, BatchesFile)
    return _joined(first, records(own.batches, file, tree) if own is not None else ())


def in_folder(files: Files, folder: str, findings: list[Finding]) -> list[str]:
    """What stands in a folder of the book; why it cannot be listed goes to the findings."""
    names = files.names(folder)
    if isinstance(names, Unread):
        findings.append(Finding("reading", "error", Place(folder), names.message, names.hint))
        return []
    return names
