"""Large maps written as JSON part by part.

`json.dumps` holds every key and value of what it writes once more before they are put together, and the text
beside its bytes: several times what comes of it, which the records of a large book would take at one time.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from io import BytesIO
from itertools import islice

_AT_ONCE = 500
"""Entries that are written at one time."""


class JsonParts:
    """JSON in UTF-8 as it grows; the same bytes as those of `json.dumps`."""

    def __init__(self) -> None:
        self._bytes = BytesIO()

    def put(self, text: str) -> None:
        """Put down a part as it is. Raises UnicodeEncodeError for what is no text."""
        self._bytes.write(text.encode("utf-8"))

    def put_map(self, found: Mapping[str, object]) -> None:
        """Write a map of which each value is small."""
        self.put("{")
        entries, between = iter(found.items()), ""
        while some := dict(islice(entries, _AT_ONCE)):
            self.put(between + json.dumps(some, ensure_ascii=False)[1:-1])
            between = ", "
        self.put("}")

    def put_maps(self, found: Mapping[str, Mapping[str, object]]) -> None:
        """Write a map of maps."""
        self.put("{")
        between = ""
        for name, one in found.items():
            self.put(f"{between}{json.dumps(name, ensure_ascii=False)}: ")
            self.put_map(one)
            between = ", "
        self.put("}")

    def written(self) -> bytes:
        """All of it."""
        return self._bytes.getvalue()
