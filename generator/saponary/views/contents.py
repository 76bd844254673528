"""What a recipe's page holds, in its order, for the list of contents beside it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from saponary.book.published import Published
from saponary.messages.message import Message, message
from saponary.views.at_class import left_blank
from saponary.views.site import SiteInput
from saponary.views.stages.stage import Stage


class Entry(NamedTuple):
    """A section by its fragment, and those within it."""

    id: str
    title: Message
    within: tuple[Entry, ...] = ()


def contents(
    recipe: Published, site: SiteInput, stages: tuple[Stage, ...], *, listed: bool, lots: bool, taught: bool
) -> tuple[Entry, ...]:
    """None where the page is too short to need it. `taught` where it is at the size of a class."""
    found = tuple(_entries(recipe, site, stages, listed=listed, lots=lots, taught=taught))
    return found if len(found) > 3 else ()


def _entries(
    recipe: Published, site: SiteInput, stages: tuple[Stage, ...], *, listed: bool, lots: bool, taught: bool
) -> Iterator[Entry]:
    if stages:
        parts = tuple(Entry(f"stage-{stage.id}", stage.title) for stage in stages)
        yield Entry("work", message("work.title"), parts)
        if site.shows("sizes") and not taught and recipe.resolved.sizes:
            yield Entry("sizes", message("sizes.title"))
    if recipe.notes.strip():
        yield Entry("notes", message("recipe.notes"))
    if site.shows("figures") and not taught:
        yield Entry("figures", message("figure.title"))
    if site.shows("badge"):
        yield Entry("checked", message("badge.title"))
    if site.shows("chemistry") and recipe.resolved.formula.weighs_lye and not left_blank(recipe, site):
        yield Entry("made-of", message("chemistry.title"))
    if listed:
        yield Entry("ingredients", message("listing.title"))
    if lots:
        yield Entry("batches", message("batch.title"))
    yield Entry("lye-cautions", message("frame.lye"))
