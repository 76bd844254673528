"""The version of the engine's results."""

from __future__ import annotations

ENGINE_VERSION = "2"
"""Raised whenever the same formula would give other figures."""
