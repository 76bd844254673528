"""Rows are read when they are asked for, and a few lie over many."""

from __future__ import annotations

from saponary.pantry.rows import Over, Rows


def test_nothing_is_read_before_it_is_asked_for() -> None:
    read: list[str] = []

    def data() -> dict[str, object]:
        read.append("data")
        return {"a": 1, "b": 2}

    def make(name: str, row: object) -> str:
        read.append(name)
        return f"{name}{row}"

    rows = Rows(data, make)
    assert read == []
    assert "a" in rows and list(rows) == ["a", "b"] and len(rows) == 2 and read == ["data"]
    assert rows["b"] == rows["b"] == "b2" and read == ["data", "b"]
    assert rows.get("c") is None and "c" not in rows


def test_own_rows_stand_in_the_place_of_those_they_replace() -> None:
    over = Over({"a": 1, "b": 2}, {"c": 3, "a": 4})
    assert list(over.items()) == [("a", 4), ("b", 2), ("c", 3)] and len(over) == 3
    assert over.get("d") is None
