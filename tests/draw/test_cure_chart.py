"""The cure picture: well-formed, accessible, honest about what it leaves out."""

from __future__ import annotations

import re
from math import exp
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from saponary.draw.charts.cure import cure_chart
from saponary.lye.cure.fit import CureFit, NoFit, Reason, fit_cure
from saponary.messages.speaker import speaker

SVG = "{http://www.w3.org/2000/svg}"
Points = list[tuple[float, float]]
SEVEN: Points = [(0, 120.0), (7, 115.8), (14, 112.4), (21, 110.3), (28, 108.7), (42, 106.5), (56, 105.6)]
FOUR: Points = [(0, 121.4), (7, 114.9), (14, 111.2), (28, 107.6)]
THREE: Points = [(0, 120.0), (14, 112.0), (28, 108.0)]
ODD: Points = [*SEVEN[:3], (21, 115.3), *SEVEN[4:]]
SERIES: dict[str, Points] = {
    "seven": SEVEN,
    "four": FOUR,
    "three": THREE,
    "odd": ODD,
    "rising": [(0, 100.0), (7, 101.0), (14, 103.0)],
    "level": [(0, 100.0), (7, 100.0), (14, 100.0)],
    "none": [],
    "heavy": [(d, g * 40) for d, g in SEVEN],
    "dry": [(d, 104 + 0.4 * exp(-0.05 * (d - 60))) for d in (60.0, 67.0, 74.0, 95.0)],
    "slow": [(d, 100 + 20 * exp(-0.012 * d)) for d in (0.0, 7.0, 14.0, 21.0, 28.0)],
}


def drawn(points: Points, title: str = "Cure", prefix: str = "c1") -> ElementTree.Element:
    return ElementTree.fromstring(cure_chart(points, fit_cure(points), title, prefix, speaker()))


def words(root: ElementTree.Element) -> str:
    return " ".join("".join(e.itertext()) for e in root.iter(f"{SVG}text")).replace("\u00a0", " ")


def description(root: ElementTree.Element) -> str:
    found = root.find(f"{SVG}desc")
    assert found is not None and found.text
    return found.text.replace("\u00a0", " ")


@pytest.mark.parametrize("name", SERIES)
def test_every_picture_is_named_and_self_contained(name: str) -> None:
    # Source: WAI-ARIA's img role with title and description; SVG 2 for ids and references.
    markup = cure_chart(SERIES[name], fit_cure(SERIES[name]), "Cure of lot 1", "lot-1", speaker())
    root = ElementTree.fromstring(markup)
    assert root.get("role") == "img"
    ids = [e.get("id") for e in root.iter() if e.get("id")]
    assert len(ids) == len(set(ids)) and all(i and i.startswith("lot-1-") for i in ids)
    assert set((root.get("aria-labelledby") or "").split()) <= set(ids)
    assert set(re.findall(r"url\(#([^)]+)\)", markup)) <= set(ids)
    assert root.findtext(f"{SVG}title") == "Cure of lot 1"
    tags = {e.tag.removeprefix(SVG) for e in root.iter()}
    assert not tags & {"script", "style", "image", "foreignObject", "a", "use"}
    assert not re.search(r"href|style=|\son\w+=", markup)
    assert markup.count("http") == 1
    assert "nan" not in markup and "inf" not in markup
    assert markup == cure_chart(SERIES[name], fit_cure(SERIES[name]), "Cure of lot 1", "lot-1", speaker())


@pytest.mark.parametrize("name", SERIES)
def test_nothing_lies_outside(name: str) -> None:
    # Source: the picture's own view box; letters taken at half their height's width.
    root = drawn(SERIES[name])
    _, _, width, height = map(float, (root.get("viewBox") or "").split())
    for text in root.iter(f"{SVG}text"):
        x, y = float(text.get("x") or 0), float(text.get("y") or 0)
        assert 0 <= x <= width and 10 <= y <= height - 4
        if text.get("text-anchor") is None and text.text:
            assert x + 7 * len(text.text) <= width + 14
    for dot in root.iter(f"{SVG}circle"):
        assert 0 < float(dot.get("cx") or 0) < width
        assert 0 < float(dot.get("cy") or 0) < height


def test_ink_is_the_pages_own() -> None:
    # Source: two inks only, the page's text and its accent with a fallback.
    markup = cure_chart(SEVEN, fit_cure(SEVEN), "Cure", "c", speaker())
    inks = set(re.findall(r'(?:fill|stroke)="([^"]+)"', markup))
    assert inks == {"currentColor", "none", "var(--accent, #8a4b2d)", "url(#c-hatch)"}


def test_letters_stay_legible_on_a_small_screen() -> None:
    # Source: 12 pixels as the least size, on a screen 320 pixels wide.
    root = drawn(SEVEN)
    width = float((root.get("viewBox") or "0 0 0 0").split()[2])
    assert float(root.get("font-size") or 0) * 320 / width >= 12


def test_points_and_words() -> None:
    # Source: the weighings themselves.
    root = drawn(SEVEN)
    assert len(list(root.iter(f"{SVG}circle"))) == len(SEVEN) + 1  # and one in the key
    said = description(root)
    for day, grams in SEVEN:
        assert f"day {day:.0f}, {grams:.1f} g" in said
    assert "Dry about day 49" in said and "dry about day 49" in words(root)
    assert "days after pouring" in words(root) and "grams" in words(root)


def test_points_lie_on_a_scale_that_the_ticks_tell() -> None:
    # Source: two ticks of each axis fix its scale, and a point read off by it is the weighing.
    root = drawn(SEVEN)
    ticks = [t for g in root.iter(f"{SVG}g") if g.get("text-anchor") == "end" for t in g]
    (y0, g0), (y1, g1) = [(float(t.get("y") or 0) - 5, float(t.text or 0)) for t in (ticks[0], ticks[-1])]
    marks = [t for g in root.iter(f"{SVG}g") if g.get("text-anchor") == "middle" for t in g][:-1]
    (x0, d0), (x1, d1) = [(float(t.get("x") or 0), float(t.text or 0)) for t in (marks[0], marks[-1])]
    dots = list(root.iter(f"{SVG}circle"))[: len(SEVEN)]
    for dot, (day, grams) in zip(dots, SEVEN, strict=True):
        x, y = float(dot.get("cx") or 0), float(dot.get("cy") or 0)
        assert d0 + (x - x0) * (d1 - d0) / (x1 - x0) == pytest.approx(day, abs=0.1)
        assert g0 + (y - y0) * (g1 - g0) / (y1 - y0) == pytest.approx(grams, abs=0.05)


def test_a_left_out_weighing_is_shown_and_named() -> None:
    # Source: the falsified weighing of day 21.
    root = drawn(ODD)
    assert len(list(root.iter(f"{SVG}circle"))) == len(ODD)  # one fewer, and one in the key
    assert "left out as doubtful: day 21" in words(root)
    assert "Left out as doubtful: day 21, 115.3 g where the others give" in description(root)


def test_three_weighings_show_no_band() -> None:
    # Source: three weighings leave nothing to judge the curve by.
    markup = cure_chart(THREE, fit_cure(THREE), "Cure", "c", speaker())
    assert "hatch" not in markup and "only three" in markup
    assert "hatch" in cure_chart(FOUR, fit_cure(FOUR), "Cure", "c", speaker())


@pytest.mark.parametrize("reason", list(Reason))
def test_without_a_fit_the_reason_is_told_and_no_curve_drawn(reason: Reason) -> None:
    # Source: the reason's own sentence.
    root = ElementTree.fromstring(cure_chart(FOUR, NoFit(reason), "Cure", "c", speaker()))
    assert reason.value in words(root) and reason.value in description(root)
    assert all(e.get("stroke") != "var(--accent, #8a4b2d)" for e in root.iter())
    assert "dry about" not in words(root)


def test_hostile_text_stays_text() -> None:
    # Source: XML 1.0, characters and escapes.
    title = 'A & B <script>"x"</script> \x00\x1b\ud800 ]]>'
    markup = cure_chart(SEVEN, fit_cure(SEVEN), title, 'p" onload="x', speaker())
    root = ElementTree.fromstring(markup.encode())
    assert "<script" not in markup and root.get("onload") is None
    assert (root.findtext(f"{SVG}title") or "").startswith('A & B <script>"x"</script>')


def test_weights_that_are_none_are_not_drawn() -> None:
    # Source: no place on a scale for them.
    points: Points = [(0, 120.0), (7, float("nan")), (14, float("inf"))]
    assert len(list(drawn(points).iter(f"{SVG}circle"))) == 2


@settings(deadline=None, max_examples=40)
@given(st.lists(st.tuples(st.integers(0, 2000), st.floats(0.01, 50000)), max_size=8))
def test_any_weighings_make_a_picture(points: list[tuple[int, float]]) -> None:
    # Source: a picture is well-formed, whatever was weighed.
    fit = fit_cure(points)
    root = ElementTree.fromstring(cure_chart(points, fit, "Cure", "c", speaker()))
    assert "nan" not in ElementTree.tostring(root, encoding="unicode")
    if isinstance(fit, CureFit):
        assert "dry " in words(root).lower()
