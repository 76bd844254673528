"""The two files that all recipes of a book rest on."""

from __future__ import annotations

SETTINGS_FILE, PANTRY_FILE = "book.yaml", "pantry.yaml"
