"""The server answers this machine alone, and what it answers is what a build would write."""

from __future__ import annotations

import http.client
import json
import shutil
import socket
import subprocess
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from threading import Thread

import pytest

from saponary.reading.files import Folder
from saponary.watch import server
from saponary.watch.preview import Preview
from saponary.watch.run import own_files
from saponary.watch.server import Server
from support import PLAIN, write_book

ON = date(2026, 3, 2)


class Shown:
    """A book that is served."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.preview = Preview(root)
        self.preview.look(ON)
        self.server = Server(self.preview, own_files(), 0, lambda state: state.as_data(Folder(root)))
        Thread(target=self.server.serve_forever, kwargs={"poll_interval": 0.01}, daemon=True).start()

    def ask(self, path: str, method: str = "GET", **headers: str) -> tuple[int, dict[str, str], bytes]:
        line = http.client.HTTPConnection("127.0.0.1", self.server.server_port, timeout=5)
        host = {"Host": f"localhost:{self.server.server_port}"}
        line.request(method, path, headers=host | {name.replace("_", "-"): v for name, v in headers.items()})
        got = line.getresponse()
        found = got.status, dict(got.getheaders()), got.read()
        line.close()
        return found

    def look(self) -> None:
        self.preview.look(ON)
        self.server.tell()


@pytest.fixture(scope="module")
def shown(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shown]:
    root = tmp_path_factory.mktemp("served")
    write_book(
        root,
        {"book.yaml": "title: A book\n", "recipes/plain.md": PLAIN, "secret.txt": "not of the site"},
    )
    one = Shown(root)
    yield one
    one.server.end()


def test_a_page_is_what_a_build_would_write(shown: Shown) -> None:
    status, headers, page = shown.ask("/recipes/plain/")
    assert status == 200
    assert b"Plain Bar" in page
    assert headers["Content-Type"] == "text/html; charset=utf-8"
    assert headers["Cache-Control"] == "no-store"
    assert shown.ask("/recipes/plain/index.html")[2] == page
    assert shown.ask("/recipes/plain")[:2][1]["Location"] == "/recipes/plain/"
    assert shown.ask("/maker/")[0] == 200


def test_a_head_has_no_body(shown: Shown) -> None:
    status, headers, page = shown.ask("/", "HEAD")
    assert (status, page) == (200, b"")
    assert int(headers["Content-Length"]) > 0


@pytest.mark.parametrize(
    "host", ["example.org", "example.org:8040", "127.0.0.1", "localhost:1", "", "localhost.example.org:8040"]
)
def test_other_names_are_refused(shown: Shown, host: str) -> None:
    status, _, page = shown.ask("/", Host=host)
    assert status == 403
    assert b"Plain" not in page


def test_it_listens_on_this_machine_alone(shown: Shown) -> None:
    assert shown.server.server_address[0] == "127.0.0.1"


@pytest.mark.parametrize(
    "path",
    ["/secret.txt", "/../secret.txt", "/%2e%2e/secret.txt", "/..%2fsecret.txt", "//secret.txt", "/maker/../secret.txt", "/-/../secret.txt", "/\x00"],
)  # fmt: skip
def test_nothing_but_the_site_is_had(shown: Shown, path: str) -> None:
    if path == "/\x00":
        path = "/%00"
    status, _, page = shown.ask(path)
    assert status in (301, 404)
    assert b"not of the site" not in page


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "OPTIONS"])
def test_it_only_reads(shown: Shown, method: str) -> None:
    assert shown.ask("/", method)[0] == 501


def test_a_window_has_the_page_in_a_frame(shown: Shown) -> None:
    _, headers, frame = shown.ask("/recipes/plain/", Sec_Fetch_Dest="document")
    assert b"<iframe" in frame
    assert "frame-ancestors 'none'" in headers["Content-Security-Policy"]
    assert b"<iframe" not in shown.ask("/recipes/plain/", Sec_Fetch_Dest="iframe")[2]
    for own in ("frame.css", "frame.js", "type/serif-regular.woff2"):
        assert shown.ask(f"/-/{own}")[0] == 200, own


def test_no_page_keeps_itself_for_later(shown: Shown) -> None:
    assert shown.ask("/recipes/plain/index.html", Service_Worker="script")[0] == 404


def test_browsers_are_told_of_each_state(shown: Shown) -> None:
    line = http.client.HTTPConnection("127.0.0.1", shown.server.server_port, timeout=5)
    line.request("GET", "/-/events", headers={"Host": f"localhost:{shown.server.server_port}"})
    events = line.getresponse()
    assert events.getheader("Content-Type") == "text/event-stream"

    def told() -> dict[str, object]:
        data = events.readline().removeprefix(b"data: ")
        events.readline()
        found: dict[str, object] = json.loads(data)
        return found

    first = told()
    assert (first["failed"], first["shows"]) == (False, True)
    assert {"name": "public", "address": "/"} in list(map(dict, first["editions"]))  # type: ignore[call-overload]
    recipe = shown.root / "recipes" / "plain.md"
    recipe.write_text(PLAIN.replace("olive: 60 %", "olvie: 60 %"))
    shown.look()
    then = told()
    assert then["failed"] is True
    found = then["findings"][0]  # type: ignore[index]
    assert found["place"] == "recipes/plain.md:6:5"
    assert found["line"] == "    olvie: 60 %"
    assert b"Plain Bar" in shown.ask("/recipes/plain/")[2], "the last good page stays"
    recipe.write_text(PLAIN.replace("Plain Bar", "Plainer Bar"))
    shown.look()
    assert told()["failed"] is False
    assert b"Plainer Bar" in shown.ask("/recipes/plain/")[2]
    line.close()


def raw(shown: Shown, *lines: str, wait: float = 5.0) -> bytes:
    """What is answered to lines as they are, until the line is closed."""
    with socket.create_connection(("127.0.0.1", shown.server.server_port), timeout=wait) as line:
        line.sendall("\r\n".join((*lines, "Connection: close", "", "")).encode("latin-1"))
        found = b""
        while part := line.recv(65536):
            found += part
    return found


def test_a_request_by_two_names_is_refused(shown: Shown) -> None:
    """RFC 9112, 3.2 and 3.2.2: one Host alone, and the address in full goes before it."""
    ours = f"localhost:{shown.server.server_port}"
    for lines in (
        ("GET / HTTP/1.1", f"Host: {ours}", "Host: evil.example"),
        ("GET / HTTP/1.1", "Host: evil.example", f"Host: {ours}"),
        ("GET http://evil.example/ HTTP/1.1", f"Host: {ours}"),
        (f"GET http://{ours}/ HTTP/1.1", "Host: evil.example"),
        ("GET / HTTP/1.1",),
    ):
        assert raw(shown, *lines).startswith(b"HTTP/1.1 403 "), lines
    assert raw(shown, f"GET http://{ours}/ HTTP/1.1", f"Host: {ours}").startswith(b"HTTP/1.1 200 ")


@pytest.mark.parametrize(
    "path", ["http://[::1", "//[", "/%", "/%ff%fe", "/\xff", "/" + "a" * 60_000, "*", "/?\x00"]
)
def test_what_is_no_address_is_answered(shown: Shown, path: str) -> None:
    answer = raw(shown, f"GET {path} HTTP/1.1", f"Host: localhost:{shown.server.server_port}")
    assert answer.split()[1] in (b"200", b"400", b"403", b"404"), answer[:100]
    assert b"not of the site" not in answer


def test_who_asks_slowly_is_let_go_and_keeps_nobody_waiting(
    shown: Shown, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(server._Handler, "timeout", 0.2)
    slow = [socket.create_connection(("127.0.0.1", shown.server.server_port), timeout=5) for _ in range(40)]
    for line in slow:
        line.sendall(b"GET / HTTP/1.1\r\nHo")
    assert shown.ask("/")[0] == 200
    for line in slow:
        assert line.recv(1) == b"", "the line is closed"
        line.close()


@pytest.mark.browser
@pytest.mark.skipif(shutil.which("chromium") is None, reason="needs Chromium")
def test_a_browser_shows_the_page_and_what_is_found(tmp_path: Path) -> None:
    """A browser runs the window's script: the page stands in the frame, and an error is laid over it."""
    root = write_book(tmp_path / "book", {"recipes/plain.md": PLAIN})
    one = Shown(root)
    (root / "recipes" / "plain.md").write_text(PLAIN.replace("olive: 60 %", "olvie: 60 %"))
    one.look()
    command = [
        "chromium",
        "--headless",
        "--no-sandbox",
        "--disable-gpu",
        "--timeout=3000",
        "--dump-dom",
        one.server.address,
    ]
    dom = subprocess.run(command, capture_output=True, text=True, check=True, timeout=60).stdout
    one.server.end()
    assert "<title>Saponary watch</title>" not in dom, "the title is that of the page in the frame"
    assert "recipes/plain.md:6:5" in dom
    assert '<mark class="from">olvie</mark>' in dom
    assert 'aria-expanded="true"' in dom
