"""Builds and proofs of seeded books against a bare loop over the same files: `python tests/benchmarks/speed.py 1000`.

The bare loop is what any generator must do: libyaml's loader, markdown-it and one Jinja template, in one
process; once more with the loader that PyYAML has in Python, which many generators use. Every line is a whole
process, imports included, but for those of `watch`, which goes on: what its CPU does from a save until the
recipe's page and drawing are handed out. Prints a table in Markdown: CPU seconds of all processes, which do not
depend on what else the machine does; seconds by the clock; both as multiples of the quick loop's; and the most
memory that one process held. After a size, `quiet` measures only what is done where nothing has changed.
"""

from __future__ import annotations

import os
import resource
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import yaml
from jinja2 import Environment
from markdown_it import MarkdownIt

sys.path.insert(0, str(Path(__file__).resolve().parent))

from seeded import photo, write_book

SIZES = [int(word) for word in sys.argv[1:] if word.isdigit()] or [10, 100, 1000]
QUIET = "quiet" in sys.argv
ON = "2026-06-01"
_MEASURE = """
import resource, subprocess, sys
subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, check=True)
used = resource.getrusage(resource.RUSAGE_CHILDREN)
print(used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)
"""


_WATCH = """
import re, resource, sys, time
from datetime import date
from pathlib import Path
import gc
from saponary.watch.preview import Preview
root, on = Path(sys.argv[1]), date(2026, 6, 1)
preview = Preview(root, ["public"])
preview.look(on)
preview.page("index.html")
gc.collect(); gc.freeze(); gc.disable()
slug = "r-%d" % next(
    n for n in range(5, 99999) if "swirl" in (root / f"recipes/r-{n}.md").read_text(encoding="utf-8")
)
file = root / f"recipes/{slug}.md"
text = file.read_text(encoding="utf-8")
took = []
for turn in range(40):
    changed = re.sub("lye-strength: [0-9]+", f"lye-strength: {27 + turn % 9}", text)
    file.write_text(changed + f"More was said {turn} times.\\n", encoding="utf-8")
    begun = time.process_time(), time.perf_counter()
    preview.look(on)
    assert preview.page(f"recipes/{slug}/") and preview.page(f"recipes/{slug}/cured.svg")
    took.append((time.process_time() - begun[0], time.perf_counter() - begun[1]))
    preview.rest()
file.write_text(text, encoding="utf-8")
cpu, clock = (sorted(one[n] for one in took[2:]) for n in (0, 1))
memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
print(cpu[len(cpu) // 2], clock[len(clock) // 2], cpu[len(cpu) * 95 // 100], clock[len(clock) * 95 // 100], memory)
"""


class Took(NamedTuple):
    """CPU seconds, seconds by the clock, and megabytes."""

    cpu: float
    clock: float
    memory: float


def bare_loop(root: Path, loader: type[yaml.SafeLoader] | type[yaml.CSafeLoader]) -> Took:
    """Read, render and fill a template, with nothing checked or computed."""
    template = Environment(autoescape=True).from_string(
        "<title>{{ data.title }}</title>{{ body|safe }}{% for k, v in data.items() %}<p>{{ k }} {{ v }}</p>{% endfor %}"
    )
    start, clock = time.process_time(), time.perf_counter()
    markdown = MarkdownIt()
    for path in sorted((root / "recipes").iterdir()):
        _, front, body = path.read_text(encoding="utf-8").split("---\n", 2)
        data = yaml.load(front, Loader=loader)
        template.render(data=data, body=markdown.render(body))
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return Took(time.process_time() - start, time.perf_counter() - clock, memory)


def run(*words: str) -> Took:
    """One command as a process of its own."""
    command = [sys.executable, "-c", _MEASURE, sys.executable, "-m", "saponary", *words]
    clock = time.perf_counter()
    done = subprocess.run(command, capture_output=True, text=True, check=True, env=os.environ)
    cpu, memory = done.stdout.split()
    return Took(float(cpu), time.perf_counter() - clock, float(memory))


def watched(root: Path) -> tuple[Took, Took]:
    """From a save to the page, swirl included: half of all times, and nineteen of twenty."""
    command = [sys.executable, "-c", _WATCH, str(root)]
    done = subprocess.run(command, capture_output=True, text=True, check=True, env=os.environ)
    half, half_clock, most, most_clock, memory = map(float, done.stdout.split())
    return Took(half, half_clock, memory), Took(most, most_clock, memory)


def replaced(root: Path, name: str, old: str, new: str) -> None:
    text = (root / name).read_text(encoding="utf-8")
    assert old in text, (name, old)
    (root / name).write_text(text.replace(old, new, 1), encoding="utf-8")


def notes(root: Path) -> None:
    replaced(root, "recipes/r-7.md", "## Afterwards", "More was said.\n\n## Afterwards")


EDITS: dict[str, Callable[[Path], object]] = {
    "notes of a recipe": notes,
    "weights of a recipe": lambda root: replaced(
        root, "recipes/r-7.md", "lye-strength: ", "lye-strength: 27 %} # "
    ),
    "a lot": lambda root: replaced(
        root, "recipes/r-3.md", "room-temperature: ", "humidity: 50 %\n    room-temperature: "
    ),
    "a photo": lambda root: (root / "photos" / "bar-0.jpg").write_bytes(photo(7)),
    "a price in the pantry": lambda root: replaced(root, "pantry.yaml", "8.40", "8.50"),
    "a setting": lambda root: replaced(root, "book.yaml", "maker: Nobody", "maker: Somebody"),
    "a recipe deleted": lambda root: (root / "recipes" / "r-8.md").unlink(),
}


def main() -> None:
    for count in SIZES:
        with tempfile.TemporaryDirectory() as folder:
            measure(write_book(Path(folder) / "book", count), count)


def measure(root: Path, count: int) -> None:
    loop, slow = bare_loop(root, yaml.CSafeLoader), bare_loop(root, yaml.SafeLoader)
    print(f"\n| {count} recipes | CPU s | of the loop | clock s | of the loop | MB |")
    print("|---|---|---|---|---|---|")
    _line("bare loop, libyaml's loader", loop, loop)
    _line("bare loop, PyYAML's loader in Python", slow, loop)
    build, proof = ("build", str(root), "--on", ON), ("proof", str(root))
    _line("proof, nothing kept", run(*proof), loop)
    _line("proof, nothing changed", run(*proof), loop)
    shutil.rmtree(root / ".cache")
    _line("build, nothing kept", run(*build), loop)
    _line("nothing changed", run(*build), loop)
    if QUIET:
        return
    for name, edit in EDITS.items():
        edit(root)
        _line(name, run(*build), loop)
    _line("another day", run("build", str(root), "--on", "2026-06-02"), loop)
    notes(root)
    _line("proof, notes of a recipe", run(*proof), loop)
    for name, took in zip(
        ("watch, save to page, median", "watch, save to page, 95 of 100"), watched(root), strict=True
    ):
        _line(name, took, loop)


def _line(what: str, took: Took, loop: Took) -> None:
    print(
        f"| {what} | {took.cpu:.3f} | {took.cpu / loop.cpu:.2f} | {took.clock:.3f} | {took.clock / loop.clock:.2f} "
        f"| {took.memory:.0f} |",
        flush=True,
    )


if __name__ == "__main__":
    main()
