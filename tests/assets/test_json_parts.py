"""What is written part by part is, byte for byte, what Python's own `json` writes at once."""

from __future__ import annotations

import json

import pytest

from saponary.assets.json_parts import JsonParts


@pytest.mark.parametrize("count", [0, 1, 499, 500, 501, 1200])
def test_a_map_is_written_as_at_once(count: int) -> None:
    found = {f'bar "{n}" é': ("ß", f"{n}\n") if n % 2 else f"\\{n}" for n in range(count)}
    parts = JsonParts()
    parts.put_map(found)
    assert parts.written() == json.dumps(found, ensure_ascii=False).encode("utf-8")


def test_a_map_of_maps_is_written_as_at_once() -> None:
    found = {'rows "a"': {}, "é": {f"{n}": f"{n}" for n in range(501)}, "": {"one": "two"}}
    parts = JsonParts()
    parts.put_maps(found)
    assert parts.written() == json.dumps(found, ensure_ascii=False).encode("utf-8")
