"""Ingredient lists in their order, against mass balances worked by hand for five formulas.

The saponification values of the formulas are round figures chosen for the arithmetic; the names
are those of the standard pantry.
"""

from __future__ import annotations

import pytest

from saponary.book.cured import CuredWater
from saponary.label.bar_input import BarInput
from saponary.label.contents import Contents, charged, found
from saponary.label.ingredients import IngredientList, ingredient_list
from saponary.label.scents import Dose, Scent, scent
from saponary.label.tables import allergen, jurisdictions
from saponary.lye.contents import Part, as_charged, as_found
from saponary.lye.figures import weigh
from saponary.lye.formula import Addition, Alkali, Formula, Liquid, Oil, Water
from saponary.pantry.standard import standard

US, EU = jurisdictions()["us"], jurisdictions()["eu"]
TENTH = CuredWater(0.10, True)


def oil(name: str, grams: float, value: float, infused: str | None = None) -> Oil:
    return Oil(name, grams, value, value, value, infused_with=infused)


def both(formula: Formula, *unweighed: str) -> tuple[IngredientList, IngredientList]:
    """As charged for the United States, as found in the cured bar for the Union."""
    made, shelf = BarInput(formula, weigh(formula), unweighed), standard()
    cured = found(made, shelf, lambda slug: None, TENTH)
    held = scent(cured, shelf)
    put_in = charged(made, shelf, lambda slug: None)
    return ingredient_list(put_in, shelf, US, held), ingredient_list(cured, shelf, EU, held)


def weights(made: IngredientList) -> list[float | None]:
    return [entry.grams for entry in made.entries]


def near(*grams: float) -> object:
    return pytest.approx(list(grams), abs=0.1)


def listed(*parts: Part, law: str = "us") -> IngredientList:
    contents = Contents("charged", parts, (), None, ())
    return ingredient_list(contents, standard(), jurisdictions()[law], scent(contents, standard()))


THREE = Formula(
    (oil("olive", 450, 190), oil("coconut", 250, 256.5), oil("palm", 300, 199.5)),
    Alkali(sodium_purity=0.99),
    0.06,
    Water("to-lye", 2.1),
)


def test_three_oils() -> None:
    put_in, there = both(THREE)
    # 450 olive, 300 palm, 297.76 water, 250 coconut, 141.79 hydroxide.
    assert put_in.text == (
        "Olive (Olea Europaea) Fruit Oil, Palm (Elaeis Guineensis) Oil, Water, Coconut (Cocos Nucifera) Oil, Sodium Hydroxide"
    )
    # 436.32, 291.32, 244.99; water of the cured bar 1141.79/9 = 126.87; glycerol 107.74; left over 27, 18, 15.
    # The bar is 1268.66 g: one per cent is 12.69 g, so all of them are above it.
    assert there.text == (
        "Sodium Olivate, Sodium Palmate, Sodium Cocoate, Aqua, Glycerin, Olea Europaea Fruit Oil, "
        "Elaeis Guineensis Oil, Cocos Nucifera Oil"
    )
    assert {entry.group for entry in there.entries} == {"main"}
    assert weights(put_in) == near(450, 300, 297.76, 250, 141.79)
    assert weights(there) == near(436.32, 291.32, 244.99, 126.87, 107.74, 27, 18, 15)


def test_at_the_pour_water_stands_before_the_soap_of_palm() -> None:
    """297.76 g of water at the pour against 291.32 g of soap: a list must say for which day it is."""
    parts = as_found(THREE, weigh(THREE))
    contents = Contents("found", parts, (), None, ())
    fresh = ingredient_list(contents, standard(), EU, scent(contents, standard()))
    assert fresh.text.startswith("Sodium Olivate, Aqua, Sodium Palmate, Sodium Cocoate, Glycerin")


def test_two_alkalis() -> None:
    formula = Formula(
        (oil("olive", 600, 190), oil("coconut", 250, 256.5), oil("beeswax", 150, 95)),
        Alkali(0.7, 0.3, 0.98, 0.90),
        0.04,
        Water("lye-strength", 0.31),
    )
    # (Beeswax counted as a triglyceride here.) mol met: olive 1.950607, coconut 1.097216, wax 0.243826.
    # Acids: 576 - 59.880 = 516.120; 240 - 33.682 = 206.318; 144 - 7.485 = 136.515.
    # Olive: Na 361.28 + 54.61 = 415.90, K 154.84 + 32.83 = 187.67. Coconut: Na 144.42 + 30.72 = 175.14,
    # K 61.90 + 18.47 = 80.36. Wax: Na 95.56 + 6.83 = 102.39, K 40.95 + 4.10 = 45.06. Glycerol 101.05.
    # Left 24, 10, 6. Impurities 0.02 x 94.04 + 0.10 x 61.55 = 8.04. Dry sum 1155.6, water 128.4, bar 1284.0:
    # coconut (0.78 %) and wax (0.47 %) are below one per cent and stay in falling mass.
    put_in, there = both(formula)
    assert [entry.name for entry in there.entries] == [
        "Sodium Olivate", "Potassium Olivate", "Sodium Cocoate", "Aqua", "Sodium Beeswax", "Glycerin",
        "Potassium Cocoate", "Beeswax (potassium soap)", "Olea Europaea Fruit Oil", "Cocos Nucifera Oil", "Cera Alba",
    ]  # fmt: skip
    assert weights(there) == near(415.90, 187.67, 175.14, 128.4, 102.39, 101.05, 80.36, 45.06, 24, 10, 6)
    assert [entry.group for entry in there.entries[-3:]] == ["main", "small", "small"]
    assert "plain name stands: Beeswax (potassium soap)." in " ".join(there.notes)
    # Hydroxides as weighed: 94.04 and 61.55; wax 150 is called by its English name in the United States.
    assert put_in.text == (
        "Olive (Olea Europaea) Fruit Oil, Water, Coconut (Cocos Nucifera) Oil, Beeswax, Sodium Hydroxide, Potassium Hydroxide"
    )


def test_an_acid_and_a_bought_salt_share_a_name() -> None:
    formula = Formula(
        (oil("olive", 1000, 190),),
        Alkali(),
        0.05,
        Water("of-oils", 0.30),
        additions=(
            Addition("lactic-acid-88", 20, acid=0.88 / 90.078, water=0.12),
            Addition("sodium-lactate", 20, water=0.4),
        ),
    )
    _, there = both(formula)
    # Acid: 17.6 g, 0.195386 mol, + x 21.9818 = 21.895 g of lactate. Bought: 12 g dry and, of its 8 g of water, what
    # is left: dry 950 + 128.678 - 98.760 + 98.760 + 50 + 21.895 + 12 = 1162.57, water 129.17 of 300 + 3.52; the acid's 2.4 and the bought salt's 8 are of the 300.
    lactate = next(entry for entry in there.entries if entry.name == "Sodium Lactate")
    assert lactate.grams is not None
    assert abs(lactate.grams - (21.895 + 12 + 8 * 129.175 / 303.52)) < 0.01
    assert lactate.commons == (
        "Lactic acid, 88 % solution, as its sodium salt",
        standard().additions["sodium-lactate"].name,
    )
    # 979.9 soap, 129.17 - 3.40 = 125.8 water, 98.8 glycerol, 50 oil, 37.3 lactate.
    assert there.text == "Sodium Olivate, Aqua, Glycerin, Olea Europaea Fruit Oil, Sodium Lactate"
    assert weights(there) == near(979.9, 125.8, 98.8, 50, 37.3)


def test_milk_clay_and_colours() -> None:
    formula = Formula(
        (oil("olive", 700, 190), oil("coconut", 300, 256.5)),
        Alkali(),
        0.05,
        Water("of-oils", 0.33),
        (Liquid("goat-milk", 100, 0.8703, 0.0414),),
        (
            Addition("kaolin", 30),
            Addition("turmeric", 3),
            Addition("ultramarine-blue", 40),
            Addition("titanium-dioxide", 5),
            Addition("honey", 8, water=0.17),
        ),
    )
    put_in, there = both(formula)
    # Plain water 330 - 87.03 - 1.36 = 241.61; hydroxide (133 + 76.95)/56.1056 x 0.95 x 39.9971 = 142.19; whole 1569.8,
    # of which one per cent is 15.7: honey and turmeric are small, ultramarine at 40 g is last all the same.
    assert put_in.text == (
        "Olive (Olea Europaea) Fruit Oil, Coconut (Cocos Nucifera) Oil, Water, Sodium Hydroxide, Goat Milk, Kaolin, Honey, "
        "Turmeric (Curcuma Longa) Root Powder, Ultramarines, Titanium Dioxide"
    )
    # Soap of olive 665 + 90.07 - 69.13 = 685.9, of coconut 285 + 52.11 - 40.00 = 297.1; glycerol 109.1. Dry matter
    # 1000 + 142.19 + 12.97 + 30 + 3 + 40 + 5 + 6.64 = 1239.8, so 137.8 of 330 g of water are left: 41.74 %. Plain
    # water 100.9; milk 12.97 + 36.33 = 49.3; oil left 35 and 15; honey 6.64 + 0.57 = 7.2. The bar is 1377.6 g.
    assert there.text == (
        "Sodium Olivate, Sodium Cocoate, Glycerin, Aqua, Caprae Lac, Olea Europaea Fruit Oil, Kaolin, "
        "Cocos Nucifera Oil, Mel, Curcuma Longa Root Powder, CI 77007, CI 77891"
    )
    assert weights(there) == near(685.9, 297.1, 109.1, 100.9, 49.3, 35, 30, 15, 7.2, 3, 40, 5)
    assert TENTH.note in there.notes and TENTH.note not in put_in.notes
    assert all("not legal advice" in each.notes[0] for each in (put_in, there))


def test_what_was_not_weighed_ends_the_small_ones() -> None:
    formula = Formula(
        (oil("olive", 600, 190), oil("olive", 400, 190, "calendula")),
        Alkali(),
        0.05,
        Water("of-oils", 0.30),
        additions=(Addition("salt", 5),),
    )
    put_in, there = both(formula, "activated-charcoal", "poppy-seed", "salt")
    assert put_in.text == (
        "Olive (Olea Europaea) Fruit Oil, Water, Sodium Hydroxide, Sodium Chloride, Calendula (Calendula Officinalis) Flower Extract, "
        "Poppy (Papaver Somniferum) Seed, Charcoal Powder"
    )
    assert there.text.endswith(
        "Sodium Chloride, Calendula Officinalis Flower Extract, Papaver Somniferum Seed, CI 77268:1"
    )
    assert (
        "smallest: Calendula (Calendula Officinalis) Flower Extract, Poppy (Papaver Somniferum) Seed."
        in " ".join(put_in.notes)
    )
    assert put_in.entries[0].latin == "Olea europaea"


def test_one_per_cent_is_small_by_one_law_only() -> None:
    parts = (Part("oil", "olive", 985), Part("addition", "kaolin", 10), Part("addition", "salt", 5))
    assert [entry.group for entry in listed(*parts).entries] == ["main", "small", "small"]
    assert [entry.group for entry in listed(*parts, law="eu").entries] == ["main", "main", "small"]


def test_small_ones_of_one_weight_are_in_order_of_their_names() -> None:
    parts = [Part("oil", "olive", 985), *(Part("addition", name, 5) for name in ("salt", "kaolin", "silk"))]
    expected = "Olive (Olea Europaea) Fruit Oil, Kaolin, Silk, Sodium Chloride"
    assert listed(*parts).text == listed(*reversed(parts)).text == expected


def test_mixed_pigments_are_named_number_by_number() -> None:
    """Mica by its name: Annex IV of Regulation (EC) 1223/2009 has no 77019, the inventory lists Mica."""
    parts = (
        Part("oil", "olive", 950),
        Part("addition", "mica-gold", 30),
        Part("addition", "titanium-dioxide", 20),
    )
    made = listed(*parts, law="eu")
    assert made.text == "Olea Europaea Fruit Oil, CI 77491, CI 77891, Mica"
    # How much of the mica is titanium dioxide is not known, so neither is the sum.
    assert [entry.grams for entry in made.entries] == [950, None, None, None]


def test_unknown_ids_are_shown_as_words() -> None:
    assert listed(Part("oil", "yak-butter", 1)).text == "Yak butter"
    plain = listed(Part("addition", "red-clay", 1))
    assert (plain.text, plain.entries[0].listed) == ("Red clay", False)


def test_both_lists_hold_the_whole_batch() -> None:
    figures = weigh(THREE)
    for parts in (as_charged(THREE, figures), as_found(THREE, figures)):
        entries = listed(*parts).entries
        impure = sum(part.grams for part in parts if part.kind == "impurity")
        assert abs(sum(entry.grams or 0.0 for entry in entries) + impure - figures.loaf) < 1e-9


def test_plants_go_by_their_common_name_with_the_botanical_one_in_the_united_states() -> None:
    """An authority's page on names of ingredients (second-hand)."""
    oils = ("olive", "shea-butter", "sweet-almond", "palm-kernel", "coconut-hydrogenated", "rapeseed")
    parts = [Part("oil", name, 1) for name in oils]
    assert {entry.name for entry in listed(*parts).entries} == {
        "Olive (Olea Europaea) Fruit Oil",
        "Shea (Butyrospermum Parkii) Butter",
        "Sweet Almond (Prunus Amygdalus Dulcis) Oil",
        "Palm (Elaeis Guineensis) Kernel Oil",
        "Hydrogenated Coconut Oil",
        "Canola Oil",
    }
    for law in ("eu", "gb"):
        assert {entry.name for entry in listed(*parts, law=law).entries} == {
            standard().oils[name].inci for name in oils
        }


def test_every_plant_of_the_tables_has_its_common_name() -> None:
    """A listed name of a plant that lends its own genus; those of the soap tables alone."""
    shelf = standard()
    entries = [*shelf.oils.values(), *shelf.liquids.values(), *shelf.additions.values()]
    plants = [e for e in entries if e.inci and e.latin and e.origin == "plant"]
    genus = [e for e in plants if e.inci and e.latin and e.inci.split()[0] == e.latin.split()[0].capitalize()]
    assert len(genus) > 60
    assert [e.id for e in genus if e.inci and "(" not in US.called(e.inci)] == []


def test_a_colour_that_is_not_listed_is_told_in_the_united_states_alone() -> None:
    """Turmeric and charcoal are not among the sections of 21 CFR 73, subpart C; ultramarine is, 73.2725; clay
    is there for more than its colour."""
    names = ("turmeric", "activated-charcoal", "ultramarine-blue", "kaolin", "zinc-oxide")
    parts = [Part("oil", "olive", 950, infused_with=("alkanet",)), *(Part("addition", n, 10) for n in names)]
    told = "Not known to be listed as a colour for soap in the United States: "
    assert [note for note in listed(*parts).notes if "listed as a colour" in note] == [
        f"{told}Turmeric, Activated charcoal, Alkanet root."
    ]
    assert not any("listed as a colour" in note for note in listed(*parts, law="eu").notes)


def test_carmine_is_named_everywhere() -> None:
    """21 CFR 73.2087(c)(2); in the Union by its number, Annex IV, entry 115."""
    part = Part("addition", "carmine", 1)
    assert [listed(part, law=law).text for law in ("us", "eu", "gb")] == ["Carmine", "CI 75470", "CI 75470"]


def test_an_allergen_stands_after_an_ingredient_of_its_share() -> None:
    """30 g of kaolin, and 300 g of a scent that is a tenth anise alcohol: first what is weighed in."""
    parts = (
        Part("soap", "olive", 670.0, "sodium"),
        Part("addition", "kaolin", 30.0),
        Part("addition", "rosy", 300.0),
    )
    contents = Contents("found", parts, (), None, ())
    anise = allergen("anise alcohol")
    assert anise is not None
    held = Scent(1000.0, {"rosy": 300.0}, (Dose(anise, 30.0, 0.03),), (), ())
    made = ingredient_list(contents, standard(), EU, held)
    assert [entry.name for entry in made.entries][-2:] == ["Kaolin", "Anise Alcohol"]
    assert made.entries[-1].latin == "" and made.entries[-1].commons == ("in the scent",)
