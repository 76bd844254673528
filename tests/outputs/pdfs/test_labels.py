"""Labels: what stands on them, and that it fits or is reported."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from outputs.pdfs.desk import desk_at, desk_for, pdfs_of, read, sheets_of
from saponary.build.proof import prove
from saponary.label.fit import POINT, LabelText
from saponary.label.label_text import label_text
from saponary.schema.edition import editions
from saponary.schema.label_sheets import PAGES, LabelSheet
from saponary.schema.seen import only_seen
from saponary.views.paper.label_sheet import LabelsView, Seen, labels_view
from saponary.views.paper.short_code import Picture
from support import PLAIN, proof_of, write_book

LABELLED = PLAIN.replace("signed:", "label: {net-weight: 100 g}\nsigned:")
SHEETS = """\
title: A Small Book
maker: Somebody
place: Somewhere
label-sheets:
  wide: {page: a4, width: 90 mm, height: 50 mm, columns: 2, rows: 5, left: 10 mm, top: 15 mm, gap-x: 4 mm}
  broad: {page: letter, width: 4 in, height: 2 in, columns: 2, rows: 5, left: 4 mm, top: 0.5 in, law: us}
  tiny: {page: a4, width: 20 mm, height: 10 mm, columns: 6, rows: 20, left: 10 mm, top: 15 mm}
"""


def test_every_label_lies_on_its_page() -> None:
    grid = LabelSheet.model_validate(
        {"width": "60 mm", "height": "35 mm", "columns": "3", "rows": "7", "left": "10 mm", "top": "12 mm",
         "gap-x": "3 mm", "gap-y": "2 mm"}
    )  # fmt: skip
    places = list(grid.places())
    assert len(places) == 21 and places[0] == (10, 12) and places[-1] == (136, 234)
    assert all(left + 60 <= PAGES["a4"][0] and top + 35 <= PAGES["a4"][1] for left, top in places)


def test_what_does_not_fit_is_a_finding_and_no_sheet(tmp_path: Path) -> None:
    root = write_book(tmp_path, {"book.yaml": SHEETS, "recipes/plain.md": LABELLED})
    (found,) = [f for f in prove(root).findings if f.rule == "label-fit"]
    assert "'tiny'" in found.message and str(found.place) == "recipes/plain.md:11:1"
    assert set(sheets_of(desk_at(root, "maker"), "labels")) == {
        "labels/plain-wide.pdf",
        "labels/plain-broad.pdf",
    }


def test_a_book_without_grids_has_no_labels() -> None:
    if not proof_of("starters").book.settings.label_sheets:
        from outputs.pdfs.desk import desk_of

        assert not sheets_of(desk_of("starters", "maker"), "labels")


SOLD = (
    SHEETS.replace("law: us", "law: LAW")
    + """\
sold-in:
  eu: {responsible: {name: A Person, address: 1 Quay}, origin: Ruritania}
  gb: {responsible: {name: An Agent, address: 2 Quay}}
  us: {responsible: {name: A Person, address: 1 Quay}, contact: reports@soap.example}
function: Soap for washing.
"""
)
MONTHS = "durability-months: 24\n"


@pytest.mark.parametrize(
    ("law", "more", "maker", "before", "facts"),
    [
        (
            "eu",
            MONTHS,
            "A Person, 1 Quay",
            "Best used before the end of",
            "Soap for washing. Made in Ruritania.",
        ),
        ("gb", MONTHS, "An Agent, 2 Quay", "Best used before the end of", "Soap for washing."),
        (
            "eu",
            "after-opening-months: 12\n",
            "A Person, 1 Quay",
            "",
            "Soap for washing. Once opened, good for 12 months. Made in Ruritania.",
        ),
        (
            "us",
            MONTHS,
            "A Person, 1 Quay",
            "",
            "Soap for washing. To report a reaction: reports@soap.example.",
        ),
    ],
)
def test_a_label_carries_what_its_place_asks_for(
    law: str, more: str, maker: str, before: str, facts: str, tmp_path: Path
) -> None:
    """Regulation (EC) 1223/2009, Article 19(1)(a) to (f), as two authorities state it (second-hand): person in law
    with address, country of origin, date or period after opening, function. United States: place of business, 21
    CFR 701.12 (from memory), contact for reports since 29 December 2024 (second-hand)."""
    root = write_book(tmp_path, {"book.yaml": SOLD.replace("LAW", law) + more, "recipes/plain.md": LABELLED})
    site = desk_at(root, "maker").site
    (recipe,) = site.recipes
    grid = site.book.settings.label_sheets["broad"]
    said = label_text(recipe, site.labels[recipe.slug], site.book.settings, site.book.settings.law_of(grid))
    assert said is not None and (said.maker, said.before, said.facts) == (maker, before, facts)


def test_an_edition_without_lists_of_ingredients_holds_none_of_it(tmp_path: Path) -> None:
    root = write_book(tmp_path, {"book.yaml": SOLD.replace("LAW", "us"), "recipes/plain.md": LABELLED})
    settings = prove(root).book.settings
    assert settings.sold_in and settings.function
    bare = only_seen(settings, frozenset({"always"}))
    assert not hasattr(bare, "sold_in") or not bare.sold_in


@pytest.mark.slow
def test_a_sheet_for_the_united_states_minds_colours_that_are_not_listed(tmp_path: Path) -> None:
    """Turmeric is not among the sections of 21 CFR 73, subpart C."""
    coloured = LABELLED.replace("label:", "additions: [{what: turmeric, amount: 3 g}]\nlabel:", 1)
    root = write_book(tmp_path, {"book.yaml": SHEETS, "recipes/plain.md": coloured})
    sheets = sheets_of(desk_at(root, "maker"), "labels")
    told = "place of sale: Turmeric. Check the colour law before a bar is sold."
    assert told in sheets["labels/plain-broad.pdf"].html
    assert told not in sheets["labels/plain-wide.pdf"].html


def of_lot(root: Path, settings: str, more: str = "", recipe: str = "") -> str:
    """The maker's labels of lot A1, as a sheet's own words."""
    named = f"label: {{net-weight: 100 g, lot: A1}}\nbatches:\n  - {{lot: A1, poured: 2026-03-02{more}}}"
    text = LABELLED.replace("label: {net-weight: 100 g}", f"{recipe}{named}")
    write_book(root, {"book.yaml": f"{settings}{SHEETS}", "recipes/plain.md": text})
    return sheets_of(desk_at(root, "maker"), "labels")["labels/plain-wide.pdf"].html


AT = "base-url: https://soap.example/book/\n"


def test_a_label_of_one_lot_names_it_and_leads_to_its_page(tmp_path: Path) -> None:
    """The code leads to the public edition, whose page of the lot is there."""
    made = of_lot(tmp_path, AT)
    assert made.count("Lot A1") == 10 and made.count('class="code"') == 10
    assert "https://soap.example/book/lots/plain/a1/index.html" in made
    assert "lots/plain/a1/index.html" in desk_at(tmp_path).files
    assert made.count('src="recipes/plain/cured.svg"') == 10
    assert 'class="blank"' not in made and "No code leads" not in made


STALL = "build: [stall]\neditions: {stall: {shows: [batches]}}\n"


@pytest.mark.parametrize(
    ("settings", "batch", "recipe", "leads", "told"),
    [
        ("", "", "", "", "base-url: in book.yaml does not say where the site is published"),
        (AT, ", editions: [maker]", "", "", "No code leads to the page of lot A1: its record keeps it out"),
        (AT, "", "editions: [maker, class]\n", "", "no edition that is uploaded has this recipe and shows batches"),
        (AT + "editions: {public: {shows: [summary]}}\n", "", "", "", "no edition that is uploaded shows batches"),
        (AT + "editions: {public: {shows: [batches, costs]}}\n", "", "", "", "no edition that is uploaded shows"),
        (AT + STALL, "", "", "book/lots/plain/a1/", ""),
        (AT + STALL, ", editions: [stall]", "", "book/stall/lots/plain/a1/", ""),
        (AT + STALL, "", "editions: [maker, stall, shop]\n", "book/stall/lots/plain/a1/", ""),
        (AT + STALL.replace("build: [stall]\n", ""), "", "editions: [maker, stall]\n", "", "no edition that is uploaded has"),
        (AT + STALL.replace("batches", "shop"), "", "editions: [maker, stall, shop]\n", "", "no edition that is uploaded has"),
        (AT.replace("/book/", ""), "", "", "soap.example/lots/plain/a1/", ""),
    ],
)  # fmt: skip
def test_a_code_leads_to_a_page_that_is_uploaded_or_is_not_there(
    settings: str, batch: str, recipe: str, leads: str, told: str, tmp_path: Path
) -> None:
    made = of_lot(tmp_path, settings, batch, recipe)
    if leads:
        assert f"{leads}index.html" in made and made.count('class="code"') == 10
        edition = "stall" if "stall/" in leads else "public"
        assert "lots/plain/a1/index.html" in desk_at(tmp_path, edition).files
    else:
        assert 'class="code"' not in made and told in made.replace("&#39;", "'")


def test_the_code_of_a_draft_leads_nowhere(tmp_path: Path) -> None:
    of_lot(tmp_path, AT)
    path = tmp_path / "recipes/plain.md"
    path.write_text(path.read_text().split("signed:")[0] + "---\n")
    made = sheets_of(desk_at(tmp_path, "maker"), "labels")["labels/plain-wide.pdf"].html
    assert 'class="code"' not in made and "A draft" in made


def test_two_lots_whose_names_differ_by_signs_lead_to_their_own_pages(tmp_path: Path) -> None:
    """The public edition lacks one of them: there the other has the plain address."""
    lots = "}\n  - {lot: a.1, poured: 2026-03-03, editions: [maker]}\n  - {lot: a-1, poured: 2026-03-04"
    of_lot(tmp_path, AT, lots)
    path = tmp_path / "recipes/plain.md"
    path.write_text(path.read_text().replace("lot: A1}", "lot: a-1}", 1))
    made = sheets_of(desk_at(tmp_path, "maker"), "labels")["labels/plain-wide.pdf"].html
    assert "book/lots/plain/a-1/index.html" in made
    assert {"lots/plain/a-1/index.html"} <= set(desk_at(tmp_path).files)


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ("", "No test of lot A1 has found it free of alkali."),
        (", free-alkali: {test: zap, result: none, on: 2026-04-10}", ""),
    ],
)
def test_a_lot_that_may_not_be_labelled_yet_is_told_on_its_sheet(
    more: str, told: str, tmp_path: Path
) -> None:
    made = of_lot(tmp_path, AT, more)
    assert ("No test of lot" in made) == bool(told) and told in made and "has not cured" not in made
    path = tmp_path / "recipes/plain.md"
    path.write_text(
        path.read_text()
        .replace("poured: 2026-03-02", "poured: 2026-09-20")
        .replace("2026-04-10", "2026-09-25")
    )
    young = sheets_of(desk_at(tmp_path, "maker"), "labels")["labels/plain-wide.pdf"].html
    assert "Lot A1 has not cured before" in young and "No test of lot" not in young


OWN = "editions: {stall: {shows: [ingredients, batches, shop]}, till: {shows: [ingredients, costs]}}\n"


def test_label_sheets_are_the_makers_alone(tmp_path: Path) -> None:
    """Not in an edition that is uploaded, whatever it shows, nor in one that shows nothing private."""
    of_lot(tmp_path, AT + OWN)
    proof = prove(tmp_path)
    known = editions(proof.book.settings.editions)
    assert {"stall", "till", "shop", "class"} < set(known)
    for name in known:
        desk = desk_for(proof, name)
        assert bool(sheets_of(desk, "labels")) == (name == "maker"), name
        assert known[name].published == (name not in ("maker", "till"))


def test_a_sheet_of_the_makers_leads_to_the_public_page_and_to_none_that_is_not_there(tmp_path: Path) -> None:
    of_lot(tmp_path, AT)
    path = "recipes/plain/plain-a4.pdf"
    made = sheets_of(desk_at(tmp_path, "maker"), "recipe-sheet")[path].html
    assert "https://soap.example/book/recipes/plain/index.html" in made
    of_lot(tmp_path, AT, recipe="editions: [maker, class]\n")
    assert 'class="code"' not in sheets_of(desk_at(tmp_path, "maker"), "recipe-sheet")[path].html
    of_class = sheets_of(desk_at(tmp_path, "class"), "recipe-sheet")[path].html
    assert "https://soap.example/book/class/recipes/plain/index.html" in of_class


def test_a_label_of_any_lot_leaves_its_line_to_write_on(tmp_path: Path) -> None:
    root = write_book(
        tmp_path, {"book.yaml": f"base-url: https://soap.example\n{SHEETS}", "recipes/plain.md": LABELLED}
    )
    made = sheets_of(desk_at(root, "maker"), "labels")["labels/plain-wide.pdf"].html
    assert made.count('class="blank"') == 10 and 'class="code"' not in made


FOLDED = SHEETS.replace(
    "width: 90 mm, height: 50 mm, columns: 2, rows: 5,", "width: 48 mm, height: 26 mm, COUNT,"
)


@pytest.mark.parametrize(
    ("count", "pages", "bars"),
    [("columns: 2, rows: 5", 1, 5), ("columns: 3, rows: 7", 2, 21), ("columns: 1, rows: 1", 2, 1)],
)
def test_a_list_without_room_lies_on_the_next_label(
    count: str, pages: int, bars: int, tmp_path: Path
) -> None:
    book = FOLDED.replace("COUNT", count)
    root = write_book(tmp_path, {"book.yaml": book, "recipes/plain.md": LABELLED})
    made = sheets_of(desk_at(root, "maker"), "labels")["labels/plain-wide.pdf"].html
    labels = re.findall(r'<section class="label (first|second)"', made)
    assert labels == ["first", "second"] * bars and made.count('<div class="grid">') == pages
    assert made.count("Ingredients: ") == made.count("Net weight 100\u00a0g") == bars
    assert "Each bar takes two of these labels" in made


def test_what_stands_beside_the_text_gives_way_to_it() -> None:
    said = LabelText(
        "A Bar", "soap", "Sodium Olivate, " * 14, "Keep out of eyes.", "100 g", "Lot", "Somebody"
    )
    code = Picture("<svg></svg>", "", 40)
    seen = Seen(mark="mark.svg", drawing="cured.svg", code=code)

    def shown(width: str, height: str) -> tuple[bool, bool, bool]:
        grid = LabelSheet.model_validate({"width": width, "height": height, "columns": "1", "rows": "1"})
        view = labels_view(said, grid, "eu", seen)
        assert isinstance(view, LabelsView)
        return bool(view.seen.mark), bool(view.seen.drawing), view.seen.code is not None

    assert shown("90 mm", "60 mm") == (True, True, True)
    assert shown("60 mm", "60 mm") == (True, True, True)
    assert shown("60 mm", "41 mm") == (True, True, False)


@pytest.mark.slow
def test_labels_say_what_the_engine_says(tmp_path: Path) -> None:
    root = write_book(tmp_path, {"book.yaml": SHEETS, "recipes/plain.md": LABELLED})
    desk = desk_at(root, "maker")
    made = pdfs_of(desk, list(sheets_of(desk, "labels").values()))
    from saponary.label.tables import jurisdictions

    for path, law, size in (("wide", "eu", (210.0, 297.0)), ("broad", "us", (215.9, 279.4))):
        pdf = read(made[f"labels/plain-{path}.pdf"])
        assert len(pdf.pages) == 2
        behind = " ".join(pdf.pages[1].extract_text().split())
        assert "Lye burns" in behind and "local codes" in behind
        box = pdf.pages[0].mediabox
        assert (float(box.width) * POINT, float(box.height) * POINT) == pytest.approx(size, abs=0.1)
        text = " ".join(pdf.pages[0].extract_text().split())
        listed = desk.site.labels["plain"].ingredients(jurisdictions()[law]).text
        for said in (
            listed,
            "Plain Bar",
            "soap",
            "Net weight 100 g · 3.5 oz",
            "Keep out of eyes.",
            "Somebody, Somewhere",
            "Lot",
        ):
            assert text.count(said) >= 10, said


def test_a_list_that_names_only_a_kind_is_told_to_its_maker(tmp_path: Path) -> None:
    """The maker of this book has set the finding about the entry aside; the sheet tells it all the same."""
    named = LABELLED.replace("label:", "additions: [{what: brick-dust, amount: 3 g}]\nlabel:", 1)
    dust = 'colourants: {brick-dust: {fresh: "#a4503c", cured: "#b98f86", usual: [1 g/kg, 8 g/kg], origin: mineral}}\n'
    aside = "waive: [{rule: unnamed-ingredient, about: brick-dust, because: no list has a name for it}]\n"
    root = write_book(tmp_path, {"book.yaml": SHEETS, "pantry.yaml": dust + aside, "recipes/plain.md": named})
    made = sheets_of(desk_at(root, "maker"), "labels")["labels/plain-wide.pdf"].html
    assert "The list names only a kind: Colourant of no known name." in made
    plain = write_book(tmp_path / "plain", {"book.yaml": SHEETS, "recipes/plain.md": LABELLED})
    assert (
        "names only a kind" not in sheets_of(desk_at(plain, "maker"), "labels")["labels/plain-wide.pdf"].html
    )


def test_the_page_of_a_lot_says_to_its_maker_alone_how_its_labels_are_made(tmp_path: Path) -> None:
    other = '}\n  - {lot: A2, poured: 2026-03-03, formula: "0123456789ab"'
    held = "}\n  - {lot: A3, poured: 2026-03-03, free-alkali: {test: zap, result: trace, on: 2026-05-01}"
    of_lot(tmp_path, AT, other + held)
    pages, command = desk_at(tmp_path, "maker").files, b"saponary labels FOLDER --lot "
    assert command + b"A1<" in pages["lots/plain/a1/index.html"]
    assert all(command not in pages[f"lots/plain/{lot}/index.html"] for lot in ("a2", "a3"))
    public = desk_at(tmp_path).files
    assert not [path for path, data in public.items() if command in data or b"labels/" in data]
