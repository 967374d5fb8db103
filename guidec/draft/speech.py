"""Cues -> the words heard, one after another, each with its time, its cue, and the pause or stop behind it."""

from __future__ import annotations

import re
from collections.abc import Sequence

from guidec.draft.cue import Cue
from guidec.quick import dataclass

__all__ = ["COMMA", "END", "NONE", "Heard", "heard"]

NONE, COMMA, END = 0, 1, 2
PAUSE = 2.0
"""Seconds of silence between two cues that part two sentences."""

_WORD = re.compile(r"[^\W_]+(?:['’.,/\-][^\W_]+)*(?:['’](?=\s|$|[.,!?;:]))?|[%°$€£&+½¼¾]|[.!?;:,…()\"“”–—-]")
_STOPS = {".": END, "!": END, "?": END, "…": END, ";": END, ":": COMMA, ",": COMMA, "–": COMMA, "—": COMMA}


@dataclass(frozen=True, slots=True)
class Heard:
    """One word. `text` lower case; `raw` as it stands; `start` in seconds; `cue` its number; `stop` what
    follows."""

    text: str
    raw: str
    start: float
    cue: int
    stop: int = NONE


def heard(cues: Sequence[Cue]) -> tuple[Heard, ...]:
    """The words of all cues. A full stop, a long pause and a change of speaker end a sentence."""
    words: list[Heard] = []
    for number, cue in enumerate(cues):
        last = cues[number - 1] if number else None
        if words and last and (cue.speaker != last.speaker or cue.start - last.end > PAUSE):
            words[-1] = _stopped(words[-1], END)
        for match in _WORD.finditer(cue.text):
            piece = match[0].replace("’", "'")
            if stop := _STOPS.get(piece):
                if words and words[-1].cue == number:
                    words[-1] = _stopped(words[-1], stop)
            elif piece[0].isalnum() or piece in "%°$€£&½¼¾":
                time = round(_time(cue, match.start()), 2)
                words += [Heard(part, raw, time, number) for part, raw in _parts(piece)]
    return tuple(words)


def _stopped(word: Heard, stop: int) -> Heard:
    return Heard(word.text, word.raw, word.start, word.cue, max(stop, word.stop))


def _parts(piece: str) -> list[tuple[str, str]]:
    """A word taken apart where a hyphen or a stroke joins two words: `flip-lock`; `M2x6` and `3.85` stay whole."""
    if piece.strip("'") == "":
        return []
    pieces = re.split(r"(?<=[a-zA-Z])[-/](?=[a-zA-Z])|(?<=\d)-(?=[a-zA-Z]{2,})|(?<=[a-zA-Z]{2})-(?=\d)", piece)
    return [(part.strip("'").lower(), part) for part in pieces if part.strip("'")]


def _time(cue: Cue, at: int) -> float:
    """When the character at an offset of the cue's text is spoken: by the last beat before it, else by its
    share."""
    start, end, first, last = cue.start, cue.end, 0, len(cue.text)
    for beat in cue.beats:
        if beat.at <= at + 1:
            start, first = beat.start, beat.at
        else:
            end, last = beat.start, beat.at
            break
    return start + (end - start) * max(at - first, 0) / max(last - first, 1)
