"""What the package imports is what it declares: read from the source and from pyproject.toml."""

from __future__ import annotations

import ast
import re
import sys
import tomllib
from importlib.metadata import packages_distributions

from source import MODULES, PACKAGE, nodes
from support import REPOSITORY


def _plain(name: str) -> str:
    """A distribution's name as PyPI compares it (PEP 503)."""
    return re.sub(r"[-_.]+", "-", name).lower()


def _imported() -> set[str]:
    """Top names of everything imported anywhere in the package."""
    found: set[str] = set()
    for path in MODULES:
        found |= {alias.name.partition(".")[0] for node in nodes(path, ast.Import) for alias in node.names}
        found |= {node.module.partition(".")[0] for node in nodes(path, ast.ImportFrom) if node.module}
    return found - {"saponary"} - set(sys.stdlib_module_names)


def test_every_library_that_is_imported_is_declared() -> None:
    project = tomllib.loads((REPOSITORY / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = project["optional-dependencies"]
    optional = [line for name, lines in extras.items() if name != "test" for line in lines]
    declared = {_plain(re.split(r"[<>=!~ ;\[]", line)[0]) for line in (*project["dependencies"], *optional)}
    homes = packages_distributions()
    imported = {name: {_plain(home) for home in homes.get(name, ())} for name in _imported()}
    assert {"numpy", "pydantic", "fontTools"} <= imported.keys(), "the source was read"
    undeclared = {name: sorted(home) for name, home in imported.items() if not home & declared}
    assert not undeclared


def test_the_package_says_that_it_is_typed() -> None:
    assert (PACKAGE / "py.typed").is_file(), "PEP 561"
