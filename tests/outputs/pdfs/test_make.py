"""Setting sheets side by side: one that fails takes no other with it, and nothing is left lying about."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

import pytest

from saponary.outputs.pdf_kind import PdfSheet
from saponary.outputs.pdf_make import make

PAGE = "<html lang=en><title>A page</title><p>Wear goggles.</p></html>"
TOO_DEEP = f"<html lang=en><title>A pit</title>{'<div>' * 3000}</html>"


class Deadly(PdfSheet):
    """Ends the process that unpacks it, as a machine short of memory would."""

    def __reduce__(self) -> tuple[object, ...]:
        return os._exit, (9,)


@pytest.fixture
def scratch(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    return tmp_path


@pytest.mark.slow
def test_a_sheet_that_fails_is_named_and_the_others_are_made(scratch: Path) -> None:
    made, failed = make({}, [PdfSheet("a.pdf", PAGE), PdfSheet("pit.pdf", TOO_DEEP), PdfSheet("b.pdf", PAGE)])
    assert sorted(made) == ["a.pdf", "b.pdf"]
    assert all(pdf.startswith(b"%PDF") for pdf in made.values())
    assert [item.path for item in failed] == ["pit.pdf"]
    assert "RecursionError" in failed[0].why


@pytest.mark.slow
def test_a_worker_that_is_ended_from_outside_is_a_failure_and_no_traceback(scratch: Path) -> None:
    sound = [PdfSheet(f"{number}.pdf", PAGE) for number in range(4)]
    made, failed = make({}, [Deadly("a.pdf", PAGE), *sound])
    assert [(item.path, "memory" in item.why) for item in failed] == [("a.pdf", True)]
    assert sorted(made) == ["0.pdf", "1.pdf", "2.pdf", "3.pdf"]


@pytest.mark.slow
@pytest.mark.parametrize("count", [1, 4])
def test_nothing_is_left_in_the_temporary_folder(count: int, scratch: Path) -> None:
    faces = "<style>@font-face { font-family: a; src: url('press-fonts/SourceSansPro-It.ttf') } * { font-family: a }</style>"
    made, failed = make({}, [PdfSheet(f"{number}.pdf", faces + PAGE) for number in range(count)])
    assert len(made) == count and not failed
    assert [path.name for path in scratch.iterdir() if not path.name.startswith("pymp-")] == []
