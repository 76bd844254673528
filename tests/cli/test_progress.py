"""Progress is told on a terminal alone, with what is left, and leaves nothing behind."""

from __future__ import annotations

from io import StringIO

from saponary.cli.progress import Shown


class Terminal(StringIO):
    def isatty(self) -> bool:
        return True


def lines(out: StringIO) -> list[str]:
    return [line.removeprefix("\x1b[K") for line in out.getvalue().split("\r")][1:]


def test_what_is_done_and_what_is_left_is_told() -> None:
    out, now = Terminal(), [0.0]
    shown = Shown(out, lambda: now[0])
    for done in range(1, 101):
        now[0] += 1 / 16
        shown("pages", done, 100)
    told = lines(out)
    assert told[0] == "3 of 100 pages"
    assert "65 of 100 pages, about 2 s left" in told
    assert len(told) < 60, "not every one is told"
    assert told[-1] == "", "the line is gone when the work is done"


def test_another_work_begins_anew() -> None:
    out, now = Terminal(), [0.0]
    shown = Shown(out, lambda: now[0])
    for what in ("pages", "PDFs"):
        for done in (1, 2, 3):
            now[0] += 10
            shown(what, done, 3)
    assert lines(out) == ["2 of 3 pages, about 5 s left", "", "2 of 3 PDFs, about 5 s left", ""]


def test_where_nobody_watches_nothing_is_told() -> None:
    out = StringIO()
    Shown(out)("pages", 1, 3)
    assert out.getvalue() == ""
