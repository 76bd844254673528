"""Serves a preview to browsers of this machine, and tells them when it has changed.

It listens on the loopback address alone and answers only to names of this machine, so that no page of
another site can read a book through a browser (by a name that leads here). It only reads.
"""

from __future__ import annotations

import json
import mimetypes
from collections.abc import Callable, Mapping
from contextlib import suppress
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from socket import socket
from threading import Condition
from typing import cast
from urllib.parse import SplitResult, unquote, urlsplit

from saponary.watch.preview import INDEX, Preview
from saponary.watch.state import State, Told

ADDRESS = "127.0.0.1"
OWN = "/-/"
"""Where what is about the preview itself stands; no file of a site does."""

_HOSTS = ("localhost", "127.0.0.1", "[::1]")
_BEAT = 15.0
"""Seconds after which a browser that hears nothing is told that the line still stands."""

_PATIENCE = 30.0
"""Seconds in which a browser must go on asking, or taking what it is sent, before it is let go."""

_FRAME_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; connect-src 'self'; "
    "frame-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
)
_PAGE_POLICY = "frame-ancestors 'self'"

_TYPES = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".svg": "image/svg+xml",
    ".woff2": "font/woff2",
    ".ics": "text/calendar; charset=utf-8",
    ".xml": "application/xml",
    ".webp": "image/webp",
    ".txt": "text/plain; charset=utf-8",
}

Own = Mapping[str, bytes]
"""The files of the frame around the pages, by their names below `OWN`."""


class Server(ThreadingHTTPServer):
    """Serves one preview. `tell` wakes the browsers that listen."""

    daemon_threads = True
    request_queue_size = 64
    block_on_close = False

    def __init__(self, preview: Preview, own: Own, port: int, as_data: Callable[[State], Told]) -> None:
        super().__init__((ADDRESS, port), _Handler)
        self.preview, self.own, self.as_data = preview, own, as_data
        self.changed = Condition()
        self.ended = False

    @property
    def address(self) -> str:
        return f"http://localhost:{self.server_port}/"

    def tell(self) -> None:
        """The state is another one now."""
        with self.changed:
            self.changed.notify_all()

    def end(self) -> None:
        """Let go of every browser, and stop serving."""
        self.ended = True
        self.tell()
        self.shutdown()
        self.server_close()

    def handle_error(self, request: socket | tuple[bytes, socket], client_address: object) -> None:
        """A browser that went away is no fault."""


def _asked(address: str) -> SplitResult:
    """The parts of what is asked for; those of nothing where it is no address."""
    try:
        return urlsplit(address)
    except ValueError:
        return SplitResult("", "", "/:", "", "")


class _Handler(BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    server_version = "saponary"
    sys_version = ""
    timeout = _PATIENCE

    @property
    def _served(self) -> Server:
        return cast("Server", self.server)

    def do_GET(self) -> None:
        self._answer(body=True)

    def do_HEAD(self) -> None:
        self._answer(body=False)

    def log_message(self, format: str, *args: object) -> None:
        """The terminal is for findings."""

    def _answer(self, *, body: bool) -> None:
        if not self._is_ours():
            self._send(HTTPStatus.FORBIDDEN, b"This address is for this machine alone.", ".txt", body=body)
            return
        path = unquote(_asked(self.path).path, errors="replace")
        if path == f"{OWN}events":
            self._tell_on(body=body)
        elif path.startswith(OWN):
            name = path.removeprefix(OWN)
            self._send_file(name, self._served.own.get(name), body=body)
        elif self._is_seen():
            self._send_file("frame.html", self._served.own["frame.html"], body=body, policy=_FRAME_POLICY)
        elif self.headers.get("Service-Worker") is not None:
            # A page that keeps itself for later would go on showing what was.
            self._send_file(path, None, body=body)
        else:
            self._send_page(path.lstrip("/"), body=body)

    def _is_ours(self) -> bool:
        """Whether it is asked by a name of this machine, and by no other (RFC 9112, 3.2: one Host, and that of an
        address in full before it)."""
        ours = {f"{name}:{self._served.server_port}" for name in _HOSTS}
        hosts = self.headers.get_all("Host", [])
        asked = _asked(self.path)
        return len(hosts) == 1 and hosts[0] in ours and (not asked.scheme or asked.netloc in ours)

    def _is_seen(self) -> bool:
        """Whether a browser asks for what stands in its window, and not in the frame there."""
        return self.headers.get("Sec-Fetch-Dest") == "document"

    def _send_page(self, path: str, *, body: bool) -> None:
        before = self._served.preview.state
        made = self._served.preview.page(path)
        if self._served.preview.state is not before:
            self._served.tell()
        if made is not None:
            self._send_file(path if path and not path.endswith("/") else INDEX, made, body=body)
        elif self._served.preview.page(f"{path}/") is not None:
            self._send(HTTPStatus.MOVED_PERMANENTLY, b"", ".txt", body=body, to=f"/{path}/")
        elif not self._served.preview.state.shows:
            self._send(
                HTTPStatus.SERVICE_UNAVAILABLE, self._served.own["nothing-yet.html"], ".html", body=body
            )
        else:
            lost = self._served.preview.page("404.html") or b"There is no such page."
            self._send(HTTPStatus.NOT_FOUND, lost, ".html", body=body)

    def _send_file(self, name: str, data: bytes | None, *, body: bool, policy: str = _PAGE_POLICY) -> None:
        ending = f".{name.rpartition('.')[2]}"
        if data is None:
            self._send(HTTPStatus.NOT_FOUND, b"There is no such file.", ".txt", body=body)
        else:
            self._send(HTTPStatus.OK, data, ending, body=body, policy=policy)

    def _send(
        self,
        status: HTTPStatus,
        data: bytes,
        ending: str,
        *,
        body: bool,
        policy: str = _PAGE_POLICY,
        to: str | None = None,
    ) -> None:
        self.send_response(status)
        kind = _TYPES.get(ending) or mimetypes.types_map.get(ending, "application/octet-stream")
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(data)))
        self.send_header("Cache-Control", "no-store")
        self.send_header("Content-Security-Policy", policy)
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Cross-Origin-Resource-Policy", "same-origin")
        if to is not None:
            self.send_header("Location", to)
        self.end_headers()
        if body:
            self.wfile.write(data)

    def _tell_on(self, *, body: bool) -> None:
        """Tell the state now and at each change, as the HTML standard's server-sent events, until the browser goes."""
        self.close_connection = True
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", "text/event-stream")
        self.send_header("Cache-Control", "no-store")
        self.end_headers()
        told = -1
        with suppress(OSError):
            while body and not self._served.ended:
                state = self._served.preview.state
                if state.number == told:
                    self.wfile.write(b":\n\n")
                else:
                    data = json.dumps(self._served.as_data(state), ensure_ascii=False)
                    self.wfile.write(f"data: {data}\n\n".encode())
                    told = state.number
                self.wfile.flush()
                with self._served.changed:
                    if not self._served.ended and self._served.preview.state.number == told:
                        self._served.changed.wait(_BEAT)
