"""Drafting: half an hour of talk, and stills against the decoder's own seeking."""

from __future__ import annotations

import json
import tempfile
import time
from functools import cache
from pathlib import Path

from bench.drafts import TRANSCRIPTS, facts_of, names
from bench.row import Figure, Ratio

__all__ = ["ROWS"]

LENGTH = 1800
TIMES = [4.2, 11.3, 19.8, 27.1, 33.4, 41.9, 52.6]


@cache
def _talk() -> bytes:
    """Our transcripts one after the other, again and again, half an hour long."""
    from guidec.draft.transcript import read_transcript

    lines: list[str] = []
    start = 0.0
    while True:
        for name in names():
            cues = read_transcript((TRANSCRIPTS / facts_of(name)["transcript"]).read_bytes())
            for cue in cues:
                if start + cue.end > LENGTH:
                    return "\n".join(lines).encode()
                lines.append(json.dumps({"start": start + cue.start, "end": start + cue.end, "text": cue.text}))
            start += cues[-1].end + 1


def _drafting() -> float:
    from guidec.draft import draft

    begin = time.perf_counter()
    draft(_talk())
    return time.perf_counter() - begin


@cache
def _video() -> Path:
    """A minute of 1080p (H.264), 25 frames a second, a key frame each 1.5 s; by the library that reads it."""
    import av
    from PIL import Image

    path = Path(tempfile.mkdtemp(prefix="bench-")) / "talk.mp4"
    noise = Image.effect_noise((1920, 1080), 60).convert("RGB")
    with av.open(str(path), "w") as container:
        stream = container.add_stream("libx264", rate=25, options={"preset": "veryfast"})
        stream.width, stream.height, stream.pix_fmt = 1920, 1080, "yuv420p"
        stream.codec_context.gop_size = 38
        stream.bit_rate = 6_000_000
        for number in range(60 * 25):
            shift = number * 7 % 1280
            picture = Image.blend(noise, noise.rotate(180), (shift % 100) / 100)
            frame = av.VideoFrame.from_image(picture)  # type: ignore[no-untyped-call]
            container.mux(stream.encode(frame))
        container.mux(stream.encode())
    return path


def _stills() -> None:
    from guidec.draft.film import stills

    stills(_video(), TIMES)


def _seeking() -> None:
    """What the decoder needs by itself: to each time, the frame there, as a picture."""
    import av

    with av.open(str(_video())) as container:
        stream = container.streams.video[0]
        stream.thread_type = "AUTO"
        for wanted in TIMES:
            container.seek(int(wanted / (stream.time_base or 1)), stream=stream)
            for frame in container.decode(stream):
                if frame.time is not None and frame.time >= wanted - 0.02:
                    frame.to_image()  # type: ignore[no-untyped-call]
                    break


ROWS = (
    Figure("draft of a 30-minute transcript", _drafting, "s", 5.0),
    Ratio("stills at 7 times of a 1080p video, against own seeking", _stills, _seeking, 1.3, runs=5),
)
