"""A maker's own oil: its saponification value against its acids, its kind and the published range."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pantry.test_own import shelf
from saponary.pantry.own_oils import ACIDS_OFF, WINDOWS
from saponary.pantry.standard import standard

REPEATABLE = settings(derandomize=True, database=None, deadline=None, max_examples=120)
KOH, NAOH = 56.1056, 39.9971
STEARIC = "fatty-acids: {C18:0: 100 %}"
"""Tristearin: 3 x 56.1056 / (3 x 284.477 + 92.0938 - 54.0459) = 188.8 mg/g by the IUPAC weights."""


def told(root: Path, entry: str, name: str = "own") -> list[tuple[str, str, str]]:
    _, found = shelf(root, f"oils:\n  {name}: {{inci: Own Oil, {entry}}}\n")
    return [(f.severity, f.message, f.hint) for f in found]


def one(value: float | str, more: str = "kind: butter", spread: float = 1.0) -> str:
    low, high = float(value) - spread, float(value) + spread
    return f"{more}, saponification-value: {{value: {value} mg/g, range: [{low:g} mg/g, {high:g} mg/g]}}"


def test_a_value_that_its_acids_contradict_is_an_error(tmp_path: Path) -> None:
    """A butter stated with 290 whose acids come to 188.8: nearly half too much alkali."""
    ((severity, message, _),) = told(tmp_path, one(290, f"kind: butter, {STEARIC}"))
    assert severity == "error" and "189 mg/g follows from the fatty acids" in message


@pytest.mark.parametrize(("value", "count"), [(178.0, 0), (177.3, 1), (200.0, 0), (200.3, 1)])
def test_six_per_cent_are_the_limit(value: float, count: int, tmp_path: Path) -> None:
    assert len(told(tmp_path, one(value, f"kind: butter, {STEARIC}"))) == count


def test_a_value_per_sodium_hydroxide_is_told_what_it_should_be(tmp_path: Path) -> None:
    """188.8 x 39.9971 / 56.1056 = 134.6."""
    ((severity, _, hint),) = told(tmp_path, one(134.6, f"kind: butter, {STEARIC}"))
    assert severity == "error" and "mg of sodium hydroxide" in hint and "188.8 mg/g" in hint


def test_without_acids_the_kind_has_a_window_and_says_so(tmp_path: Path) -> None:
    ((severity, message, _),) = told(tmp_path / "high", one(290))
    assert severity == "error" and "the value of no butter" in message
    ((severity, _, hint),) = told(tmp_path / "low", one(133))
    assert severity == "error" and "186.6 mg/g" in hint
    ((severity, message, _),) = told(tmp_path / "inside", one(190))
    assert severity == "warning" and "nothing stands beside" in message
    ((severity, _, hint),) = told(tmp_path / "percent", one(18.9))
    assert severity == "error" and "per cent" in hint


def test_a_known_oil_far_outside_its_range_is_an_error(tmp_path: Path) -> None:
    """Olive, 184 to 196 (Codex Stan 33): 215 is another oil; three per cent beyond the end is a warning."""
    high = standard().oils["olive"].saponification_value.high
    assert [s for s, _, _ in told(tmp_path / "far", one(215, "name: Olive"), "olive")] == ["error"]
    assert [s for s, _, _ in told(tmp_path / "near", one(f"{high * 1.029:.2f}", "name: Olive"), "olive")] == [
        "warning"
    ]
    assert [s for s, _, _ in told(tmp_path / "over", one(f"{high * 1.031:.2f}", "name: Olive"), "olive")] == [
        "error"
    ]


def test_like_gives_an_oil_the_published_range(tmp_path: Path) -> None:
    assert [s for s, _, _ in told(tmp_path / "far", one(230, "like: lard"))] == ["error"]
    assert told(tmp_path / "same", one(197, "like: lard")) == []


def test_acids_of_another_oil_over_a_known_value_are_an_error(tmp_path: Path) -> None:
    ((severity, message, _),) = told(tmp_path, "fatty-acids: {C12:0: 100 %}", "olive")
    assert severity == "error" and "follows from the fatty acids" in message


def test_a_wax_is_not_reckoned_from_its_acids(tmp_path: Path) -> None:
    ((severity, _, _),) = told(tmp_path, one(92, f"kind: wax, {STEARIC}"))
    assert severity == "warning"


@pytest.mark.parametrize("kind", sorted(WINDOWS))
def test_every_oil_of_the_tables_lies_in_the_window_of_its_kind(kind: str) -> None:
    """But for the oil of short chains alone, which is none of nature's."""
    low, high = WINDOWS[kind]
    outside = [
        oil.id
        for oil in standard().oils.values()
        if oil.kind == kind and not low <= oil.saponification_value.value <= high
    ]
    assert outside == (["mct"] if kind == "oil" else [])


@REPEATABLE
@given(
    st.dictionaries(
        st.sampled_from([("C12:0", 200.318), ("C16:0", 256.424), ("C18:0", 284.477), ("C18:1", 282.461)]),
        st.integers(1, 20),
        min_size=1,
    ),
    st.floats(0.6, 1.6),
)
def test_any_blend_of_acids_holds_its_value(
    tmp_path_factory: pytest.TempPathFactory, parts: dict[tuple[str, float], int], factor: float
) -> None:
    """The value worked out apart, by the molar masses; off by more than the limit it is an error, else not."""
    whole = sum(parts.values())
    mean = 1 / sum(part / whole / mass for (_, mass), part in parts.items())
    true = 3 * KOH * 1000 / (3 * mean + 92.0938 - 3 * 18.0153)
    value = round(true * factor, 2)
    off = abs(value / true - 1)
    if abs(off - ACIDS_OFF) < 2e-4:
        return
    acids = ", ".join(f"{key}: {part}/{whole}" for (key, _), part in parts.items())
    found = told(tmp_path_factory.mktemp("own"), one(value, f"kind: oil, fatty-acids: {{{acids}}}"))
    assert [severity for severity, _, _ in found] == (["error"] if off > ACIDS_OFF else [])
