"""WebVTT and SubRip text -> cues.

Both are blocks parted by blank lines, with a timing line `START --> END [settings]` and the words below it. Tags
go, time stamps inside the words are kept as beats, a voice tag (`<v Name>`) names the speaker. After W3C WebVTT,
sections 4.1 and 6.3; SubRip has no standard: commas, missing numbers and styling tags as players take them.
"""

from __future__ import annotations

import html
import re

from guidec.draft.cue import Beat, Cue, seconds

__all__ = ["timed_blocks"]

_TIMING = re.compile(r"^\s*((?:\d+:)?\d{1,2}:\d{2}[.,]\d{1,3})\s*-->\s*((?:\d+:)?\d{1,2}:\d{2}[.,]\d{1,3})")
_TAG = re.compile(
    r"<(?P<stamp>(?:\d+:)?\d{2}:\d{2}\.\d{3})>|<v(?:\.[^ >]*)?\s+(?P<voice>[^>]*)>|</?[a-zA-Z][^>]*>"
)
_OVERRIDE = re.compile(r"\{\\[^}]*\}")


def timed_blocks(text: str) -> list[Cue]:
    """The cues of a WebVTT or SubRip text; notes, styles, regions and broken blocks are passed over."""
    lines = text.split("\n")
    cues = []
    at = 0
    while at < len(lines):
        timing = _TIMING.match(lines[at])
        if not timing:
            at += 1
            continue
        stop = at + 1
        while stop < len(lines) and lines[stop] != "" and not _TIMING.match(lines[stop]):
            stop += 1
        words = lines[at + 1 : stop]
        if stop < len(lines) and lines[stop] != "" and words and words[-1].strip().isdigit():
            words.pop()  # the number of a next block that no blank line parts from this one
        cues.append(_cue(timing, " ".join(words), at + 1))
        at = stop
    return cues


def _cue(timing: re.Match[str], words: str, line: int) -> Cue:
    plain, beats, speaker, at = [], [], "", 0
    length = 0
    words = _OVERRIDE.sub("", words)
    for tag in _TAG.finditer(words):
        piece = html.unescape(words[at : tag.start()])
        plain.append(piece)
        length += len(piece)
        if tag["stamp"]:
            beats.append(Beat(length, seconds(tag["stamp"])))
        speaker = (tag["voice"] or speaker).strip()
        at = tag.end()
    plain.append(html.unescape(words[at:]))
    return Cue(seconds(timing[1]), seconds(timing[2]), "".join(plain), line, speaker, tuple(beats))
