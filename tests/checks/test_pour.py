"""The rule `pour`."""

from __future__ import annotations

from pathlib import Path

import pytest

from checks.books import TWO, found, more, recipe

BREAKER = recipe(more("pour: [{beds: [{of: light}, {of: grey}, {of: dark}]}]\n", TWO))
TOLD = [
    ("recipes/tried.md:14:34", "error", "there is no portion 'grey'", "known portions: dark, light"),
]
NEIGHBOUR = recipe(more("pour: [{beds: [{of: light}, {of: dark}]}]\n", TWO))


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
        ("{beds: [{of: light}, {of: dark}]}, {top: {strewn: slat}}", ["'slat' is not in the pantry"]),
        ("{beds: [{of: light}]}", ["the portion 'dark' is never poured"]),
    ],
)
def test_names_are_found_where_they_stand(steps: str, places: list[str], tmp_path: Path) -> None:
    text = more(f"pour: [{steps}]\n", TWO)
    findings = found(tmp_path, recipe(text), "pour")
    assert [f.message for f in findings] == places
    for finding in findings:
        line = text.split("\n")[finding.place.line - 1]
        name = finding.message.split("'")[1]
        assert line[finding.place.column - 1 :].startswith(name)
