"""The rule `photo-words`."""

from __future__ import annotations

from checks.books import more, recipe

BREAKER = recipe(more("photo: {file: a.jpg, day: 0}\n"), **{"photos/a.jpg": ""})
TOLD = [
    (
        "recipes/tried.md:11:8",
        "warning",
        "this photo has no description",
        "add alt: what is to be seen, or note:",
    ),
]
NEIGHBOUR = recipe(more("photo: {file: a.jpg, day: 0, note: A bar}\n"), **{"photos/a.jpg": ""})
ALSO = [
    (
        recipe(
            more(
                "photo: {file: a.jpg, day: 0, note: A bar}\nbatches: [{lot: A1, poured: 2026-03-02, photos: [{file: a.jpg, day: 1, alt: A bar}, {file: c.jpg, day: 1}]}]\n"
            ),
            **{"photos/a.jpg": "", "photos/c.jpg": ""},
        ),
        [
            (
                "recipes/tried.md:12:85",
                "warning",
                "this photo has no description",
                "add alt: what is to be seen, or note:; or waive it with your reason: waive: [{rule: photo-words, about: c.jpg, because: …}]",
            )
        ],
    ),
]
