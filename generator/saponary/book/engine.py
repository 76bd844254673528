"""What computed a book's figures."""

from __future__ import annotations

from saponary import __version__
from saponary.lye.version import ENGINE_VERSION

ENGINE = f"{__version__}+{ENGINE_VERSION}"
"""The version of the package, and of the engine's results."""
