"""Labels: what stands on them, and that it fits or is reported."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from outputs.pdfs.desk import desk_at, pdfs_of, read, sheets_of
from saponary.build.proof import prove
from saponary.label.fit import (
    BOLD,
    INCH,
    LEADING,
    NAME,
    POINT,
    REGULAR,
    Fitted,
    Misfit,
    Words,
    face,
    fit,
    smallest,
    smallest_net,
)
from saponary.messages.speaker import speaker
from saponary.schema.label_sheets import PAGES, LabelSheet
from saponary.views.paper.label_sheet import net_weight
from support import PLAIN, proof_of, write_book

LABELLED = PLAIN.replace("stated:", "label: {net-weight: 100 g}\nstated:")
SHEETS = """\
title: A Small Book
maker: Somebody
place: Somewhere
label-sheets:
  wide: {page: a4, width: 90 mm, height: 50 mm, columns: 2, rows: 5, left: 10 mm, top: 15 mm, gap-x: 4 mm}
  broad: {page: letter, width: 4 in, height: 2 in, columns: 2, rows: 5, left: 4 mm, top: 0.5 in, law: us}
  tiny: {page: a4, width: 20 mm, height: 10 mm, columns: 6, rows: 20, left: 10 mm, top: 15 mm}
"""


def words(ingredients: str) -> Words:
    return Words(
        "A Bar", "soap", ingredients, "Keep out of eyes.", "Net weight 100 g · 3.5 oz", "Lot", "Somebody"
    )


@pytest.mark.parametrize(
    ("grams", "text"),
    [
        (100, "Net weight 100 g · 3.5 oz"),
        (99.99, "Net weight 99 g · 3.5 oz"),
        (113.398, "Net weight 113 g · 3.9 oz"),
        (113.4, "Net weight 113 g · 4.0 oz"),
        (8.26, "Net weight 8.2 g · 0.2 oz"),
        (500, "Net weight 500 g · 17.6 oz (1 lb 1.6 oz)"),
    ],
)
def test_net_weight_is_rounded_down_in_both_units(grams: float, text: str) -> None:
    assert speaker().say(net_weight(grams)) == text


@given(
    st.lists(st.integers(1, 14), min_size=1, max_size=60),
    st.floats(30, 190),
    st.floats(15, 120),
    st.sampled_from(["eu", "us"]),
)
def test_text_fits_or_is_refused(lengths: list[int], width: float, height: float, law: str) -> None:
    said = words(", ".join("olivenblatter-x"[:length] for length in lengths))
    made = fit(said, width, height, law)
    if isinstance(made, Misfit):
        assert made.why
        return
    room = width - 2 * made.padding
    for lines, font, size in (
        (made.name, NAME, made.name_size),
        (made.ingredients, REGULAR, made.size),
        (made.net_weight, BOLD, made.net_size),
    ):
        assert all(face(font).width(line) * size * POINT <= room for line in lines)
    assert " ".join(made.ingredients) == said.ingredients
    small = (made.kind, made.ingredients, made.caution, made.lot, made.maker)
    high = made.name_size * len(made.name) + made.net_size * len(made.net_weight)
    high += made.size * sum(len(lines) for lines in small)
    assert high * POINT * LEADING <= height - 2 * made.padding
    assert made.size * POINT * face(REGULAR).x_height >= smallest(width, height, law) - 1e-9
    assert made.net_size * POINT * face(BOLD).x_height >= smallest_net(width, height, law) - 1e-9


def test_smallest_type_by_law() -> None:
    assert smallest(60, 35, "eu") == 1.2
    assert smallest(60, 35, "us") == pytest.approx(INCH / 32)
    assert smallest(4 * INCH, 3 * INCH, "us") == pytest.approx(INCH / 16)
    assert smallest_net(2 * INCH, 2 * INCH, "us") == pytest.approx(INCH / 16)
    assert smallest_net(4 * INCH, 2 * INCH, "us") == pytest.approx(INCH / 8)


def test_a_word_wider_than_the_label_is_refused() -> None:
    made = fit(words("x" * 200), 60, 100, "eu")
    assert isinstance(made, Misfit) and "wider" in made.why


def test_more_room_never_means_smaller_type() -> None:
    sizes = [
        made.size
        for h in range(30, 120, 5)
        if isinstance(made := fit(words("oil, " * 40), 80, h, "eu"), Fitted)
    ]
    assert sizes == sorted(sizes) and sizes


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
    assert set(sheets_of(desk_at(root), "labels")) == {"labels/plain-wide.pdf", "labels/plain-broad.pdf"}


def test_a_book_without_grids_has_no_labels() -> None:
    if not proof_of("starters").book.settings.label_sheets:
        from outputs.pdfs.desk import desk_of

        assert not sheets_of(desk_of("starters"), "labels")


@pytest.mark.slow
def test_labels_say_what_the_engine_says(tmp_path: Path) -> None:
    root = write_book(tmp_path, {"book.yaml": SHEETS, "recipes/plain.md": LABELLED})
    desk = desk_at(root)
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
