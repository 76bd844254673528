"""A label too small for all its text: two for each bar, which together say what one would; never type too small."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from saponary.label.fit import LabelText, Misfit, fit, smallest
from saponary.label.fold import Folded, enough, fold
from saponary.label.measure import POINT, REGULAR, face

LISTED = ", ".join(["Sodium Olivate", "Aqua", "Glycerin", "Sodium Cocoate", "Kaolin"] * 5)


def words(listed: str) -> LabelText:
    return LabelText(
        "A Bar", "soap", listed, "Keep out of eyes.", "100 g", "Lot", "Somebody", facts="Made in Ruritania."
    )


def said(made: Folded) -> list[str]:
    """Every word on the labels of a bar but the name, which stands on both."""
    both = [made.first] if made.second is None else [made.first, made.second]
    runs = [
        run
        for one in both
        for run in (one.ingredients, one.caution, one.net_weight, one.lot, one.maker, one.facts)
    ]
    return sorted(" ".join(run) for run in runs if run)


def test_a_label_with_room_is_alone() -> None:
    assert fold(words(LISTED), 92, 56, "eu") == Folded(fit(words(LISTED), 92, 56, "eu"))  # type: ignore[arg-type]


def test_a_list_without_room_stands_on_a_second_label_under_the_name() -> None:
    made = fold(words(LISTED), 63.5, 30, "eu")
    assert isinstance(fit(words(LISTED), 63.5, 30, "eu"), Misfit)
    assert isinstance(made, Folded) and made.second is not None
    assert made.first.name == ("A Bar",) and made.second.kind == ("A Bar",)
    assert not made.first.ingredients and " ".join(made.second.ingredients) == LISTED
    assert made.first.caution and not made.second.caution
    assert not made.second.foot


@given(st.integers(1, 60), st.floats(25, 110), st.floats(14, 70), st.sampled_from(["eu", "gb", "us"]))
def test_nothing_is_left_out_and_no_type_is_too_small(
    count: int, width: float, height: float, law: str
) -> None:
    text = words(", ".join(["Sodium Olivate"] * count))
    made = fold(text, width, height, law)
    if isinstance(made, Misfit):
        return
    wanted = [text.ingredients, text.caution, text.net_weight, text.lot, text.maker, text.facts]
    assert said(made) == sorted(wanted)
    for one in (made.first, made.second):
        if one is not None:
            assert one.size * POINT * face(REGULAR).x_height >= smallest(law) - 1e-9
            assert one.high <= height - 2 * one.padding


@pytest.mark.parametrize(("width", "height"), [(63.5, 20.0), (20.0, 60.0), (30.0, 12.0)])
@pytest.mark.parametrize("law", ["eu", "us"])
def test_the_least_label_that_would_do_does(width: float, height: float, law: str) -> None:
    text = words(LISTED)
    assert isinstance(fold(text, width, height, law), Misfit)
    least = enough(text, width, height, law)
    assert least is not None
    assert isinstance(fold(text, *least, law), Folded)
    assert least[0] >= width and least[1] >= height
    if least[0] - width < 1:
        assert isinstance(fold(text, least[0], least[1] - 1, law), Misfit)


def test_of_what_no_label_holds_none_is_named() -> None:
    assert enough(words("x" * 900), 60, 30, "eu") is None
