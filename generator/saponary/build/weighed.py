"""What some recipes of a book came to, at a revision or in the folder as it is, by today's engine."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping

from saponary.book.batch_cost import batch_cost
from saponary.book.computed import Computed
from saponary.book.computed_all import compute_all
from saponary.book.figure import FINGERPRINT, compare
from saponary.book.file_names import PANTRY_FILE, SETTINGS_FILE
from saponary.book.library import read_book
from saponary.book.standing import held
from saponary.book.status import status
from saponary.build.came_to import CameTo, Drifted
from saponary.label.lists import bar
from saponary.label.tables import jurisdictions
from saponary.lye.fingerprint import matches
from saponary.quantity.units import QuantityError
from saponary.reading.files import Files, Unread
from saponary.reading.findings import Finding, errors

_COMMON = (PANTRY_FILE, SETTINGS_FILE)


def weighed(files: Files, names: Collection[str], lent: Collection[str]) -> dict[str, CameTo]:
    """Read and compute some recipes by the names of their files, and those whose scrap they may hold (`lent`).

    Where the settings or the pantry could not be read, none of them came to anything that is known.
    """
    book = read_book(_Some(files, {*names, *lent}))
    all_ = compute_all(book)
    computed: Mapping[str, Computed] = {} if book.unread else all_.recipes
    found = {name: computed.get(name.removesuffix(".md")) for name in names}
    titles = {recipe.file: recipe.model.title for recipe in book.recipes if recipe.model is not None}
    told = book.unsound if book.unread else [*book.findings, *all_.findings]
    return {
        name: _of(one) if one is not None else _unreadable(name, titles.get(f"recipes/{name}"), told)
        for name, one in found.items()
    }


def drifted(recipe: str, one: CameTo) -> Iterator[Drifted]:
    """The figures that a recipe signed and that do not follow from it as it stands."""
    for name, text in one.signed.items():
        if name == FINGERPRINT:
            if one.fingerprint and not matches(text, one.fingerprint):
                yield Drifted(recipe, name, text, one.fingerprint)
        elif name in one.figures:
            try:
                found = compare(one.figures[name], text)
            except QuantityError:
                continue
            if not found.holds:
                yield Drifted(recipe, name, text, found.recomputed)


class _Some:
    """The files of a book with some of its recipes, their batches, and neither classes, photos nor templates."""

    def __init__(self, files: Files, recipes: Collection[str]) -> None:
        self._files, self._recipes = files, recipes
        self.root = files.root
        self.has, self.read = files.has, files.read

    def names(self, folder: str) -> list[str] | Unread:
        found = self._files.names(folder)
        if isinstance(found, Unread):
            return found
        wanted = {
            "recipes": self._recipes,
            "batches": {f"{name.removesuffix('.md')}.yaml" for name in self._recipes},
        }
        return [name for name in found if name in wanted.get(folder, ())]

    def below(self, folder: str) -> frozenset[str]:
        return frozenset()


def _of(one: Computed) -> CameTo:
    batches = [record.batch for record in one.batches]
    back = [batch.lot for batch, _ in held(one)]
    sold = next(iter(one.settings.sold_in), next(iter(jurisdictions())))
    listed = bar(one).ingredients(jurisdictions()[sold])
    return CameTo(
        title=one.model.title,
        status=status(one.model, batches, one.fingerprint, one.settings, back).name,
        fingerprint=one.fingerprint,
        figures=one.catalogue,
        signed=one.model.signed,
        order=tuple(entry.name for entry in listed.entries),
        cost=batch_cost(one).batch or None,
        faults=(),
    )


def _unreadable(name: str, title: str | None, findings: Iterable[Finding]) -> CameTo:
    faults = tuple(
        f"{f.place}: {f.message}" for f in errors(findings) if f.place.file in (f"recipes/{name}", *_COMMON)
    )
    return CameTo(title or name.removesuffix(".md"), "", "", {}, {}, (), None, faults)
