"""Photos made for tests: like a camera's, with everything in them that must not get out."""

from __future__ import annotations

import io
import random

from PIL import Image, ImageCms

PLANTED = ("Planted-Maker-71", "Planted-Model-72", "Planted-Comment-73", "Planted-Xmp-74", "Planted-Artist-75")
"""Strings that no output may hold."""


def scene(width: int, height: int, seed: int = 1) -> Image.Image:
    """Something like a photo: soft shapes, and fine grain."""
    out: Image.Image | None = None
    for columns, share in ((8, 1.0), (64, 0.5), (400, 0.25), (max(2, width // 2), 0.1)):
        rows = max(1, columns * height // width)
        data = random.Random(seed + columns).randbytes(columns * rows * 3)
        layer = Image.frombytes("RGB", (columns, rows), data).resize((width, height), Image.Resampling.BICUBIC)
        out = layer if out is None else Image.blend(out, layer, share / 1.8)
    assert out
    return out


def corners(width: int = 80, height: int = 40) -> Image.Image:
    """Red, green, blue and white quarters: which way up it is can be told."""
    image = Image.new("RGB", (width, height), "white")
    image.paste("red", (0, 0, width // 2, height // 2))
    image.paste("lime", (width // 2, 0, width, height // 2))
    image.paste("blue", (0, height // 2, width // 2, height))
    return image


def exif(orientation: int = 1) -> Image.Exif:
    """What a phone writes: device, artist, place, and a preview that is a picture of its own."""
    made = Image.Exif()
    made[0x010F], made[0x0110], made[0x013B] = PLANTED[0], PLANTED[1], PLANTED[4]
    made[0x0112] = orientation
    made.get_ifd(0x8825).update({1: "N", 2: (52.0, 31.0, 12.345), 3: "E", 4: (13.0, 24.0, 36.789)})
    made.get_ifd(0x8769).update({0x9286: b"ASCII\0\0\0" + PLANTED[2].encode()})
    return made


def encoded(image: Image.Image, format_: str, **more: object) -> bytes:
    """The bytes of an image."""
    out = io.BytesIO()
    image.save(out, format_, **more)
    return out.getvalue()


def laden(format_: str = "JPEG", orientation: int = 1, image: Image.Image | None = None) -> bytes:
    """A photo with everything planted in it."""
    xmp = f'<x:xmpmeta xmlns:x="adobe:ns:meta/"><a>{PLANTED[3]}</a></x:xmpmeta>'.encode()
    more: dict[str, object] = {"exif": exif(orientation), "xmp": xmp, "icc_profile": other_profile()}
    if format_ == "JPEG":
        more["comment"] = PLANTED[2].encode()
    if format_ == "PNG":
        from PIL.PngImagePlugin import PngInfo

        info = PngInfo()
        info.add_text("Comment", PLANTED[2])
        info.add_itxt("XML:com.adobe.xmp", xmp.decode())
        more = {"exif": exif(orientation), "pnginfo": info, "icc_profile": other_profile()}
    return encoded(image or corners(), format_, **more)


def other_profile() -> bytes:
    """An RGB profile that is not called sRGB."""
    return (
        ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB"))
        .tobytes()
        .replace(b"s\0R\0G\0B\0 ", b"o\0R\0G\0B\0 ")
    )
