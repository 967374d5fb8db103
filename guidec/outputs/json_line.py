"""Plain data -> JSON on one line, in the bytes that the standard library's encoder writes; five times as fast.

`msgspec` writes very small and very large floats in another way (`1e-7` for `1e-07`): such are marked by `exact`.
"""

from __future__ import annotations

import json
from typing import Any

import msgspec

__all__ = ["exact", "json_line"]

_plain = json.JSONEncoder(ensure_ascii=False, allow_nan=False, separators=(", ", ": ")).encode


class _Exact(float):
    """A number that is written as Python writes it."""


def exact(value: float) -> float:
    """The same number; one that Python writes with an exponent is written so in JSON too."""
    return _Exact(value) if value and not 1e-4 <= abs(value) < 1e16 else value


def json_line(data: Any) -> bytes:
    """The data as JSON with a blank after each comma and colon, UTF-8. Lone surrogates come out as `\\udc80`.

    Raises TypeError for what JSON cannot hold.
    """
    try:
        return msgspec.json.format(_encode(data), indent=0)
    except UnicodeEncodeError:
        return _plain(data).encode("utf-8", "backslashreplace")


def _written(value: Any) -> Any:
    """What msgspec does not know: numbers as they are to be written, and texts of another class."""
    if isinstance(value, _Exact):
        return msgspec.Raw(float.__repr__(value).encode())
    if isinstance(value, str):
        return str.__str__(value)
    raise TypeError(f"{type(value).__name__} is nothing that JSON holds")


_encode = msgspec.json.Encoder(enc_hook=_written).encode
