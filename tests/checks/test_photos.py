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
ALSO = [
    (
        recipe(
            more(
                "photo: {file: b.jpg, day: 0, alt: A bar}\nbatches: [{lot: A1, poured: 2026-03-02, photos: [{file: a.jpg, day: 1, alt: A bar}, {file: c.jpg, day: 1, alt: A bar}]}]\n"
            ),
            **{"photos/a.jpg": "", "photos/bb.jpg": ""},
        ),
        [
            ("recipes/tried.md:11:15", "error", "there is no photo photos/b.jpg", "did you mean 'a.jpg'?"),
            ("recipes/tried.md:12:92", "error", "there is no photo photos/c.jpg", "did you mean 'a.jpg'?"),
        ],
    ),
]
