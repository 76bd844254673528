"""Kinds of faults that makers make, each a change of the sound book's texts by a random source.

A kind whose fault comes before the figures are signed changes the unsigned texts, as a maker does who
enters a new oil; the figures are then signed with the fault in them, and only the thing itself can tell.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Mapping

from faults.sound import BOOK, CLASS, PANTRY, RECIPE, UNSIGNED, Texts, signed, sound

Fault = Callable[[random.Random], Texts]
Made = Callable[[random.Random], str]


def _change(texts: Texts, name: str, old: str, new: str) -> Texts:
    assert old in texts[name], old
    return {**texts, name: texts[name].replace(old, new, 1)}


def after(name: str, old: str, new: Made) -> Fault:
    """A change of the signed book."""
    return lambda rng: _change(sound(), name, old, new(rng))


def before(name: str, old: str, new: Made) -> Fault:
    """A change that is there when the book is signed."""
    return lambda rng: signed(_change(UNSIGNED, name, old, new(rng)))


def among(text: str, *values: object) -> Made:
    """The text with one of the values in place of its star."""
    return lambda rng: text.replace("*", str(rng.choice(values)), 1)


def between(text: str, low: int, high: int) -> Made:
    """The text with a whole number in place of its star."""
    return lambda rng: text.replace("*", str(rng.randint(low, high)), 1)


def exactly(text: str) -> Made:
    return lambda rng: text


def misspelt(text: str, word: str) -> Made:
    """The text with the word in place of its star, a letter of it lost or doubled."""

    def made(rng: random.Random) -> str:
        at = rng.randrange(1, len(word) - 1)
        typo = word[:at] + word[at + 1 :] if rng.random() < 0.5 else word[:at] + word[at] + word[at:]
        return text.replace("*", typo, 1)

    return made


def slip(rng: random.Random, number: str) -> str:
    """A number with one digit wrong, never the last of several, so that it matters."""
    places = [i for i, char in enumerate(number) if char.isdigit()]
    at = rng.choice(places[:-1] or places)
    return number[:at] + rng.choice([d for d in "123456789" if d != number[at]]) + number[at + 1 :]


def around(middle: float, reach: float, *parts: tuple[float, float]) -> Made:
    """A value with its range, off by a factor from one of these spans."""

    def made(rng: random.Random) -> str:
        value = middle * rng.uniform(*rng.choice(parts))
        return f"value: {value:.1f} mg/g, range: [{value - reach:.1f} mg/g, {value + reach:.1f} mg/g]"

    return made


def found(pattern: str, wrong: Callable[[random.Random, str], str]) -> Fault:
    """The number that a pattern finds in the signed recipe, made wrong."""

    def made(rng: random.Random) -> Texts:
        text = sound()[RECIPE]
        match = re.search(pattern, text, re.MULTILINE)
        assert match is not None, pattern
        return {**sound(), RECIPE: text[: match.start(1)] + wrong(rng, match[1]) + text[match.end(1) :]}

    return made


def times(low: float, high: float) -> Callable[[random.Random, str], str]:
    return lambda rng, number: f"{float(number) * rng.uniform(low, high):.0f}"


DAL = "value: 187 mg/g, range: [184 mg/g, 191 mg/g]"
OLIVE = "value: 189.4 mg/g, range: [188.6 mg/g, 190.2 mg/g]"

OWN_OILS: Mapping[str, Fault] = {
    "value per sodium hydroxide": before(PANTRY, DAL, around(187, 3, (0.70, 0.73))),
    "value of a coconut-like fat": before(PANTRY, DAL, around(187, 3, (1.3, 1.4))),
    "value off by 7 to 15 %": before(PANTRY, DAL, around(187, 3, (0.85, 0.93), (1.07, 1.15))),
    "value with a point misplaced": before(PANTRY, DAL, around(187, 0.3, (0.1, 0.1))),
    "value outside its own range": before(PANTRY, "value: 187", among("value: *", 178, 181, 196, 199)),
    "acids that sum to too much": before(PANTRY, "C18:1: 42 %", between("C18:1: * %", 60, 95)),
    "acids that sum to too little": before(PANTRY, "C18:0: 45 %", between("C18:0: * %", 1, 20)),
    "an acid of another chain": before(PANTRY, "C18:0: 45", among("*: 45", "C12:0", "C8:0", "C10:0")),
    "an acid that is none": before(PANTRY, "C18:1: 42", among('"*": 42', "C1:18", "C18", "18:1", "C18:1:0")),
    "like what is not there": before(PANTRY, "    kind: butter\n", misspelt("    like: *\n", "shea-butter")),
    "an iodine value of another oil": before(PANTRY, "iodine-value: 39", between("iodine-value: *", 80, 180)),
}
CERTIFICATES: Mapping[str, Fault] = {
    "olive off by 4 to 10 %": before(PANTRY, OLIVE, around(189.4, 0.8, (0.90, 0.96), (1.04, 1.10))),
    "olive per sodium hydroxide": before(PANTRY, OLIVE, around(189.4, 0.8, (0.70, 0.73))),
    "two digits swapped": before(PANTRY, "value: 189.4", among("value: *.4", 198, 819)),
    "value outside the sheet's range": before(PANTRY, "value: 189.4", among("value: *", 186.4, 187.9, 191.1)),
    "another unit": before(PANTRY, "value: 189.4 mg/g", among("value: 189.4 *", "g", "%", "mg", "g/g")),
    "a lot that is named wrongly": after(PANTRY, "O-1: 2027", between("O-*: 2027", 2, 9)),
    "out of date at the pour": after(PANTRY, "O-1: 2027", among("O-1: *", 2023, 2024, 2025)),
}
RECORDS: Mapping[str, Fault] = {
    "too much lye": found(r"^      sodium-hydroxide: (\d+) g", times(1.06, 1.4)),
    "half the lye": found(r"^      sodium-hydroxide: (\d+) g", times(0.4, 0.7)),
    "olive slipped": found(r"^      olive: (\d+) g", slip),
    "coconut slipped": found(r"^      coconut: (\d+) g", slip),
    "dal butter slipped": found(r"^      dal-butter: (\d+) g", slip),
    "water slipped": found(r"^      water: (\d+) g", slip),
    "acid slipped": after(RECIPE, "      citric-acid: 10 g", among("      citric-acid: * g", 1, 60, 100)),
    "a name misspelt": after(RECIPE, "      dal-butter: 200", misspelt("      *: 200", "dal-butter")),
    "a fingerprint misspelt": found(
        r"^    formula: (\w+)", lambda rng, mark: rng.choice("0123456789") + mark
    ),
    "a test before the pour": after(RECIPE, "on: 2026-04-15", between("on: 2026-0*-15", 1, 2)),
    "unmoulded before the pour": after(RECIPE, "unmoulded: 2026-03", between("unmoulded: 2026-0*", 1, 2)),
    "cut before it was unmoulded": after(RECIPE, "cut: 2026-03-05", between("cut: 2026-03-0*", 1, 3)),
    "a bar that grows": after(RECIPE, "28: 115.1 g", between("28: * g", 125, 140)),
    "a bar with a point misplaced": after(RECIPE, "14: 118.9 g", among("14: * g", 11.89, 1189)),
    "much acid in the titration": after(RECIPE, "acid: 0.2 ml", between("acid: * ml", 1, 9)),
    "a sample of a tenth": after(RECIPE, "sample: 5 g", between("sample: 0.* g", 2, 7)),
    "an oil lot of another oil": after(
        RECIPE, "castor: K-1", among("*", "castor: C-1", "castor: D-1", "palm: K-1")
    ),
    "a label for another lot": after(RECIPE, "lot: B-1}", between("lot: B-*}", 2, 9)),
    "a lot twice": after(RECIPE, "signed:", between("  - {lot: B-1, poured: 2026-0*-02}\nsigned:", 4, 6)),
}
SIZES: Mapping[str, Fault] = {
    "a spoonful of oils": before(RECIPE, "total: 1000 g", between("total: * g", 15, 60)),
    "kilograms for grams": before(RECIPE, "total: 1000 g", among("total: * kg", 500, 1000, 2000)),
    "oils without a unit": after(RECIPE, "total: 1000 g", between("total: *", 900, 1100)),
    "shares that sum to less": after(RECIPE, "olive: 45 %", between("olive: * %", 20, 43)),
    "portions that sum to more": after(RECIPE, "share: 60 %", between("share: * %", 62, 95)),
    "another superfat than was signed": after(
        RECIPE, "superfat: 5 %", among("superfat: * %", 1, 2, 3, 8, 15)
    ),
    "a superfat below nought": before(RECIPE, "superfat: 5 %", between("superfat: -* %", 1, 20)),
    "a superfat for nobody": before(RECIPE, "superfat: 5 %", between("superfat: * %", 25, 60)),
    "a lye too strong": before(RECIPE, "lye-strength: 33 %", between("lye-strength: * %", 51, 80)),
    "a lye too weak": before(RECIPE, "lye-strength: 33 %", between("lye-strength: * %", 8, 22)),
    "two conventions of water": after(
        RECIPE, "lye-strength: 33 %", between("lye-strength: 33 %, to-lye: *", 1, 3)
    ),
    "salt by the tenfold": before(
        RECIPE, "what: salt, amount: 8 g/kg", between("what: salt, amount: * g/kg", 70, 95)
    ),
    "clay by the tenfold": before(
        RECIPE, "what: kaolin, amount: 10 g/kg", between("what: kaolin, amount: * g/kg", 90, 300)
    ),
    "acid by the tenfold": before(
        RECIPE, "what: citric-acid, amount: 10 g/kg", between("what: citric-acid, amount: * g/kg", 80, 200)
    ),
    "more milk than water": before(
        RECIPE, "amount: 60 g, at: trace", between("amount: * g, at: trace", 360, 600)
    ),
    "a name misspelt": after(RECIPE, "    castor: 10 %", misspelt("    *: 10 %", "castor")),
    "a label of a larger bar": after(RECIPE, "net-weight: 100 g", between("net-weight: * g", 116, 200)),
    "a class that weighs nothing": after(CLASS, "oils: 500 g", between("oils: * g", 8, 40)),
    "a pack without its unit": after(CLASS, "olive: 1000 g", between("olive: *", 900, 1100)),
    "a stock too weak": before(BOOK, "cure: 28", between("cure: 28\nlye-stock: * %", 15, 32)),
    "a stock too strong": before(BOOK, "cure: 28", between("cure: 28\nlye-stock: * %", 54, 80)),
    "a coarse scale": before(BOOK, "scale-step: 1 g", among("scale-step: * g", 20, 25, 50)),
}
MOULDS: Mapping[str, Fault] = {
    "measures in centimetres": after(
        PANTRY,
        "{length: 250 mm, width: 90 mm, height: 70 mm}",
        exactly("{length: 25 mm, width: 9 mm, height: 7 mm}"),
    ),
    "one measure in centimetres": after(PANTRY, "width: 90 mm", exactly("width: 9 mm")),
    "one measure too long": after(PANTRY, "height: 70 mm", between("height: * mm", 120, 700)),
    "one measure too short": after(PANTRY, "height: 70 mm", between("height: * mm", 20, 50)),
    "twice the oils": before(RECIPE, "total: 1000 g", between("total: * g", 1300, 3000)),
    "half the oils": before(RECIPE, "total: 1000 g", between("total: * g", 200, 480)),
    "a mould misspelt": after(RECIPE, "mould: loaf-10", misspelt("mould: *", "loaf-10")),
    "a size misspelt": after(RECIPE, "horn-pipe]", misspelt("*]", "horn-pipe")),
    "a cut longer than the mould": after(RECIPE, "cut: 22 mm", between("cut: * mm", 260, 900)),
    "a cut with a point misplaced": after(RECIPE, "cut: 22 mm", among("cut: *", "22 cm", "2.2 mm")),
    "two kinds in one": after(
        PANTRY, "    loaf: {", between("    cylinder: {diameter: * mm, length: 200 mm}\n    loaf: {", 60, 90)
    ),
    "a measure left out": after(PANTRY, "width: 90 mm, ", exactly("")),
}
FIGURES: Mapping[str, Fault] = {
    "bare lye": found(r"^Take (\d+) g of sodium", slip),
    "bare olive": found(r"olive oil is (\d+) g", slip),
    "bare coconut": found(r"coconut oil (\d+) g", slip),
    "bare superfat": found(r"superfat of (\d+) %", slip),
    "bare strength": found(r"lye strength is (\d+) %", slip),
    "quoted lye": found(r"\{lye = ([\d.]+) g", slip),
    "quoted water": found(r"\{water = ([\d.]+) g", slip),
    "quoted batter": found(r"\{batter = ([\d.]+) g", slip),
    "signed lye": found(r"^  lye: ([\d.]+) g", slip),
    "signed water": found(r"^  water: ([\d.]+) g", slip),
    "signed superfat": found(r"^  superfat: ([\d.]+) %", slip),
}
FAMILIES: Mapping[str, Mapping[str, Fault]] = {
    "own oils": OWN_OILS,
    "certificates": CERTIFICATES,
    "records": RECORDS,
    "sizes": SIZES,
    "moulds": MOULDS,
    "figures": FIGURES,
}
