"""The rule `stale`."""

from __future__ import annotations

from checks.books import GOOD, LESSON, found, put, recipe

BREAKER = recipe(put("superfat: SUPERFAT", "superfat: 4.9 %"))
TOLD = [
    (
        "recipes/tried.md:12:13",
        "error",
        "superfat is signed as 4.9 % and is now 5.0 %",
        "if the recipe is right, run: saponary sign tried",
    ),
]
NEIGHBOUR = recipe(put("superfat: SUPERFAT", "superfat: 5 %"))
ALSO = [
    (
        recipe(
            put("formula: FINGERPRINT", "formula: 123456123456")
            + "It has {superfat = 4.9 %}, {suprfat} and {lye = 5}.\n"
        ),
        [
            (
                "recipes/tried.md:13:12",
                "error",
                "the formula is signed as 123456123456 and is now 267c1d7c1636",
                "if the recipe is right, run: saponary sign tried",
            ),
            (
                "recipes/tried.md:16:20",
                "error",
                "superfat is quoted as 4.9 % and is now 5.0 %",
                "if the recipe is right, run: saponary sign tried",
            ),
            (
                "recipes/tried.md:16:28",
                "error",
                "there is no figure 'suprfat'",
                "did you mean 'superfat'? (a plain brace is written \\{)",
            ),
            (
                "recipes/tried.md:16:49",
                "error",
                "'5' has no unit",
                "expected one of: g, kg, mg, oz, lb; for example 138.7 g",
            ),
        ],
    ),
]


def test_a_lesson_is_held_to_the_size_of_each_student() -> None:
    """500 g of oils each, of the recipe's 1000 g."""
    lesson = LESSON + "All {oils = 1000 g} of it, {oils = 500 g}, {lie} and {oils = 500}.\n"
    stale, unknown, bare = found(recipe(GOOD, lesson=lesson), "stale")
    assert str(stale.place) == "classes/one.md:8:13"
    where = "in the first recipe at each student's size"
    assert stale.message == f"oils is quoted as 1000 g and is now 500 g, {where}"
    assert stale.hint == "if the class is right, run: saponary sign one"
    assert (str(unknown.place), unknown.message) == ("classes/one.md:8:44", "there is no figure 'lie'")
    assert unknown.hint == "did you mean 'lye'? (a plain brace is written \\{)"
    assert (str(bare.place), bare.message) == ("classes/one.md:8:62", "'500' has no unit")


def test_figures_of_the_notes_and_of_the_front_matter() -> None:
    text = (
        GOOD.replace("signed:\n", "signed:\n  lie: 5 g\n  oils: 1 ml\n") + "It has {oils = 999 g}, {lie}.\n"
    )
    told = [(str(f.place), f.message) for f in found(recipe(text), "stale")]
    assert told[0] == ("recipes/tried.md:12:3", "there is no figure 'lie'")
    assert told[1][0] == "recipes/tried.md:13:9" and "'ml'" in told[1][1]
    assert told[2:] == [
        ("recipes/tried.md:18:16", "oils is quoted as 999 g and is now 1000 g"),
        ("recipes/tried.md:18:24", "there is no figure 'lie'"),
    ]
