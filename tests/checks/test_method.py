"""method: keys, stages and layings that a method does not have; every key refused is a key there is."""

from __future__ import annotations

from typing import Any, get_args

import pytest

from checks.books import GOOD, found, more, put, recipe
from saponary.schema.methods import METHODS
from saponary.schema.methods.method import EVERY_LAYING, Method, StageId
from saponary.schema.pour import PourStep
from saponary.schema.recipe import Recipe
from saponary.schema.validate import known_keys
from saponary.views.stages import STAGES

LIQUID = put(
    "superfat: 5 %", "method: liquid\nlye: {potassium: {share: 100 %, purity: 90 %}}\nsuperfat: 5 %", GOOD
)
POURED = "pour: [{top: {shape: peaks}}]\n"

BREAKER = recipe(more(POURED, LIQUID))
TOLD = [
    (
        "recipes/tried.md:13:1",
        "error",
        "'pour' does not go with method: liquid",
        "it goes into jars or bottles, and not into a mould",
    )
]
NEIGHBOUR = recipe(more(POURED, GOOD))


def told(method: str, block: str) -> list[tuple[str, str]]:
    text = {"liquid": LIQUID, "cold": GOOD}.get(
        method, put("superfat: 5 %", f"method: {method}\nsuperfat: 5 %", GOOD)
    )
    return [(str(f.place), f.message) for f in found(recipe(more(block, text)), "method")]


@pytest.mark.parametrize(
    ("method", "block", "said"),
    [
        ("cold", "rest: 14\n", "'rest' does not go with method: cold"),
        ("cold", "container: 250 ml\n", "'container' does not go with method: cold"),
        ("cold", "steps: [{at: cook, say: stir}]\n", "there is no stage 'cook' in method: cold"),
        ("cold", "additions: [{what: kaolin, amount: 5 g, at: after-cook}]\n",
         "there is no stage 'after-cook' in method: cold"),
        ("hot", "pour: [{swirl: {tool: comb}}]\n", "'swirl' cannot be laid of a soap that no longer runs"),
        ("hot", "rest: 14\n", "'rest' does not go with method: hot"),
        ("hot", "steps: [{at: dilute, say: pour}]\n", "there is no stage 'dilute' in method: hot"),
        ("liquid", "cut: 25 mm\n", "'cut' does not go with method: liquid"),
        ("liquid", "sizes: [{oils: 500 g}]\n", ""),
        ("liquid", "batches: [{lot: A, poured: 2026-03-02, weighed: {0: 100 g}}]\n",
         "'batches.weighed' does not go with method: liquid"),
        ("cold", "batches: [{lot: A, poured: 2026-03-02, pot: {before: 2 kg, after: 2 kg}}]\n",
         "'batches.pot' does not go with method: cold"),
        ("hot", "steps: [{at: cook, say: stir}]\npour: [{top: {shape: peaks}}]\n", ""),
    ],
)  # fmt: skip
def test_what_does_not_fit_is_a_finding(method: str, block: str, said: str) -> None:
    assert [message for _, message in told(method, block)] == ([said] if said else [])


def test_a_record_in_a_file_of_its_own_is_held_to_the_method_too() -> None:
    files = recipe(
        GOOD, batches="batches:\n  - {lot: A, poured: 2026-03-02, pot: {before: 2 kg, after: 1 kg}}\n"
    )
    (finding,) = found(files, "method")
    assert str(finding.place) == "batches/tried.yaml:2:34"


@pytest.mark.parametrize("method", METHODS, ids=lambda method: method.name)
def test_a_method_refuses_keys_that_there_are(method: Method) -> None:
    for name in method.refuses:
        path: list[str | int] = []
        for part in name.split("."):
            assert part in known_keys(Recipe, tuple(path)), f"{name!r} is no key of a recipe"
            path.append(part)
            if part in ("batches", "portions", "sizes"):
                path.append(0)


@pytest.mark.parametrize("method", METHODS, ids=lambda method: method.name)
def test_a_method_has_stages_that_there_are_and_begins_with_what_to_put_on(method: Method) -> None:
    assert set(method.stages) <= STAGES.keys()
    assert method.stages[0] == "before"
    assert ("lye" in method.stages) == method.weighs_lye


def test_every_stage_belongs_to_a_method_and_every_laying_is_a_step_of_the_pour() -> None:
    assert {stage for method in METHODS for stage in method.stages} == set(get_args(StageId)) == STAGES.keys()
    layings: Any = PourStep.model_fields
    assert set(layings) == EVERY_LAYING
