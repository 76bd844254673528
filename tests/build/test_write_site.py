"""The site is replaced whole or not at all, whatever happens to the build."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from saponary.build import write_site as output
from support import REPOSITORY

PAGES = 40


def site_of(version: str) -> list[tuple[str, bytes]]:
    return [(f"p/{n}/index.html", f"{version} {n}".encode()) for n in range(PAGES)]


def state(site: Path) -> str:
    """Which version stands there; fails where it is a mixture or incomplete."""
    words = {path.read_text().split()[0] for path in site.rglob("index.html")}
    assert len(words) == 1, f"a mixture: {words}"
    assert len(list(site.rglob("index.html"))) == PAGES, "an incomplete site"
    return words.pop()


def test_a_second_site_replaces_the_first(tmp_path: Path) -> None:
    site = tmp_path / "site"
    output.write_site(site, site_of("old"))
    (site / "left.html").write_text("a page that is no more")
    (site / ".nojekyll").write_text("")
    output.write_site(site, site_of("new"))
    assert state(site) == "new"
    assert not (site / "left.html").exists()
    assert (site / ".nojekyll").exists()
    assert [p.name for p in tmp_path.iterdir()] == ["site"]


def test_a_failure_half_way_leaves_the_old_site(tmp_path: Path) -> None:
    def failing() -> Iterator[tuple[str, bytes]]:
        yield from site_of("new")[:7]
        raise RuntimeError("a template broke")

    site = tmp_path / "site"
    output.write_site(site, site_of("old"))
    with pytest.raises(RuntimeError):
        output.write_site(site, failing())
    assert state(site) == "old"
    assert [p.name for p in tmp_path.iterdir()] == ["site"]


@pytest.mark.parametrize("name", ["/etc/x", "../x", "a/../../x", ""])
def test_nothing_is_written_outside(tmp_path: Path, name: str) -> None:
    with pytest.raises(ValueError, match="outside"):
        output.write_site(tmp_path / "site", [(name, b"x")])
    assert list(tmp_path.iterdir()) == []


def test_without_an_exchange_a_site_left_aside_is_put_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(output, "_exchange", lambda first, second: False)
    site = tmp_path / "site"
    output.write_site(site, site_of("old"))
    output.write_site(site, site_of("new"))
    assert state(site) == "new"
    site.rename(tmp_path / ".site-old")
    output.recover(site)
    assert state(site) == "new"


CHILD = """
import sys, time
from pathlib import Path
from saponary.build.write_site import write_site
def pages():
    for n in range({pages}):
        time.sleep(0.001)
        yield f"p/{{n}}/index.html", f"new {{n}}".encode()
print("go", flush=True)
while True:
    write_site(Path(sys.argv[1]), pages())
"""


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="the one-step exchange is Linux's")
def test_killed_at_any_instant_the_site_is_whole(tmp_path: Path) -> None:
    site = tmp_path / "site"
    output.write_site(site, site_of("old"))
    environment = {**os.environ, "PYTHONPATH": str(REPOSITORY / "generator")}
    for round_ in range(12):
        child = subprocess.Popen(
            [sys.executable, "-c", CHILD.format(pages=PAGES), str(site)],
            stdout=subprocess.PIPE,
            env=environment,
        )
        assert child.stdout is not None and child.stdout.readline() == b"go\n"
        time.sleep(0.013 * round_)
        child.send_signal(signal.SIGKILL)
        child.wait()
        child.stdout.close()
        assert state(site) in ("old", "new")
    output.write_site(site, site_of("last"))
    assert state(site) == "last"
    assert [p.name for p in tmp_path.iterdir()] == ["site"]
