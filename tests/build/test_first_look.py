"""A book of which nothing is kept is looked at by several processes, and found as one process finds it."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest

from saponary.assets.spread import FEW
from saponary.assets.store import DiskStore
from saponary.book.published import published
from saponary.build.glimpse import Asked
from saponary.build.proof import Proof, prove
from saponary.build.site import build
from saponary.schema.edition import STANDARD
from support import PLAIN

ON = date(2026, 6, 1)
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


@pytest.fixture(scope="module")
def together(book: Path) -> Proof:
    """Looked at by two processes, for two editions."""
    return prove(book, workers=2, asked=Asked(["public", "maker"], ON))


def test_several_processes_find_what_one_finds(book: Path, together: Proof) -> None:
    alone = prove(book, workers=1)
    assert told(together) == told(alone)
    assert {"claims", "plain-2"} <= together.left.recipes.keys() and together.failed
    assert together.recipes[-1].computed.notes == alone.recipes[-1].computed.notes


@pytest.mark.parametrize("name", ["public", "maker"])
def test_what_is_seen_at_a_first_look_is_what_an_edition_shows(name: str, together: Proof) -> None:
    edition = STANDARD[name]
    seen = together.glimpses.of(edition, ON)
    assert {"claims", "plain-2"} <= seen.keys() and not {"scraps", "faulty"} & seen.keys()
    shown = {one.slug: published(one, edition, ON).glance for one in together.recipes if one.slug in seen}
    assert seen == shown and seen["plain-2"].lots == (("P-1", date(2026, 3, 2)),)
    assert not together.glimpses.of(edition, ON + timedelta(1))


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
        proof = prove(root, DiskStore(root / ".cache"), workers, asked=Asked(["public", "maker"], ON))
        assert not proof.failed, proof.findings
        build(proof, ON, [STANDARD["public"], STANDARD["maker"]], workers=workers)
        sites.append(
            {
                path.relative_to(root): path.read_bytes()
                for folder in ("site", "private")
                for path in (root / folder).rglob("*")
                if path.is_file()
            }
        )
    assert sites[0] == sites[1] and len(sites[0]) > 100
