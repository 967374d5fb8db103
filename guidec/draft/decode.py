"""The bytes of a transcript -> text, whatever wrote them."""

from __future__ import annotations

import codecs

__all__ = ["decoded"]

_MARKS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF32_LE, "utf-32-le"),
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)


def decoded(data: bytes) -> str:
    """The text, line ends as `\\n`: by its byte-order mark, else UTF-16 if every other byte is nought, else UTF-8,
    else Windows-1252 (with Latin-1 for the five bytes that it lacks)."""
    text = _text(data)
    return text.replace("\r\n", "\n").replace("\r", "\n").replace("\0", "\ufffd")


def _text(data: bytes) -> str:
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            return data[len(mark) :].decode(encoding, "replace")
    if sixteen := _sixteen_bit(data[:4000]):
        return data.decode(sixteen, "replace")
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        return _windows(data)


def _sixteen_bit(head: bytes) -> str | None:
    """UTF-16 without a mark: mostly noughts in the even or in the odd places."""
    pairs = len(head) // 2
    if pairs < 4:
        return None
    if head[1::2].count(0) > 0.6 * pairs:
        return "utf-16-le"
    return "utf-16-be" if head[0::2].count(0) > 0.6 * pairs else None


def _windows(data: bytes) -> str:
    return "".join(
        chr(byte) if byte in (0x81, 0x8D, 0x8F, 0x90, 0x9D) else bytes((byte,)).decode("cp1252") for byte in data
    )
