"""The rule `dilution`: a paste is thinned, and alkali left over in it is taken by an acid that is named."""

from __future__ import annotations

import pytest

from checks.books import more, put, recipe
from support import PLAIN, prove_one

PASTE = more(
    "method: cream\nlye: {potassium: {share: 100 %, purity: 90 %}}\ndilute: {total-fatty-matter: WANTED, acid: citric-acid}\n",
    put("{lye-strength: 33 %}", "{to-lye: 3}"),
)
BREAKER = recipe(PASTE.replace("WANTED", "70 %"))
TOLD = [
    (
        "recipes/tried.md:13:1",
        "error",
        "the paste as weighed in holds 51.1 % of total fatty matter, less than the 70.0 % it is to be thinned to",
        "a share below 51.1 %, or less water in the lye",
    ),
]
NEIGHBOUR = recipe(PASTE.replace("WANTED", "25 %"))

SOAP = (
    PLAIN.replace("superfat: 5 %", "superfat: SUPERFAT")
    .replace("  superfat: 5.0 %", "  superfat: SIGNED")
    .replace("signed:", "method: liquid\nlye: {potassium: {share: 100 %, purity: 90 %}}\nDILUTE\nsigned:")
)
THINNED = "dilute: {total-fatty-matter: 20 %, acid: citric-acid}"


@pytest.mark.parametrize(
    ("superfat", "dilute", "told"),
    [
        ("-3", THINNED, [("dilution", "warning")]),
        ("-6", THINNED, [("superfat", "error")]),
        ("-3", "dilute: 20 %", [("superfat", "error")]),
        ("-3", "summary: thin it", [("superfat", "error")]),
        ("3", THINNED, []),
    ],
)
def test_an_excess_is_an_error_unless_little_and_an_acid_takes_it(
    superfat: str, dilute: str, told: list[tuple[str, str]]
) -> None:
    text = (
        SOAP.replace("SUPERFAT", f"{superfat} %")
        .replace("SIGNED", f"{superfat}.0 %")
        .replace("DILUTE", dilute)
    )
    found = prove_one(text).findings
    assert [(f.rule, f.severity) for f in found if f.rule in ("dilution", "superfat")] == told


def test_the_acid_for_the_excess_is_worked_out() -> None:
    """3 % of the demand of 1,000 g at 206.5 mg/g is 0.1104 mol; citric acid takes three a molecule, 192.124 g/mol,
    and what is sold holds one water, 210.14 g/mol; the pantry says which."""
    text = SOAP.replace("SUPERFAT", "-3 %").replace("SIGNED", "-3.0 %").replace("DILUTE", THINNED)
    computed = prove_one(text).recipes[0].computed
    moles = 0.03 * 1000 * computed.figures.chemistry.saponification_value / 1000 / 56.1056
    takes = computed.pantry.additions["citric-acid"].acid
    assert takes in (pytest.approx(3 / 192.124, rel=1e-3), pytest.approx(3 / 210.14, rel=1e-3))
    assert computed.catalogue["neutralising-acid"].value == pytest.approx(moles / takes, rel=1e-6)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("dilute: {total-fatty-matter: 20 %, acid: citric}", "'citric' is not in the pantry"),
        ("dilute: {total-fatty-matter: 20 %, acid: kaolin}", "'kaolin' takes no known amount of alkali"),
        ("dilute: 0 %", "a soap holds some fatty matter"),
    ],
)
def test_what_cannot_be(text: str, told: str) -> None:
    found = prove_one(
        SOAP.replace("SUPERFAT", "3 %").replace("SIGNED", "3.0 %").replace("DILUTE", text)
    ).findings
    assert told in [f.message for f in found if f.severity == "error"]


def test_a_bar_is_not_thinned() -> None:
    found = prove_one(PLAIN.replace("signed:", "dilute: 20 %\nsigned:")).findings
    assert [(f.message, f.place.line) for f in found if f.severity == "error"] == [
        ("'dilute' does not go with method: cold", 11)
    ]
