"""A photo's bytes -> an image that Pillow has opened and not yet read, or why it cannot be used.

Only what cameras, phones and screens write is opened; Pillow's many other readers stay shut.
"""

from __future__ import annotations

import io
from collections.abc import Callable
from functools import cache
from importlib import import_module

from PIL import Image, ImageFile, UnidentifiedImageError

from guidec.pictures.recipe import BARE_MOST, DRAFT_MOST
from guidec.pictures.types import UnreadableError

__all__ = ["facts", "opened"]

FORMATS = ("JPEG", "PNG", "WEBP", "AVIF", "GIF")
_CAN = "JPEG, PNG, WebP, AVIF, GIF and, with `guidec[heic]`, HEIC can be"
_HEIC = (b"heic", b"heix", b"hevc", b"heim", b"heis", b"mif1", b"msf1")
_WANTS_HEIC = "it is HEIC, which needs `pip install guidec[heic]`"
_TIFF = (b"II*\0", b"MM\0*", b"II+\0", b"MM\0+", b"8BPS")
_KINDS: tuple[tuple[Callable[[bytes], bool], str], ...] = (
    (
        lambda head: head[4:8] == b"ftyp" and head[8:12] in _HEIC,
        _WANTS_HEIC,
    ),
    (lambda head: head[4:8] == b"ftyp", f"it is a video or of a kind that is not shown; {_CAN}"),
    (lambda head: b"<svg" in head.lower(), "it is an SVG drawing, which may hold scripts; save it as PNG"),
    (
        lambda head: head[:2] in (b"BM", b"P6", b"P5") or head[:4] in _TIFF,
        f"it is of a kind that is not shown; {_CAN}",
    ),
    (lambda head: head[:5] == b"%PDF-", "it is a PDF; save the page as PNG"),
    (lambda head: head[:5] in (b"<!DOC", b"<html", b"<?xml"), "it is a web page, not a picture"),
)


def opened(data: bytes) -> Image.Image:
    """The image, not decoded yet. Raises UnreadableError."""
    if not data:
        raise UnreadableError("the file is empty")
    Image.MAX_IMAGE_PIXELS = None  # `_bounded` knows better: a JPEG is made smaller while it is read
    ImageFile.LOAD_TRUNCATED_IMAGES = False  # WeasyPrint turns this on for its whole process
    try:
        image = Image.open(io.BytesIO(data), formats=[*FORMATS, *_heif()])
    except UnidentifiedImageError:
        raise UnreadableError(_kind(data[:1024], readable=bool(_heif()))) from None
    _bounded(image)
    return image


def facts(image: Image.Image) -> tuple[str, ...]:
    """What there is to notice about an opened image."""
    found = []
    if image.format != "MPO" and getattr(image, "is_animated", False):
        found.append("animated")
    if image.mode == "CMYK":
        found.append("cmyk")
    return tuple(found)


def _bounded(image: Image.Image) -> None:
    """Raises UnreadableError for what would take too much memory."""
    pixels = image.width * image.height
    smaller = image.format in ("JPEG", "MPO") and not image.info.get("progressive") and image.mode != "CMYK"
    most = DRAFT_MOST if smaller else BARE_MOST
    if pixels > most:
        size = f"{image.width} × {image.height} pixels"
        raise UnreadableError(f"it has {size}, and {most // 1_000_000} million can be read; make it smaller")


@cache
def _heif() -> tuple[str, ...]:
    """The reader for HEIC, where the extra is installed. Imported here: most photos do without."""
    for name in ("pi_heif", "pillow_heif"):
        try:
            import_module(name).register_heif_opener(thumbnails=False)
        except ImportError:
            continue
        return ("HEIF",)
    return ()


def _kind(head: bytes, readable: bool) -> str:
    """What a file is that no reader takes, in words. `readable`: there is a reader for HEIC."""
    for is_it, words in _KINDS:
        if is_it(head):
            return "it is HEIC, and damaged" if words is _WANTS_HEIC and readable else words
    return "it is no picture, or damaged at its start"
