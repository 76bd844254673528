"""Rows of a page are made again where what they rest on has changed, and are those that would be made anew."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from composed import composed
from saponary.assets.store import DiskStore
from saponary.book.published import Published
from saponary.outputs.figures_json import figures_index, figures_rows, site_object
from saponary.outputs.rests_on import Rests
from saponary.outputs.rows import Rows
from saponary.schema.edition import STANDARD
from saponary.views.for_edition import Unpublished, for_edition
from saponary.views.site import SiteInput
from support import PLAIN, prove_one


@pytest.fixture(scope="module")
def site() -> SiteInput:
    proof = prove_one(PLAIN)
    return for_edition(Unpublished(proof.book, proof.recipes, "engine", "tables"), STANDARD["public"])


def alone(slug: str) -> tuple[str, ...]:
    return (slug,)


def rows(store: Path, of: str, made: list[str], site: SiteInput) -> list[str]:
    def make(recipe: Published) -> str:
        made.append(recipe.slug)
        return f"{recipe.slug} of {of}"

    return (
        Rows("public", DiskStore(store), lambda name: f"{name} {of}")
        .of("tried", site.recipes, Rests((), alone), make)
        .found()
    )


def test_a_row_is_made_once_for_what_it_rests_on(tmp_path: Path, site: SiteInput) -> None:
    made: list[str] = []
    assert [rows(tmp_path, of, made, site) for of in ("a", "a", "b", "b")] == [
        ["tried of a"],
        ["tried of a"],
        ["tried of b"],
        ["tried of b"],
    ]
    assert made == ["tried", "tried"]


def test_the_list_leads_to_the_figures_of_each_recipe(site: SiteInput) -> None:
    listed, files = json.loads(figures_index(site, figures_rows(site, Rows()).found())), composed(site)
    (whole,) = site_object(site)["recipes"]
    (one,) = listed["recipes"]
    assert listed | {"recipes": [whole]} == site_object(site)
    assert json.loads(files[one["address"]]) == json.loads(json.dumps(whole))
    assert {name: whole[name] for name in ("slug", "title", "status")}.items() <= one.items()
    assert json.loads(files["figures.json"]) == listed
