"""After any two edits the site, the findings and the folders are those of a book that was never built before."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
from contextlib import suppress
from datetime import date
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from saponary.assets.store import FOLDER, DiskStore
from saponary.build.proof import prove
from saponary.build.site import build
from saponary.reading.findings import Finding, errors
from saponary.schema.edition import editions
from support import REPOSITORY
from whole.edits import BOOK, EDITS, Files

ON = date(2026, 3, 20)
EDITIONS = ("public", "maker")
SOURCES = {name.partition("/")[0] for name in BOOK}

Built = tuple[tuple[Finding, ...], dict[str, bytes]]


def write(root: Path, files: Files) -> None:
    """Make a book's sources these, and touch nothing else and nothing that is as it was."""
    for path in [path for top in SOURCES for path in (root / top).rglob("*") if path.is_file()]:
        if path.relative_to(root).as_posix() not in files:
            path.unlink()
    for name, data in files.items():
        path = root / name
        if not path.is_file() or path.read_bytes() != data:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
    for top in SOURCES:
        for folder in sorted((p for p in (root / top).rglob("*") if p.is_dir()), reverse=True):
            if not any(folder.iterdir()):
                folder.rmdir()


def built(root: Path, workers: int) -> Built:
    """A build as a new process would make it: what it found, and all that it wrote."""
    proof = prove(root, DiskStore(root / FOLDER), workers)
    assert errors(proof.findings) == []
    build(proof, ON, [editions({})[name] for name in EDITIONS], workers=workers)
    return proof.findings, wrote(root)


def wrote(root: Path) -> dict[str, bytes]:
    """All that builds wrote into a book's folder, by path."""
    found = [path for top in ("site", "private") for path in (root / top).rglob("*") if path.is_file()]
    return {path.relative_to(root).as_posix(): path.read_bytes() for path in found}


@cache
def clean(state: tuple[tuple[str, bytes], ...]) -> Built:
    """The same from nothing: another folder with an empty store, one worker."""
    with TemporaryDirectory() as folder:
        write(Path(folder), dict(state))
        return built(Path(folder), 1)


def edited(*names: str) -> Files:
    files = dict(BOOK)
    for name in names:
        EDITS[name](files)
    return files


def as_from_nothing(made: Built, files: Files) -> None:
    """Hold what was built to what is built of the same files in another folder, with nothing kept."""
    wanted = clean(tuple(sorted(files.items())))
    assert made[0] == wanted[0]
    assert made[1].keys() == wanted[1].keys()
    assert {path for path, data in made[1].items() if data != wanted[1][path]} == set()


FEW = (
    "change recipe",
    "rename photo",
    "change pantry",
    "delete batch",
    "rename template",
    "delete recipe",
    "add setting",
)


def test_edits_of_every_kind_at_once(tmp_path: Path) -> None:
    """One step; every pair of steps is below."""
    for files in (edited(), edited(*FEW)):
        write(tmp_path, files)
        made = built(tmp_path, 1)
    as_from_nothing(made, edited(*FEW))


def test_every_edit_changes_the_book() -> None:
    assert {name for name in EDITS if edited(name) == BOOK} == set()
    assert {tuple(name.split()) for name in EDITS} == {
        (how, what)
        for how in ("add", "change", "rename", "delete")
        for what in ("recipe", "batch", "photo", "template", "pantry", "setting", "class")
    }


@pytest.mark.slow
@pytest.mark.parametrize("first", EDITS)
def test_every_ordered_pair_of_edits(first: str, tmp_path: Path) -> None:
    """Each second edit is made on the first, with what the build before it left behind, by one worker or three."""
    for workers in (1, 3):
        root = tmp_path / str(workers)
        root.mkdir()
        seconds = [name for n, name in enumerate(EDITS) if name != first and (workers == 1 or n % 4 == 0)]
        for files in (edited(first), *(edited(first, second) for second in seconds)):
            write(root, files)
            as_from_nothing(built(root, workers), files)
        shutil.rmtree(root)


@pytest.mark.slow
@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="the one-step exchange is Linux's")
def test_after_a_build_that_was_killed_the_next_is_right(tmp_path: Path) -> None:
    """Killed at any instant, the store and the record of the last run included."""
    write(tmp_path, edited())
    asked = [word for name in EDITIONS for word in ("--edition", name)]
    day = ["--on", ON.isoformat()]
    command = [sys.executable, "-m", "saponary", "build", str(tmp_path), *day, *asked]
    environment = {**os.environ, "PYTHONPATH": str(REPOSITORY / "generator")}
    done = list(FEW)
    for round_ in range(16):
        write(tmp_path, edited(*done[: round_ % len(done)]))
        child = subprocess.Popen(
            command, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        with suppress(subprocess.TimeoutExpired):
            child.wait(0.2 + 0.15 * round_)
        child.send_signal(signal.SIGKILL)
        child.wait()
    files = edited(*FEW)
    write(tmp_path, files)
    for _ in range(2):
        subprocess.run(command, env=environment, check=True, capture_output=True)
        assert wrote(tmp_path) == clean(tuple(sorted(files.items())))[1]
