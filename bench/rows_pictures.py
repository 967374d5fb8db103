"""Photos: the derived sizes against bare Pillow making the same files, rebuilds, two workers, and memory."""

from __future__ import annotations

import io
import random
import re
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from typing import Any

from bench.row import Figure, Ratio, timed

__all__ = ["ROWS"]

_PHOTOS = 12


@cache
def _photo(seed: int = 1) -> bytes:
    """Twelve megapixels with soft shapes and grain, as a phone's JPEG."""
    from PIL import Image

    out: Any = None
    for columns, share in ((8, 1.0), (64, 0.5), (400, 0.25), (2000, 0.1)):
        rows = columns * 3 // 4
        data = random.Random(seed + columns).randbytes(columns * rows * 3)
        layer = Image.frombytes("RGB", (columns, rows), data).resize((4000, 3000), Image.Resampling.BICUBIC)
        out = layer if out is None else Image.blend(out, layer, share / 1.8)
    made = io.BytesIO()
    out.save(made, "JPEG", quality=90)
    return made.getvalue()


def _derive() -> None:
    from guidec.pictures.derive import derive

    assert len(derive(_photo()).screen) == 3


def _bare() -> None:
    """The same files by Pillow alone: read once, smaller and smaller, saved with the same settings."""
    from PIL import Image

    image = Image.open(io.BytesIO(_photo()))
    webp, jpeg = {"quality": 78, "method": 0}, {"quality": 80}
    for size, saves in (
        ((1600, 1600), [("WEBP", webp)]),
        ((1417, 874), [("JPEG", {"quality": 82, "optimize": True})]),
        ((800, 800), [("WEBP", webp), ("JPEG", jpeg)]),
        ((400, 400), [("WEBP", webp)]),
    ):
        image.thumbnail(size, reducing_gap=1.1)
        for format_, how in saves:
            image.save(io.BytesIO(), format_, **how)


@contextmanager
def _folder() -> Iterator[Path]:
    with tempfile.TemporaryDirectory() as folder:
        yield Path(folder)


@cache
def _photos() -> dict[str, bytes]:
    """Photos that differ, of the same size: something after the end of each."""
    return {f"{at}.jpg": _photo() + bytes([at]) for at in range(_PHOTOS)}


def _all(folder: Path, workers: int) -> int:
    from guidec.pictures.gallery import gallery

    photos = _photos()
    found = gallery([(name, None) for name in photos], photos.__getitem__, folder=folder, workers=workers)
    assert len(found.derived) == len(photos)
    return found.worked


def _speed_up() -> float:
    """One worker's time over two workers', the best of two turns each."""
    times: dict[int, list[float]] = {1: [], 2: []}
    for _ in range(2):
        for workers in (1, 2):
            with _folder() as folder:
                times[workers].append(timed(lambda folder=folder, workers=workers: _all(folder, workers)))  # type: ignore[misc]
    return min(times[2]) / min(times[1])


def _rebuilt() -> float:
    """How many photos an unchanged rebuild works on."""
    with _folder() as folder:
        _all(folder, 2)
        return float(_all(folder, 2))


_LARGE = r"""
import re, sys
from guidec.pictures.derive import derive
made = derive(open(sys.argv[1], "rb").read())
assert (made.width, made.height) == (8000, 6000)
print(re.search(r"VmHWM:\s+(\d+)", open("/proc/self/status").read())[1])
"""


def _memory() -> float:
    """The most memory of a process that derives a photo of 48 megapixels, the worse of JPEG and PNG, in MB."""
    from PIL import Image

    most = 0.0
    with _folder() as folder, Image.open(io.BytesIO(_photo())) as image:
        large = image.resize((8000, 6000), Image.Resampling.NEAREST)
        for format_ in ("JPEG", "PNG"):
            path = folder / "large"
            large.save(path, format_, compress_level=1)
            run = subprocess.run(
                [sys.executable, "-c", _LARGE, str(path)], capture_output=True, text=True, check=True
            )
            most = max(most, int(re.findall(r"\d+", run.stdout)[0]) / 1024)
    return most


ROWS: tuple[Ratio | Figure, ...] = (
    Ratio("pictures: sizes of a 12 MP photo / bare Pillow cascade", _derive, _bare, 1.15, runs=7),
    Figure("pictures: photos worked on by an unchanged rebuild", _rebuilt, "photos", 0),
    Figure("pictures: time of 2 workers / of 1 (1 / 1.7)", _speed_up, "", 1 / 1.7),
    Figure("pictures: memory for a 48 MP photo", _memory, "MB", 600),
)
