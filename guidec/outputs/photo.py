"""A picture file's bytes -> the bytes to publish: upright, at most 2,000 pixels long, nothing but the picture.

Place, device, comment and thumbnail that a camera writes into a file are not carried over; the colour profile is.
"""

from __future__ import annotations

import hashlib
import io
import warnings

from PIL import Image, ImageOps, UnidentifiedImageError

from guidec.quick import dataclass

__all__ = ["Published", "UnreadableError", "publish"]

LONGEST = 2000
MOST_PIXELS = 250_000_000
_KEPT = {"PNG": ("PNG", "png"), "GIF": ("PNG", "png"), "WEBP": ("WEBP", "webp")}


class UnreadableError(Exception):
    """The bytes are no picture that can be used; the message says why."""


@dataclass(frozen=True, slots=True)
class Published:
    """A picture to publish; `name` is made of its content. Width and height in pixels."""

    name: str
    data: bytes
    width: int
    height: int


def publish(data: bytes) -> Published:
    """The picture cleaned. Raises UnreadableError for what is no picture, is cut short, or is a bomb."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            image = Image.open(io.BytesIO(data))
            if image.width * image.height > MOST_PIXELS:
                raise UnreadableError("it has too many pixels")
            format_, suffix = _KEPT.get(image.format or "", ("JPEG", "jpg"))
            clean = _cleaned(image)
    except UnidentifiedImageError:
        raise UnreadableError("it is not a picture that can be read") from None
    except (
        OSError,
        ValueError,
        SyntaxError,
        Image.DecompressionBombError,
        Image.DecompressionBombWarning,
    ) as error:
        raise UnreadableError(str(error).lower()) from None
    out = io.BytesIO()
    options = {"quality": 85, "optimize": True} if format_ == "JPEG" else {}
    profile = image.info.get("icc_profile")
    if format_ == "JPEG" and clean.mode not in ("RGB", "L"):
        clean, profile = clean.convert("RGB"), None
    clean.save(out, format_, icc_profile=profile, **options)
    made = out.getvalue()
    return Published(f"{hashlib.sha256(made).hexdigest()[:16]}.{suffix}", made, clean.width, clean.height)


def _cleaned(image: Image.Image) -> Image.Image:
    turned = ImageOps.exif_transpose(image)
    turned.thumbnail((LONGEST, LONGEST), reducing_gap=2.0)
    turned.info = {}
    return turned
