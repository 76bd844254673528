"""A sound book with something of everything, kept in memory; its figures are filled in by the engine."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from saponary.book.library import read_book
from saponary.build.proof import Proof, prove_book
from saponary.reading.files import Unread

Texts = dict[str, str]
RECIPE, PANTRY, BOOK, CLASS = "recipes/base.md", "pantry.yaml", "book.yaml", "classes/day.md"

_RECIPE = """\
---
title: Base
oils:
  total: 1000 g
  parts:
    olive: 45 %
    coconut: 25 %
    dal-butter: 20 %
    castor: 10 %
superfat: 5 %
water: {lye-strength: 33 %}
liquids:
  - {what: cow-milk, amount: 60 g, at: trace}
additions:
  - {what: salt, amount: 8 g/kg, at: lye}
  - {what: citric-acid, amount: 10 g/kg, at: lye}
portions:
  - {name: pale, share: 60 %, additions: [{what: kaolin, amount: 10 g/kg}]}
  - {name: dark, share: 40 %, additions: [{what: slate-dust, amount: 8 g/kg}]}
mould: loaf-10
cut: 22 mm
sizes: [2000 g, horn-pipe]
label: {net-weight: 100 g, lot: B-1}
batches:
  - lot: B-1
    poured: 2026-03-02
    formula: FINGERPRINT
    unmoulded: 2026-03-04
    cut: 2026-03-05
    oil-lots: {olive: O-1, coconut: C-1, dal-butter: D-1, castor: K-1}
    as-weighed:
      water: PLAIN g
      sodium-hydroxide: LYE g
      olive: 450 g
      coconut: 250 g
      dal-butter: 200 g
      castor: 100 g
      cow-milk: 60 g
      salt: 8 g
      citric-acid: 10 g
      kaolin: 6 g
      slate-dust: 3 g
    weighed: {0: 128.2 g, 7: 122.4 g, 14: 118.9 g, 28: 115.1 g, 42: 113.6 g}
    free-alkali: {test: titrated in warm alcohol, titration: {acid: 0.2 ml, strength: 0.1 mol/l, sample: 5 g}, on: 2026-04-15}
signed:
  lye: {lye}
  water: {water}
  superfat: {superfat}
  formula: FINGERPRINT
---
The lye is {{lye = {lye}}} in {{water = {water}}} of water.

Take LYE g of sodium hydroxide. The olive oil is 450 g, the coconut oil 250 g. There is a superfat of 5 % in it.

The lye strength is 33 %, and the batter weighs {{batter = {batter}}}.
"""
_PANTRY = """\
oils:
  olive:
    saponification-value: {value: 189.4 mg/g, range: [188.6 mg/g, 190.2 mg/g], from: certificate 4471}
    price: 8.40 / kg
    lots: {O-1: 2027-11-30}
  coconut: {lots: {C-1: 2028-02-28}}
  castor: {lots: {K-1: 2027-12-31}}
  dal-butter:
    name: Dal butter
    latin: Shorea robusta
    inci: Shorea Robusta Seed Butter
    kind: butter
    saponification-value: {value: 187 mg/g, range: [184 mg/g, 191 mg/g], from: sheet of sack 12}
    iodine-value: 39 g/100 g
    fatty-acids: {C16:0: 8 %, C18:0: 45 %, C18:1: 42 %, C18:2: 2 %, C20:0: 3 %}
    price: 19.00 / kg
    lots: {D-1: 2027-08-31}
colourants:
  slate-dust:
    name: Slate dust
    fresh: "#5a646c"
    cured: "#727b81"
    usual: [5 g/kg, 25 g/kg]
    density: 1.1 g/ml
moulds:
  loaf-10:
    loaf: {length: 250 mm, width: 90 mm, height: 70 mm}
  horn-pipe:
    cylinder: {diameter: 70 mm, length: 250 mm}
waive:
  - {rule: unnamed-ingredient, about: slate-dust, because: No list has a name for it.}
"""
_BOOK = """\
title: A Sound Book
scale-step: 1 g
cure: 28
free-alkali-limit: 0.05 %
currency: EUR
"""
_CLASS = """\
---
title: An afternoon
students: 4
oils: 500 g
recipes: [base]
packs: {olive: 1000 g}
---
Weigh, then stir.
"""


@dataclass(frozen=True)
class InMemory:
    """The files of a book by name."""

    texts: Mapping[str, str]
    root: Path = Path("/nowhere")

    def has(self, name: str) -> bool:
        return name in self.texts

    def read(self, name: str) -> bytes | Unread:
        return self.texts[name].encode() if name in self.texts else Unread("is not there", "")

    def names(self, folder: str) -> list[str] | Unread:
        return sorted(name.removeprefix(f"{folder}/") for name in self.texts if name.startswith(f"{folder}/"))

    def below(self, folder: str) -> frozenset[str]:
        return frozenset(self.names(folder))  # type: ignore[arg-type]


def proofed(texts: Texts) -> Proof:
    return prove_book(read_book(InMemory(texts)))


def signed(texts: Texts) -> Texts:
    """The texts with the recipe's own figures in the places that are left for them."""
    recipe = texts[RECIPE]
    probe = recipe.replace("FINGERPRINT", "0" * 12).replace("LYE g", "1 g").replace("PLAIN g", "1 g")
    probe = probe.replace("{{", "\\{").replace("}}", "")
    for name in ("lye", "water", "batter"):
        probe = probe.replace(f"{{{name}}}", "1.0 g")
    probe = probe.replace("{superfat}", "1.0 %")
    made = proofed({**texts, RECIPE: probe}).recipes
    if not made:
        return {**texts, RECIPE: probe}
    one = made[0].computed
    figures = one.catalogue
    filled = recipe.replace("FINGERPRINT", one.fingerprint)
    filled = filled.replace("LYE g", figures["lye"].text(decimals=0)).replace(
        "PLAIN g", f"{max(0.0, figures['plain-water'].value):.0f} g"
    )
    for name in ("lye", "water", "batter", "superfat"):
        filled = filled.replace(f"{{{name}}}", figures[name].text())
    return {**texts, RECIPE: filled.replace("{{", "{").replace("}}", "}")}


UNSIGNED: Texts = {RECIPE: _RECIPE, PANTRY: _PANTRY, BOOK: _BOOK, CLASS: _CLASS}
"""With places left for the figures, so that a fault may come before they are worked out and signed."""


@cache
def _sound() -> tuple[tuple[str, str], ...]:
    return tuple(signed(UNSIGNED).items())


def sound() -> Texts:
    """The sound book, signed."""
    return dict(_sound())
