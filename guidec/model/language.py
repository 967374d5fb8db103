"""Front matter -> the language that its note is read in."""

from __future__ import annotations

import re

from guidec.notes.syntax import Located

__all__ = ["ENGLISH", "language_of"]

ENGLISH = "en"
_TAG = re.compile(r"[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*")


def language_of(front: Located) -> str:
    """The language tag as typed; English where there is none, or what is typed is no tag (which has been said)."""
    typed = front.get("language")
    tag = str(typed.value) if typed is not None and typed.value else ""
    return tag if _TAG.fullmatch(tag) else ENGLISH
