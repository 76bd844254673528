"""The standard tables as data: sources on every figure, ids, colours, spoon densities, hazards.

These are rules the tables set themselves in the words at their heads; no publication is under test.
"""

from __future__ import annotations

import re
from functools import cache
from importlib.resources import files
from typing import Any, get_args

import pytest

from saponary.lye.fatty_acids import FATTY_ACIDS
from saponary.pantry.make import DISPLACES
from saponary.pantry.model import Addition, Ingredient
from saponary.pantry.standard import rows, standard
from saponary.schema.ingredient import Allergen, Hazard
from support import read_plain, some

MARKS = {"verified", "second-hand", "memory", "computed", "common-practice"}
TABLES = ("oils", "liquids", "additions", "colourants")

EXTRA = {
    "acid": "acid", "water": "water", "density": "density", "usual": "usual", "cap": "cap",
    "fresh": "colours", "cured": "colours", "full-depth": "colours", "inci": "inci", "law": "law",
}  # fmt: skip
GROUPS: dict[str, dict[str, str]] = {
    "oils": {
        "saponification-value": "saponification-value-range", "iodine-value": "iodine-value-range",
        "fatty-acids": "fatty-acids", "unsaponifiable": "unsaponifiable", "density": "density",
        "melting": "melting", "inci": "inci", "inci-sodium-soap": "inci-soaps",
        "inci-potassium-soap": "inci-soaps",
    },
    "liquids": {
        "water": "composition", "fat": "composition", "sugar": "composition", "density": "density",
        "inci": "inci",
    },
    "additions": EXTRA,
    "colourants": EXTRA | {"ci": "ci", "in-alkali": "in-alkali", "lightfast": "lightfast"},
}  # fmt: skip
"""Which source group answers for which figure of a row."""


@cache
def table(name: str) -> list[dict[str, Any]]:
    text = files("saponary.tables").joinpath(f"{name}.yaml").read_text(encoding="utf-8")
    rows = read_plain(text)[name]
    assert rows
    return [{"id": key, **row} for key, row in rows.items()]


def made(name: str) -> list[Ingredient]:
    """The rows of a table as they are read."""
    shelf = standard()
    read = {"oils": shelf.oils, "liquids": shelf.liquids}.get(name, shelf.additions)
    return [read[row["id"]] for row in table(name)]


def additions() -> list[Addition]:
    return list(standard().additions.values())


@cache
def publications() -> dict[str, Any]:
    text = files("saponary.tables").joinpath("publications.yaml").read_text(encoding="utf-8")
    return dict(read_plain(text)["publications"])


def test_forty_five_oils_and_more() -> None:
    assert len(table("oils")) >= 45
    assert len(standard().oils) == len(table("oils"))
    assert {"oil", "butter", "fat", "wax", "acid"} == {row["kind"] for row in table("oils")}


@pytest.mark.parametrize("name", TABLES)
def test_every_figure_has_a_source(name: str) -> None:
    missing = [
        (row["id"], figure)
        for row in table(name)
        for figure, group in GROUPS[name].items()
        if row.get(figure) not in (None, "0 %") and group not in row["source"]
    ]
    assert missing == []


def test_ranges_and_typical_values_have_each_their_own_source() -> None:
    for row in some(table("oils")):
        assert {"saponification-value", "iodine-value"} <= set(row["source"]), row["id"]


@pytest.mark.parametrize("name", (*TABLES,))
def test_every_source_is_a_known_mark_and_a_known_publication(name: str) -> None:
    for row in some(table(name)):
        for group, source in row["source"].items():
            place = (row["id"], group)
            assert source["how"] in MARKS, place
            assert set(source) <= {"how", "publication", "where"}, place
            if source.get("publication") is not None:
                assert source["publication"] in publications(), place
            if source["how"] in ("verified", "second-hand"):
                assert source.get("publication"), place


def test_nothing_is_verified_in_a_publication_that_was_not_seen() -> None:
    unseen = {key for key, row in publications().items() if row["seen"] == "not seen"}
    assert {row["seen"] for row in publications().values()} == {"first-hand copy", "second-hand", "not seen"}
    claimed = [
        (row["id"], group)
        for name in TABLES
        for row in table(name)
        for group, source in row["source"].items()
        if source["how"] in ("verified", "second-hand") and source["publication"] in unseen
    ]
    assert claimed == []


def test_every_publication_is_pointed_to() -> None:
    sources = [source for name in TABLES for row in table(name) for source in row["source"].values()]
    used = {source.get("publication") for source in sources}
    in_words = " ".join(source.get("where") or "" for source in sources)
    # The two methods that the engine computes by are cited in its own words and by no row.
    unused = {key for key in publications() if key not in used and key not in in_words}
    assert unused == {"iso-3657", "aocs-cd-1c-85"}


def test_ids_are_unique_over_all_tables_and_fit_a_recipe() -> None:
    ids = [row["id"] for name in TABLES for row in table(name)]
    assert sorted({one for one in ids if ids.count(one) > 1}) == []
    assert [one for one in ids if not re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", one)] == []
    assert len(standard().additions) == len(table("additions")) + len(table("colourants"))
    assert len(standard().liquids) == len(table("liquids"))


REQUIRED = [
    "citric-acid", "citric-acid-monohydrate", "lactic-acid", "vinegar", "sodium-lactate", "salt", "sugar",
    "honey", "kaolin", "turmeric", "ready-made-soap",
]  # fmt: skip


@pytest.mark.parametrize("name", REQUIRED)
def test_ids_that_programs_rely_on(name: str) -> None:
    assert standard().additions[name].id == name


def test_names_are_given_and_differ() -> None:
    names = [row["name"] for name in TABLES for row in table(name)]
    assert all(name.strip() == name and name for name in names)
    assert len(set(names)) == len(names)


def _linear(pair: str) -> float:
    value = int(pair, 16) / 255
    return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4


def _lab(colour: str) -> tuple[float, float, float]:
    """CIE 1976 L*a*b* of an sRGB colour, white point D65 (IEC 61966-2-1 and CIE 15, from memory)."""
    red, green, blue = (_linear(colour[i : i + 2]) for i in (1, 3, 5))
    x = (0.4124 * red + 0.3576 * green + 0.1805 * blue) / 0.9505
    y = 0.2126 * red + 0.7152 * green + 0.0722 * blue
    z = (0.0193 * red + 0.1192 * green + 0.9505 * blue) / 1.0890
    a, b, c = (t ** (1 / 3) if t > 0.008856 else 7.787 * t + 16 / 116 for t in (x, y, z))
    return 116 * b - 16, 500 * (a - b), 200 * (b - c)


def _coloured() -> list[dict[str, Any]]:
    return [row for name in ("additions", "colourants") for row in table(name) if row.get("fresh")]


def test_colours_are_valid_and_come_in_pairs() -> None:
    for row in _coloured():
        for which in ("fresh", "cured"):
            assert re.fullmatch(r"#[0-9a-f]{6}", row[which]), (row["id"], which)
        depth = standard().additions[row["id"]].colour
        assert depth is not None and depth.full_depth is not None and depth.full_depth > 0
        assert row["lightfast"] in {"good", "fair", "poor"}
    assert [row["id"] for row in table("colourants") if not row.get("fresh") or not row.get("cured")] == []
    assert len(_coloured()) >= 52


def test_a_colour_stays_where_it_is_fast_to_light_and_hardly_moves() -> None:
    """The table's own rule: not where light-fastness is poor, nor beyond 20 units of L*a*b*."""
    wrong = []
    for row in _coloured():
        moved = sum((p - q) ** 2 for p, q in zip(_lab(row["fresh"]), _lab(row["cured"]), strict=True)) ** 0.5
        if row["stays"] != (row["lightfast"] != "poor" and moved <= 20):
            wrong.append((row["id"], round(moved, 1)))
    assert wrong == []


# What is weighed and not spooned: crystals and blends whose table says so, pieces of soap, a sponge, fibres.
WEIGHED = {"glycolic-acid", "loofah", "silk", "ready-made-soap", "soap-scrap", "fragrance-blend"}


@pytest.mark.parametrize("name", ("liquids", "additions", "colourants"))
def test_a_spoon_of_anything_spooned_can_be_weighed(name: str) -> None:
    without = {entry.id for entry in made(name) if entry.density is None}
    assert without == (WEIGHED if name == "additions" else set())


def test_spoon_densities_are_possible() -> None:
    """A loose powder, bud or liquid: between petals at 0.05 and syrup at 1.5 g/ml (handbooks, from
    memory)."""
    for name in ("liquids", "additions", "colourants"):
        for entry in some(made(name)):
            assert entry.density is None or 0.05 <= entry.density <= 1.5, entry.id
    for oil in some(standard().oils.values()):
        # Melted stearic acid is the lightest, 0.847 at 70 °C (from memory).
        assert oil.density is None or 0.84 <= oil.density <= 1.0, oil.id


def test_solids_displace_as_solids_and_liquids_as_liquids() -> None:
    """What is stirred in as a liquid takes the room its own density says; a powder that of the solid,
    without its air."""
    shelf = standard().additions
    for name, solid in (("kaolin", 2.6), ("salt", 2.16), ("sugar", 1.59), ("titanium-dioxide", 3.5)):
        assert shelf[name].displaces == solid
    assert DISPLACES["clay"] == 2.6
    liquid = [
        "honey", "lactic-acid", "lactic-acid-88", "acetic-acid", "vinegar", "glycolic-acid-70",
        "sodium-lactate", "sorbitol-70", "caramel", "tocopherol", "essential-oil-lavender",
        "essential-oil-sweet-orange",
    ]  # fmt: skip
    wrong = {name: (shelf[name].displaces, shelf[name].density) for name in liquid}
    assert {name: pair for name, pair in wrong.items() if pair[0] != pair[1]} == {}


def test_fatty_acids_are_known_and_whole() -> None:
    for oil in some(standard().oils.values()):
        assert set(oil.fatty_acids) <= set(FATTY_ACIDS), oil.id
        if oil.id != "beeswax":
            assert sum(oil.fatty_acids.values()) == pytest.approx(1.0, abs=0.0005), oil.id
        assert all(part > 0 for part in oil.fatty_acids.values()), oil.id


def test_shares_of_liquids_are_no_more_than_the_whole() -> None:
    for liquid in some(standard().liquids.values()):
        assert 0 < liquid.water <= 1, liquid.id
        assert liquid.water + liquid.fat + liquid.sugar <= 1 + 1e-9, liquid.id


def test_rates_run_upwards_and_under_their_cap() -> None:
    for entry in some(additions()):
        if entry.usual:
            assert 0 < entry.usual[0] < entry.usual[1] <= (entry.cap or 1000), entry.id


def test_the_cap_of_ready_made_soap() -> None:
    """85 g per 1275 g of oils, the same as 3 oz per 45 oz: common practice, no source. It takes no alkali."""
    soap = standard().additions["ready-made-soap"]
    assert soap.cap == pytest.approx(1000 * 85 / 1275, abs=5e-4)
    assert soap.cap == pytest.approx(1000 * 3 / 45, abs=5e-4)
    assert soap.acid == 0.0
    assert "free-alkali" in soap.hazards


# Milk sugar, honey and the like in hot caustic can give off carbon monoxide: a producer's page on
# caustic soda.
REDUCING = [
    "cow-milk", "cow-milk-skimmed", "buttermilk", "goat-milk", "sheep-milk", "yoghurt", "cream", "whey",
    "coconut-water", "banana-puree", "honey", "dextrose", "skimmed-milk-powder",
]  # fmt: skip


@pytest.mark.parametrize("name", REDUCING)
def test_reducing_sugars_carry_their_warning(name: str) -> None:
    shelf = {**standard().liquids, **standard().additions}
    assert {"heat", "carbon-monoxide"} <= set(shelf[name].hazards)


def test_every_hazard_and_allergen_is_that_of_some_row() -> None:
    shelf = standard()
    every: list[Ingredient] = [*shelf.oils.values(), *shelf.liquids.values(), *shelf.additions.values()]
    assert {hazard for entry in every for hazard in entry.hazards} == set(get_args(Hazard))
    assert {allergen for entry in every for allergen in entry.allergens} == set(get_args(Allergen))


def test_what_is_written_is_what_is_read() -> None:
    """Read apart from the program's own reader: every number of an oil's row, by its text."""
    shelf = standard()
    for row in some(table("oils")):
        oil, value = shelf.oils[row["id"]], row["saponification-value"]
        low, high = (float(text.removesuffix(" mg/g")) for text in value["range"])
        assert (oil.saponification_value.low, oil.saponification_value.high) == (low, high)
        assert oil.saponification_value.value == float(value["value"].removesuffix(" mg/g"))
        shares = {key: float(text.removesuffix(" %")) for key, text in row.get("fatty-acids", {}).items()}
        assert {key: 100 * part for key, part in oil.fatty_acids.items()} == pytest.approx(shares)
        assert set(oil.source) == set(row["source"])
    assert re.fullmatch(r"[0-9a-f]{10}", shelf.version)
    assert standard() is shelf


@pytest.mark.parametrize("name", TABLES)
def test_rows_read_one_by_one_are_those_of_the_whole_table(name: str) -> None:
    data = files("saponary.tables").joinpath(f"{name}.yaml").read_bytes()
    apart = {key: read_plain(row) for key, row in rows(data).items()}
    assert apart == read_plain(data)[name]
    assert list(rows(data.replace(b"\n", b"\r\n"))) == list(apart)
