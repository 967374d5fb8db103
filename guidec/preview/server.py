"""Requests of a browser on this machine -> pages of the preview, and word of each change.

It listens on the loopback interface alone and answers requests to it by that name alone, so that neither another
machine nor a page from elsewhere (by a name that leads here) can read the notes.
"""

from __future__ import annotations

import mimetypes
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from typing import ClassVar
from urllib.parse import parse_qs, quote, unquote, urlsplit

from guidec.preview.page import asset, front, page
from guidec.preview.site import Notes

__all__ = ["HOST", "Server"]

HOST = "127.0.0.1"
_NAMES = ("127.0.0.1", "localhost")
_BREATH = 10.0


class Server(ThreadingHTTPServer):
    """The preview's server. Port 0 is any that is free; `address` says which."""

    daemon_threads = True
    request_queue_size = 64

    def __init__(self, notes: Notes, port: int) -> None:
        super().__init__((HOST, port), _Handler)
        self.notes = notes
        self.ending = False

    @property
    def address(self) -> str:
        """Where a browser finds it."""
        return f"http://{HOST}:{self.server_address[1]}/"

    def handle_error(self, request: object, client_address: object) -> None:
        """A browser that goes away in the middle is no news."""


class _Handler(BaseHTTPRequestHandler):
    protocol_version = "HTTP/1.1"
    server: Server
    extensions: ClassVar[dict[str, str]] = {".md": "text/plain", ".js": "text/javascript", ".vtt": "text/vtt"}

    def do_GET(self) -> None:  # the library's name
        """Answer a request."""
        host = (self.headers.get("Host") or "").rsplit(":", 1)[0]
        if host not in _NAMES:
            self._send(HTTPStatus.FORBIDDEN, b"this server answers to 127.0.0.1 and localhost alone", "text/plain")
            return
        parts = urlsplit(self.path)
        path = unquote(parts.path)
        if path == "/-/events":
            self._events(parse_qs(parts.query))
        elif path.startswith("/-/"):
            self._file(path, asset(path.removeprefix("/-/")))
        elif path == "/":
            self._front()
        else:
            self._note(path)

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002  # the library's name
        """Say nothing: the terminal is for what the notes have to say."""

    def _front(self) -> None:
        notes = self.server.notes
        if notes.only:
            self._moved(f"/{notes.only}/")
            return
        rows = [(name, notes.known(name)) for name in notes.names()]
        self._html(front(rows, notes.version, notes.words()))

    def _note(self, path: str) -> None:
        """`/NOTE.md/FILE`: a file of a guide, its page where there is no more than the note's name."""
        before, found, file = path[1:].partition(".md/")
        name = f"{before}.md"
        if not found or name not in self.server.notes.names():
            here = path[1:] in self.server.notes.names()
            self._moved(f"{path}/") if here else self._missing()
            return
        made = self.server.notes.get(name)
        file = file or "index.html"
        if file.endswith(".html") and (file in made.files or file == "index.html"):
            self._html(page(name, file, made, self.server.notes.words()))
        else:
            self._file(file, made.files.get(file))

    def _events(self, asked: dict[str, list[str]]) -> None:
        """Word of changes (server-sent events), for as long as the browser listens."""
        notes, note = self.server.notes, (asked.get("note") or [""])[0]
        version = (asked.get("version") or [""])[0]
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", "text/event-stream")
        self.send_header("Cache-Control", "no-store")
        self.send_header("Connection", "close")
        self.end_headers()
        self.close_connection = True
        while not self.server.ending:
            seen = notes.version
            now = str(notes.version_of(note))
            self.wfile.write(b"event: changed\ndata: 1\n\n" if now != version else b": still here\n\n")
            self.wfile.flush()
            version = now
            notes.wait(seen, _BREATH)

    def _html(self, text: str) -> None:
        self._send(HTTPStatus.OK, text.encode(), "text/html; charset=utf-8")

    def _file(self, name: str, data: bytes | None) -> None:
        if data is None:
            self._missing()
            return
        suffix = f".{name.rpartition('.')[2]}"
        kind = self.extensions.get(suffix) or mimetypes.guess_type(name)[0] or "application/octet-stream"
        self._send(HTTPStatus.OK, data, f"{kind}; charset=utf-8" if kind.startswith("text/") else kind)

    def _missing(self) -> None:
        self._send(HTTPStatus.NOT_FOUND, b"there is nothing here", "text/plain")

    def _moved(self, path: str) -> None:
        self.send_response(HTTPStatus.FOUND)
        self.send_header("Location", quote(path))
        self.send_header("Content-Length", "0")
        self.end_headers()

    def _send(self, status: HTTPStatus, data: bytes, kind: str) -> None:
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(data)))
        self.send_header("Cache-Control", "no-store")
        self.send_header("X-Content-Type-Options", "nosniff")
        self.end_headers()
        self.wfile.write(data)
