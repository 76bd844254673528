"""A word as the shell of this system takes it."""

from __future__ import annotations

import os
import shlex
import subprocess


def quoted(word: object) -> str:
    """With quotes where the shell would take it for more than one word."""
    text = str(word)
    return subprocess.list2cmdline([text]) if os.name == "nt" else shlex.quote(text)
