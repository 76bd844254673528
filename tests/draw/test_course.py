"""The picture of a formula's versions: each figure that it shows is one of those given, and none lies over another."""

from __future__ import annotations

import re
from datetime import date, timedelta
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from saponary.draw.charts.course import course
from saponary.messages.speaker import speaker


def drawn(values: list[tuple[float, float]]) -> ElementTree.Element:
    first = date(2026, 1, 31)
    versions = [(first + timedelta(n), lye, superfat) for n, (lye, superfat) in enumerate(values)]
    return ElementTree.fromstring(course(versions, speaker()).svg)


def figures(root: ElementTree.Element) -> list[tuple[float, float, str]]:
    """Where each figure stands, and what it is."""
    found = [(float(one.get("x", "")), float(one.get("y", "")), one.text or "") for one in root.iter("text")]
    return [one for one in found if re.fullmatch(r"[\d.]+", one[2])]


def test_few_versions_have_their_figures_at_their_steps() -> None:
    root = drawn([(139.8, 0.05), (138.3, 0.06), (139.8, 0.05)])
    assert [one[2] for one in figures(root)] == ["13.98", "13.83", "13.98", "5.0", "6.0", "5.0"]
    lye = [y for _, y, text in figures(root) if text.startswith("13")]
    assert lye[1] > lye[0] == lye[2], "less stands lower"
    words = "".join(root.itertext()).replace("\u00a0", " ")
    assert "31 Jan 2026" in words and "2 Feb 2026" in words


@pytest.mark.parametrize("count", [2, 7, 60])
def test_no_figure_lies_over_another_however_many_versions(count: int) -> None:
    root = drawn([(139.8 - n * 1.5, 0.05 + n * 0.01) for n in range(count)])
    rows: dict[bool, list[float]] = {True: [], False: []}
    for x, _, text in figures(root):
        rows[len(text.partition(".")[2]) == 2].append(x)
    for row in rows.values():
        assert len(row) >= 2 and all(after - before >= 40 for before, after in pairwise(row))
        assert row[0] >= 18 and row[-1] <= 288 - 18


def test_a_formula_that_moved_neither_is_two_level_lines() -> None:
    root = drawn([(139.8, 0.05), (139.8, 0.05)])
    assert len({one.get("y1") for one in root.iter("line")}) == 4, "a step and a rule in each row"
