"""A build that goes on is told again only while the same would be told."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from saponary.build import proof
from saponary.cli.main import main
from support import PLAIN, write_book

_DRAFT = PLAIN[: PLAIN.index("signed:")] + "batches: [{lot: D-1, poured: 2026-03-09}]\n---\nA draft.\n"


@pytest.mark.parametrize("command", [["build", "--edition", "shop"], ["proof"]])
def test_a_day_that_has_come_is_no_longer_told_as_one_to_come(
    command: list[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """It is the day by the clock, in a draft too, which keeps no build back."""
    write_book(tmp_path, {"recipes/plain.md": PLAIN, "recipes/draft.md": _DRAFT})
    told: list[str] = []
    for today in (date(2026, 3, 1), date(2026, 3, 9)):
        monkeypatch.setattr(proof, "date", type("Day", (date,), {"today": lambda today=today: today}))
        main([*command, str(tmp_path)])
        told.append(capsys.readouterr().out)
    assert ["a day yet to come" in text for text in told] == [True, False]
