"""A stretch of a note -> the same length of text, with a blank character for each one of its marks."""

from __future__ import annotations

import re

from guidec.model.types import Guide
from guidec.source import Span

__all__ = ["BLANK", "sentence_at", "unmarked"]

BLANK = "\0"
_MARK = re.compile(r"\{[^{}]*\}")
_END = re.compile(r"[;!?]|\.(?=\s|$)")


def unmarked(guide: Guide, span: Span) -> str:
    """What stands in a span outside its marks; offsets hold. Marks inside marks go with them."""
    text = guide.source.slice(span)
    while "{" in text:
        bare = _MARK.sub(lambda mark: BLANK * len(mark[0]), text)
        if bare == text:
            break
        text = bare
    return text


def sentence_at(text: str, at: int) -> tuple[int, int]:
    """Where the sentence that holds an offset starts and ends in a text."""
    ends = [end.start() for end in _END.finditer(text)]
    return max((end + 1 for end in ends if end < at), default=0), min(
        (end for end in ends if end >= at), default=len(text)
    )
