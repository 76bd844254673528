"""Without Pango everything but PDFs works, and the tool says what is missing in one line."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from support import PLAIN, REPOSITORY, write_book

WITHOUT = """
import importlib.abc, sys
class NoPango(importlib.abc.MetaPathFinder):
    def find_spec(self, name, path=None, target=None):
        if name == "weasyprint":
            raise OSError("cannot load library 'libpango-1.0-0'")
sys.meta_path.insert(0, NoPango())
from saponary.cli.main import main
sys.exit(main(sys.argv[1:]))
"""


def run(*words: str) -> subprocess.CompletedProcess[str]:
    environment = {"PYTHONPATH": str(REPOSITORY / "generator"), "PATH": ""}
    return subprocess.run(
        [sys.executable, "-c", WITHOUT, *words], env=environment, capture_output=True, text=True
    )


@pytest.mark.slow
def test_a_site_is_built_and_a_pdf_refused_in_one_line(tmp_path: Path) -> None:
    root = write_book(tmp_path, {"recipes/a.md": PLAIN})
    plain = run("build", str(root))
    assert plain.returncode == 0, plain.stderr
    before = sorted(p.relative_to(root) for p in (root / "site").rglob("*"))
    asked = run("build", str(root), "--press")
    assert asked.returncode == 2
    (line,) = asked.stderr.strip().splitlines()
    assert "Pango" in line and "README.md" in line
    assert sorted(p.relative_to(root) for p in (root / "site").rglob("*")) == before
