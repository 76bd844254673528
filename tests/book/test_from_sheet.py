"""Tables as makers keep them, in six languages and many habits, brought in whole or with a finding for each miss.

The tables are invented for this test. What each must come to was written down by hand from the table.
"""

from __future__ import annotations

import io
from dataclasses import dataclass, field

import pytest

from saponary.book.recipe_text import parse_recipe
from saponary.book.resolve import resolve
from saponary.build.from_table import recipes_from
from saponary.lye.figures import Figures, weigh
from saponary.pantry.standard import standard
from saponary.reading.findings import Finding
from saponary.schema.settings import Settings


@dataclass(frozen=True)
class Kept:
    """A table, and what it must come to: grams of oils, water and the rest, superfat in per cent."""

    table: str
    oils: dict[str, float]
    water: float | None = None
    superfat: float | None = None
    others: dict[str, float] = field(default_factory=dict[str, float])
    told: tuple[str, ...] = ()


BOOK = Settings.model_validate({"superfat": "5 %", "water": {"lye-strength": "33 %"}})
PLAIN = {"olive": 450.0, "coconut": 300.0, "shea-butter": 250.0}
TABLES = {
    "water as a share of the oils": Kept(
        "Oil,Weight (g),%\nOlive oil,450,45\nCoconut oil,300,30\nShea butter,250,25\nWater,,33\nSuperfat,5%,\n",
        PLAIN, 330, 5, told=("read as 33 % of the oils",),
    ),
    "water with its sign beside weights": Kept(
        "Oil,Weight (g)\nOlive oil,450\nCoconut oil,300\nShea butter,250\nWater,38 %\nSuperfat,5%\n",
        PLAIN, 380, 5, told=("read as 38 % of the oils",),
    ),
    "shares of all that is weighed": Kept(
        "Oil,%\nOlive oil,30\nCoconut oil,20\nWater,15\nSodium hydroxide,7\nSuperfat,5\n",
        {"olive": 600, "coconut": 400}, 300, 5,
        told=("'Sodium hydroxide' has a share and no weight", "shares and no weights", "read as 30 % of the oils"),
    ),
    "commas": Kept(
        "ingredient,grams\nolive oil,450\ncoconut oil,300\nshea butter,250\nwater,300\nsuperfat,5 %\n", PLAIN, 300, 5
    ),
    "a title and empty rows": Kept(
        "Wash day\n\nOil,Weight (g),%\nOlive oil,450,45\nCoconut oil,300,30\nShea butter,250,25\n\nWater,300,\nSuperfat,5%,\n",
        PLAIN, 300, 5,
    ),
    "german, decimal commas": Kept(
        "Wintersoap;;\nÖl;Menge (g);%\nOlivenöl;450,5;45\nKokosöl;300,25;30\nSheabutter;250;25\nGesamtöl;1000,75;100\n"
        "Wasser;300,5;\nÜberfettung;6,5 %;\n",
        {"olive": 450.5, "coconut": 300.25, "shea-butter": 250}, 300.5, 6.5,
    ),
    "french": Kept(
        "Ingrédients;Poids\nHuile d’olive;450 g\nHuile de coco;300 g\nBeurre de karité;250 g\nEau déminéralisée;300 g\nSurgras;5 %\n",
        PLAIN, 300, 5,
    ),
    "spanish": Kept(
        "Aceites\tGramos\nAceite de oliva\t450\nAceite de coco\t300\nManteca de karité\t250\nTotal aceites\t1000\nAgua destilada\t300\nSobreengrasado\t5\n",
        PLAIN, 300, 5,
    ),
    "italian": Kept(
        "Ingredienti;Quantità (g)\nOlio d'oliva;450\nOlio di cocco;300\nBurro di karité;250\nAcqua;300\nSovragrasso;5%\n",
        PLAIN, 300, 5,
    ),
    "dutch": Kept(
        "Ingrediënten;Gewicht;Aandeel\nOlijfolie;450;45%\nKokosolie;300;30%\nKaritéboter;250;25%\nGedestilleerd water;300;\n",
        PLAIN, 300, None, told=("this table has no superfat and no lye",),
    ),
    "ounces above": Kept(
        "oil,oz\nolive oil,16\ncoconut oil,7.5\nlard,8\nwater,9\nsuperfat,5%\n",
        {"olive": 453.59237, "coconut": 212.62142, "lard": 226.796185}, 255.145708, 5,
    ),
    "ounces in the cells": Kept(
        "what,weight\ncanola oil,1 lb\ncastor oil,2.5 oz\nwater,6 oz\nsf,5\n",
        {"rapeseed": 453.59237, "castor": 70.8738}, 170.097139, 5,
    ),
    "kilograms": Kept(
        "Fette;Menge in kg\nRapsöl;1,25\nKokosfett;0,75\nWasser;0,6\nÜF;8\n", {"rapeseed": 1250, "coconut": 750}, 600, 8
    ),
    "lye alone tells the superfat": Kept(
        "ingredient,grams\nolive oil,600\ncoconut oil,400\nlye,140\nwater,300\n", {"olive": 600, "coconut": 400}, 300,
        None, told=("this table has no superfat; by the tables, its lye leaves",),
    ),
    "a lye that no soap stands": Kept(
        "ingredient,grams\nolive oil,600\ncoconut oil,400\nNaOH,290\nwater,300\n", {"olive": 600, "coconut": 400}, 300,
        None, told=("this table has no superfat; by the tables, its lye leaves -",),
    ),
    "a lye that is not the engine's": Kept(
        "ingredient,grams\nolive oil,1000\nNaOH,135\nwater,300\nsuperfat,5 %\n", {"olive": 1000}, 300, 5,
        told=("this table has 135.0 g of sodium hydroxide, and the engine gives 129.4 g",),
    ),
    "two alkalis": Kept(
        "ingredient,grams\nolive oil,500\nNaOH,45\nKOH,16\nwater,180\nsuperfat,5 %\n", {"olive": 500}, 180, 5,
        told=("g of sodium hydroxide, and the engine gives", "g of potassium hydroxide, and the engine gives"),
    ),
    "shares alone": Kept(
        "oils,%\nolive,45\ncoconut,30\nshea,25\nsuperfat,5\n", PLAIN, None, 5,
        told=("this table has shares and no weights; 1000 g of oils are taken",),
    ),
    "shares as fractions of one": Kept(
        "oils,percent\nolive,0.45\ncoconut,0.30\nshea,0.25\nsuperfat,0.05\n", PLAIN, None, 5,
        told=("this table has shares and no weights",),
    ),
    "a column of shares before the weights": Kept(
        "Oil,%,Grams,Price\nOlive oil,45,450,3.20\nCoconut oil,30,300,2.10\nShea butter,25,250,4.00\nTotal,100,1000,9.30\nDistilled water,,300,\nSuperfat,5,,\n",
        PLAIN, 300, 5,
    ),
    "totals in odd places": Kept(
        "ingredient,g\nBatch size,1000\nolive oil,450\ncoconut oil,300\nSubtotal,750\nshea butter,250\nTotal oils,1000\nwater,300\nGrand total,1300\nsuperfat,5\n",
        PLAIN, 300, 5,
    ),
    "headings between": Kept(
        "Item,Grams\nOILS,\nOlive oil,450\nCoconut oil,300\nShea butter,250\nADDITIVES,\nSea salt,10\nWater,300\nSuperfat,5%\n",
        PLAIN, 300, 5, {"salt": 10},
    ),
    "milk and honey": Kept(
        "ingredient,grams\nolive oil,450\ncoconut oil,300\nshea butter,250\ngoat milk,100\nhoney,15\nwater,200\nsuperfat,5\n",
        PLAIN, 200, 5, {"goat-milk": 100, "honey": 15},
    ),
    "notes in brackets": Kept(
        "Oils and butters,Amount\nOlive oil (infused with calendula),450 g\nCoconut oil [76°],300 g\nShea butter - raw,250 g\nWater (distilled),300 g\nSuperfat (%),5\n",
        PLAIN, 300, 5,
    ),
    "an oil that nobody knows": Kept(
        "ingredient,grams\nolive oil,450\nwonder oil,300\nwater,250\nsuperfat,5\n", {"olive": 450}, 250, 5,
        told=("'wonder oil' is not known here",),
    ),
    "a name with no weight": Kept(
        "ingredient,grams\nolive oil,450\ncoconut oil,\nwater,150\nsuperfat,5\n", {"olive": 450}, 150, 5,
        told=("'coconut oil' has no weight",),
    ),
    "a weight with no name": Kept(
        "ingredient,grams\nolive oil,450\n,300\nwater,150\nsuperfat,5\n", {"olive": 450}, 150, 5,
        told=("this amount has no name beside it",),
    ),
    "a formula nobody worked out": Kept(
        "ingredient,grams\nolive oil,450\ncoconut oil,=B2*0.5\nwater,150\nsuperfat,5\n", {"olive": 450}, 150, 5,
        told=("'=B2*0.5' is not an amount",),
    ),
    "thousands or decimals": Kept(
        "ingredient\tgrams\nolive oil\t1,250\nwater\t350\nsuperfat\t5\n", {}, None, None,
        told=("'1,250' can be read in two ways", "no oils are known in this table"),
    ),
    "thousands that decimals betray": Kept(
        'ingredient,grams\nolive oil,"1,250.5"\ncoconut oil,"2,000"\nwater,900\nsuperfat,5\n',
        {"olive": 1250.5, "coconut": 2000}, 900, 5,
    ),
    "a space for thousands": Kept(
        "huiles;poids (g)\nolive;1 250,5\ncoco;2 000\neau;900\nsurgras;5\n", {"olive": 1250.5, "coconut": 2000}, 900, 5
    ),
    "an oil twice": Kept(
        "ingredient,grams\nolive oil,200\ncoconut oil,300\nolive oil,250\nshea butter,250\nwater,300\nsuperfat,5\n",
        PLAIN, 300, 5,
    ),
    "below zero": Kept(
        "ingredient,grams\nolive oil,450\ncoconut oil,-5\nwater,150\nsuperfat,5\n", {"olive": 450}, 150, 5,
        told=("this amount is below zero",),
    ),
    "no heading": Kept("olive oil,450\ncoconut oil,300\n", {}, told=("no table of names and weights is found",)),
    "merged headings": Kept(
        "My soap,,,\n,,Batch,\nOil,,grams,notes\nOlive oil,,450,from the valley\nCoconut oil,,300,\nShea butter,,250,\n,,,\nWater,,300,\nSuperfat,,5 %,\n",
        PLAIN, 300, 5,
    ),
    "ingredients side by side": Kept(
        "Batch,Olive oil,Coconut oil,NaOH,Water\nA,500 g,300 g,110 g,240 g\n", {},
        told=("the ingredients stand side by side here",),
    ),
    "a superfat beside the alkali": Kept(
        "Rezept 12;;\nÖl / Fett;% der GFM;Gramm\nOlivenöl;55;550,0\nKokosöl (desodoriert);45;450,0\nGFM;100;1.000,0\n"
        "NaOH (ÜF 7 %);;141,2\nWasser (30 % der GFM);;300,0\n",
        {"olive": 550, "coconut": 450}, 300, 7, told=("this table has 141.2 g of sodium hydroxide, and the engine gives 145.",),
    ),
    "a list, the amount first": Kept(
        "Kitchen bar\n450 g olive oil\n300 g of coconut oil\n250 g shea butter\n300 g water\nsuperfat 5 %\n", PLAIN, 300, 5
    ),
    "a list, the amount last": Kept(
        "Olive oil: 450 g\nCoconut oil ... 300 g\nwonder oil - 250 g\nWater: 300 g\nSuperfat: 5 %\n",
        {"olive": 450, "coconut": 300}, 300, 5, told=("'wonder oil' is not known here",),
    ),
    "two sizes side by side": Kept(
        "Oil,Small batch (g),Large batch (g)\nOlive oil,450,900\nCoconut oil,300,600\nShea butter,250,500\nWater,300,600\nSuperfat,5%,5%\n",
        PLAIN, 300, 5, told=("the weights of 'Large batch (g)' are left out",),
    ),
    "the same weights in two units": Kept(
        "Oil,oz,g\nOlive oil,15.87,450\nCoconut oil,10.58,300\nShea butter,8.82,250\nWater,10.58,300\nSuperfat,5%,\n", PLAIN, 300, 5
    ),
    "portuguese": Kept(
        "Ingrediente;Quantidade (g)\nAzeite;450\nÓleo de coco;300\nManteiga de karité;250\nÁgua destilada;300\nSobregordura;5%\n",
        PLAIN, 300, 5,
    ),
    "a point for thousands": Kept(
        "Zutat;Menge\nOlivenöl;1.250 g\nKokosöl;750 g\nSumme;2.000 g\nWasser;600 g\nÜberfettung;5,0 %\n",
        {"olive": 1250, "coconut": 750}, 600, 5,
    ),
    "pounds and the ounces beside them": Kept(
        "Oil,lb,oz\nOlive oil,1,4.5\nCoconut oil,0,12\nLard,1,0\nWater,,14\nSuperfat,,5%\n",
        {"olive": 581.165224, "coconut": 340.194278, "lard": 453.59237}, 396.893324, 5,
    ),
    "a superfat in the title": Kept(
        '"Lard soap, 5% SF"\nWhat,How much\nLard,32oz\nOlive Oil,12.5 oz wt\nDistilled water (38% of oils),16.9oz\nTotal oils,44.5oz\n',
        {"lard": 907.18474, "olive": 354.369039}, 479.106932, 5,
    ),
    "an oil of another kind in brackets": Kept(
        "Fat,grams\nSunflower (HO),400\nCoconut oil (fractionated),350\nShea (organic),250\nWater @ 2:1,266\nSuperfat,6\nClay - kaolin,1 tsp\n",
        {"sunflower-high-oleic": 400, "shea-butter": 250}, 266, 6,
        told=("'Coconut oil (fractionated)' is not known here", "'1 tsp' is not an amount"),
    ),
    "a sum without a name": Kept(
        "Oil,grams\nOlive oil,450\nCoconut oil,300\nShea butter,250\n,1000\nWater,300\n,1300\nSuperfat,5\n", PLAIN, 300, 5
    ),
    "a lye without water": Kept(
        "ingredient,grams\nolive oil,600\ncoconut oil,400\nlye,140\n", {"olive": 600, "coconut": 400}, None, None,
        told=("this table has no superfat; by the tables, its lye leaves",),
    ),
    "units below the heading": Kept(
        "Oil;Weight\n;oz\nOlive oil;16\nWater;5\nSuperfat;5 %\n", {"olive": 453.59237}, 141.747616, 5
    ),
}  # fmt: skip


def brought(data: bytes) -> tuple[dict[str, str], list[Finding]]:
    return recipes_from(data, "sheet.csv", BOOK, standard())


def weighed(text: str) -> Figures:
    recipe = parse_recipe("recipes/sheet.md", text)
    assert recipe.model is not None, recipe.findings
    resolved, faults = resolve(recipe.model, BOOK, standard(), recipe.tree, recipe.file)
    assert resolved is not None, faults
    found = weigh(resolved.formula)
    parts = (*resolved.formula.oils, *resolved.formula.liquids, *resolved.formula.additions)
    grams = {part.id: part.grams for part in parts}
    GRAMS.clear()
    GRAMS.update(grams)
    return found


GRAMS: dict[str, float] = {}
"""What the recipe weighed last is made of."""


@pytest.mark.parametrize("kept", TABLES.values(), ids=TABLES)
def test_a_table_comes_in_whole_or_says_what_it_lacks(kept: Kept) -> None:
    recipes, findings = brought(kept.table.encode())
    messages = [f.message for f in findings]
    assert len(messages) == len(kept.told), messages
    for expected, message in zip(kept.told, messages, strict=True):
        assert expected in message
    assert len(recipes) == bool(kept.oils)
    for text in recipes.values():
        made = weighed(text)
        assert pytest.approx({**kept.oils, **kept.others}, abs=1e-3) == GRAMS
        if kept.water is not None:
            assert made.water.plain == pytest.approx(kept.water, abs=0.01)
        if kept.superfat is not None:
            assert made.superfat == pytest.approx(kept.superfat / 100, abs=1e-9)


def test_a_lye_of_the_sheet_gives_its_superfat_back() -> None:
    """The superfat written is the one at which the engine asks for just the lye that the sheet has."""
    recipes, _ = brought(TABLES["lye alone tells the superfat"].table.encode())
    assert weighed(*recipes.values()).weights.sodium_hydroxide == pytest.approx(140, abs=0.02)


def test_several_tables_in_one_file() -> None:
    one = "First\ningredient,grams\nolive oil,450\nwater,150\nsuperfat,5\n\n\n"
    recipes, findings = brought(
        (one + one.replace("First", "Second").replace("olive", "lard").replace(" oil", "")).encode()
    )
    assert sorted(recipes) == ["first", "second"] and not findings
    assert "lard: 450 g" in recipes["second"]


def test_places_are_rows_and_columns() -> None:
    _, (fault,) = brought(b"t,,\n,oil,grams\n,olive oil,450\n,odd oil,3\n,water,100\n,superfat,5\n")
    assert (fault.place.line, fault.place.column) == (4, 2)


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"", "no table"),
        (b"\x00\x01", "not a text file"),
        (b"PK\x03\x04nothing", "this workbook cannot be read"),
        ("öl;gramm\nolivenöl;100\nüf;5\n".encode("cp1252"), "it was read as Windows-1252"),
        ("oil\tgrams\nolive\t100\nsuperfat\t5\n".encode("utf-16"), None),
    ],
)
def test_bytes_of_all_kinds(data: bytes, told: str | None) -> None:
    recipes, findings = brought(data)
    assert [told in f.message for f in findings if told] == ([True] if told else [])
    assert bool(recipes) == (told is None or "1252" in told)


def test_a_workbook() -> None:
    openpyxl = pytest.importorskip("openpyxl")
    book = openpyxl.Workbook()
    sheet = book.active
    sheet.title = "Kitchen soap"
    for line in (
        ["Oil", "Grams"],
        ["Olive oil", 450.5],
        ["Coconut oil", 300],
        ["Water", 250],
        ["Superfat", "5 %"],
    ):
        sheet.append(line)
    out = io.BytesIO()
    book.save(out)
    recipes, findings = brought(out.getvalue())
    assert list(recipes) == ["kitchen-soap"] and not findings
    weighed(recipes["kitchen-soap"])
    assert pytest.approx({"olive": 450.5, "coconut": 300}) == GRAMS


def test_a_workbook_with_merged_headings_and_shares_as_numbers() -> None:
    """Its sum has no name, and a share of a half is shown by the program that wrote it as 50 %."""
    openpyxl = pytest.importorskip("openpyxl")
    book = openpyxl.Workbook()
    sheet = book.active
    sheet["A1"], sheet["A3"], sheet["C3"] = "Oatmeal bar", "Oils", "Batch"
    for merged in ("A1:E1", "A3:B3", "C3:D3"):
        sheet.merge_cells(merged)
    rows = [
        ["Name", None, "%", "g", "Supplier"],
        ["Olive Oil", None, 0.6, 600, "a shop"],
        ["Shea Butter", None, 0.4, 400, ""],
    ]
    rows += [
        [None, None, 1.0, 1000],
        [],
        ["Water", None, None, 300],
        ["Superfat", None, 0.05],
        [],
        ["Colloidal oatmeal", None, None, 10],
    ]
    for line in rows:
        sheet.append(line)
    out = io.BytesIO()
    book.save(out)
    recipes, findings = brought(out.getvalue())
    assert list(recipes) == ["oatmeal-bar"] and not findings
    made = weighed(recipes["oatmeal-bar"])
    assert pytest.approx({"olive": 600, "shea-butter": 400, "colloidal-oatmeal": 10}) == GRAMS
    assert made.superfat == pytest.approx(0.05) and made.water.plain == pytest.approx(300)


def test_a_line_of_a_list_is_its_place() -> None:
    _, (fault,) = brought(b"A bar\n450 g olive oil\n300 g odd oil\n200 g water\n5 % superfat\n")
    assert (fault.place.line, fault.place.column) == (3, 1) and "'odd oil'" in fault.message
