"""Recipes and other files with one mistake each, as a maker makes them, by a short name."""

from __future__ import annotations

BASE = """\
---
title: Plain Bar
oils:
  total: 1000 g
  parts:
    olive: 60 %
    coconut: 25 %
    sunflower-high-oleic: 15 %
superfat: 5 %
water: {lye-strength: 33 %}
portions:
  - {name: chalk, share: 60 %, additions: [{what: kaolin, amount: 8 g/kg}]}
  - {name: ochre, share: 40 %, additions: [{what: red-clay, amount: 5 g/kg}]}
pour:
  - beds: [{of: chalk}, {of: ochre}]
mould: loaf
cut: 25 mm
---
A plain bar.
"""
PANTRY = "moulds:\n  loaf:\n    loaf: {length: 250 mm, width: 90 mm, height: 70 mm}\n  small:\n    cavities: {count: 4, volume: 90 ml}\n"
CLASS = "---\ntitle: First class\nstudents: 5\noils: 500 g\nrecipes: [tried]\n---\nWeigh.\n"
CASES: dict[str, dict[str, str]] = {}


def r(name: str, *pairs: tuple[str, str], notes: str = "", **files: str) -> None:
    t = BASE
    for a, b in pairs:
        assert t.count(a) >= 1, (name, a)
        t = t.replace(a, b, 1)
    t += notes
    CASES[name] = {"recipes/tried.md": t, "pantry.yaml": PANTRY, **files}


W = "water: {lye-strength: 33 %}"
T = "title: Plain Bar\n"
# reading
r("title-missing", (T, ""))
r("title-empty", (T, "title:\n"))
r("tab", ("  total: 1000 g", "\ttotal: 1000 g"))
r("colon-in-title", ("Plain Bar", "Plain: a bar"))
r("bad-indent", ("    coconut: 25 %", "   coconut: 25 %"))
r("bad-indent-2", ("superfat: 5 %", " superfat: 5 %"))
r("no-second-line", ("cut: 25 mm\n---\n", "cut: 25 mm\n"))
r("key-twice", ("superfat: 5 %", "superfat: 5 %\nsuperfat: 6 %"))
r("open-bracket", ("[{of: chalk}, {of: ochre}]", "[{of: chalk}, {of: ochre}"))
r("open-quote", ("Plain Bar", '"Plain Bar'))
r("unknown-key", ("superfat: 5 %", "super-fat: 5 %"))
r("unknown-key-far", ("superfat: 5 %", "superfat: 5 %\ncolour-scheme: red"))
r("unknown-key-mold", ("mould: loaf", "mold: loaf"))
r("unknown-key-author", ("superfat: 5 %", "superfat: 5 %\nauthor: me"))
r("stated-old-key", ("superfat: 5 %", "superfat: 5 %\nstated: {lye: 137.0 g}"))
r("percent-sign-missing", ("superfat: 5 %", "superfat: 5"))
r("comma-decimal", ("superfat: 5 %", "superfat: 5,5 %"))
r("total-comma", ("1000 g", "1,000 g"))
r("total-comma-decimal", ("1000 g", "139,8 g"))
r("total-space", ("1000 g", "1 000 g"))
r("total-no-unit", ("1000 g", "1000"))
r("total-words", ("1000 g", "a kilo"))
r("total-ml", ("1000 g", "1000 ml"))
r("total-zero", ("1000 g", "0 g"))
r("total-negative", ("1000 g", "-5 g"))
r("lb-oz", ("1000 g", "2 lb 4 oz"))
r("oz-dr", ("1000 g", "1 oz 8 dr"))
r("stones", ("1000 g", "1 stone"))
# oils
r("oil-capitals", ("olive: 60 %", "Olive Oil: 60 %"))
r("oil-unknown-canola", ("olive: 60 %", "canola: 60 %"))
r("oil-unknown-far", ("olive: 60 %", "unobtainium: 60 %"))
r("oil-typo", ("olive: 60 %", "olvie: 60 %"))
r("oils-sum-short", ("olive: 60 %", "olive: 50 %"))
r("oils-sum-over", ("olive: 60 %", "olive: 61 %"))
r("oils-sum-tiny", ("olive: 60 %", "olive: 59.9 %"))
r("oil-share-bare", ("olive: 60 %", "olive: 60"))
r("oil-share-volume", ("olive: 60 %", "olive: 60 ml"))
r("oils-mixed", ("olive: 60 %", "olive: 600 g"))
r("oils-no-total", ("  total: 1000 g\n", ""))
r(
    "oils-list",
    (
        "  parts:\n    olive: 60 %\n    coconut: 25 %\n    sunflower-high-oleic: 15 %",
        "  parts: [olive, coconut]",
    ),
)
r("addition-as-oil", ("olive: 60 %", "kaolin: 60 %"))
# water and lye
r("water-weight", (W, "water: 300 g"))
r("water-percent", (W, "water: 33 %"))
r("water-two", (W, "water: {lye-strength: 33 %, to-lye: 2.0}"))
r("water-none", (W, "water: {}"))
r("water-missing", (W + "\n", ""))
r("water-ratio", (W, "water: {to-lye: 2:1}"))
r("water-ratio-quoted", (W, 'water: {to-lye: "2.03:1"}'))
r("water-ratio-block", (W, "water:\n  to-lye: 2:1"))
r("water-ratio-odd", (W, "water: {to-lye: 1:2}"))
r("lye-45", (W, "water: {lye-strength: 45 %}"))
r("lye-22", (W, "water: {lye-strength: 22 %}"))
r("lye-60", (W, "water: {lye-strength: 60 %}"))
r("lye-strength-bare", (W, "water: {lye-strength: 33}"))
r("lye-shares", ("superfat: 5 %", "superfat: 5 %\nlye: {sodium: 60 %, potassium: 30 %}"))
r("lye-unknown", ("superfat: 5 %", "superfat: 5 %\nlye: {soda: 100 %}"))
r("lye-naoh", ("superfat: 5 %", "superfat: 5 %\nlye: {NaOH: 100 %}"))
r("lye-scalar", ("superfat: 5 %", "superfat: 5 %\nlye: NaOH"))
r("lye-weight", ("superfat: 5 %", "superfat: 5 %\nlye: 137 g"))
r("lye-purity", ("superfat: 5 %", "superfat: 5 %\nlye: {sodium: {share: 100 %, purity: 9.8 %}}"))
r("superfat-zero", ("superfat: 5 %", "superfat: 0 %"))
r("superfat-negative", ("superfat: 5 %", "superfat: -3 %"))
r("superfat-30", ("superfat: 5 %", "superfat: 30 %"))
r("superfat-missing", ("superfat: 5 %\n", ""))
L = "superfat: 5 %\nliquids: [{what: WHAT, amount: AMT, at: trace}]"


def liq(name: str, what: str, amt: str) -> None:
    r(name, ("superfat: 5 %", L.replace("WHAT", what).replace("AMT", amt)))


liq("liquids-too-much", "coconut-milk", "200 g")
liq("liquids-share", "coconut-milk", "25 %")
liq("liquids-of-water", "coconut-milk", "25 % of water")
liq("liquids-unknown", "oatmilk", "50 g")
liq("liquid-typo", "coconut-mlik", "50 g")
# additions
A = "[{what: kaolin, amount: 8 g/kg}]"
r("addition-unknown", (A, "[{what: oatmeal-powder, amount: 8 g/kg}]"))
r("addition-percent", (A, "[{what: kaolin, amount: 2 %}]"))
r("addition-list", (A, "[kaolin]"))
r("addition-scalar", (A, "kaolin"))
r("addition-amount-missing", (A, "[{what: kaolin}]"))
r("addition-usual", (A, "[{what: kaolin, amount: 100 g/kg}]"))
r("addition-cup", (A, "[{what: kaolin, amount: 1 cup}]"))
r("citric-one-portion", (A, "[{what: citric-acid, amount: 20 g/kg}]"))
r("fading", (A, "[{what: turmeric, amount: 4 g/kg}]"))
r("sugar-in-lye", ("superfat: 5 %", "superfat: 5 %\nadditions: [{what: sugar, amount: 20 g, at: lye}]"))
r("stage-unknown", ("superfat: 5 %", "superfat: 5 %\nadditions: [{what: kaolin, amount: 20 g, at: melt}]"))
# portions and pour
r("portions-sum", ("share: 40 %", "share: 23.33 %"))
r("portions-sum-1", ("share: 40 %", "share: 39 %"))
r("portion-unpoured", ("[{of: chalk}, {of: ochre}]", "[{of: chalk}]"))
r("portion-twice", ("name: ochre", "name: chalk"))
r("pour-unknown-portion", ("{of: ochre}]", "{of: orche}]"))
r("bed-depth", ("[{of: chalk}, {of: ochre}]", "[{of: chalk, depth: 20 %}, {of: ochre, depth: 80 %}]"))
r("pour-kind", ("- beds: [", "- layers: ["))
r("pour-kind-typo", ("- beds: [", "- bed: ["))
r(
    "pour-two-keys",
    ("- beds: [{of: chalk}, {of: ochre}]", "- beds: [{of: chalk}, {of: ochre}]\n    swirl: {tool: comb}"),
)
r(
    "pour-old-strewn",
    (
        "- beds: [{of: chalk}, {of: ochre}]",
        "- beds: [{of: chalk}, {of: ochre}]\n  - top: {strewn: calendula}",
    ),
)
r("pour-slope-words", ("{of: ochre}", "{of: ochre, slope: steep}"))
r("pour-slope-steep", ("{of: ochre}", "{of: ochre, slope: 60}"))
r(
    "tool-unknown",
    ("- beds: [{of: chalk}, {of: ochre}]", "- beds: [{of: chalk}, {of: ochre}]\n  - swirl: {tool: fork}"),
)
r("step-unknown-portion", ("mould: loaf", "mould: loaf\nsteps: [{at: portion, portion: blue, say: Stir.}]"))
r("step-at", ("mould: loaf", "mould: loaf\nsteps: [{at: stir, say: Stir.}]"))
# moulds
r("mould-unknown", ("mould: loaf", "mould: loft"))
r("mould-too-small", ("mould: loaf\ncut: 25 mm", "mould: small"))
r("mould-inline", ("mould: loaf", "mould: {loaf: {length: 250 mm}}"))
r("fill-and-total", ("  total: 1000 g", "  total: 1000 g\n  fill: {mould: loaf, to: 90 %}"))
r("cut-unit", ("cut: 25 mm", "cut: 25"))
r(
    "linoleic",
    ("olive: 60 %\n    coconut: 25 %\n    sunflower-high-oleic: 15 %", "sunflower: 75 %\n    coconut: 25 %"),
)
r("net-weight", ("mould: loaf", "mould: loaf\nlabel: {net-weight: 200 g}"))
# signed
r("stale-one", ("superfat: 5 %", "superfat: 5 %\nsigned: {lye: 150.0 g}"))
r(
    "stale-four",
    (
        "superfat: 5 %",
        "superfat: 6 %\nsigned: {lye: 133.9 g, water: 280.0 g, superfat: 5.0 %, formula: 0123456789ab}",
    ),
)
r("quoted-stale", notes="\nThe lye is {lye = 150.0 g}.\n")
r("quoted-unknown", notes="\nThe lye is {lyes = 150.0 g}.\n")
r("quoted-unit", notes="\nThe lye is {lye = 150}.\n")
r("bare-figure", notes="\nWeigh 150 g of lye.\n")
# waivers
F = "superfat: 5 %"
r("waive-no-because", (F, F + "\nwaive: [{rule: fading, about: kaolin in chalk}]"))
r("waive-short", (F, F + "\nwaive: [{rule: fading, about: x, because: fine}]"))
r("waive-unknown", (F, F + "\nwaive: [{rule: fadeing, because: it is my own choice}]"))
r("waive-scalar", (F, F + "\nwaive: fading"))
r("waive-danger", (F, F + "\nwaive: [{rule: lye-strength, because: I know what I do here}]"))
# claims
r("claims-drug", notes="\nIt cures eczema.\n")
r("claims-cosmetic", notes="\nIt moisturises your skin.\n")
# notes
r("image", notes="\n![a bar](photos/x.jpg)\n")
r("dead-link", notes="\nSee [the other](other-bar.md).\n")
r("html", notes="\nThis is <b>bold</b>.\n")
r("footnote", notes="\nA note[^1].\n\n[^1]: x\n")
# batches
B = "\nbatches:\n  - {lot: A1, poured: 2026-03-02%s}"
r("batch-date", (F, F + "\nbatches:\n  - {lot: A1, poured: 2 March 2026}"))
r("batch-weighed-dates", (F, F + B % ", weighed: {2026-03-09: 120.1 g, 2026-03-30: 115.0 g}"))
r("batch-weighed-bare", (F, F + B % ", weighed: {7: 120.1}"))
r("batch-gel", (F, F + B % ", gel: yes"))
r("batch-fault", (F, F + B % ", faults: [dreaded-spots]"))
r("batch-result", (F, F + B % ", free-alkali: {test: phenolphthalein, result: negative, on: 2026-03-30}"))
r("batch-future-cut", (F, F + B % ", cut: 2026-03-01"))
r("photo-missing", (F, F + "\nphoto: {file: bar.jpg, day: 3, alt: a bar}"))
r("photo-no-words", (F, F + "\nphoto: {file: bar.jpg, day: 3}"), **{"photos/bar.jpg": "x"})


# book
def b(name: str, text: str) -> None:
    CASES[name] = {"recipes/tried.md": BASE, "pantry.yaml": PANTRY, "book.yaml": text}


b("language-xx", "language: xx\n")
b("language-es", "language: es\n")
b("language-fr", "language: fr\n")
b("currency", "currancy: EUR\n")
b("currency-2", "currency: EUR\n")
b("scale-step", "scale-step: 0 g\n")
b("units", "units: imperial\n")
b("cure", "cure: four weeks\n")
b("edition-open", "build: [open, bench]\n")
b("edition-typo", "build: [pubic]\n")
b("purity", "purity: {NaOH: 98 %}\n")
b("purity-low", "purity: {sodium: 9 %}\n")
b("base-url", "base-url: soap.example\n")


def p(name: str, text: str) -> None:
    CASES[name] = {"recipes/tried.md": BASE, "pantry.yaml": text}


p("pantry-error", PANTRY + "oils:\n  my-oil: {name: Mine}\n")
p("pantry-syntax", PANTRY + "oils:\n  my-oil: {name: Mine\n")
p("pantry-price", PANTRY + "oils:\n  olive: {price: 5}\n")
p("pantry-range", PANTRY + "oils:\n  my-oil: {saponification-value: 900}\n")
p("pantry-mould", "moulds:\n  loaf: {length: 250 mm, width: 90 mm, height: 70 mm}\n")
p("pantry-mould-unit", "moulds:\n  loaf:\n    loaf: {length: 250, width: 90 mm, height: 70 mm}\n")


def c(name: str, *pairs: tuple[str, str]) -> None:
    t = CLASS
    for a, d in pairs:
        assert a in t
        t = t.replace(a, d)
    CASES[name] = {"recipes/tried.md": BASE, "pantry.yaml": PANTRY, "classes/first.md": t}


c("class-size", ("oils: 500 g\n", ""))
c("class-recipe", ("[tried]", "[tride]"))
c("class-bench-old", ("students: 5", "students: 5\nbench: 2"))
c("class-time", ("students: 5", "students: 5\ntimetable: [{at: 9:30, what: Start}]"))
c("class-students", ("students: 5", "students: many"))
