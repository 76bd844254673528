"""Soap of earlier lots as something to weigh: an addition for each recipe of the book that a rebatch melts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from saponary.pantry.model import Addition, Pantry
from saponary.pantry.own import SCRAP
from saponary.pantry.rows import Over


def soap_id(slug: str) -> str:
    """The id of the soap of a recipe."""
    return f"soap-of-{slug}"


def soap_entry(shelf: Pantry, slug: str, title: str) -> Addition:
    """The soap of a recipe, as the tables have grated soap; it goes by the recipe's title."""
    return replace(shelf.additions[SCRAP], id=soap_id(slug), name=title, scrap_of=slug)


def with_soaps(shelf: Pantry, titles: Mapping[str, str], melted: Iterable[str]) -> Pantry:
    """The pantry with the soap of every recipe that a rebatch of this book is made of. `titles` are by recipe."""
    made = [
        soap_entry(shelf, slug, titles[slug])
        if slug in titles
        else replace(soap_entry(shelf, slug, slug), scrap_of=None)
        for slug in dict.fromkeys(melted)
    ]
    return (
        shelf.with_changes(additions=Over(shelf.additions, {one.id: one for one in made})) if made else shelf
    )
