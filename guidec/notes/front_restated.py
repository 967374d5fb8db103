"""A value of the front matter that does not fit -> the same as it should be written, where that is plain."""

from __future__ import annotations

import datetime
import re

__all__ = ["restated"]

_TABLES = ("parts", "fasteners", "tools", "supplies", "connectors", "adhesives")
_DAY = re.compile(r"(\d{1,2})[./-](\d{1,2})[./-](\d{4})")
_MONTHS = (
    *("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"),
    *("", "", "mär", "", "mai", "", "", "", "", "okt", "", "dez"),
)
_WORDY = re.compile(r"(?:(\d{1,2})\.?\s+)?([^\W\d_]{3,})\.?\s+(?:(\d{1,2}),\s*)?(\d{4})")


def restated(key: str, typed: str) -> tuple[str, ...]:
    """What may have been meant by a date or a recording, most likely first."""
    if key == "date":
        return _dates(typed.strip())
    if key == "recording" and typed and not typed.startswith(("{", "[")):
        return (f"{{{'url' if '://' in typed else 'file'}: {typed}}}",)
    if key in _TABLES and typed and not typed.startswith(("{", "[")):
        return (f"[{typed}]",)
    return ()


def _dates(typed: str) -> tuple[str, ...]:
    found = _DAY.fullmatch(typed)
    if found:
        one, other, year = (int(part) for part in found.groups())
        return tuple(dict.fromkeys(filter(None, (_iso(year, other, one), _iso(year, one, other)))))
    worded = _WORDY.fullmatch(typed)
    name = worded[2][:3].casefold() if worded else ""
    if not worded or name not in _MONTHS:
        return ()
    month, day = _MONTHS.index(name) % 12 + 1, worded[1] or worded[3]
    whole = _iso(int(worded[4]), month, int(day)) if day else f"{worded[4]}-{month:02}"
    return (whole,) if whole else ()


def _iso(year: int, month: int, day: int) -> str:
    """The date, or nothing where no calendar has it."""
    try:
        return datetime.date(year, month, day).isoformat()
    except ValueError:
        return ""
