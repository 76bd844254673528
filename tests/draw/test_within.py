"""An embed that was cut from another soap shows that soap's face."""

from __future__ import annotations

import re
from dataclasses import replace
from xml.etree import ElementTree

from draw.pour_scenes import FACES, scene
from saponary.draw.pour import DrawnPortion, Scene, Shade
from saponary.draw.pour.drawing import draw_pair
from saponary.messages.speaker import speaker
from saponary.schema.edition import STANDARD
from saponary.views.drawings import Drawings
from saponary.views.for_edition import Unpublished, for_edition
from support import proof_of

POUR = [
    {"beds": [{"of": "chalk"}]},
    {"embeds": {"of": "clear", "shape": "round", "across": "20 mm", "count": 2}},
]
INNER = (
    DrawnPortion("one", 0.5, Shade("#112233", "#445566")),
    DrawnPortion("two", 0.5, Shade("#778899", "#aabbcc")),
)


def with_face(face: Scene | None) -> Scene:
    outer = scene(POUR, FACES["loaf"])
    return replace(outer, extras=tuple(replace(e, face=face) if e.id == "clear" else e for e in outer.extras))


def test_its_face_is_seen_as_it_is_on_each_day() -> None:
    inner = scene([{"beds": [{"of": "one"}, {"of": "two"}]}], FACES["loaf"], portions=INNER)
    drawn = draw_pair(with_face(inner), "x", speaker())
    for svg, shown, hidden in (
        (drawn.fresh_svg, ("#112233", "#778899"), ("#445566", "#aabbcc")),
        (drawn.cured_svg, ("#445566", "#aabbcc"), ("#112233", "#778899")),
    ):
        page = ElementTree.fromstring(svg)
        ids = [e.get("id") for e in page.iter() if e.get("id")]
        assert len(ids) == len(set(ids))
        clipped = [g for g in page.iter() if "embed" in (g.get("clip-path") or "")]
        assert len(clipped) == 2 and {(g.get("clip-path") or "")[5:-1] for g in clipped} <= set(ids)
        for group in clipped:
            assert {e.get("fill") for e in group.iter() if e.get("fill")} == set(shown)
        assert not any(colour in svg for colour in hidden)
    (entry,) = [one for one in drawn.legend if one.role == "embed"]
    assert (
        "#112233" in entry.fresh_swatch
        and "#aabbcc" in entry.cured_swatch
        and "id=" not in entry.fresh_swatch
    )


def test_one_that_was_cut_from_nothing_known_is_of_one_colour() -> None:
    drawn = draw_pair(with_face(None), "x", speaker())
    assert "-embed-" not in drawn.fresh_svg


def test_the_window_of_the_demo_book_is_the_bar_that_it_was_cut_from() -> None:
    proof = proof_of("demo")
    site = for_edition(Unpublished(proof.book, proof.recipes, "1", "t"), STANDARD["public"])
    drawings, by = Drawings(site), {recipe.slug: recipe for recipe in site.recipes}
    window = drawings.of(by["keepers-spare-wick"])
    cut_from = drawings.of(by["quarry-strata"])
    for face, whole in ((window.fresh_svg, cut_from.fresh_svg), (window.cured_svg, cut_from.cured_svg)):
        (group,) = re.findall(r'<g clip-path="url\(#[^)]*-embed-0\)">.*?</g>', face)
        colours = set(re.findall(r'fill="(#[0-9a-f]{6})"', group))
        assert len(colours) == 3 and all(f'fill="{colour}"' in whole for colour in colours)
