"""A guide -> the chapters of its recording: `chapters.vtt` (WebVTT) and `chapters.txt` (`m:ss title` a line).

Both tell the time in the recording: the note's time, later by the front matter's `offset`. The text form is the
one that video sites read from a description: the first chapter at 0:00, none shorter than ten seconds.
"""

from __future__ import annotations

from collections.abc import Sequence

from guidec.model.types import Guide
from guidec.quick import dataclass

__all__ = ["SHORTEST", "Chapter", "chapters", "files", "text", "vtt"]

SHORTEST = 10.0
"""Seconds between the starts of two chapters of the text form."""
_LAST = 60.0
"""Seconds that the last chapter is taken to last where nothing says how long it or the recording is."""


@dataclass(frozen=True, slots=True)
class Chapter:
    """A chapter: seconds from the start of the recording, and a title of one line."""

    start: float
    end: float
    title: str


def chapters(guide: Guide) -> tuple[Chapter, ...]:
    """The operations that have a time, by time; each lasts to the next at most. Of two at one time, the first."""
    recording = guide.meta.recording
    length, offset = (recording.length, recording.offset) if recording else (None, 0.0)
    starts: dict[float, tuple[float | None, str]] = {}
    for one in guide.operations:
        if one.time and (length is None or one.time.start + offset < length):
            end = None if one.time.end is None else one.time.end + offset
            title = " ".join(f"{one.number} {one.title}".split())
            starts.setdefault(one.time.start + offset, (end, title))
    found = sorted(starts.items())
    nexts: list[float | None] = [*(start for start, _ in found), length][1:]
    return tuple(
        Chapter(start, _end(start, end, following), title)
        for (start, (end, title)), following in zip(found, nexts, strict=True)
    )


def _end(start: float, end: float | None, following: float | None) -> float:
    """Its own end, but not past the next one's start; without one, up to there."""
    known = [time for time in (end, following) if time is not None and time > start]
    return min(known, default=start + _LAST)


def files(guide: Guide) -> dict[str, bytes]:
    """`chapters.vtt` and `chapters.txt`; neither for a guide without times."""
    made = {"chapters.vtt": vtt(guide), "chapters.txt": text(guide)}
    return {name: data for name, data in made.items() if data is not None}


def vtt(guide: Guide) -> bytes | None:
    """`chapters.vtt`: a cue for each chapter; None for a guide without times."""
    found = chapters(guide)
    if not found:
        return None
    cues = "".join(f"\n{_stamp(one.start)} --> {_stamp(one.end)}\n{_escaped(one.title)}\n" for one in found)
    return f"WEBVTT\n{cues}".encode()


def text(guide: Guide) -> bytes | None:
    """`chapters.txt`; None for a guide without times. What starts too soon after another is left to it."""
    kept = _apart(chapters(guide), guide.meta.title)
    hours = bool(kept) and kept[-1].start >= 3600
    lines = [f"{_clock(one.start, hours)} {one.title}\n" for one in kept]
    return "".join(lines).encode() if lines else None


def _apart(found: Sequence[Chapter], title: str) -> list[Chapter]:
    """Chapters at least `SHORTEST` apart, the first at nought (the guide's title where no operation starts)."""
    if not found:
        return []
    first = found[0]
    opening = first.title if first.start < SHORTEST else " ".join(title.split())
    kept = [Chapter(0.0, first.start, opening)]
    for one in found[1:] if first.start < SHORTEST else found:
        if int(one.start) - int(kept[-1].start) >= SHORTEST:
            kept.append(one)
    return kept


def _stamp(seconds: float) -> str:
    """`hh:mm:ss.ttt`, as WebVTT wants it."""
    whole = round(seconds * 1000)
    return f"{whole // 3_600_000:02}:{whole // 60_000 % 60:02}:{whole // 1000 % 60:02}.{whole % 1000:03}"


def _clock(seconds: float, hours: bool) -> str:
    """`m:ss`, or `h:mm:ss` where the recording is long."""
    whole = int(seconds)
    if hours:
        return f"{whole // 3600}:{whole // 60 % 60:02}:{whole % 60:02}"
    return f"{whole // 60}:{whole % 60:02}"


def _escaped(title: str) -> str:
    """Cue text: `&` and `<` have a meaning there, and so has `-->`."""
    return title.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
