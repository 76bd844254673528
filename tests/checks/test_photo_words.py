"""The rule `photo-words`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(more("photo: {file: a.jpg, day: 0}\n"), **{"photos/a.jpg": ""})
NEIGHBOUR = recipe(more("photo: {file: a.jpg, day: 0, note: A bar}\n"), **{"photos/a.jpg": ""})
