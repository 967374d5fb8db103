"""Videos of our own, made by the same library that reads them."""

from __future__ import annotations

import struct
from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path

import av
from PIL import Image, ImageDraw, ImageFilter

SIZE = (320, 180)


def frame(number: int, *, blurred: bool = False) -> Image.Image:
    """A picture that tells its own number: squares for its bits, a fine grid, blurred on demand."""
    image = Image.new("RGB", SIZE, (40, 40, 60))
    draw = ImageDraw.Draw(image)
    for x in range(0, SIZE[0], 8):
        draw.line([(x, 80), (x, SIZE[1])], fill=(220, 220, 220))
    image = image.filter(ImageFilter.GaussianBlur(6)) if blurred else image
    draw = ImageDraw.Draw(image)
    for bit in range(12):
        shade = 255 if number >> bit & 1 else 0
        draw.rectangle([bit * 24, 10, bit * 24 + 19, 60], fill=(shade, shade, shade))
    return image


def number_in(image: Image.Image) -> int:
    """The number that a picture tells."""
    grey = image.convert("L")
    scale = grey.width / SIZE[0]
    return sum((grey.getpixel((int((bit * 24 + 10) * scale), int(35 * scale))) > 128) << bit for bit in range(12))


def film(
    path: Path,
    times: Sequence[float],
    *,
    sharp: Sequence[int] = (),
    codec: str = "mpeg4",
    group: int = 12,
    options: dict[str, str] | None = None,
) -> Path:
    """A video with one frame at each time (seconds); all are blurred but those numbered in `sharp`, if any are."""
    with av.open(str(path), "w", options=options or {}) as container:
        stream = container.add_stream(codec, rate=1000)
        stream.width, stream.height = SIZE
        stream.pix_fmt = "yuv420p"
        stream.time_base = Fraction(1, 1000)
        stream.codec_context.time_base = Fraction(1, 1000)
        stream.codec_context.gop_size = group
        stream.bit_rate = 4_000_000
        for number, time in enumerate(times):
            picture = av.VideoFrame.from_image(frame(number, blurred=bool(sharp) and number not in sharp))
            picture.pts = round(time * 1000)
            picture.time_base = Fraction(1, 1000)
            container.mux(stream.encode(picture))
        container.mux(stream.encode())
    return path


def turned(path: Path, degrees: int) -> Path:
    """The same MP4 with a display matrix that turns it clockwise (ISO/IEC 14496-12, track header box)."""
    data = bytearray(path.read_bytes())
    matrices = {
        90: (0, 1, 0, -1, 0, 0, 0, 0, 1),
        180: (-1, 0, 0, 0, -1, 0, 0, 0, 1),
        270: (0, -1, 0, 1, 0, 0, 0, 0, 1),
    }
    at = data.index(b"tkhd") + 4
    at += 40 if data[at] == 0 else 52
    for number, value in enumerate(matrices[degrees]):
        unit = 30 if number in (2, 5, 8) else 16
        struct.pack_into(">i", data, at + 4 * number, value << unit)
    path.write_bytes(bytes(data))
    return path


def bare_stream(path: Path, times: Sequence[float]) -> Path:
    """A video with no container at all, and so with no index: MPEG-4 Visual as the encoder gives it."""
    context = av.CodecContext.create("mpeg4", "w")
    context.width, context.height = SIZE
    context.pix_fmt = "yuv420p"
    context.time_base = Fraction(1, 25)
    context.bit_rate = 4_000_000
    packets = []
    for number in range(len(times)):
        picture = av.VideoFrame.from_image(frame(number))
        picture.pts = number
        picture.time_base = Fraction(1, 25)
        packets += context.encode(picture)
    packets += context.encode(None)
    path.write_bytes(b"".join(bytes(packet) for packet in packets))
    return path
