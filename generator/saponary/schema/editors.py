"""How an editor finds the JSON Schema of a file: by a line in it, which language servers for YAML read."""

from __future__ import annotations

from pathlib import PurePosixPath

SCHEMAS = ".schema"
"""The folder of a book in which its schemas lie."""


def schema_line(kind: str, path: str) -> str:
    """The line for a file at a path in its book."""
    above = "../" * (len(PurePosixPath(path).parts) - 1)
    return f"# yaml-language-server: $schema={above}{SCHEMAS}/{kind}.json\n"
