"""A drawing is drawn once for its scene, in this build and the next, and never shown for another."""

from __future__ import annotations

import json
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from saponary.assets.store import DiskStore, Key, Store
from saponary.draw.pour import PourDrawing
from saponary.schema.edition import PUBLIC, STANDARD
from saponary.views import drawings
from saponary.views.drawings import Drawings
from saponary.views.for_edition import Unpublished, for_edition
from saponary.views.site import SiteInput
from support import PLAIN, REPOSITORY, prove_one


def site(text: str = PLAIN) -> SiteInput:
    proof = prove_one(text)
    (one,) = proof.recipes
    return for_edition(Unpublished(proof.book, (one,), "engine", "tables"), STANDARD[PUBLIC])


def drawn(site: SiteInput, store: Store | None = None) -> PourDrawing:
    (one,) = site.recipes
    return Drawings(site, store).of(one)


def refuse(*_: object) -> None:
    raise AssertionError("drawn again in spite of the store")


def test_the_next_build_draws_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first = drawn(site(), DiskStore(tmp_path))
    monkeypatch.setattr("saponary.draw.pour.drawing.draw_pair", refuse)
    assert drawn(site(), DiskStore(tmp_path)) == first


def test_another_scene_is_another_drawing(tmp_path: Path) -> None:
    store, one = DiskStore(tmp_path), site()
    other = site(PLAIN.replace("Plain Bar", "Another Bar"))
    (recipe,) = one.recipes
    renamed = replace(one, recipes=(replace(recipe, slug="other"),))
    kept = [drawn(each, store).fresh_svg for each in (one, other, renamed)]
    assert len(set(kept)) == 3
    assert kept == [drawn(each).fresh_svg for each in (one, other, renamed)]


@pytest.mark.parametrize("kept", [b"", b"[]", b'{"fresh_svg": "<svg/>"}', b"\x80\x04K\x01."])
def test_what_is_no_drawing_is_drawn_again(kept: bytes, tmp_path: Path) -> None:
    store, one = DiskStore(tmp_path), site()
    first = drawn(one, store)
    (entry,) = (tmp_path / "drawing").iterdir()
    store.keep(Key("drawing", entry.name), kept)
    assert drawn(one, store) == first


def test_all_code_that_draws_is_in_the_key() -> None:
    run = subprocess.run(
        [
            sys.executable,
            "-c",
            "import sys, json, saponary.draw.pour; print(json.dumps(sorted(sys.modules)))",
        ],
        env={"PYTHONPATH": str(REPOSITORY / "generator")},
        capture_output=True,
        text=True,
        check=True,
    )
    used = {name.split(".")[1] for name in json.loads(run.stdout) if name.startswith("saponary.")}
    assert used <= {room.partition("/")[0] for room in drawings.DRAWING.rooms}


@pytest.mark.slow
def test_what_draws_is_imported_only_where_something_is_drawn() -> None:
    """In a process of its own, for the tests have imported it."""
    program = (
        "import sys, saponary.build.site, saponary.views.drawings;"
        "sys.exit(bool({'numpy', 'shapely'} & set(sys.modules)))"
    )
    assert subprocess.run([sys.executable, "-c", program], check=False).returncode == 0
