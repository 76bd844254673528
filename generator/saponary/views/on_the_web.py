"""Where in what is uploaded a recipe, and each of its lots, has a page: what a code on paper leads to.

The paper of an edition that is uploaded leads into that edition. What is the maker's alone leads to the public
edition; for the page of a lot, where that has none, to the first other edition that is built always, is uploaded
and shows batches. A shop that shows no batches is passed over: its pages of lots go with what is sold.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Literal, NamedTuple

from saponary.book.proofed import Proofed
from saponary.book.published import belongs, is_shown
from saponary.schema.edition import Edition, built_always, editions
from saponary.schema.settings import Settings
from saponary.views import links

Why = Literal["no-lots", "recipe", "lot"]
"""Why a lot has no page: no edition that is uploaded shows batches, none of those has its recipe, or the lot."""


class OnTheWeb(NamedTuple):
    """Paths from the address of the book: of the recipe's page, '' for none, and of its lots by their names."""

    recipe: str = ""
    lots: Mapping[str, str] = {}
    why: Why = "no-lots"
    """Why a lot that is not in `lots` is not."""


def on_the_web(one: Proofed, edition: Edition, settings: Settings) -> OnTheWeb:
    """The pages that the paper of an edition leads to."""
    uploaded = list(_uploaded(edition, settings))
    page = next((_at(each, links.recipe_page(one.slug)) for each in uploaded[:1] if is_shown(one, each)), "")
    with_lots = [each for each in uploaded if "batches" in each.shows]
    with_it = [each for each in with_lots if is_shown(one, each)]
    lots = dict[str, str]()
    for each in with_it:
        for lot, path in _lots(one, each):
            lots.setdefault(lot, path)
    return OnTheWeb(page, lots, "lot" if with_it else "recipe" if with_lots else "no-lots")


def _uploaded(edition: Edition, settings: Settings) -> Iterator[Edition]:
    if edition.published:
        yield edition
        return
    known = editions(settings.editions)
    for name in built_always(settings.build, known):
        if name in known and known[name].published:
            yield known[name]


def _lots(one: Proofed, edition: Edition) -> Iterator[tuple[str, str]]:
    shown = [r.batch.lot for r in one.computed.batches if belongs(r.batch.editions, edition)]
    for lot, name in zip(shown, links.free_names(shown), strict=True):
        yield lot, _at(edition, links.lot(one.slug, name))


def _at(edition: Edition, path: str) -> str:
    return path if edition.is_public else f"{edition.name}/{path}"
