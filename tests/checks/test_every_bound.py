"""Every amount and day that a record may hold has two ends: just inside is accepted, just outside is an error.

The fields are read from the schema, so that a new one is missed here until its ends are written down. The ends are
physics or the recipe itself: temperatures at which lye and fat are liquid, water and acids as they are sold (hydrochloric
acid at its strongest is 12 mol/l, sulfuric 36 mol/l of acid groups; from memory), and weights beside those of the formula.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, get_args, get_origin

import pytest

from checks.test_record_bounds import LYE, OILS
from planted import is_text
from saponary.reading.findings import errors
from saponary.schema.batch import Batch
from saponary.schema.fields import Part, kebab
from support import PLAIN, prove_one

_TEST = "test: titration, on: 2026-05-01"
ENDS: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "poured": (("lot: B1",), ()),  # the days are tried in test_record_bounds
    "room-temperature": (
        ("room-temperature: -19.9 °C", "room-temperature: 59.9 °C"), ("room-temperature: -20.1 °C", "room-temperature: 60.1 °C"),
    ),
    "humidity": (("humidity: 0 %", "humidity: 100 %"), ("humidity: -0.1 %", "humidity: 100.1 %")),
    "lye-temperature": (
        ("lye-temperature: -29.9 °C", "lye-temperature: 149.9 °C"), ("lye-temperature: -30.1 °C", "lye-temperature: 150.1 °C", "lye-temperature: 190 °C"),
    ),
    "oils-temperature": (
        ("oils-temperature: -9.9 °C", "oils-temperature: 149.9 °C"), ("oils-temperature: -10.1 °C", "oils-temperature: 150.1 °C"),
    ),
    "as-weighed": ((f"as-weighed: {{{OILS}, sodium-hydroxide: {LYE} g}}",), ("as-weighed: {olive: -0.1 g}", "as-weighed: {olive: 10001 kg}")),
    "lye-stock.strength": (("lye-stock: 50 %", "lye-stock: 40 %"), ("lye-stock: 100 %", "lye-stock: -1 %", "lye-stock: 85 %")),
    "lye-stock.sodium": (("lye-stock: {sodium: 50 %}", "lye-stock: {sodium: 68.9 %}"), ("lye-stock: {sodium: 100 %}", "lye-stock: {sodium: 69.1 %}")),
    "lye-stock.potassium": (
        ("lye-stock: {sodium: 50 %, potassium: 50 %}",), ("lye-stock: {sodium: 50 %, potassium: 100 %}", "lye-stock: {sodium: 50 %, potassium: 85 %}"),
    ),
    "lye-stock.coldest": (
        ("lye-stock: {sodium: 50 %, coldest: 18 °C}",), ("lye-stock: {sodium: 50 %, coldest: 61 °C}", "lye-stock: {sodium: 50 %, coldest: -51 °C}"),
    ),
    "pot.before": (("pot: {before: 3000 g, after: 2900 g}",), ("pot: {before: 0 g, after: 0 g}", "pot: {before: 10001 kg, after: 1 kg}")),
    "pot.after": (("pot: {before: 3000 g, after: 3000 g}",), ("pot: {before: 3000 g, after: 3001 g}", "pot: {before: 3000 g, after: 0 g}")),
    "unmoulded": (("unmoulded: 2026-03-03",), ("unmoulded: 2026-03-01", "unmoulded: 2999-01-01")),
    "cut": (("cut: 2026-03-03",), ("cut: 2026-03-01", "cut: 2999-01-01")),
    "weighed": (("weighed: {0: 140 g, 30: 125 g}",), ("weighed: {0: 0 g}", "weighed: {-1: 140 g}", "weighed: {0: 5000 g}", "weighed: {10000: 120 g}")),
    "bars": (("bars: {a: {0: 140 g}}",), ("bars: {a: {0: 0 g}}", "bars: {a: {-1: 140 g}}", "bars: {a: {0: 5000 g}}")),
    "photos.day": (("photos: [{file: a.jpg, day: 0, alt: a bar}]",), ("photos: [{file: a.jpg, day: -1, alt: a bar}]", "photos: [{file: a.jpg, day: 10000, alt: a bar}]")),
    "free-alkali.on": (("free-alkali: {test: zap, result: none, on: 2026-05-01}",), ("free-alkali: {test: zap, result: none, on: 2999-05-01}", "free-alkali: {test: zap, result: none, on: 2026-03-01}")),
    "free-alkali.titration.acid": (
        (f"free-alkali: {{{_TEST}, titration: {{acid: 0 ml, strength: 0.1 mol/l, sample: 5 g}}}}",
         f"free-alkali: {{{_TEST}, titration: {{acid: 0.2 ml, strength: 0.1 mol/l, sample: 5 g}}}}"),
        (f"free-alkali: {{{_TEST}, titration: {{acid: -0.1 ml, strength: 0.1 mol/l, sample: 5 g}}}}",
         f"free-alkali: {{{_TEST}, titration: {{acid: 2000 ml, strength: 0.1 mol/l, sample: 5 g}}}}"),
    ),
    "free-alkali.titration.strength": (
        (f"free-alkali: {{{_TEST}, titration: {{acid: 0 ml, strength: 12 mol/l, sample: 5 g}}}}",),
        (f"free-alkali: {{{_TEST}, titration: {{acid: 0 ml, strength: 37 mol/l, sample: 5 g}}}}",
         f"free-alkali: {{{_TEST}, titration: {{acid: 0 ml, strength: 0 mol/l, sample: 5 g}}}}"),
    ),
    "free-alkali.titration.sample": (
        (f"free-alkali: {{{_TEST}, titration: {{acid: 0 ml, strength: 0.1 mol/l, sample: 5 g}}}}",),
        (f"free-alkali: {{{_TEST}, titration: {{acid: 0 ml, strength: 0.1 mol/l, sample: 0 g}}}}",
         f"free-alkali: {{{_TEST}, titration: {{acid: 1 ml, strength: 0.1 mol/l, sample: 0.001 g}}}}"),
    ),
}  # fmt: skip


def measured(kind: type[Part], path: str = "") -> Iterator[str]:
    """The paths of all fields of a model that hold an amount or a day."""
    for name, field in kind.model_fields.items():
        where = f"{path}{kebab(name)}"
        inner = [one for one in _kinds(field.annotation) if isinstance(one, type) and issubclass(one, Part)]
        for one in inner:
            yield from measured(one, f"{where}.")
        if (
            not inner
            and not is_text(field)
            and any(one.__name__ in ("Quantity", "int", "date") for one in _classes(field.annotation))
        ):
            yield where


def _kinds(kind: Any) -> Iterator[Any]:
    yield kind
    for one in get_args(kind):
        if get_origin(kind) is not None and not isinstance(one, str):
            yield from _kinds(one)


def _classes(kind: Any) -> Iterator[type]:
    return (one for one in _kinds(kind) if isinstance(one, type) and get_origin(one) is None)


def test_no_field_is_without_its_ends() -> None:
    assert set(measured(Batch)) == set(ENDS)


def _with(fields: str) -> list[str]:
    """The errors in a record with these fields; a test of its own takes the place of the usual one."""
    kept = PLAIN.index("---", 4)
    record = f"batches: [{{lot: A1, poured: 2026-03-02, {fields}}}]\n"
    text = PLAIN[:kept] + record + PLAIN[kept:]
    # That there is no such photo, and no cook in this method, is not what is tried.
    return [
        f.message for f in errors(prove_one(text).findings) if f.rule not in ("photos", "method", "batches")
    ]


@pytest.mark.parametrize(
    "fields", [one for inside, _ in ENDS.values() for one in inside if "lot:" not in one]
)
def test_just_inside_is_accepted(fields: str) -> None:
    assert _with(fields) == []


@pytest.mark.parametrize("fields", [one for _, outside in ENDS.values() for one in outside])
def test_just_outside_is_an_error(fields: str) -> None:
    assert _with(fields) != []
