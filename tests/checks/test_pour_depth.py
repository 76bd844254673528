"""A bed's stated depth is held against the volume of its batter, to three points of a hundred."""

from __future__ import annotations

import pytest

from checks.books import TWO, more, recipe
from support import PLAIN, prove_one

BREAKER = recipe(more("pour: [{beds: [{of: light, depth: 70 %}, {of: dark, depth: 50 %}]}]\n", TWO))
TOLD = [
    (
        "recipes/tried.md:14:35",
        "warning",
        "this bed is said to fill 70 % and its batter fills 50 %",
        "the drawing uses the volume; correct the depth, or the portion's share",
    ),
]
NEIGHBOUR = recipe(more("pour: [{beds: [{of: light, depth: 52 %}, {of: dark, depth: 48 %}]}]\n", TWO))
ALSO = [
    (
        recipe(
            more(
                "pour:\n  - beds: [{of: light, depth: 70 %}, {of: dark, depth: 5 %}]\n  - drops: {into: light, of: [dark]}\n",
                TWO,
            )
        ),
        [],
    ),
    (
        recipe(more("pour:\n  - beds: [{of: light, depth: 70 %}]\n  - columns: {of: [dark, dark]}\n", TWO)),
        [
            (
                "recipes/tried.md:15:31",
                "warning",
                "this bed is said to fill 70 % and its batter fills 50 %",
                "the drawing uses the volume; correct the depth, or the portion's share; or waive it with your reason: waive: [{rule: pour-depth, about: light, because: …}]",
            )
        ],
    ),
    (
        recipe(
            more(
                "pour:\n  - beds: [{of: light, depth: 20 %}, {of: dark, depth: 5 %, part: 20 %}, {of: light}]\n  - plops: {of: [light, light]}\n",
                TWO,
            )
        ),
        [
            (
                "recipes/tried.md:15:56",
                "warning",
                "this bed is said to fill 5 % and its batter fills 10 %",
                "the drawing uses the volume; correct the depth, or the portion's share; or waive it with your reason: waive: [{rule: pour-depth, about: dark, because: …}]",
            )
        ],
    ),
]

POUR = """\
portions:
  - {name: pale, share: 40 %}
  - {name: dark, share: 60 %}
pour:
"""


def told(beds: str) -> list[str]:
    text = PLAIN.replace("superfat: 5 %\n", f"superfat: 5 %\n{POUR}  - beds: [{beds}]\n", 1)
    return [f.message for f in prove_one(text).findings if f.rule == "pour-depth"]


@pytest.mark.parametrize(("depth", "found"), [("37.1 %", 0), ("36.9 %", 1), ("42.9 %", 0), ("43.1 %", 1)])
def test_a_depth_may_miss_the_volume_by_three_points(depth: str, found: int) -> None:
    assert len(told(f"{{of: pale, depth: {depth}}}, {{of: dark}}")) == found


def test_the_finding_says_what_the_batter_fills() -> None:
    assert told("{of: pale}, {of: dark, depth: 50 %}") == [
        "this bed is said to fill 50 % and its batter fills 60 %"
    ]


def test_of_a_portion_in_several_beds_each_is_held_to_its_part() -> None:
    beds = "{of: pale, depth: 21 %, part: 50 %}, {of: dark}, {of: pale, depth: 30 %, part: 50 %}"
    assert told(beds) == ["this bed is said to fill 30 % and its batter fills 20 %"]
