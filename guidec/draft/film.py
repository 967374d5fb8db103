"""A video file and times -> for each time the sharpest frame near it, as a picture.

The frames on the way from the key frame to the wanted one are decoded anyway; of those in the last second the
sharpest is taken. Frames are placed by their own time stamps, so that a variable frame rate does not matter, and
turned as the file says. A file that cannot seek is read once from the start.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from guidec.quick import dataclass

if TYPE_CHECKING:
    from PIL.Image import Image

__all__ = ["Film", "MissingDecoderError", "Still", "UnreadableVideoError", "stills"]

NEAR = 1.0
"""Seconds before a time code in which the sharpest frame is looked for."""
SLACK = 0.5
"""Seconds by which a seek may land behind its goal before it counts as missed."""
FEWEST = 3
"""Frames to choose from: where a key frame stands right before the time, some after it are decoded too."""
MIDDLE = (256, 144)
"""The middle of the picture that is measured for sharpness, in pixels."""
MEASURED = 4
"""Frames that are measured for sharpness at each time code."""


class MissingDecoderError(RuntimeError):
    """The extra that decodes video is not installed."""


class UnreadableVideoError(ValueError):
    """The file holds no video that can be decoded; the message says why."""


@dataclass(frozen=True, slots=True)
class Still:
    """A frame: the time asked for, the time it has, the picture (turned upright)."""

    asked: float
    start: float
    image: Image


@dataclass(slots=True)
class Film:
    """An open video. `length` in seconds, None where the file does not say."""

    container: Any
    stream: Any
    length: float | None
    seeks: bool = True


def opened(path: Path) -> Film:
    """The video of a file, opened. Raises MissingDecoderError, UnreadableVideoError. Imports the decoder here."""
    try:
        import av  # imported here: only stills need it
    except ImportError:
        raise MissingDecoderError("stills need a video decoder, which is not installed") from None
    try:
        container = av.open(str(path))
    except (av.FFmpegError, OSError, ValueError) as error:
        raise UnreadableVideoError(f"it cannot be opened ({_reason(error)})") from None
    if not container.streams.video:
        container.close()
        raise UnreadableVideoError("there is no video in it")
    stream = container.streams.video[0]
    stream.thread_type = "AUTO"
    length = None
    if stream.duration is not None and stream.time_base:
        length = float(stream.duration * stream.time_base)
    elif container.duration:
        length = container.duration / 1_000_000
    return Film(container, stream, length)


def _reason(error: Exception) -> str:
    return (getattr(error, "strerror", None) or str(error)).splitlines()[0].lower()


def stills(
    path: Path, times: Sequence[float], told: Callable[[int], None] = lambda done: None
) -> tuple[list[Still], list[str]]:
    """The stills for times (seconds), in ascending order, and what there is to say of those that have none.

    `told` hears how many times are done. Raises as `opened` does.
    """
    film = opened(path)
    said: list[str] = []
    found: list[Still] = []
    wanted = sorted(set(times))
    try:
        if film.length is not None:
            past = [time for time in wanted if time > film.length + NEAR]
            said += [
                f"{_clock(time)} is past the end of the video ({_clock(film.length)}): no still" for time in past
            ]
            wanted = [time for time in wanted if time not in past]
        frames = _frames(film, wanted, said)
        for number, (time, best) in enumerate(zip(wanted, frames, strict=False), 1):
            if best is None:
                said.append(f"{_clock(time)} is past the end of the video: no still")
            else:
                found.append(Still(time, best.time, _upright(best)))
            told(number)
    finally:
        film.container.close()
    return found, said


def _frames(film: Film, wanted: Sequence[float], said: list[str]) -> Iterator[Any]:
    """For each time, ascending, the sharpest of the frames in the second before it; None past the end."""
    decoded = _decode(film)
    behind: list[Any] = []
    offset = _offset(film)
    for time in wanted:
        goal = time + offset
        if film.seeks and not (behind and 0 <= goal - behind[-1].time < 1.0):
            behind = []
            decoded = _sought(film, goal, said)
        behind = [frame for frame in behind if frame.time >= goal - NEAR]
        for frame in decoded:
            if frame.time is None:
                continue
            behind.append(frame)
            behind = [one for one in behind if one.time >= goal - NEAR][-240:] or [frame]
            if frame.time >= goal - 0.02 and len(behind) >= FEWEST:
                break
        near = [frame for frame in behind if goal - NEAR <= frame.time <= goal + NEAR]
        yield _sharpest(near)


def _offset(film: Film) -> float:
    """When the video starts, on the clock of its frames."""
    start = film.stream.start_time
    return float(start * film.stream.time_base) if start is not None and film.stream.time_base else 0.0


def _decode(film: Film) -> Iterator[Any]:
    """All frames from where the file stands; a broken end ends them."""
    import av  # imported here: only stills need it

    try:
        yield from film.container.decode(film.stream)
    except (av.FFmpegError, EOFError):
        return


def _sought(film: Film, goal: float, said: list[str]) -> Iterator[Any]:
    """The frames from the key frame before a time on; from the start, once and for all, where seeking fails."""
    import av  # imported here: only stills need it

    try:
        av_seek(film, goal)
        frames = _decode(film)
        first = next(frames, None)
    except (av.FFmpegError, OSError):
        first = None
    if first is not None and first.time is not None and first.time <= goal + SLACK:
        return _again(first, frames)
    film.seeks = False
    said.append("the video has no index to seek by: it was read from the start")
    film.container.close()
    film.container = av.open(film.container.name)
    film.stream = film.container.streams.video[0]
    film.stream.thread_type = "AUTO"
    return _decode(film)


def av_seek(film: Film, goal: float) -> None:
    """Go to the key frame before a time."""
    film.container.seek(int(max(goal - 0.001, 0) / film.stream.time_base), stream=film.stream)


def _again(first: Any, rest: Iterator[Any]) -> Iterator[Any]:
    yield first
    yield from rest


def _sharpest(frames: Sequence[Any]) -> Any:
    """The frame with most contrast between neighbours; of equals the last. None where there are none."""
    if len(frames) < 2:
        return frames[0] if frames else None
    step = max(1, -(-len(frames) // MEASURED))
    chosen = list(frames[::-1][::step])
    return max(chosen, key=_sharpness)


def _sharpness(frame: Any) -> float:
    """Variance of a Laplacian over the middle of the picture. Imports Pillow here."""
    from PIL import ImageFilter, ImageStat  # imported here: only stills need it

    grey = _grey(frame)
    width, height = min(grey.width, MIDDLE[0]), min(grey.height, MIDDLE[1])
    left, top = (grey.width - width) // 2, (grey.height - height) // 2
    middle = grey.crop((left, top, left + width, top + height))
    kernel = ImageFilter.Kernel((3, 3), (0, 1, 0, 1, -4, 1, 0, 1, 0), scale=1, offset=128)
    return float(ImageStat.Stat(middle.filter(kernel)).var[0])


def _grey(frame: Any) -> Image:
    """The brightness of a frame: its first plane as it stands where that is it, else reckoned. Imports Pillow
    here."""
    import PIL.Image  # imported here: only stills need it

    if frame.format.name.startswith(("yuv", "nv12", "gray")) and not frame.format.name.endswith(("le", "be")):
        plane = frame.planes[0]
        return PIL.Image.frombuffer("L", (frame.width, frame.height), plane, "raw", "L", plane.line_size, 1)
    small: Image = frame.reformat(format="gray").to_image().convert("L")
    return small


def _upright(frame: Any) -> Image:
    """The picture, turned as the file's display matrix says (degrees counter-clockwise)."""
    image: Image = frame.to_image()
    turn = round(float(getattr(frame, "rotation", 0) or 0)) % 360
    return image.rotate(turn, expand=True) if turn else image


def _clock(seconds: float) -> str:
    return f"{int(seconds) // 60}:{int(seconds) % 60:02}"
