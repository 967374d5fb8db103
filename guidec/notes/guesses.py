"""A mark without an end -> the same with an end where it most likely belongs."""

from __future__ import annotations

import re

__all__ = ["closed"]

_HEAD = re.compile(r"\{\s*\??\s*\S+(?:\s+\S+)?")
_TAKES_TEXT = re.compile(r"\{\s*\??\s*(?:heat|wait|torque|measure|refit|risk|after|also|instead|pin)\s", re.I)
_AFTER_NAME = re.compile(
    r"[.,;!?](?=\s|$)|\s(?:with|and|then|from|to|off|out|up|using|by|before|after|until|while|for|in|on|at)\b"
)
_AFTER_VALUE = re.compile(r"[.!?](?=\s)|[.,;:!?]*$")


def closed(typed: str) -> str:
    """The mark closed where its name or its last value most likely ends; what follows is kept.

    `{part back cover with` is closed before `with`, one with details at its sentence's end.
    """
    head = _HEAD.match(typed)
    long = _TAKES_TEXT.match(typed) or re.search(r"[:;]\s", typed)
    shape = _AFTER_VALUE if long else _AFTER_NAME
    found = shape.search(typed, head.end() if head and shape is _AFTER_NAME else 0)
    if head and shape is _AFTER_NAME and re.search(r"[.,;!?]$", head[0]):
        return f"{head[0][:-1]}}}{typed[head.end() - 1 :]}"
    at = found.start() if found else len(typed)
    return f"{typed[:at]}}}{typed[at:]}"
