"""A photo's bytes -> its sizes for screen and print: upright, its colours kept, nothing else of the file kept.

One reading, then smaller and smaller: each size is made of the one before it.
"""

from __future__ import annotations

import hashlib
import io
import math
from typing import Any

from PIL import Image, ImageCms

from guidec.pictures import opening
from guidec.pictures.recipe import FALLBACK, GAP, PRINT, SCREEN, sizes
from guidec.pictures.types import Box, Derived, File, UnreadableError

__all__ = ["derive"]

_WEBP = {"format": "WEBP", "quality": 78, "method": 0}
_JPEG = {"format": "JPEG", "quality": 80}
_PRINT = {"format": "JPEG", "quality": 82, "optimize": True}
_TURNED = (5, 6, 7, 8)
"""The orientations of Exif that swap width and height."""
_ORIENTATION = 0x0112
_TRANSPOSED = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
_PROFILE_MOST = 600_000


def derive(data: bytes, box: Box | None = None) -> Derived:
    """All sizes of a photo, or of the part of it within `box`. Raises UnreadableError, and nothing else.

    The same bytes give the same bytes with the same release of Pillow.
    """
    try:
        return _derived(data, box)
    except UnreadableError:
        raise
    except MemoryError:
        raise UnreadableError("it takes too much memory; make it smaller") from None
    except Exception as error:  # decoders of damaged files raise whatever they like
        raise UnreadableError(f"it is damaged ({_words(error)})") from None


def _words(error: Exception) -> str:
    said = " ".join(str(error).split()).rstrip(".")
    if "truncated" in said.casefold():
        return "its end is missing"
    return f"{said[:1].lower()}{said[1:120]}" if said else type(error).__name__


def _derived(data: bytes, box: Box | None) -> Derived:
    image = opening.opened(data)
    noticed, format_ = opening.facts(image), image.format or ""
    orientation = int(image.getexif().get(_ORIENTATION, 1) or 1)
    profile = image.info.get("icc_profile")
    part = _part(image.size, box, orientation)
    deep = image.mode.startswith("I") or image.mode == "F"
    large = _oriented(_first(image, part), orientation)
    large, profile = _coloured(large, profile)
    made = _Sizes(large, profile)
    width, height = round(part[2] - part[0]), round(part[3] - part[1])
    if orientation in _TURNED:
        width, height = height, width
    return made.all(max(1, width), max(1, height), format_, (*noticed, *(["deep"] if deep else [])))


def _part(size: tuple[int, int], box: Box | None, orientation: int) -> Box:
    """The part to show, in pixels of the file as it lies."""
    width, height = size
    if box is None:
        return (0.0, 0.0, float(width), float(height))
    left, top, right, bottom = (side / 100 for side in box)
    corners = [_as_lies(x, y, orientation) for x, y in ((left, top), (right, bottom))]
    across, down = zip(*corners, strict=True)
    return (min(across) * width, min(down) * height, max(across) * width, max(down) * height)


def _as_lies(x: float, y: float, orientation: int) -> tuple[float, float]:
    """A point of the upright picture, in shares of its sides -> the same in the picture as the file has it."""
    places = {
        2: (1 - x, y),
        3: (1 - x, 1 - y),
        4: (x, 1 - y),
        5: (y, x),
        6: (y, 1 - x),
        7: (1 - y, 1 - x),
        8: (1 - y, x),
    }
    return places.get(orientation, (x, y))


def _first(image: Image.Image, part: Box) -> Image.Image:
    """The part, read and made as small as the largest size."""
    width, height = part[2] - part[0], part[3] - part[1]
    scale = min(1.0, SCREEN[-1] / max(width, height))
    whole = image.size
    wanted = (math.ceil(whole[0] * scale * GAP), math.ceil(whole[1] * scale * GAP))
    image.draft(None, wanted)
    image.load()
    across, down = image.width / whole[0], image.height / whole[1]
    read = (part[0] * across, part[1] * down, part[2] * across, part[3] * down)
    flat = _flat(image)
    size = (max(1, round(width * scale)), max(1, round(height * scale)))
    if read == (0, 0, *flat.size) and size == flat.size:
        return flat
    return flat.resize(size, Image.Resampling.BICUBIC, box=read, reducing_gap=GAP)


def _flat(image: Image.Image) -> Image.Image:
    """Without palette, transparency (white lies behind it) and more than eight bits."""
    if image.mode.startswith("I;16") or image.mode == "I":
        return image.convert("I").point(lambda value: value * (1 / 257)).convert("L")
    if image.mode in ("RGB", "L", "CMYK"):
        if "transparency" not in image.info:
            return image
    elif image.mode == "1":
        return image.convert("L")
    seen = image.convert("RGBA")
    white = Image.new("RGBA", seen.size, "white")
    return Image.alpha_composite(white, seen).convert("RGB")


def _oriented(image: Image.Image, orientation: int) -> Image.Image:
    """Upright. What was beside the picture in the file is gone from here on."""
    how = _TRANSPOSED.get(orientation)
    image = image.transpose(how) if how is not None else image
    image.info = {}
    return image


def _coloured(image: Image.Image, profile: bytes | None) -> tuple[Image.Image, bytes | None]:
    """In RGB with its own profile, or in grey; what a browser cannot show with its profile is turned into sRGB."""
    if not profile or len(profile) < 132:
        return (image if image.mode in ("RGB", "L") else image.convert("RGB")), None
    if image.mode == "RGB" and profile[16:20] == b"RGB " and len(profile) <= _PROFILE_MOST:
        return image, profile
    return _as_srgb(image, profile), None


def _as_srgb(image: Image.Image, profile: bytes) -> Image.Image:
    """In sRGB; where the profile does not fit, as it is."""
    try:
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        done = ImageCms.profileToProfile(image, source, ImageCms.createProfile("sRGB"), outputMode="RGB")
    except (ImageCms.PyCMSError, OSError, ValueError):
        return image if image.mode in ("RGB", "L") else image.convert("RGB")
    assert done is not None
    done.info = {}
    return done


class _Sizes:
    """Makes smaller and smaller pictures of one."""

    def __init__(self, image: Image.Image, profile: bytes | None) -> None:
        self.image = image
        self.profile = profile

    def all(self, width: int, height: int, format_: str, noticed: tuple[str, ...]) -> Derived:
        """Every size of it."""
        screen: list[File] = []
        printed: File | None = None
        fallback: File | None = None
        for side in reversed(sizes(width, height)):
            if printed is None and self._fits(side):
                printed = self._print()
            self._shrink((side, side))
            screen.append(_file(self.image, _WEBP, "webp", self.profile))
            if fallback is None and side <= FALLBACK:
                fallback = _file(self.image, _JPEG, "jpg", self.profile)
        printed = printed or self._print()
        return Derived(
            width,
            height,
            tuple(reversed(screen)),
            fallback or _file(self.image, _JPEG, "jpg", self.profile),
            printed,
            format_,
            noticed,
        )

    def _fits(self, side: int) -> bool:
        """Whether a size for screens would be smaller than paper needs, so that paper comes first."""
        width, height = self.image.size
        scale = min(1.0, PRINT[0] / width, PRINT[1] / height)
        return side < max(width, height) * scale

    def _shrink(self, most: tuple[int, int]) -> None:
        if self.image.width > most[0] or self.image.height > most[1]:
            self.image.thumbnail(most, reducing_gap=GAP)
            self.image.info = {}

    def _print(self) -> File:
        """For paper, where profiles are not looked at: in sRGB."""
        self._shrink(PRINT)
        image = self.image
        if self.profile and not _is_srgb(self.profile):
            image = _as_srgb(image, self.profile)
        return _file(image, _PRINT, "jpg", None)


def _is_srgb(profile: bytes) -> bool:
    try:
        words = ImageCms.getProfileDescription(ImageCms.ImageCmsProfile(io.BytesIO(profile)))
    except (ImageCms.PyCMSError, OSError):
        return True
    return words.strip().startswith("sRGB")


def _file(image: Image.Image, how: dict[str, Any], suffix: str, profile: bytes | None) -> File:
    out = io.BytesIO()
    image.save(out, icc_profile=profile, **how)
    data = out.getvalue()
    name = f"{hashlib.sha256(data).hexdigest()[:16]}.{suffix}"
    return File(name, data, image.width, image.height, "image/webp" if suffix == "webp" else "image/jpeg")
