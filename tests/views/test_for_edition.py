"""What an edition shows, held against the schema: a marker in every text field, those alone appear that may.

A field that is added to a model is planted by itself.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from planted import COMMENT, Planter
from planted_book import planted_book, said
from saponary.schema.edition import STANDARD
from saponary.schema.fields import ShortText
from saponary.schema.recipe import Recipe
from saponary.views.for_edition import Unpublished

TAUGHT = ("class", "maker")
NUMBERS = {
    "987654": "costs", "zq-8871": "people", "98.71 kg": "people", "17.31": "batches", "131.7": "batches", "97.31": "ingredients",
}  # fmt: skip
"""Amounts that no text field holds, and what an edition shows that shows them."""

NOT_A_TEXT = {"Recipe.photo.file", "Batch.photos.file"}
"""A photo is published under an address of its own."""

NOBODY = {
    "Batch.mould", "PantryFile.oils.supplier", "PantryFile.liquids.supplier", "PantryFile.additions.supplier",
    "PantryFile.colourants.supplier", "PantryFile.fragrances.supplier", "PantryFile.oils.note",
    "PantryFile.liquids.note", "PantryFile.additions.note", "PantryFile.colourants.note",
    "PantryFile.fragrances.note", "PantryFile.fragrances.certificate.from_",
}  # fmt: skip
"""Texts that no edition shows, not even the bench's: by hand, so that none becomes private unseen."""


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> tuple[Planter, Unpublished]:
    planter = Planter()
    return planter, planted_book(tmp_path_factory.mktemp("planted"), planter)


@pytest.mark.parametrize("edition", sorted(STANDARD))
def test_an_edition_shows_no_text_that_it_may_not(book: tuple[Planter, Unpublished], edition: str) -> None:
    planter, whole = book
    text, sight = said(whole, edition), STANDARD[edition].sight
    shown = {one.path for one in planter.planted if one.text in text}
    hidden = {one.path for one in planter.planted if not one.allowed(sight)}
    if edition not in TAUGHT:
        hidden |= {one.path for one in planter.planted if one.path.startswith("ClassPlan.")}
    assert shown & hidden == set()
    assert COMMENT not in text
    assert {amount for amount, needs in NUMBERS.items() if amount in text} <= {
        amount for amount, needs in NUMBERS.items() if needs in STANDARD[edition].shows
    }


def test_what_the_maker_may_see_is_there(book: tuple[Planter, Unpublished]) -> None:
    """So that the test above looks for something that is really there to be found."""
    planter, whole = book
    text = said(whole, "maker")
    assert {one.path for one in planter.planted if one.text not in text} == NOBODY | NOT_A_TEXT


def test_a_text_for_everybody_is_on_the_public_site(book: tuple[Planter, Unpublished]) -> None:
    planter, whole = book
    text = said(whole, "public")
    wanted = {one.path for one in planter.planted if one.allowed(STANDARD["public"].sight)}
    wanted -= {path for path in wanted if path.startswith("ClassPlan.")}
    assert {one.path for one in planter.planted if one.text in text} == wanted - NOT_A_TEXT


class Grown(Recipe):
    unthought: ShortText | None = None
    """A field that nobody thought of when editions were made."""


@pytest.mark.parametrize("edition", ["public", "maker"])
def test_a_new_field_is_seen_by_nobody(book: tuple[Planter, Unpublished], edition: str) -> None:
    _, whole = book
    one = whole.recipes[0]
    grown = Grown.model_construct(**dict(one.computed.model), unthought="zqxunthought")
    new = replace(one, computed=replace(one.computed, model=grown))
    assert "zqxunthought" not in said(replace(whole, recipes=(new,)), edition)
