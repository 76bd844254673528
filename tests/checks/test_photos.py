"""The rule `photos`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(more("photo: {file: nowhere.jpg, day: 0, alt: A bar}\n"))
TOLD = [
    (
        "recipes/tried.md:11:15",
        "error",
        "there is no photo photos/nowhere.jpg",
        "there are no photos here yet",
    ),
]
NEIGHBOUR = recipe(more("photo: {file: a.jpg, day: 0, alt: A bar}\n"), **{"photos/a.jpg": ""})
