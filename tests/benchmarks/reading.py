"""Proof and pages of 1,000 recipes, against the bare libraries over the same files.

The floor is what any generator of this kind must do: C YAML loader, markdown-it, one Jinja
template, in one process. Prints seconds and the ratio of each stage to the floor.
"""

from __future__ import annotations

import sys
import tempfile
import time
from pathlib import Path

import yaml
from jinja2 import Environment
from markdown_it import MarkdownIt

from saponary.assets import resources
from saponary.build.proof import prove
from saponary.outputs.compose import compose
from saponary.outputs.figures_json import ENGINE
from saponary.schema.edition import PUBLIC, STANDARD
from saponary.views.for_edition import Unpublished, for_edition

COUNT = int(sys.argv[1]) if len(sys.argv) > 1 else 1000


def write_many(root: Path) -> None:
    starters = [p.read_text(encoding="utf-8") for p in sorted(resources.starters().glob("*.md"))]
    (root / "recipes").mkdir()
    for n in range(COUNT):
        text = starters[n % len(starters)].replace("title: ", f"title: No {n} ", 1)
        (root / "recipes" / f"r-{n}.md").write_text(text, encoding="utf-8")


def floor(root: Path) -> int:
    """Read, render and fill a template, with nothing checked or computed."""
    template = Environment(autoescape=True).from_string(
        "<title>{{ data.title }}</title>{{ body|safe }}{% for k, v in data.items() %}<p>{{ k }} {{ v }}</p>{% endfor %}"
    )
    markdown, size = MarkdownIt(), 0
    for path in sorted((root / "recipes").iterdir()):
        _, front, body = path.read_text(encoding="utf-8").split("---\n", 2)
        data = yaml.load(front, Loader=yaml.CSafeLoader)
        size += len(template.render(data=data, body=markdown.render(body)))
    return size


def main() -> None:
    with tempfile.TemporaryDirectory() as folder:
        root = Path(folder)
        write_many(root)
        start = time.perf_counter()
        floor(root)
        bare = time.perf_counter() - start
        start = time.perf_counter()
        proof = prove(root)
        proofed = time.perf_counter() - start
        whole = Unpublished(proof.book, proof.recipes, ENGINE, proof.book.pantry.version)
        start = time.perf_counter()
        site = for_edition(whole, STANDARD[PUBLIC])
        files = sum(1 for _ in compose(site, [resources.templates()]))
        composed = time.perf_counter() - start
    print(f"{COUNT} recipes, {files} files")
    print(f"floor    {bare:7.2f} s")
    print(f"proof    {proofed:7.2f} s  {proofed / bare:5.2f} x floor")
    print(f"compose  {composed:7.2f} s  {composed / bare:5.2f} x floor")


if __name__ == "__main__":
    main()
