"""The rule `pour`."""

from __future__ import annotations

import pytest

from checks.books import TWO, found, more, recipe

BREAKER = recipe(more("pour: [{beds: [{of: light}, {of: grey}, {of: dark}]}]\n", TWO))
TOLD = [
    ("recipes/tried.md:14:34", "error", "there is no portion 'grey'", "known portions: dark, light"),
]
NEIGHBOUR = recipe(more("pour: [{beds: [{of: light}, {of: dark}]}]\n", TWO))
ALSO = [
    (
        recipe(
            more(
                "pour:\n  - beds: [{of: light}, {of: dark}]\n  - plops: {of: [light, drk]}\n  - line: {of: coca, over: light}\n  - line: {of: cocoa, over: lihgt}\n",
                TWO,
            )
        ),
        [
            ("recipes/tried.md:16:25", "error", "there is no portion 'drk'", "did you mean 'dark'?"),
            ("recipes/tried.md:17:16", "error", "'coca' is not in the pantry", "did you mean 'cocoa'?"),
            ("recipes/tried.md:18:29", "error", "there is no portion 'lihgt'", "did you mean 'light'?"),
        ],
    ),
    (
        recipe(more("pour:\n  - {}\n  - beds: [{of: light}]\n", TWO)),
        [
            (
                "recipes/tried.md:15:5",
                "error",
                "a step of the pour has exactly one key",
                "begin a new line with a dash for each key",
            ),
        ],
    ),
]


@pytest.mark.parametrize(
    ("steps", "places"),
    [
        (
            "{beds: [{of: light}, {of: dark}]}, {line: {of: cocoa, over: grey}}",
            ["there is no portion 'grey'"],
        ),
        (
            "{beds: [{of: light}, {of: dark}]}, {line: {of: cocao, over: dark}}",
            ["'cocao' is not in the pantry"],
        ),
        ("{beds: [{of: light}]}, {drops: {into: grey, of: [dark]}}", ["there is no portion 'grey'"]),
        ("{beds: [{of: light}]}, {drops: {into: light, of: [dark, grey]}}", ["there is no portion 'grey'"]),
        ("{columns: {of: [light, grey, dark]}}", ["there is no portion 'grey'"]),
        ("{beds: [{of: light}, {of: dark}]}, {top: {sprinkle: slat}}", ["'slat' is not in the pantry"]),
        ("{beds: [{of: light}]}", ["the portion 'dark' is never poured"]),
    ],
)
def test_names_are_found_where_they_stand(steps: str, places: list[str]) -> None:
    text = more(f"pour: [{steps}]\n", TWO)
    findings = found(recipe(text), "pour")
    assert [f.message for f in findings] == places
    for finding in findings:
        line = text.split("\n")[finding.place.line - 1]
        name = finding.message.split("'")[1]
        assert line[finding.place.column - 1 :].startswith(name)
