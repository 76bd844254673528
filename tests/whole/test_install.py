"""The package works from a wheel and from an editable install alike, from any folder."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from support import REPOSITORY

PARTS = ("generator", "templates", "recipes", "pyproject.toml", "README.md", "LICENSE")


def copy_of_the_source(folder: Path) -> Path:
    for part in PARTS:
        source = REPOSITORY / part
        if source.is_dir():
            shutil.copytree(source, folder / part, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            folder.mkdir(parents=True, exist_ok=True)
            shutil.copy(source, folder / part)
    return folder


@pytest.mark.slow
@pytest.mark.parametrize("how", ["wheel", "editable"])
def test_begin_and_build_after_install(how: str, tmp_path: Path) -> None:
    source = copy_of_the_source(tmp_path / "source")
    home = tmp_path / "venv"
    subprocess.run([sys.executable, "-m", "venv", str(home)], check=True)
    python = home / "bin" / "python"
    if how == "wheel":
        subprocess.run(
            [python, "-m", "pip", "-q", "wheel", "--no-deps", "-w", tmp_path / "dist", source], check=True
        )
        (what,) = (tmp_path / "dist").glob("*.whl")
        subprocess.run([python, "-m", "pip", "-q", "install", what], check=True)
        shutil.rmtree(source)
    else:
        subprocess.run([python, "-m", "pip", "-q", "install", "-e", source], check=True)
    tool = home / "bin" / "saponary"
    package = subprocess.run(
        [python, "-c", "import saponary; print(saponary.__path__[0])"],
        check=True,
        cwd=tmp_path,
        capture_output=True,
        text=True,
    ).stdout.strip()
    assert (Path(package) / "py.typed").is_file(), "the wheel carries the mark of typing (PEP 561)"
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    subprocess.run([tool, "begin", "book"], check=True, cwd=elsewhere)
    subprocess.run([tool, "build", "book"], check=True, cwd=elsewhere)
    assert (elsewhere / "book" / "site" / "index.html").is_file()
    assert len(list((elsewhere / "book" / "recipes").glob("*.md"))) >= 8
