"""What a record may say: nothing that cannot be, on either side of any bound."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest

from checks.books import with_batch
from saponary.book.standing import standing
from saponary.build.proof import Proof, prove, prove_book
from saponary.lye.constants import KOH, NAOH
from support import PLAIN, prove_one, write_book

CLEAN = "free-alkali: {test: zap, result: none, on: 2026-05-01}"


def proof_with(fields: str, text: str = PLAIN) -> Proof:
    """A recipe with one batch of today's formula and a clean test after its cure."""
    mark = prove_one(text).recipes[0].computed.fingerprint
    kept = text.index("---", 4)
    record = f'batches: [{{lot: A1, poured: 2026-03-02, formula: "{mark}", {CLEAN}, {fields}}}]\n'
    return prove_one(text[:kept] + record + text[kept:])


def told(fields: str) -> list[str]:
    return [f.message for f in proof_with(fields).findings if f.severity == "error"]


OILS = "olive: 600 g, coconut: 250 g, sunflower-high-oleic: 150 g"
LYE = 138.0
"""Grams, about what PLAIN takes at 5 % superfat."""


@pytest.mark.parametrize(
    ("weights", "tested"),
    [
        (f"{OILS}, sodium-hydroxide: {LYE} g", True),
        (f"sodium-hydroxide: {LYE} g", True),
        (f"{OILS}, sodium-hydroxide: {LYE - 1} g", True),
        (f"{OILS}, sodium-hydroxide: 0 g", False),
        (f"{OILS}, sodium-hydroxide: {LYE / 2} g", False),
        (f"olive: 6 kg, coconut: 2.5 kg, sunflower-high-oleic: 1.5 kg, sodium-hydroxide: {LYE} g", False),
        ("olive: 6 kg, coconut: 2.5 kg, sunflower-high-oleic: 1.5 kg", False),
        (f"olive: 6 kg, coconut: 2.5 kg, sunflower-high-oleic: 1.5 kg, sodium-hydroxide: {10 * LYE} g", True),
        (f"olive: 60 g, coconut: 25 g, sunflower-high-oleic: 15 g, sodium-hydroxide: {LYE / 10} g", True),
    ],
)
def test_a_lot_of_another_soap_is_no_test_of_the_formula(weights: str, tested: bool) -> None:
    (one,) = proof_with(f"as-weighed: {{{weights}}}").recipes
    assert (one.status.name == "tested") == tested
    found = standing(one.computed.batches[0].batch, one.computed)
    assert (found.name == "clean") == tested and found.ready == tested and found.astray != tested


def test_the_bounds_of_a_pour_are_the_formulas_own_and_a_slip() -> None:
    """By plain arithmetic from the pantry's saponification values: the worst of them, and 2 % of superfat."""
    computed = prove_one(PLAIN).recipes[0].computed
    oils = computed.resolved.formula.oils
    pure = computed.resolved.formula.alkali.sodium_purity

    def lye(superfat: float, value: str) -> float:
        return (1 - superfat) * sum(o.grams * getattr(o, value) for o in oils) / 1000 / KOH * NAOH / pure

    nominal = lye(0.05, "saponification_value")
    high = max(0.07, 1 - nominal / lye(0.0, "high"))
    low = min(0.03, 1 - nominal / lye(0.0, "low"))
    for edge, inside, outside in ((high, high - 1e-3, high + 1e-3), (low, low + 1e-3, low - 1e-3)):
        for superfat, astray in ((inside, False), (outside, True)):
            grams = lye(superfat, "saponification_value")
            one = with_batch(f"as-weighed: {{sodium-hydroxide: {grams:.4f} g}}")
            found = standing(one.batches[0].batch, one)
            assert found.astray == astray or found.name == "caustic", (edge, superfat, found)


@pytest.mark.parametrize(
    ("fields", "bad"),
    [
        ("lye-temperature: 190 °C", "190 °C"),
        ("lye-temperature: -31 °C", "-31 °C"),
        ("lye-temperature: 320 °F", "320 °F"),
        ("oils-temperature: 151 °C", "151 °C"),
        ("oils-temperature: -11 °C", "-11 °C"),
        ("room-temperature: 61 °C", "61 °C"),
        ("room-temperature: -21 °C", "-21 °C"),
        ("humidity: 101 %", "101 %"),
        ("humidity: -1 %", "-1 %"),
        ("weighed: {0: 0 g}", "'0 g'"),
        ("bars: {a: {0: -5 g}}", "-5 g"),
        ("cut: 1899-12-31", "1899-12-31"),
        ("unmoulded: 2999-01-01", "2999-01-01"),
        ("as-weighed: {olive: -1 g}", "-1 g"),
        ("as-weighed: {olive: 99999 kg}", "99999 kg"),
        ("photos: [{file: a.jpg, day: 10000}]", "day of the cure"),
        ("photos: [{file: a.jpg, day: -1}]", "day of the cure"),
    ],
)
def test_what_cannot_be_is_refused(fields: str, bad: str) -> None:
    assert any(bad in message for message in told(fields)), told(fields)


@pytest.mark.parametrize(
    "fields",
    [
        "lye-temperature: -29 °C, oils-temperature: -9 °C, room-temperature: -19 °C, humidity: 0 %",
        "lye-temperature: 149 °C, oils-temperature: 149 °C, room-temperature: 59 °C, humidity: 100 %",
        "lye-temperature: 95 °F, weighed: {0: 144 g, 28: 130 g}, cut: 2026-03-03, unmoulded: 2026-03-03",
    ],
)
def test_what_can_be_is_accepted(fields: str) -> None:
    assert told(fields) == []


MOULD = "moulds: {loaf: {loaf: {length: 250 mm, width: 90 mm, height: 70 mm}}}\n"


@pytest.mark.parametrize(
    ("cut", "wrong"),
    [("0.01 mm", True), ("2.9 mm", True), ("3 mm", False), ("25 mm", False), ("1001 mm", True)],
)
def test_a_bar_is_as_thick_as_soap_can_be_cut(tmp_path: Path, cut: str, wrong: bool) -> None:
    text = PLAIN.replace("superfat: 5 %\n", f"superfat: 5 %\nmould: loaf\ncut: {cut}\n", 1)
    proof = prove(write_book(tmp_path, {"recipes/a.md": text, "pantry.yaml": MOULD}))
    found = [f for f in proof.findings if f.severity == "error" and "possible" in f.message]
    assert bool(found) == wrong


@pytest.mark.parametrize(
    "field",
    [
        "poured: {}",
        "poured: 2026-03-02, unmoulded: {}",
        "poured: 2026-03-02, cut: {}",
        "poured: 2026-03-02, free-alkali: {{test: zap, result: none, on: {}}}",
        "poured: 2026-03-02, free-alkali: [{{test: zap, result: none, on: {}}}]",
    ],
)
def test_no_day_of_a_record_is_yet_to_come(field: str) -> None:
    today = date(2026, 6, 1)
    for later, ahead in ((0, False), (1, False), (2, True), (60_000, True)):
        day = today + timedelta(days=later)
        found = _on(today, field.format(day.isoformat()))
        assert (found == [f"a day yet to come: {day.isoformat()}"]) == ahead, found
    assert _on(None, field.format("2150-01-01")) == []


@pytest.mark.parametrize(
    ("field", "ahead"),
    [
        ("weighed: {0: 144 g, 91: 130 g}", False),
        ("weighed: {0: 144 g, 93: 130 g}", True),
        ("bars: {left: {0: 144 g, 93: 130 g}}", True),
        ("photos: [{file: a.jpg, day: 93}]", True),
    ],
)
def test_no_count_of_days_leads_past_today(field: str, ahead: bool) -> None:
    assert bool(_on(date(2026, 6, 1), f"poured: 2026-03-02, {field}")) == ahead


def _on(today: date | None, fields: str) -> list[str]:
    kept = PLAIN.index("---", 4)
    book = prove_one(PLAIN[:kept] + f"batches: [{{lot: A1, {fields}}}]\n" + PLAIN[kept:]).book
    found = [f for f in prove_book(book, today=today).findings if f.rule == "batch-days"]
    lines = [book.recipes[0].text.split("\n")[f.place.line - 1][f.place.column - 1 :] for f in found]
    assert all(line for line in lines)
    return [f"a day yet to come: {f.message.split(' on ')[-1].split(',')[0]}" for f in found]


@pytest.mark.parametrize(
    ("grams", "severity"),
    [
        (144, None),
        (73, None),
        (287, None),
        (71, "warning"),
        (289, "warning"),
        (1182, "warning"),
        (5000, "error"),
    ],
)
def test_a_bar_weighs_what_the_formula_gives(tmp_path: Path, grams: int, severity: str | None) -> None:
    """A loaf of ten bars; the bound is twice and half of what one of them holds."""
    text = PLAIN.replace("superfat: 5 %\n", "superfat: 5 %\nmould: loaf\ncut: 25 mm\n", 1)
    bar = prove(write_book(tmp_path, {"recipes/a.md": text, "pantry.yaml": MOULD})).recipes[0].computed
    share = grams / 144 * bar.catalogue["bar"].value
    kept = text.index("---", 4)
    record = f"batches: [{{lot: A1, poured: 2026-03-02, weighed: {{0: {share:.1f} g}}}}]\n"
    write_book(tmp_path, {"recipes/a.md": text[:kept] + record + text[kept:]})
    found = [f for f in prove(tmp_path).findings if f.rule == "weighings"]
    assert [f.severity for f in found] == ([severity] if severity else [])
