"""Looks at a book after each change and serves it, until it is stopped from the keyboard."""

from __future__ import annotations

import gc
from collections.abc import Callable, Sequence
from contextlib import suppress
from datetime import date
from pathlib import Path
from threading import Thread

from saponary.assets import resources
from saponary.messages.speaker import speaker
from saponary.outputs.templating import environment, font, font_names, style_sheet
from saponary.reading.files import Folder
from saponary.watch.changes import Changes
from saponary.watch.preview import Preview
from saponary.watch.server import Server

LANGUAGE = "en"
_PAUSE = 1.0
"""Seconds after a change in which pages are asked for."""
_A_WHILE = 60.0
"""Seconds after which it is asked whether another day has begun."""


_OFTEN = 50
"""After so many looks too, where there is no pause."""


class PortTaken(Exception):
    """Something else is served there."""


def watch(
    root: Path, editions: Sequence[str], port: int, today: Callable[[], date], tell: Callable[[str], None]
) -> None:
    """Watch a book until Ctrl-C. `today` is the day its pages speak of; `tell` prints. Raises PortTaken."""
    preview = Preview(root, editions)
    try:
        server = Server(preview, own_files(), port, lambda state: state.as_data(Folder(root)))
    except OSError as error:
        raise PortTaken(error.strerror) from error
    with suppress(KeyboardInterrupt):
        # Copies of this process are made while it has one thread.
        on = today()
        tell(preview.look(on, workers=None).as_text())
        gc.collect()
        gc.freeze()
        gc.disable()  # what goes in circles is looked for while nobody waits
        Thread(target=server.serve_forever, kwargs={"poll_interval": 0.1}, daemon=True).start()
        try:
            tell(f"the book is shown at {server.address} until you press Ctrl-C")
            _go_on(root, preview, server, today, on, tell)
        finally:
            server.end()
    tell("stopped; nothing of the book was written")


def _go_on(
    root: Path,
    preview: Preview,
    server: Server,
    today: Callable[[], date],
    on: date,
    tell: Callable[[str], None],
) -> None:
    with Changes(root) as changes:
        while True:
            happened = changes.wait(_PAUSE)
            if not happened:
                preview.rest()
                happened = changes.wait(_A_WHILE)
            if not happened or preview.state.number % _OFTEN == 0:
                gc.collect()
            if happened or today() != on:
                on = today()
                before = preview.state
                state = preview.look(on)
                server.tell()
                tell(state.as_text(before))


def own_files() -> dict[str, bytes]:
    """The frame around the pages, in the book's look, by the names it has below `/-/`."""
    standard = [resources.templates()]
    spoken = environment(standard, speaker(LANGUAGE))
    made = {
        name: spoken.get_template(f"watch/{name}").render().encode()
        for name in ("frame.html", "nothing-yet.html")
    }
    folder = standard[0] / "watch"
    made["frame.css"] = style_sheet(standard) + (folder / "frame.css").read_bytes()
    made["frame.js"] = (folder / "frame.js").read_bytes()
    return made | {f"type/{name}": font(standard, name) for name in font_names(standard)}
