"""The rule `photo-words`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(more("photo: {file: a.jpg, day: 0}\n"), **{"photos/a.jpg": ""})
TOLD = [
    ("recipes/tried.md:11:8", "warning", "this photo has no words", "add alt: what is to be seen, or note:"),
]
NEIGHBOUR = recipe(more("photo: {file: a.jpg, day: 0, note: A bar}\n"), **{"photos/a.jpg": ""})
