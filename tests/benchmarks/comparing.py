"""`compare` on a book of 300 recipes and 2,000 commits: `python tests/benchmarks/comparing.py [FOLDER]`.

One commit in fifty changes the pantry; of the others half change the superfat of one recipe, half its notes.
Prints seconds of the whole process, and of its work alone, with an empty store and again; then what it costs to go
through all versions of all recipes.
"""

from __future__ import annotations

import os
import random
import re
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from saponary.assets import resources

RECIPES, COMMITS, SEED = 300, 2000, 7
PAIRS = ("HEAD~1..HEAD", "HEAD~20..HEAD", "HEAD~1900..HEAD")


def main() -> None:
    home = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(tempfile.mkdtemp())
    if not (home / ".git").exists():
        write_history(home)
    print(f"{'compare':20} {'cold, s':>8} {'work':>6} {'warm, s':>8} {'work':>6}")
    for pair in PAIRS:
        words = ["-m", "saponary", "compare", pair, "--book", str(home), "--format", "json"]
        print(_row(home, pair, words), flush=True)
    print(_row(home, "versions", ["-c", _VERSIONS, str(home)]))


_VERSIONS = """
import sys
from pathlib import Path
from saponary.assets.store import DiskStore
from saponary.book.library import read_book
from saponary.build.history import sources_log
from saponary.build.versions import versions
from saponary.reading.files import Folder
root = Path(sys.argv[1])
found = versions(read_book(Folder(root)), DiskStore(root / ".cache"), sources_log(root))
assert len(found) == len(list(root.glob("recipes/*.md")))
"""


def _row(home: Path, name: str, words: list[str]) -> str:
    shutil.rmtree(home / ".cache", ignore_errors=True)
    cold, warm = timed(words), timed(words)
    return f"{name:20} {cold[0]:8.2f} {cold[1]:6.2f} {warm[0]:8.2f} {warm[1]:6.2f}"


def timed(words: list[str]) -> tuple[float, float]:
    """Seconds by the clock, and those that processors worked for it, git's included."""
    start, before = time.perf_counter(), _worked()
    subprocess.run([sys.executable, *words], check=True, stdout=subprocess.DEVNULL)
    return time.perf_counter() - start, _worked() - before


def _worked() -> float:
    used = os.times()
    return used.children_user + used.children_system


def write_history(home: Path) -> None:
    """A repository made in one go, from what `git fast-import` is told."""
    home.mkdir(parents=True, exist_ok=True)
    subprocess.run(["git", "init", "-q", str(home)], check=True)
    rng = random.Random(SEED)
    starters = [path.read_text(encoding="utf-8") for path in sorted(resources.starters().glob("*.md"))]
    texts = {f"recipes/r{n}.md": starters[n % len(starters)] for n in range(RECIPES)}
    said = [_commit(0, "the first day", texts)]
    for number in range(1, COMMITS):
        if number % 50 == 0:
            value = rng.randrange(185, 195)
            own = f"oils:\n  stray: {{saponification-value: {{value: {value} mg/g, range: [180 mg/g, 200 mg/g]}}}}\n"
            said.append(_commit(number, "an oil of our own", {"pantry.yaml": own}))
        else:
            name = rng.choice(list(texts))
            if rng.random() < 0.5:
                texts[name] = re.sub(
                    r"^superfat: \S+ %", f"superfat: {rng.randrange(3, 9)} %", texts[name], flags=re.M
                )
            else:
                texts[name] = (
                    f"{texts[name].rstrip()}\n\nPoured once more, with {rng.random():.4f} of luck.\n"
                )
            said.append(_commit(number, "a change", {name: texts[name]}))
    subprocess.run(["git", "-C", str(home), "fast-import", "--quiet"], input=b"".join(said), check=True)
    subprocess.run(["git", "-C", str(home), "checkout", "-q", "work"], check=True)


def _commit(number: int, about: str, files: dict[str, str]) -> bytes:
    head = f"commit refs/heads/work\ncommitter A <a@example.invalid> {1_700_000_000 + 3600 * number} +0000\n"
    out = [head.encode(), _data(about)]
    for name, text in files.items():
        out += [f"M 100644 inline {name}\n".encode(), _data(text)]
    return b"".join(out)


def _data(text: str) -> bytes:
    data = text.encode()
    return b"data %d\n" % len(data) + data + b"\n"


if __name__ == "__main__":
    main()
