"""The pour drawing as SVG: the same bytes everywhere, safe, self-contained and readable."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest

import saponary
from draw.pour_scenes import EVERYTHING, SVG, painted, scene
from saponary.draw.pour import DrawnPortion, Face, Shade
from saponary.draw.pour.drawing import draw_pair
from saponary.draw.pour.layout import lay_out
from saponary.draw.pour.tiles import TILES, pattern
from saponary.messages.speaker import speaker
from saponary.quantity.contrast import contrast, luminance


@pytest.mark.slow
def test_the_same_bytes_in_another_process() -> None:
    here = draw_pair(scene(EVERYTHING), "one", speaker())
    assert here == draw_pair(scene(EVERYTHING), "one", speaker())
    program = (
        "import sys; sys.path[:0] = sys.argv[1].split('|')\n"
        "from draw import pour_scenes as t\n"
        "from saponary.draw.pour.drawing import draw_pair\n"
        "sys.stdout.write(draw_pair(t.scene(t.EVERYTHING), 'one', t.speaker()).fresh_svg)"
    )
    paths = "|".join([str(Path(__file__).parents[1]), str(Path(saponary.__file__).parents[1])])
    for seed in ("0", "77"):
        environment = {**os.environ, "PYTHONHASHSEED": seed}
        run = subprocess.run(
            [sys.executable, "-c", program, paths],
            capture_output=True,
            text=True,
            env=environment,
            check=True,
        )
        assert run.stdout == here.fresh_svg


def test_the_pair_has_one_geometry() -> None:
    pair = draw_pair(scene(EVERYTHING), "one", speaker())

    def outlines(svg: str) -> list[str]:
        return re.findall(r' d="([^"]*)"', svg)

    def colourless(svg: str) -> str:
        return re.sub(r"#[0-9a-f]{6}", "", svg)

    assert outlines(pair.fresh_svg) == outlines(pair.cured_svg)
    assert colourless(pair.fresh_svg) != pair.fresh_svg
    assert "#a4503c" in pair.fresh_svg
    assert "#a4503c" not in pair.cured_svg
    assert "#b98f86" in pair.cured_svg


@pytest.mark.slow
def test_ids_are_unique_and_every_reference_is_met() -> None:
    texts = []
    for prefix in ("recipe-1", "recipe-2"):
        pair = draw_pair(scene(EVERYTHING), prefix, speaker())
        texts += [pair.fresh_svg, pair.cured_svg]
        texts += [swatch for entry in pair.legend for swatch in (entry.fresh_swatch, entry.cured_swatch)]
    page = "".join(texts)
    ids = re.findall(r'\bid="([^"]*)"', page)
    assert len(ids) == len(set(ids))
    wanted = set(re.findall(r'href="#([^"]*)"', page)) | set(re.findall(r"url\(#([^)]*)\)", page))
    wanted |= {id for ids in re.findall(r'aria-labelledby="([^"]*)"', page) for id in ids.split()}
    assert wanted <= set(ids)
    assert wanted


def test_a_prefix_is_made_a_safe_id() -> None:
    svg = draw_pair(scene([]), '9 <"&', speaker()).fresh_svg
    ElementTree.fromstring(svg)
    assert all(re.fullmatch(r"[A-Za-z][A-Za-z0-9-]*", id) for id in re.findall(r'\bid="([^"]*)"', svg))


def test_the_svg_is_accessible_and_self_contained() -> None:
    pair = draw_pair(scene(EVERYTHING), "one", speaker())
    for svg, words in ((pair.fresh_svg, "as poured"), (pair.cured_svg, "as cured")):
        root = ElementTree.fromstring(svg)
        assert root.attrib["role"] == "img"
        title, described = root[0], root[1]
        assert (title.tag, described.tag) == (f"{SVG}title", f"{SVG}desc")
        assert title.text == f"Quarry Strata, {words}"
        assert described.text == pair.description
        assert root.attrib["aria-labelledby"].split() == [title.attrib["id"], described.attrib["id"]]
        names = {element.tag.removeprefix(SVG) for element in root.iter()}
        assert names <= {"svg", "title", "desc", "defs", "clipPath", "pattern", "g", "path", "use", "circle"}
        values = [value for element in root.iter() for value in element.attrib.values()]
        assert not any("://" in value or "javascript" in value for value in values)
        assert all(not key.startswith("on") and key != "style" for e in root.iter() for key in e.attrib)
        assert len(svg) < 60_000


@pytest.mark.slow
def test_the_words_tell_the_pour() -> None:
    words = draw_pair(scene(EVERYTHING), "one", speaker()).description
    assert words == (
        "The cut face of a bar, 90 by 70 mm. By volume: chalk 40 per cent, madder 27 per cent,"
        " woad 21 per cent and slate 12 per cent."
        " Beds from the bottom: chalk (sloping 4 degrees, rising to the right)."
        " A pencil line of cocoa powder over chalk. Dropped into chalk in 2 places: slate."
        " 2 star embeds of clear soap, 11 mm across. Spoonfuls in turn of madder and woad."
        " Swirled with a hanger, 2 passes. Top in peaks, sprinkled with rose petals."
    )


def test_names_are_escaped() -> None:
    odd = (
        DrawnPortion("a<b&c", 0.5, Shade("#aa8866", "#aa8866")),
        DrawnPortion('"><script>', 0.5, Shade("#446688", "#446688")),
    )
    pair = draw_pair(scene([], portions=odd, title="Salt & <b>Sand</b>"), "odd", speaker())
    root = ElementTree.fromstring(pair.fresh_svg)
    assert root[0].text == "Salt & <b>Sand</b>, as poured"
    assert "a<b&c" in (root[1].text or "")
    assert "<script>" not in pair.fresh_svg
    assert [entry.name for entry in pair.legend] == ["a<b&c", '"><script>']


def test_the_legend() -> None:
    pair = draw_pair(scene(EVERYTHING), "one", speaker())
    assert [(entry.role, entry.name, entry.share_percent) for entry in pair.legend] == [
        ("portion", "chalk", 40),
        ("portion", "madder", 27),
        ("portion", "woad", 21),
        ("portion", "slate", 12),
        ("line", "cocoa powder", None),
        ("embed", "clear soap", None),
        ("sprinkle", "rose petals", None),
    ]
    for entry in pair.legend:
        for swatch in (entry.fresh_swatch, entry.cured_swatch):
            assert ElementTree.fromstring(swatch).attrib["aria-hidden"] == "true"


def test_every_portion_has_its_own_pattern() -> None:
    made = [pattern(number, "#888888", "x") for number in range(2 * len(TILES))]
    assert len(set(made)) == len(made)
    assert len({tile.marks for tile in TILES}) == len(TILES) >= 12


@pytest.mark.parametrize(
    "shade", ["#ffffff", "#efe6d2", "#d29a3a", "#808080", "#a4503c", "#31465f", "#000000"]
)
def test_a_pattern_shows_quietly_on_every_shade(shade: str) -> None:
    found = re.search(r'(?:stroke|fill)="(#[0-9a-f]{6})"', pattern(0, shade, "x"))
    assert found is not None
    assert 1.25 <= contrast(found[1], shade) <= 1.75
    assert (luminance(found[1]) < luminance(shade)) == (luminance(shade) > 0.16)


def test_a_scene_needs_batter_and_a_face() -> None:
    with pytest.raises(ValueError, match="portion"):
        scene([], portions=())
    with pytest.raises(ValueError, match="portion"):
        scene([], portions=(DrawnPortion("none", 0.0, Shade("#888888", "#888888")),))
    with pytest.raises(ValueError, match="width"):
        scene([], Face("loaf", 0, 70))


def test_one_plain_batter() -> None:
    plain = (DrawnPortion("plain", 1.0, Shade("#efe0bd", "#f2e8cf")),)
    for written in (
        [],
        [{"plops": {"of": ["plain", "plain"]}}],
        [{"columns": {"of": ["plain", "plain"], "count": 5}}],
        [{"drops": {"into": "plain", "of": ["plain"], "count": 3}}],
    ):
        pour = scene(written, portions=plain)
        grid = painted(pour, "cured")
        assert set(np.unique(grid)) == {-1, 0xF2E8CF}
        inside = lay_out(pour).mould.outline.area
        # Every second row is counted; a drawing length is twenty units.
        assert 2 * (grid >= 0).sum() / 20**2 == pytest.approx(inside, rel=0.002)
