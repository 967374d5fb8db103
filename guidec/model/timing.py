"""The times of a guide -> findings where they leave the recording or run backwards."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.types import Guide, Time
from guidec.rules.finding import Finding

__all__ = ["check_times"]


def check_times(guide: Guide) -> Iterator[Finding]:
    """Times past the recording's end, and operations that are not in running order."""
    length = guide.meta.recording.length if guide.meta.recording else None
    times = [operation.time for operation in guide.operations] + [action.time for action in guide.actions.values()]
    seen = set()
    for time in times:
        last = _last(time)
        if (
            time is not None
            and last is not None
            and length is not None
            and last > length
            and time.span not in seen
        ):
            seen.add(time.span)
            yield Finding.at("M217", time.span, time=_clock(last), length=_clock(length))
    before: Time | None = None
    for operation in guide.operations:
        if operation.time is None:
            continue
        if before is not None and operation.time.start < before.start:
            yield Finding.at("M218", operation.time.span, labels={"before": before.span}, title=operation.title)
        before = operation.time


def _last(time: Time | None) -> float | None:
    if time is None:
        return None
    return time.start if time.end is None else max(time.start, time.end)


def _clock(seconds: float) -> str:
    minutes, rest = divmod(int(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{rest:02}" if hours else f"{minutes}:{rest:02}"
