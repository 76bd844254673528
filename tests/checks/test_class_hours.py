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
ALSO = [
    (
        recipe(
            GOOD,
            lesson=put(
                "oils: 500 g\n",
                "oils: 500 g\ntimetable: [{at: '10:00', what: Weigh}, {at: '09:30', what: Stir}, {at: '09:30', what: Pour}, {at: '09:00', what: Wash}]\n",
                LESSON,
            ),
        ),
        [
            (
                "classes/one.md:5:46",
                "warning",
                "09:30 stands after 10:00",
                'put the hours in their order; or waive it with your reason: waive: [{rule: class-hours, about: "09:30", because: …}]',
            ),
            (
                "classes/one.md:5:100",
                "warning",
                "09:00 stands after 09:30",
                'put the hours in their order; or waive it with your reason: waive: [{rule: class-hours, about: "09:00", because: …}]',
            ),
        ],
    ),
]
