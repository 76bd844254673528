"""Recipe sheets as PDFs, read back: figures, cautions, tags, fonts, source, clean margins, same bytes."""

from __future__ import annotations

import hashlib
import json
import os
import re
import subprocess
import sys
from dataclasses import replace
from functools import cache
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from outputs.pdfs.desk import desk_of, pdfs_of, read, sheets_of
from outputs.pdfs.reading import ink_near_the_edge, smallest_type, sound, squeezed
from saponary.build.proof import prove
from saponary.label.cautions import LYE, emergency, for_recipe
from saponary.messages.speaker import speaker
from saponary.outputs.figures_json import site_object
from saponary.quantity.rounding import show
from saponary.views.site import PhotoSet, SiteInput
from support import REPOSITORY, some, write_book

pytestmark = pytest.mark.slow
BOOKS = ("starters", "demo")


@cache
def pdfs(book: str) -> dict[str, bytes]:
    desk = desk_of(book)
    return pdfs_of(desk, list(sheets_of(desk, "recipe-sheet").values()))


@cache
def texts(book: str) -> dict[str, str]:
    """The text of each sheet without its spaces, for a PDF does not keep them apart from gaps."""
    return {path: squeezed(pdf) for path, pdf in pdfs(book).items()}


@pytest.mark.parametrize("book", BOOKS)
def test_the_figures_on_paper_are_those_for_programs(book: str) -> None:
    recipes = site_object(desk_of(book).site)["recipes"]
    assert recipes
    for recipe in recipes:
        figures = recipe["figures"]
        if not figures["lye_weighed"]:
            continue
        told = [f"{show(figures[key], 1)} g" for key in ("oils_g", "water_g", "batter_g")]
        told += [
            f"{show(figures[key], 1)} g"
            for key in ("sodium_hydroxide_g", "potassium_hydroxide_g")
            if figures[key] > 0
        ]
        told += [
            f"{show(figures[key], 1)} %".replace("-", "−")
            for key in ("lye_strength_percent", "superfat_percent", "superfat_as_weighed_percent")
        ]
        for key in ("superfat_likely_percent", "superfat_worst_percent"):
            low, high = figures[key]
            told.append(f"{show(low, 1)} to {show(high, 1)} %".replace("-", "−"))
        for size in ("a4", "letter"):
            text = texts(book)[f"recipes/{recipe['slug']}/{recipe['slug']}-{size}.pdf"]
            missing = [figure for figure in told if "".join(figure.split()) not in text]
            assert not missing, (recipe["slug"], size, missing)
            assert recipe["fingerprint"] in text


@pytest.mark.parametrize("book", BOOKS)
def test_cautions_and_the_emergency_line_are_in_every_pdf(book: str) -> None:
    desk = desk_of(book)
    for recipe in some(desk.site.recipes):
        said = [speaker().say(caution.head) for caution in (*LYE, *for_recipe(recipe))]
        said += [
            speaker().say(emergency(desk.site.book.settings.emergency)),
            "Follow local codes and licensed practice",
        ]
        for size in ("a4", "letter"):
            text = texts(book)[f"recipes/{recipe.slug}/{recipe.slug}-{size}.pdf"]
            for words in said:
                assert "".join(words.split()).replace("-", "") in text.replace("-", ""), (recipe.slug, words)


@pytest.mark.parametrize("book", BOOKS)
def test_every_pdf_is_tagged_titled_and_set_in_its_own_fonts(book: str) -> None:
    for pdf in some(pdfs(book).values()):
        sound(pdf, desk_of(book).site.book.settings.maker)


@pytest.mark.parametrize("book", BOOKS)
def test_a_sheet_is_the_two_sides_of_one_paper(book: str) -> None:
    assert {path: len(read(pdf).pages) for path, pdf in pdfs(book).items()} == dict.fromkeys(pdfs(book), 2)


@pytest.mark.parametrize("book", BOOKS)
def test_no_type_is_under_eight_points(book: str) -> None:
    """Eight points: what is still read at arm's length (common practice, no source)."""
    for path, pdf in some(pdfs(book).items()):
        assert smallest_type(pdf) >= 7.99, path


def test_a_photo_stands_on_the_front_as_the_site_has_it(tmp_path: Path) -> None:
    desk = desk_of("demo")
    picture = BytesIO()
    Image.new("RGB", (800, 600), "#885533").save(picture, "JPEG")
    sources = (("image/jpeg", "photos/one-480.jpg 480w, photos/one-800.jpg 800w"),)
    made = PhotoSet(800, 600, sources, "photos/one-480.jpg", "")
    site = replace(desk.site, photos=dict.fromkeys(named(desk.site), made))
    with_photos = replace(desk, site=site, files={**desk.files, "photos/one-800.jpg": picture.getvalue()})
    path = "recipes/quarry-strata/quarry-strata-a4.pdf"
    pdf = read(pdfs_of(with_photos, [sheets_of(with_photos, "recipe-sheet")[path]])[path])
    assert len(pdf.pages) == 2
    shown = [image.image for image in pdf.pages[0].images]
    assert [image.size for image in shown if image is not None] == [(800, 600)]
    assert "Lot QS-014 on day 42." in pdf.pages[0].extract_text()


def named(site: SiteInput) -> set[str]:
    return {shot.file for recipe in site.recipes for record in recipe.batches for shot in record.batch.photos}


@pytest.mark.parametrize("book", BOOKS)
def test_the_source_comes_out_of_the_pdf_and_makes_the_recipe_again(book: str, tmp_path: Path) -> None:
    for recipe in some(desk_of(book).site.recipes):
        held = read(pdfs(book)[f"recipes/{recipe.slug}/{recipe.slug}-letter.pdf"]).attachments
        files = {name: data[0] for name, data in held.items()}
        if recipe.model.method == "rebatch":  # its soap is of lots that no file inside can hold
            assert set(files) == {"figures.json"}
            continue
        assert set(files) == {"figures.json", "recipe.md", "pantry.yaml", "book.yaml"}
        assert json.loads(files["figures.json"])["fingerprint"] == recipe.fingerprint
        files[f"recipes/{recipe.slug}.md"] = files.pop("recipe.md")
        (made,) = prove(write_book(tmp_path / recipe.slug, files)).recipes
        assert made.computed.fingerprint == recipe.fingerprint


@pytest.mark.parametrize("book", BOOKS)
def test_no_ink_near_the_edge_of_the_paper(book: str, tmp_path: Path) -> None:
    for path, pdf in some(pdfs(book).items()):
        assert not ink_near_the_edge(pdf, tmp_path), path


_SET = """
import hashlib, sys
sys.path.insert(0, sys.argv[1])
from outputs.pdfs.desk import desk_of, sheets_of
from saponary.outputs.figures_json import site_object
from saponary.outputs.pdf_engine import set_sheet
desk = desk_of("starters")
sheet = sheets_of(desk, "recipe-sheet")["recipes/salt-bar/salt-bar-a4.pdf"]
print(hashlib.sha256(set_sheet(desk.files, sheet).data).hexdigest())
"""


def test_another_process_sets_the_same_bytes() -> None:
    here = hashlib.sha256(pdfs("starters")["recipes/salt-bar/salt-bar-a4.pdf"]).hexdigest()
    where = os.pathsep.join(str(Path(p).resolve()) for p in (REPOSITORY / "generator", REPOSITORY / "tests"))
    done = subprocess.run(
        [sys.executable, "-c", _SET, str(REPOSITORY / "tests")],
        env={**os.environ, "PYTHONPATH": where, "PYTHONHASHSEED": "7", "TZ": "Pacific/Auckland"},
        capture_output=True,
        text=True,
        check=True,
    )
    assert re.fullmatch("[0-9a-f]{64}", done.stdout.strip())
    assert done.stdout.strip() == here
