"""A book of which nothing is kept is looked at by several processes, and found as one process finds it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from saponary.assets.spread import FEW
from saponary.assets.store import DiskStore
from saponary.build.proof import Proof, prove
from saponary.build.site import build
from saponary.schema.edition import STANDARD
from support import PLAIN

ODD = {
    "scraps": PLAIN.replace(
        "superfat: 5 %\n", "superfat: 5 %\nadditions:\n  - {what: odds, amount: 50 g, at: pour}\n", 1
    ),
    "faulty": PLAIN.replace("superfat: 5 %", "superfat: five", 1),
    "claims": PLAIN.replace("A plain bar.", "A plain bar that heals eczema. It has {lye}."),
    "no-photo": PLAIN.replace("superfat: 5 %\n", "superfat: 5 %\nphoto: {file: none.jpg, alt: None}\n", 1),
    "batches": PLAIN,
}


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    root = tmp_path_factory.mktemp("looked")
    for folder in ("recipes", "batches"):
        (root / folder).mkdir()
    (root / "book.yaml").write_text("title: A Small Book\n", encoding="utf-8")
    (root / "pantry.yaml").write_text("scraps: {odds: {of: plain-1}}\n", encoding="utf-8")
    plain = {f"plain-{n}": PLAIN.replace("Plain Bar", f"Plain Bar {n}") for n in range(FEW)}
    for slug, text in (plain | ODD).items():
        (root / f"recipes/{slug}.md").write_text(text, encoding="utf-8")
    (root / "batches/batches.yaml").write_text(
        "batches:\n  - {lot: B-1, poured: 2026-03-02}\n  - {lot: B-1, poured: no}\n"
    )
    (root / "batches/plain-2.yaml").write_text("batches:\n  - {lot: P-1, poured: 2026-03-02}\n")
    return root


def told(proof: Proof) -> object:
    recipes = [
        (one.slug, one.identity, one.facts, one.findings, one.computed.figures) for one in proof.recipes
    ]
    return proof.findings, recipes, proof.left.recipes


def test_several_processes_find_what_one_finds(book: Path) -> None:
    alone, together = prove(book, workers=1), prove(book, workers=2)
    assert told(together) == told(alone)
    assert {"claims", "plain-2"} <= together.left.recipes.keys() and together.failed
    assert together.recipes[-1].computed.notes == alone.recipes[-1].computed.notes


@pytest.mark.slow
def test_several_processes_write_what_one_writes(book: Path, tmp_path: Path) -> None:
    sites: list[dict[Path, bytes]] = []
    for workers in (1, 3):
        root = tmp_path / str(workers)
        root.mkdir()
        for folder in ("recipes", "batches"):
            (root / folder).mkdir()
        for path in book.rglob("*.*"):
            if (
                path.stem not in ("faulty", "batches", "no-photo", "claims", "book")
                or path.name == "pantry.yaml"
            ):
                (root / path.relative_to(book)).write_bytes(path.read_bytes())
        proof = prove(root, DiskStore(root / ".cache"), workers)
        assert not proof.failed, proof.findings
        build(proof, date(2026, 6, 1), [STANDARD["public"], STANDARD["maker"]], workers=workers)
        sites.append(
            {
                path.relative_to(root): path.read_bytes()
                for folder in ("site", "private")
                for path in (root / folder).rglob("*")
                if path.is_file()
            }
        )
    assert sites[0] == sites[1] and len(sites[0]) > 100
