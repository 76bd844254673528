"""`saponary begin FOLDER`."""

from __future__ import annotations

import argparse
from pathlib import Path

from saponary.build.begin import Occupied, begin
from saponary.cli.command import CLEAN, Misuse


def arguments(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("folder", type=Path)


def run(given: argparse.Namespace) -> int:
    try:
        written = begin(given.folder)
    except Occupied as occupied:
        raise Misuse(f"{occupied} is there already; nothing was written") from occupied
    print(f"{given.folder}: a new book of {sum(p.suffix == '.md' for p in written)} recipes")
    print(f"next: saponary build {given.folder}")
    return CLEAN
