"""The label tables: every fact is marked, no word means two allergens, every acid has its salt."""

from __future__ import annotations

from importlib.resources import files
from typing import Any

import pytest

from saponary.label import tables
from saponary.pantry.standard import standard
from support import read_plain, some

HOW = {"verified", "second-hand", "memory", "computed", "common-practice", "sequence"}


def raw(name: str) -> Any:
    return read_plain(files("saponary.tables").joinpath(f"{name}.yaml").read_text("utf-8"))


def test_jurisdictions_say_where_every_group_comes_from() -> None:
    for row in raw("jurisdictions")["jurisdictions"]:
        facts = set(row) - {"id", "name", "rule", "source"}
        assert facts | {"order"} == set(row["source"]), row["id"]
        assert {source["how"] for source in row["source"].values()} <= HOW
    assert list(tables.jurisdictions()) == ["us", "eu", "gb"]
    assert "not legal advice" in tables.guidance()


def test_allergens_mark_every_fact() -> None:
    for row in raw("allergens")["allergens"]:
        facts = {key for key in ("name", "cas", "entry", "covers") if row.get(key)}
        assert facts == set(row["how"]), row["name"]
        assert set(row["how"].values()) <= HOW
        # Entries 327 to 371 are those the Regulation of 2023 added.
        if (row["entry"] or 0) >= 327:
            assert row["since"] == 2023


def test_new_entries_are_numbered_without_a_gap() -> None:
    numbers = [row["entry"] for row in raw("allergens")["allergens"] if (row["entry"] or 0) >= 327]
    assert sorted(numbers) == list(range(327, 372))


def test_no_word_means_two_allergens() -> None:
    words = [tables.folded(word) for each in tables.allergens() for word in each.words]
    assert len(words) == len(set(words)) == len(tables.allergens_by_word())


@pytest.mark.parametrize(
    ("word", "name"),
    [
        ("linalool", "Linalool"),
        ("linalyl-acetate", "Linalyl Acetate"),
        ("ALPHA-PINENE", "Pinene"),
        ("beta pinene", "Pinene"),
        ("Citrus Sinensis Peel Oil", "Citrus Aurantium Peel Oil"),
        ("damascenone", "Rose Ketones"),
    ],
)
def test_a_sheet_may_write_names_its_own_way(word: str, name: str) -> None:
    found = tables.allergen(word)
    assert found is not None and found.name == name


def test_every_acid_of_the_pantry_has_its_salts() -> None:
    """INCI names, from memory."""
    shelf = standard().additions
    assert [entry.id for entry in shelf.values() if entry.acid > 0 and not entry.inci_sodium_salt] == []
    assert [entry.id for entry in shelf.values() if entry.acid == 0 and entry.inci_sodium_salt] == []
    assert shelf["citric-acid"].inci_sodium_salt == "Sodium Citrate"
    assert shelf["malic-acid"].inci_potassium_salt is None


def test_names_to_be_replaced_are_names_of_the_pantry() -> None:
    shelf = standard()
    known = {e.inci for group in (shelf.oils, shelf.liquids, shelf.additions) for e in group.values()}
    for law in some(tables.jurisdictions().values()):
        assert set(law.names) <= known, law.id


def test_the_edges() -> None:
    """One per cent is small in the United States ("1 % or less") and not in the Union ("below 1 %");
    an allergen of exactly 0.01 % is not above it."""
    us, eu = tables.jurisdictions()["us"], tables.jurisdictions()["eu"]
    assert us.is_small(0.01) and not eu.is_small(0.01)
    assert us.is_small(0.1 * 0.1) and not us.is_small(0.0100001)
    assert eu.is_small(0.0099999)
    assert not eu.wants_named(0.0001) and not eu.wants_named(0.01 * 0.01) and eu.wants_named(0.000100001)
    assert not us.wants_named(1.0)


def test_great_britain_names_the_earlier_allergens() -> None:
    """Regulation (EU) 2023/1545 applies in Northern Ireland and not in the rest of the United Kingdom
    (law pages, second-hand): linalool is of the earlier list, menthol of the later one."""
    eu, gb = tables.jurisdictions()["eu"], tables.jurisdictions()["gb"]
    for word, named in (("linalool", True), ("menthol", False)):
        found = tables.allergen(word)
        assert found is not None
        assert eu.wants_named(0.001, found.since) and gb.wants_named(0.001, found.since) is named
    assert sum(one.since == 2023 for one in tables.allergens()) == 57
