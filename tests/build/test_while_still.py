"""A template that is saved while a build goes on stops it, and leaves nothing behind that is not what it says."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from saponary.build.proof import prove
from saponary.build.site import build
from saponary.schema.edition import STANDARD
from support import PLAIN, write_book

NAME = "templates/lye.html"
PAGE = "private/maker/lye/index.html"


def _saying(word: str) -> str:
    return f"{{% extends 'base.html' %}}{{% block content %}}this is {word}{{% endblock %}}"


def test_a_template_saved_meanwhile_is_not_taken_for_what_it_was(tmp_path: Path) -> None:
    write_book(tmp_path, {"recipes/plain.md": PLAIN, NAME: _saying("first")})
    on, editions = date(2026, 3, 2), [STANDARD["maker"]]

    def save(what: str, done: int, of: int) -> None:
        (tmp_path / NAME).write_text(_saying("second"))

    with pytest.raises(OSError, match="changed meanwhile"):
        build(prove(tmp_path), on, editions, progress=save)
    assert not (tmp_path / "private").exists()
    for word in ("first", "second"):
        (tmp_path / NAME).write_text(_saying(word))
        build(prove(tmp_path), on, editions)
        assert f"this is {word}" in (tmp_path / PAGE).read_text("utf-8")
