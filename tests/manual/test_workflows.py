"""The two examples of workflows: each command in them is run, in a book with a change to be proofed."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Mapping
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest
import yaml

from in_git import WHO, commit, git
from support import PLAIN, some, write_book

TOPIC = files("saponary.tables.manual").joinpath("85-git.md").read_text(encoding="utf-8")
INSTALLED = 'python -m pip install "$SAPONARY"'
"""What `tests/whole/test_install.py` does from a wheel."""


def example(name: str) -> Mapping[str, Any]:
    (found,) = re.findall(rf"^```yaml\n# {re.escape(name)}\n(.*?)^```$", TOPIC, re.MULTILINE | re.DOTALL)
    read: Mapping[str, Any] = yaml.load(found, Loader=yaml.BaseLoader)
    return read


def commands(name: str, job: str) -> list[str]:
    """The lines that a job runs, in their order."""
    if "github" in name:
        steps = example(name)["jobs"][job]["steps"]
        return [step["run"] for step in steps if "run" in step]
    whole = example(name)
    return [*whole["before_script"], *whole[job]["script"]]


NAMES = (".github/workflows/book.yml", ".gitlab-ci.yml")
JOBS = {NAMES[0]: ("proof", "publish"), NAMES[1]: ("proof", "pages")}


@pytest.fixture
def changed(tmp_path: Path) -> Path:
    """A clone of a book, on a branch that changes the superfat and signs it anew."""
    home = write_book(tmp_path / "home", {"recipes/a.md": PLAIN, ".gitignore": ".cache/\n.saponary/\n"})
    commit(home, "first")
    git(home, "branch", "-M", "main")
    git(tmp_path, "clone", "-q", str(home), "clone")
    root = tmp_path / "clone"
    git(root, "checkout", "-qb", "milder")
    milder = PLAIN.replace("superfat: 5 %", "superfat: 7 %").replace("superfat: 5.0 %", "superfat: 7.0 %")
    commit(write_book(root, {"recipes/a.md": milder}), "milder")
    return root


def run(root: Path, line: str) -> subprocess.CompletedProcess[str]:
    """One line as a runner runs it; what would talk to the host says what it is given instead."""
    stubs = root.parent / "stubs"
    stubs.mkdir(exist_ok=True)
    for name, does in {
        "saponary": f'exec "{sys.executable}" -m saponary "$@"',
        "gh": 'echo "gh $*"; cat "${@: -1}"',
        "curl": 'echo "curl $*"; cat comparison.md',
    }.items():
        (stubs / name).write_text(f"#!/bin/bash\n{does}\n")
        (stubs / name).chmod(0o755)
    env = {
        **os.environ,
        **WHO,
        "PATH": f"{stubs}:{os.environ['PATH']}",
        "BASE": "main",
        "NUMBER": "12",
        "RUNNER_TEMP": str(root.parent),
        "CI_MERGE_REQUEST_DIFF_BASE_SHA": git(root, "merge-base", "origin/main", "HEAD"),
    }
    return subprocess.run(["bash", "-ec", line], cwd=root, env=env, capture_output=True, text=True)


@pytest.mark.slow
@pytest.mark.parametrize("name", NAMES)
def test_a_change_is_proofed_and_told(name: str, changed: Path) -> None:
    lines = commands(name, "proof")
    assert lines[0] == INSTALLED
    done = [run(changed, line) for line in some(lines[1:])]
    assert [one.returncode for one in done] == [0] * len(done), [one.stderr for one in done]
    comment = done[1].stdout
    assert "| superfat | 5.0 % | 7.0 % | +2.0 points |" in comment and "## Figures: " in comment
    stale = (changed / "recipes/a.md").read_text().replace("superfat: 7 %", "superfat: 8 %")
    commit(write_book(changed, {"recipes/a.md": stale}), "not signed")
    assert run(changed, lines[-1]).returncode == 1


@pytest.mark.slow
@pytest.mark.parametrize(("name", "site"), [(NAMES[0], "site"), (NAMES[1], "public")])
def test_the_site_is_built_for_publishing(name: str, site: str, changed: Path) -> None:
    lines = commands(name, JOBS[name][1])
    assert lines[0] == INSTALLED
    for line in some(lines[1:]):
        done = run(changed, line)
        assert done.returncode == 0, done.stderr
    assert (changed / site / "recipes/a/index.html").is_file()
    told = example(name)
    published = (
        told["jobs"]["publish"]["steps"][-2]["with"]["path"]
        if "jobs" in told
        else told["pages"]["artifacts"]["paths"][0]
    )
    assert published == site


@pytest.mark.parametrize("name", NAMES)
def test_each_example_has_a_job_for_changes_and_one_for_main(name: str) -> None:
    for job in JOBS[name]:
        assert commands(name, job)[0] == INSTALLED and len(commands(name, job)) > 1
