"""The rule `class-hours`."""

from __future__ import annotations

from checks.books import GOOD, LESSON, put, recipe

BREAKER = recipe(
    GOOD,
    lesson=put(
        "recipes:", "timetable: [{at: '10:00', what: Weigh}, {at: '09:30', what: Stir}]\nrecipes:", LESSON
    ),
)
NEIGHBOUR = recipe(
    GOOD,
    lesson=put(
        "recipes:", "timetable: [{at: '09:30', what: Weigh}, {at: '09:30', what: Stir}]\nrecipes:", LESSON
    ),
)
