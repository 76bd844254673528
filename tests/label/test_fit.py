"""Text fitted to a label: it fits at a size that may be read, or is refused."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saponary.label.fit import (
    GAP,
    LEADING,
    RULED,
    Beside,
    Fitted,
    LabelText,
    Misfit,
    fit,
    smallest,
    smallest_net,
)
from saponary.label.measure import BOLD, INCH, NAME, POINT, REGULAR, face


def words(ingredients: str) -> LabelText:
    return LabelText(
        "A Bar", "soap", ingredients, "Keep out of eyes.", "Net weight 100 g · 3.5 oz", "Lot", "Somebody"
    )


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
        (made.caution, BOLD, made.size),
        (made.net_weight, BOLD, made.net_size),
    ):
        assert all(face(font).width(line) * size * POINT <= room for line in lines)
    assert " ".join(made.ingredients) == said.ingredients
    if made.lot_beside:
        net = face(BOLD).width(said.net_weight) * made.net_size
        assert (net + face(REGULAR).width(said.lot) * made.size) * POINT + 16 < room
    assert high(made) == pytest.approx(made.high - RULED - GAP)
    assert made.high <= height - 2 * made.padding
    assert made.size * POINT * face(REGULAR).x_height >= smallest(law) - 1e-9
    assert made.net_size * POINT * face(BOLD).x_height >= smallest_net(width, height, law) - 1e-9


def high(made: Fitted) -> float:
    """Of all its lines, in mm."""
    small = [made.kind, made.ingredients, made.caution, made.maker, made.before, made.facts]
    small += [] if made.lot_beside else [made.lot]
    points = made.name_size * len(made.name) + made.net_size * len(made.net_weight)
    return (points + made.size * sum(len(lines) for lines in small)) * POINT * LEADING


@given(st.floats(60, 190), st.floats(40, 120), st.floats(0.5, 3), st.floats(5, 30), st.floats(8, 20))
def test_room_is_kept_free_for_what_stands_beside(
    width: float, height: float, mark: float, picture: float, square: float
) -> None:
    made = fit(words("Sodium Olivate, Aqua"), width, height, "eu", Beside(mark, picture, square))
    if isinstance(made, Misfit):
        return
    room = width - 2 * made.padding
    assert all(
        face(NAME).width(line) * made.name_size * POINT + mark * made.name_size * POINT + picture < room
        for line in made.name
    )
    foot = (made.lot, made.maker)
    assert all(face(REGULAR).width(line) * made.size * POINT + square < room for run in foot for line in run)
    assert all(face(BOLD).width(line) * made.net_size * POINT + square < room for line in made.net_weight)
    assert made.foot >= square and made.head >= min(16.2, 5)
    assert made.high <= height - 2 * made.padding + 1e-9
    assert made.size * POINT * face(REGULAR).x_height >= smallest("eu") - 1e-9


def test_smallest_type_by_law() -> None:
    """21 CFR 701.3(b): 1/16 inch (from memory). 1/32 is for packages whose surface no label's size tells."""
    assert smallest("eu") == smallest("gb") == 1.2
    assert smallest("us") == pytest.approx(INCH / 16)
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


@pytest.mark.parametrize(
    ("area", "least"),
    [
        (4.99, 1 / 16),
        (5, 1 / 16),
        (5.01, 1 / 8),
        (24.9, 1 / 8),
        (25, 1 / 8),
        (25.1, 3 / 16),
        (99, 3 / 16),
        (101, 1 / 4),
        (399, 1 / 4),
        (400, 1 / 4),
        (401, 1 / 2),
    ],
)
def test_the_net_weight_by_the_area_of_the_panel(area: float, least: float) -> None:
    """21 CFR 701.13(i) (from memory)."""
    assert smallest_net(area * INCH, INCH, "us") == pytest.approx(least * INCH)
    assert smallest_net(area * INCH, INCH, "eu") == 1.2


def test_it_is_the_largest_type_that_fits() -> None:
    """At a quarter of a point more, the very lines that fit would not."""
    made = fit(words("oil, " * 120), 80, 50, "eu")
    assert isinstance(made, Fitted)
    assert (made.size * 4) % 1 == 0 and 4 < made.size < 9
    lines = high(made) / POINT / LEADING / made.size
    taller = fit(words("oil, " * 120), 80, 50 + 0.25 * POINT * LEADING * (lines + 3), "eu")
    assert isinstance(taller, Fitted) and taller.size >= made.size


def test_the_name_is_as_large_as_it_can_be_on_the_fewest_lines() -> None:
    short = fit(words("Sodium Olivate"), 80, 45, "eu")
    assert isinstance(short, Fitted) and short.name_size == pytest.approx(2.4 * short.size)
    long = fit(replace(words("Sodium Olivate"), name="A Bar of Rather Many Words Indeed"), 80, 45, "eu")
    assert isinstance(long, Fitted) and len(long.name) == 1 and long.name_size < 1.7 * long.size


def test_a_label_of_just_its_height_holds_its_text() -> None:
    """Lines of 1.18 times the type, 1.4 mm round the rule under the head, and 0.8 between list and foot."""
    said = words("oil, " * 120)
    made = fit(said, 80, 50, "eu")
    assert isinstance(made, Fitted)
    least = high(replace(made, name_size=1.7 * made.size)) + 1.4 + 0.8 + 2 * made.padding
    at_least = fit(said, 80, least + 0.01, "eu")
    assert isinstance(at_least, Fitted) and at_least.size == made.size
    less = fit(said, 80, least - 0.01, "eu")
    assert isinstance(less, Fitted) and less.size < made.size


def test_the_lot_shares_the_line_of_the_net_weight_where_there_is_room() -> None:
    said = words("Sodium Olivate")
    broad, narrow = fit(said, 90, 45, "eu"), fit(said, 52, 45, "eu")
    assert isinstance(broad, Fitted) and broad.lot_beside
    assert isinstance(narrow, Fitted) and not narrow.lot_beside
    assert broad.foot < narrow.foot
    named = fit(replace(said, lot="Lot A", names_lot=True), 52, 45, "eu")
    assert isinstance(named, Fitted) and named.lot_beside, "no line to write on is needed"


def test_no_line_ends_between_a_number_and_its_unit() -> None:
    made = fit(replace(words("Aqua"), net_weight="Net weight 100\u00a0g ·\u00a03.5\u00a0oz"), 24, 60, "eu")
    assert isinstance(made, Fitted)
    assert len(made.net_weight) > 1
    assert not any(line.endswith(("100", "3.5")) for line in made.net_weight)


def test_what_room_is_left_goes_to_the_picture() -> None:
    low, tall = (fit(words("oil, " * 60), 80, h, "eu", Beside(picture=24)) for h in (36, 90))
    assert isinstance(low, Fitted) and isinstance(tall, Fitted)
    assert low.head < tall.head == 16.2


def test_why_it_does_not_fit_is_said_in_figures() -> None:
    made = fit(words("oil, " * 400), 60, 30, "eu")
    assert isinstance(made, Misfit)
    assert made.why.startswith("at the smallest type allowed, 7.00 pt, its text is ")
    assert made.why.endswith(" mm high and the label has room for 25.8 mm")


def test_a_letter_the_font_lacks_is_as_wide_as_its_box() -> None:
    assert face(REGULAR).width("\ue123") == face(REGULAR).missing > 0


def test_room_is_kept_for_what_measuring_does_not_see() -> None:
    """A word that fits to the very edge is refused: one part in a hundred is kept free."""
    word = "m" * 20
    wide = face(REGULAR).width(word) * 7.0 * POINT
    padding = 2.5
    assert isinstance(fit(words(word), wide * 1.005 + 2 * padding, 100, "eu"), Misfit)
    assert isinstance(fit(words(word), wide * 1.02 + 2 * padding, 100, "eu"), Fitted)
