"""A share of every harness: nothing lost, broken, leaked or raised. The whole: `python tests/harnesses/run.py`."""

from __future__ import annotations

import random
import shutil
import sys
from pathlib import Path

import pytest

from harnesses import fuzz, kills, links, markers, merges, noise, pairs, sheets, spellings, stopped, writers
from harnesses.harness import Harness
from saponary.cli.main import COMMANDS

LINUX = pytest.mark.skipif(
    not sys.platform.startswith("linux"), reason="copies of a process, and the one-step exchange"
)


def scored(harness: Harness, folder: Path) -> None:
    score = harness.run(folder, random.Random(7), harness.share)
    assert score.tries and not score.wrong, score.faults


@LINUX
@pytest.mark.slow
@pytest.mark.parametrize(
    "harness",
    [
        *writers.HARNESSES,
        *pairs.HARNESSES,
        *kills.HARNESSES,
        *stopped.HARNESSES,
        *noise.HARNESSES,
        *links.HARNESSES,
        markers.HARNESSES[0],
    ],
    ids=lambda one: one.name,
)
def test_commands(harness: Harness, tmp_path: Path) -> None:
    scored(harness, tmp_path)


@pytest.mark.slow
@pytest.mark.parametrize(
    "harness",
    [*fuzz.HARNESSES, *merges.HARNESSES, *sheets.HARNESSES],
    ids=lambda one: one.name,
)
def test_files(harness: Harness, tmp_path: Path) -> None:
    scored(harness, tmp_path)


@pytest.mark.parametrize("harness", spellings.HARNESSES, ids=lambda one: one.name)
def test_texts(harness: Harness, tmp_path: Path) -> None:
    scored(harness, tmp_path)


def test_every_command_is_in_the_harness_of_pairs_or_writes_nothing() -> None:
    named = {one.name.split()[0] for one in pairs.COMMANDS}
    assert named | pairs.READS == {one.name for one in COMMANDS} and not named & pairs.READS


@pytest.mark.browser
@pytest.mark.skipif(shutil.which("chromium") is None, reason="needs Chromium")
def test_scripts(tmp_path: Path) -> None:
    scored(markers.HARNESSES[1], tmp_path)
