"""The rule `photos`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(more("photo: {file: nowhere.jpg, day: 0, alt: A bar}\n"))
NEIGHBOUR = recipe(more("photo: {file: a.jpg, day: 0, alt: A bar}\n"), **{"photos/a.jpg": ""})
