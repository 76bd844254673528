"""The standard tables as data: sources on every figure, ids, colours, spoon densities, hazards.

These are rules the tables set themselves in the words at their heads; no publication is under test.
"""

from __future__ import annotations

import re
from functools import cache
from importlib.resources import files
from typing import Any

import pytest
import yaml

from saponary.lye.fatty_acids import FATTY_ACIDS
from saponary.pantry.standard import DISPLACES, standard
from support import some

MARKS = {"verified", "second-hand", "memory", "computed", "common-practice"}
TABLES = ("oils", "liquids", "additions", "colourants")

EXTRA = {
    "alkali": "alkali", "water": "water", "density_g_per_ml": "density", "usual_g_per_kg_oils": "usual",
    "cap_g_per_kg_oils": "cap", "fresh": "colours", "cured": "colours", "full_depth_g_per_kg_oils": "colours",
    "inci": "inci",
}  # fmt: skip
GROUPS: dict[str, dict[str, str]] = {
    "oils": {
        "saponification_value": "saponification_value_range", "iodine_value": "iodine_value_range",
        "fatty_acids": "fatty_acids", "unsaponifiable_pct": "unsaponifiable_pct", "density": "density",
        "melting_c": "melting_c", "inci": "inci", "inci_sodium_soap": "inci_soaps",
        "inci_potassium_soap": "inci_soaps",
    },
    "liquids": {
        "water": "composition", "fat": "composition", "sugar": "composition", "density_g_per_ml": "density",
        "inci": "inci",
    },
    "additions": EXTRA,
    "colourants": EXTRA | {"ci": "ci", "in_alkali": "in_alkali", "lightfast": "lightfast"},
}  # fmt: skip
"""Which source group answers for which figure of a row."""


@cache
def table(name: str) -> list[dict[str, Any]]:
    text = files("saponary.tables").joinpath(f"{name}.yaml").read_text(encoding="utf-8")
    rows = yaml.safe_load(text)[name]
    assert rows
    return list(rows)


@cache
def publications() -> dict[str, Any]:
    text = files("saponary.tables").joinpath("publications.yaml").read_text(encoding="utf-8")
    return dict(yaml.safe_load(text)["publications"])


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
        if row.get(figure) not in (None, 0, [], {}) and group not in row["source"]
    ]
    assert missing == []


def test_ranges_and_typical_values_have_each_their_own_source() -> None:
    for row in some(table("oils")):
        assert {"saponification_value_typical", "iodine_value_typical"} <= set(row["source"]), row["id"]


@pytest.mark.parametrize("name", (*TABLES,))
def test_every_source_is_a_known_mark_and_a_known_publication(name: str) -> None:
    for row in table(name):
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
        assert row["full_depth_g_per_kg_oils"] > 0
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
    without = {row["id"] for row in table(name) if not row.get("density_g_per_ml")}
    assert without == (WEIGHED if name == "additions" else set())


def test_spoon_densities_are_possible() -> None:
    """A loose powder, bud or liquid: between petals at 0.05 and syrup at 1.5 g/ml (handbooks, from
    memory)."""
    for name in ("liquids", "additions", "colourants"):
        for row in table(name):
            if row.get("density_g_per_ml") is not None:
                assert 0.05 <= row["density_g_per_ml"] <= 1.5, row["id"]
    for oil in standard().oils.values():
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
    for row in table("oils"):
        assert set(row["fatty_acids"]) <= set(FATTY_ACIDS), row["id"]
        if row["id"] != "beeswax":
            assert sum(row["fatty_acids"].values()) == pytest.approx(100.0, abs=0.05), row["id"]
        assert all(part > 0 for part in row["fatty_acids"].values()), row["id"]


def test_shares_of_liquids_are_no_more_than_the_whole() -> None:
    for row in table("liquids"):
        assert 0 < row["water"] <= 1, row["id"]
        assert row["water"] + row["fat"] + row["sugar"] <= 1 + 1e-9, row["id"]


def test_rates_run_upwards_and_under_their_cap() -> None:
    for name in ("additions", "colourants"):
        for row in table(name):
            usual, cap = row.get("usual_g_per_kg_oils"), row.get("cap_g_per_kg_oils")
            if usual:
                assert 0 < usual[0] < usual[1] <= (cap or 1000), row["id"]


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


def test_stages_and_hazards_are_words_the_tables_define() -> None:
    hazards = {
        "heat", "carbon-monoxide", "dust", "scratch", "sensitiser", "pregnancy-pets", "nut", "gluten",
        "free-alkali",
    }  # fmt: skip
    for name in ("liquids", "additions", "colourants"):
        for row in table(name):
            assert set(row["hazards"]) <= hazards, row["id"]
            assert name == "liquids" or row["stage"] in {"lye", "oils", "trace"}, row["id"]
    assert {row["allergen"] for row in table("oils")} <= {
        "none",
        "tree-nut",
        "peanut",
        "sesame",
        "soy",
        "wheat",
    }


def test_the_reader_gives_the_tables_figures() -> None:
    shelf = standard()
    for row in table("oils"):
        oil = shelf.oils[row["id"]]
        value = row["saponification_value"]
        assert (oil.saponification_value.low, oil.saponification_value.high) == (value["min"], value["max"])
        assert oil.saponification_value.value == value["typical"]
        assert sum(oil.fatty_acids.values()) == pytest.approx(sum(row["fatty_acids"].values()) / 100)
        assert set(oil.source) == set(row["source"])
    assert re.fullmatch(r"[0-9a-f]{10}", shelf.version)
    assert standard() is shelf
