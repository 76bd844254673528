"""Builds and proofs of seeded books against a bare loop over the same files: `python tests/benchmarks/speed.py 1000`.

The bare loop is what any generator must do: libyaml's loader, markdown-it and one Jinja template, in one
process. Every line is a whole process, imports included. Prints a table in Markdown: CPU seconds of all its
processes, which do not depend on what else the machine does; seconds by the clock; both as multiples of the
loop's; and the most memory that one process held.
"""

from __future__ import annotations

import os
import resource
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

SIZES = [int(word) for word in sys.argv[1:]] or [10, 100, 1000]
ON = "2026-06-01"
_MEASURE = """
import resource, subprocess, sys
subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, check=True)
used = resource.getrusage(resource.RUSAGE_CHILDREN)
print(used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)
"""


class Took(NamedTuple):
    """CPU seconds, seconds by the clock, and megabytes."""

    cpu: float
    clock: float
    memory: float


def bare_loop(root: Path) -> Took:
    """Read, render and fill a template, with nothing checked or computed."""
    template = Environment(autoescape=True).from_string(
        "<title>{{ data.title }}</title>{{ body|safe }}{% for k, v in data.items() %}<p>{{ k }} {{ v }}</p>{% endfor %}"
    )
    start, clock = time.process_time(), time.perf_counter()
    markdown = MarkdownIt()
    for path in sorted((root / "recipes").iterdir()):
        _, front, body = path.read_text(encoding="utf-8").split("---\n", 2)
        data = yaml.load(front, Loader=yaml.CSafeLoader)
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
    loop = bare_loop(root)
    print(f"\n| {count} recipes | CPU s | of the loop | clock s | of the loop | MB |")
    print("|---|---|---|---|---|---|")
    _line("bare loop", loop, loop)
    build, proof = ("build", str(root), "--on", ON), ("proof", str(root))
    _line("proof, nothing kept", run(*proof), loop)
    _line("proof, nothing changed", run(*proof), loop)
    _line("build after a proof, nothing else kept", run(*build), loop)
    _line("nothing changed", run(*build), loop)
    for name, edit in EDITS.items():
        edit(root)
        _line(name, run(*build), loop)
    _line("another day", run("build", str(root), "--on", "2026-06-02"), loop)
    notes(root)
    _line("proof, notes of a recipe", run(*proof), loop)


def _line(what: str, took: Took, loop: Took) -> None:
    print(
        f"| {what} | {took.cpu:.2f} | {took.cpu / loop.cpu:.2f} | {took.clock:.2f} | {took.clock / loop.clock:.2f} "
        f"| {took.memory:.0f} |",
        flush=True,
    )


if __name__ == "__main__":
    main()
