"""The rule `unknown-uptake`: what may bind alkali or bring it, and nobody says how much."""

from __future__ import annotations

import pytest

from checks.books import found, more, proofed, recipe

BREAKER = recipe(more("additions: [{what: dead-sea-salt, amount: 10 g}]\n"))
TOLD = [
    (
        "recipes/tried.md:11:20",
        "warning",
        "how much alkali 'dead-sea-salt' binds or brings is not known, so no superfat here is checked",
        "state its acid or its free-alkali in pantry.yaml (acid: 0 mmol/g where it binds none), or leave it out",
    ),
]
NEIGHBOUR = recipe(more("additions: [{what: salt, amount: 10 g}]\n"))
ALSO = [
    (
        recipe(
            more(
                "additions: [{what: dead-sea-salt, amount: 10 g}, {what: dead-sea-salt, amount: 5 g}, {what: kaolin, amount: 5 g}]\n"
            )
        ),
        [
            (
                "recipes/tried.md:11:20",
                "warning",
                "how much alkali 'dead-sea-salt' binds or brings is not known, so no superfat here is checked",
                "state its acid or its free-alkali in pantry.yaml (acid: 0 mmol/g where it binds none), or leave it out; or waive it with your reason: waive: [{rule: unknown-uptake, about: dead-sea-salt, because: …}]",
            )
        ],
    ),
]


def of(own: str, used: str) -> dict[str, str | bytes]:
    return {**recipe(more(used)), "pantry.yaml": own}


def test_a_magnesium_salt_leaves_the_superfat_unknown() -> None:
    """300 g/kg of a salt of a third magnesium chloride binds about half the alkali (by 95.21 g/mol)."""
    proof = proofed(recipe(more("additions: [{what: dead-sea-salt, amount: 300 g}]\n")))
    (one,) = proof.recipes
    assert not one.computed.figures.superfat_known
    assert one.computed.figures.unknown == ("dead-sea-salt",)


@pytest.mark.parametrize(
    ("own", "used", "count"),
    [
        ("additions: {bath-salt: {kind: salt}}\n", "additions: [{what: bath-salt, amount: 10 g}]\n", 1),
        ("additions: {grey-dust: {name: Dust}}\n", "additions: [{what: grey-dust, amount: 10 g}]\n", 1),
        ("additions: {ash-soap: {kind: soap}}\n", "additions: [{what: ash-soap, amount: 10 g}]\n", 1),
        (
            "additions: {bath-salt: {kind: salt, acid: 0 mmol/g}}\n",
            "additions: [{what: bath-salt, amount: 10 g}]\n",
            0,
        ),
        (
            "additions: {ash-soap: {kind: soap, free-alkali: 0.3 %}}\n",
            "additions: [{what: ash-soap, amount: 10 g}]\n",
            0,
        ),
        (
            "additions: {bath-salt: {kind: salt, uptake: known}}\n",
            "additions: [{what: bath-salt, amount: 10 g}]\n",
            0,
        ),
        ("additions: {bath-salt: {like: salt}}\n", "additions: [{what: bath-salt, amount: 10 g}]\n", 0),
        ("additions: {red-clay: {kind: clay}}\n", "additions: [{what: red-clay, amount: 10 g}]\n", 0),
        (
            "additions: {dead-sea-salt: {acid: 7 mmol/g}}\n",
            "additions: [{what: dead-sea-salt, amount: 10 g}]\n",
            0,
        ),
        ("liquids: {lime-juice: {water: 91 %}}\n", "liquids: [{what: lime-juice, amount: 60 g}]\n", 1),
        (
            "liquids: {lime-juice: {water: 91 %, acid: 0.9 mmol/g}}\n",
            "liquids: [{what: lime-juice, amount: 60 g}]\n",
            0,
        ),
        ("liquids: {farm-milk: {like: goat-milk}}\n", "liquids: [{what: farm-milk, amount: 60 g}]\n", 0),
        ("liquids: {goat-milk: {water: 87 %}}\n", "liquids: [{what: goat-milk, amount: 60 g}]\n", 0),
    ],
)
def test_an_entry_of_the_makers_own(own: str, used: str, count: int) -> None:
    assert len(found(of(own, used), "unknown-uptake")) == count


def test_each_thing_is_told_once() -> None:
    used = "additions: [{what: dead-sea-salt, amount: 10 g}, {what: dead-sea-salt, amount: 5 g}]\n"
    assert [f.about for f in found(recipe(more(used)), "unknown-uptake")] == ["dead-sea-salt"]
