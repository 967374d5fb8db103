"""The bytes of a transcript in any of its forms -> cues in running order, each word once."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from guidec.draft.cue import Beat, Cue
from guidec.draft.decode import decoded
from guidec.draft.stamps import json_lines, stamped
from guidec.draft.webvtt import timed_blocks

__all__ = ["UnreadableError", "read_transcript"]

_SPEAKER = re.compile(r"^\s*(?:>>\s*|-\s+)?(?:\[?([A-Z][A-Za-z.' ]{0,24}?)\]?:\s+)|^\s*>>\s*")
_NOISE = re.compile(r"\[(?:[^\]\d]{1,40})\]|\((?:music|applause|laughter|laughs|silence|inaudible)\)|[♪♫]+", re.I)


class UnreadableError(ValueError):
    """The file is no transcript that can be read; the message says why and what would do."""


def read_transcript(data: bytes) -> tuple[Cue, ...]:
    """The cues of WebVTT, SubRip, stamped text or JSON lines, told apart by what is in them, not by the name.

    Speaker names and sounds in brackets are taken out of the words; lines that a rolling caption repeats are said
    once. Raises UnreadableError where no times can be found.
    """
    text = decoded(data)
    if not text.strip():
        raise UnreadableError("the transcript is empty")
    cues = _reader(text)(text)
    if not cues:
        raise UnreadableError("no line of the transcript has a time")
    cues = sorted(cues, key=lambda cue: cue.start)
    return tuple(cue for cue in once([_plain(cue) for cue in cues]) if cue.text)


def _reader(text: str) -> Callable[[str], list[Cue]]:
    head = text.lstrip()
    if "-->" in text:
        return timed_blocks
    if head.startswith(("{", "[{")) or re.match(r"\[\s*\{", head):
        return json_lines
    return stamped


def _plain(cue: Cue) -> Cue:
    """The cue without its speaker's name and without sounds, its beats moved along."""
    named = _SPEAKER.match(cue.text)
    speaker = cue.speaker
    gone = []
    if named:
        gone.append(named.span())
        speaker = (named[1] or speaker or ">>").strip()
    gone += [match.span() for match in _NOISE.finditer(cue.text) if not named or match.start() >= named.end()]
    text, beats, at, cut = "", cue.beats, 0, 0
    for start, stop in gone:
        text += cue.text[at:start]
        beats = tuple(
            Beat(max(beat.at - (stop - start), start - cut), beat.start) if beat.at >= stop - cut else beat
            for beat in beats
        )
        at, cut = stop, cut + stop - start
    return replace(cue, text=text + cue.text[at:], speaker=speaker, beats=beats)


def once(cues: list[Cue]) -> list[Cue]:
    """Rolling captions, where a cue starts with words of the cues before it, told once.

    Words count as repeated where the cue starts with the last line that is still on the screen: all words of an
    earlier cue, or at least three of them at its end, within two seconds of its end and ten of
    its start.
    """
    told: list[Cue] = []
    tail: list[str] = []
    last_start = last_end = -20.0
    for cue in cues:
        words = [(match.start(), match[0].casefold()) for match in re.finditer(r"\S+", cue.text)]
        same = (
            _overlap(tail, [word for _, word in words])
            if cue.start - last_end < 2.0 and cue.start - last_start < 10.0
            else 0
        )
        cut = words[same][0] if same < len(words) else len(cue.text)
        fresh = replace(
            cue,
            text=cue.text[cut:],
            beats=tuple(Beat(max(beat.at - cut, 0), beat.start) for beat in cue.beats if beat.at >= cut),
        )
        last_start, last_end = cue.start, max(last_end, cue.end)
        if fresh.text.strip():
            told.append(fresh)
            tail = (tail + [word for _, word in words[same:]])[-60:]
    return told


def _overlap(tail: list[str], words: list[str]) -> int:
    """How many words at the start of a cue are those that were heard last."""
    for count in range(min(len(tail), len(words)), 0, -1):
        if tail[-count:] == words[:count]:
            return count if count >= 3 or (count == len(words) and count >= 2) else 0
    return 0
