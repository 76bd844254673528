"""`compare` on a book of 300 recipes and 2,000 commits: `python tests/benchmarks/comparing.py [FOLDER]`.

Each commit changes one recipe, one in fifty the pantry, with which every recipe is computed anew.
Prints seconds of the whole process, with an empty store and again.
"""

from __future__ import annotations

import random
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
    print(f"{'compare':20} {'cold, s':>8} {'warm, s':>8}")
    for pair in PAIRS:
        shutil.rmtree(home / ".cache", ignore_errors=True)
        print(f"{pair:20} {timed(home, pair):8.2f} {timed(home, pair):8.2f}")


def timed(home: Path, pair: str) -> float:
    start = time.perf_counter()
    words = [sys.executable, "-m", "saponary", "compare", pair, "--book", str(home), "--format", "json"]
    subprocess.run(words, check=True, stdout=subprocess.DEVNULL)
    return time.perf_counter() - start


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
            texts[name] = f"{texts[name].rstrip()}\n\nPoured once more, with {rng.random():.4f} of luck.\n"
            said.append(_commit(number, "a note", {name: texts[name]}))
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
