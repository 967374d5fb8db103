"""Words heard -> text that may stand in a note: in a mark, beside it, in its front matter."""

from __future__ import annotations

import re
from collections.abc import Sequence

__all__ = ["as_name", "clock", "escaped", "in_mark", "letter", "listed", "quoted", "remark"]

_LEADS = re.compile(r"^(?:(?:and|so|but|then|now|well|oh|okay|ok|right|alright|um|uh) )+(?=\w+ \w+ )")


def clock(seconds: float) -> str:
    """`1:02`, `1:02:03`."""
    whole = int(seconds)
    hours, rest = divmod(whole, 3600)
    return f"{hours}:{rest // 60:02}:{rest % 60:02}" if hours else f"{rest // 60}:{rest % 60:02}"


def letter(number: int) -> str:
    """0 A, 25 Z, 26 AA."""
    return chr(65 + number) if number < 26 else f"{chr(64 + number // 26)}{chr(65 + number % 26)}"


def listed(names: Sequence[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}" if names else ""


def as_name(name: str) -> str:
    """A name as a mark takes it."""
    return re.sub(r"[{};:=|\\]", " ", name).strip()


def in_mark(text: str) -> str:
    """Words that may stand in a mark."""
    return (
        re.sub(r"\s+", " ", re.sub(r"[{};\\]", " ", text))
        .replace(":", ",")
        .replace(" 's", "'s")
        .replace(" 're", "'re")
        .strip()
    )


def remark(text: str) -> str:
    """Words of a remark, without the `and so` that led to them."""
    return _LEADS.sub("", in_mark(text))


def escaped(text: str) -> str:
    """Words as plain text to Markdown and to the notes language."""
    text = text.replace(" 's", "'s").replace(" 're", "'re")
    return re.sub(r"([\\`*_{}\[\]<>#|~!&])", r"\\\1", text)


def quoted(text: str) -> str:
    """A text as a YAML scalar in double quotes."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
