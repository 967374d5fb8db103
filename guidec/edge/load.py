"""A path -> a bundle: the note's text, the folder its pictures are in, and what is wrong with the file itself."""

from __future__ import annotations

import codecs
import errno
import os
import stat
from pathlib import Path

from guidec.edge.near import near_notes
from guidec.quick import dataclass
from guidec.rules.finding import Finding
from guidec.source import Source, Span

__all__ = ["MOST_BYTES", "Bundle", "load", "of_bytes"]

MOST_BYTES = 16 * 1024 * 1024
"""The largest note that is read: some hundred times the longest that anybody types."""

_MARKS = (
    (codecs.BOM_UTF32_LE, "utf-32"),
    (codecs.BOM_UTF32_BE, "utf-32"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)


@dataclass(frozen=True, slots=True)
class Bundle:
    """A note as loaded. `folder`: where its pictures may lie, fully resolved.

    `readable` is false where there is no text to go on with, `found` where there is no file; `findings` say why.
    """

    source: Source
    folder: Path
    findings: tuple[Finding, ...] = ()
    readable: bool = True
    found: bool = True


def load(path: Path, name: str | None = None) -> Bundle:
    """The note at a path. Never raises for what a file can be: `findings` say what is wrong with it.

    `name`: what to call it in messages; the path as given unless said otherwise.
    """
    shown = name or str(path)
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            return _unread(shown, path.parent, "folder" if path.is_dir() else "special", path)
        with path.open("rb") as file:
            data = file.read(MOST_BYTES + 1)
    except OSError as error:
        return _unread(shown, path.parent, _variant(error), path, error)
    return of_bytes(shown, data, path.parent)


def of_bytes(name: str, data: bytes, folder: Path) -> Bundle:
    """A note of which the bytes are at hand: standard input, or an editor's unsaved text."""
    resolved = Path(os.path.realpath(folder))
    if len(data) > MOST_BYTES:
        size = f"{MOST_BYTES // 1024 // 1024}"
        return Bundle(Source(name, ""), resolved, (Finding.at("N004", Span(0, 0), most=size),), readable=False)
    text, findings, is_text = _decoded(name, data)
    if is_text and not text.strip().strip("\ufeff"):
        return Bundle(Source(name, ""), resolved, (Finding.at("N003", Span(0, 0)),), readable=False)
    return Bundle(Source.of(name, text if is_text else ""), resolved, findings, readable=is_text)


def _variant(error: OSError) -> str:
    if error.errno in (errno.ENOENT, errno.ENOTDIR):
        return ""
    return "denied" if error.errno in (errno.EACCES, errno.EPERM) else "broken"


def _unread(shown: str, folder: Path, variant: str, path: Path, error: OSError | None = None) -> Bundle:
    near: tuple[str, ...] = ()
    if variant == "":
        near = tuple(str(folder / name) for name in near_notes(folder, path.name))
    elif variant == "folder":
        near = tuple(sorted(map(str, path.glob("*.md"))))
    reason = (error.strerror or str(error)).lower() if error else ""
    finding = Finding.at("N001", Span(0, 0), variant=variant, suggest=near, name=shown, reason=reason)
    return Bundle(Source(shown, ""), folder, (finding,), readable=False, found=False)


def _decoded(name: str, data: bytes) -> tuple[str, tuple[Finding, ...], bool]:
    """The text, what is wrong with its encoding, and whether it is text at all."""
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            text = data.decode(encoding, errors="replace")
            return text, (Finding.at("N002", Span(0, 0), variant="other", encoding=encoding.upper()),), True
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        if b"\0" in data:
            return "", (Finding.at("N002", Span(0, 0), variant="binary"),), False
        return _patched(name, data, error)
    if "\0" in text:
        return "", (Finding.at("N002", Span(0, 0), variant="binary"),), False
    return text, (), True


def _patched(name: str, data: bytes, error: UnicodeDecodeError) -> tuple[str, tuple[Finding, ...], bool]:
    """Text that is not UTF-8: what does not fit is read as Windows-1252, which it nearly always is, and said."""
    before = Source.of(name, data[: error.start].decode("utf-8"))
    codecs.register_error("guidec.windows", _as_windows)
    at = len(before.text)
    byte = f"0x{data[error.start]:02X}"
    finding = Finding.at("N002", Span(at, at + 1), byte=byte, line=before.place(at).line)
    return data.decode("utf-8", errors="guidec.windows"), (finding,), True


def _as_windows(error: UnicodeError) -> tuple[str, int]:
    assert isinstance(error, UnicodeDecodeError)
    return error.object[error.start : error.end].decode("cp1252", errors="replace"), error.end
