"""The book of all markers: every text that the schema lets a maker write is there, found by the schema itself."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import yaml

from composed import composed, drawings, spoken
from planted import Planter
from saponary.assets import resources
from saponary.book.classes import ClassPlan
from saponary.build.proof import prove
from saponary.label.lists import bar
from saponary.outputs.pdf_kind import PdfContext
from saponary.outputs.pdf_make import sheets
from saponary.schema.batch import Batch
from saponary.schema.edition import STANDARD
from saponary.schema.fields import Part
from saponary.schema.pantry import PantryFile
from saponary.schema.recipe import Recipe
from saponary.schema.settings import Settings
from saponary.views.for_edition import Unpublished, for_edition
from saponary.views.site import PhotoSet
from support import write_book

RECIPE = """\
title: t
signed: {superfat: 5.0 %}
oils: {total: 1000 g, parts: {olive: 60 %, coconut: 25 %, sunflower-high-oleic: 15 %}}
superfat: 5 %
water: {lye-strength: 33 %}
liquids: [{what: cow-milk, amount: 50 g}]
additions: [{what: kaolin, amount: 8 g/kg}, {what: meadow, amount: 11 g/kg}]
portions: [{name: pale, share: 60 %}, {name: dark, share: 40 %, additions: [{what: ochre, amount: 3 g}]}]
pour: [{beds: [{of: pale}, {of: dark}]}]
steps: [{at: lye}]
photo: {file: f, day: 40}
label: {net-weight: 97.31 g}
waive: [{rule: claims, because: a reason that is long enough}]
"""
BATCH = """\
poured: 2026-03-02
room-temperature: 17.31 °C
humidity: 61.37 %
as-weighed: {olive: 600.71 g}
oil-lots: {olive: zq-8871}
weighed: {0: 131.7 g, 14: 121.7 g}
free-alkali: [{result: none, on: 2026-04-20}]
photos: [{file: f, day: 41}]
"""
PANTRY = """\
oils: {olive: {price: 987654.25 / kg, law: {eu: x}, lots: {zq-8871: 2027-05-01}}}
liquids: {cow-milk: {price: 987654.25 / kg}}
additions: {kaolin: {price: 987654.25 / kg}}
colourants:
  ochre: {like: iron-oxide-yellow, fresh: "#c0a060", cured: "#c0a060", chips: [{dose: 3 g/kg, day: 9, colour: "#b09050"}]}
fragrances:
  meadow: {composition: {linalool: 3 %}, certificate: {maximum: 9 %}}
waive: [{rule: claims, because: a reason that is long enough}]
"""
BOOK = """\
label-sheets: {wide: {width: 190 mm, height: 270 mm, columns: 1, rows: 1}}
waive: [{rule: claims, because: a reason that is long enough}]
"""
CLASS = """\
title: c
students: 2
oils: 500 g
recipes: [planted]
timetable: [{at: "09:00"}]
packs: {olive: 98.71 kg}
waive: [{rule: claims, because: a reason that is long enough}]
"""


def planted_book(root: Path, planter: Planter) -> Unpublished:
    """The book of all markers, proofed. What the checks say of it does not matter: it is never built."""
    tops: list[tuple[str, type[Part], dict[str, Any]]] = [
        (name, kind, yaml.load(text, Loader=yaml.BaseLoader))
        for name, kind, text in (
            ("recipe", Recipe, RECIPE), ("batch", Batch, BATCH), ("pantry", PantryFile, PANTRY),
            ("book", Settings, BOOK), ("class", ClassPlan, CLASS),
        )
    ]  # fmt: skip
    for _, kind, data in tops:
        planter.plant(data, kind, kind.__name__, ())
    files = {name: data for name, _, data in tops}
    # The one text that must be another's: a label is made for a lot that is recorded.
    files["recipe"]["label"]["lot"] = files["batch"]["lot"]
    planter.planted = [one for one in planter.planted if one.path != "Recipe.label.lot"]

    def text(name: str) -> str:
        return yaml.safe_dump(files[name], allow_unicode=True, sort_keys=False)

    write_book(
        root,
        {
            "recipes/planted.md": f"---\n{text('recipe')}---\nNotes {{lye}}.\n",
            "batches/planted.yaml": yaml.safe_dump({"batches": [files["batch"]]}, allow_unicode=True),
            "pantry.yaml": text("pantry"),
            "book.yaml": text("book"),
            "classes/day.md": f"---\n{text('class')}---\nA lesson.\n",
        },
    )
    proof = prove(root)
    assert len(proof.recipes) == 1, proof.findings
    one = proof.recipes[0].computed
    names = [s.file for s in (one.model.photo, *one.batches[0].batch.photos) if s is not None]
    return Unpublished(
        proof.book, proof.recipes, "engine", "tables",
        photos={name: PhotoSet(3, 2, (), "photos/x.jpg", "") for name in names},
        labels={one.slug: bar(one)},
    )  # fmt: skip


def said(whole: Unpublished, edition: str) -> str:
    """Every byte of an edition's pages, of its PDFs as they are composed, and of what they carry; in
    small letters.
    """
    site = for_edition(whole, STANDARD[edition])
    drawn = drawings(site)
    files = composed(site, drawn=drawn)
    context = PdfContext(site, files, spoken((resources.templates(),)), drawn)
    found = [data.decode(errors="replace") for data in files.values()]
    for sheet in sheets(context):
        found += [sheet.html, *(carried.data.decode() for carried in sheet.attachments)]
    return "\n".join(found).lower()
