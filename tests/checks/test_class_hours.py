"""The rule `class-hours`."""

from __future__ import annotations

from checks.books import GOOD, LESSON, put, recipe

BREAKER = recipe(
    GOOD,
    lesson=put(
        "recipes:", "timetable: [{at: '10:00', what: Weigh}, {at: '09:30', what: Stir}]\nrecipes:", LESSON
    ),
)
TOLD = [
    ("classes/one.md:5:46", "warning", "09:30 stands after 10:00", "put the hours in their order"),
]
NEIGHBOUR = recipe(
    GOOD,
    lesson=put(
        "recipes:", "timetable: [{at: '09:30', what: Weigh}, {at: '09:30', what: Stir}]\nrecipes:", LESSON
    ),
)
