"""The first page: what its cards and choices are made of."""

from __future__ import annotations

from saponary.book.published import Published
from saponary.label.lists import bar
from saponary.messages.speaker import speaker
from saponary.quantity.rounding import show
from saponary.schema.edition import PUBLIC, STANDARD
from saponary.views.choices import choices, marks
from saponary.views.for_edition import Unpublished, for_edition
from saponary.views.gallery import collection, gallery_row, gallery_view, main_oils
from saponary.views.order import in_order
from saponary.views.site import SiteInput
from support import proof_of


def recipes_of(book: str) -> tuple[SiteInput, tuple[Published, ...]]:
    proof = proof_of(book)
    labels = {one.slug: bar(one.computed) for one in proof.recipes}
    site = for_edition(
        Unpublished(proof.book, proof.recipes, "engine", "tables", labels=labels), STANDARD[PUBLIC]
    )
    return site, site.recipes


def test_choices_count_every_card_that_bears_their_mark_and_part_the_cards() -> None:
    site, recipes = recipes_of("demo")
    view = gallery_view(site, [gallery_row(one, site) for one in in_order(recipes)], frozenset())
    assert len(view.cards) == len(recipes) and {"oil", "colour", "scent"} <= {c.name for c in view.choices}
    for choice in view.choices:
        for option in choice.options:
            assert option.count == sum(option.mark in card.marks.split() for card in view.cards) > 0
            assert option.count < len(view.cards)


def test_a_choice_that_parts_nothing_is_left_out() -> None:
    same = {"oil": {"olive": "Olive oil"}, "scent": {"none": "none"}, "ready": {"now": "ready now"}}
    assert choices([same, same], ("oil", "scent", "ready")) == ()
    parted = choices([same, {**same, "oil": {"tallow": "Tallow"}}], ("oil", "scent", "ready"))
    assert [(c.name, [o.mark for o in c.options]) for c in parted] == [("oil", ["oil-olive", "oil-tallow"])]
    assert marks(same) == "oil-olive scent-none ready-now"


def test_the_largest_oils_come_first_with_their_share_or_without() -> None:
    _, recipes = recipes_of("starters")
    for recipe in recipes:
        computed, say = recipe, speaker().say
        formula = computed.resolved.formula
        grams = sorted((part.grams for part in formula.base), reverse=True)
        most = f"{show(100 * grams[0] / sum(grams), 0)}\u00a0%"
        assert most in say(main_oils(computed)).split(", ")[0]
        assert "%" not in say(main_oils(computed, numbers=False))


def test_recipes_of_no_collection_stand_together() -> None:
    assert collection(None).title != collection("single recipes").title
    assert speaker().say(collection("Winter & co.").title) == "Winter & co."
