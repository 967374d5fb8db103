"""One photo -> its sizes. The picture formats are read back by Pillow; orientations after Exif 2.3, 4.6.4 A."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from guidec.pictures.derive import derive
from guidec.pictures.types import Derived, UnreadableError, packed, unpacked

from .photos import PLANTED, corners, encoded, laden, other_profile, scene

COLOURS = {"red": (255, 0, 0), "lime": (0, 255, 0), "blue": (0, 0, 255), "white": (255, 255, 255)}
QUARTERS = {
    1: ("red", "lime", "blue", "white"),
    2: ("lime", "red", "white", "blue"),
    3: ("white", "blue", "lime", "red"),
    4: ("blue", "white", "red", "lime"),
    5: ("red", "blue", "lime", "white"),
    6: ("blue", "red", "white", "lime"),
    7: ("white", "lime", "blue", "red"),
    8: ("lime", "white", "red", "blue"),
}
"""What an upright viewer sees of `corners` stored with each orientation, row by row."""


def quarters(data: bytes) -> tuple[str, ...]:
    image = Image.open(io.BytesIO(data)).convert("RGB")
    places = [(x, y) for y in (0.25, 0.75) for x in (0.25, 0.75)]
    seen = [image.getpixel((int(image.width * x), int(image.height * y))) for x, y in places]
    return tuple(
        min(COLOURS, key=lambda name: sum(abs(a - b) for a, b in zip(COLOURS[name], one, strict=True)))
        for one in seen
    )


def every(derived: Derived) -> list[bytes]:
    return [one.data for one in (*derived.screen, derived.fallback, derived.printed)]


@pytest.mark.parametrize("orientation", range(1, 9))
@pytest.mark.parametrize("format_", ["JPEG", "PNG", "WEBP"])
def test_every_size_stands_upright_whatever_the_camera_held(format_: str, orientation: int):
    made = derive(laden(format_, orientation))
    assert (made.width, made.height) == ((80, 40) if orientation < 5 else (40, 80))
    assert {quarters(data) for data in every(made)} == {QUARTERS[orientation]}


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_crop_counts_on_the_upright_picture(orientation: int):
    made = derive(laden("JPEG", orientation), (0, 0, 50, 50))
    assert set(quarters(made.fallback.data)) == {QUARTERS[orientation][0]}


@pytest.mark.parametrize("format_", ["JPEG", "PNG", "WEBP", "AVIF"])
def test_nothing_is_kept_but_the_picture_and_its_colours(format_: str):
    photo = laden(format_, 6)
    assert PLANTED[0].encode() in photo, "the test plants something"
    for data in every(derive(photo)):
        assert not [words for words in PLANTED if words.encode() in data]
        image = Image.open(io.BytesIO(data))
        assert not {key for key in image.info if key in ("exif", "xmp", "comment", "XML:com.adobe.xmp")}
        assert not dict(image.getexif())


def test_screens_get_the_photos_own_profile_and_paper_gets_plain_rgb():
    made = derive(laden())
    for one in (*made.screen, made.fallback):
        assert Image.open(io.BytesIO(one.data)).info.get("icc_profile") == other_profile()
    assert "icc_profile" not in Image.open(io.BytesIO(made.printed.data)).info


def test_a_large_photo_gives_each_size_once_and_none_is_larger_than_it_was():
    made = derive(encoded(scene(4000, 3000), "JPEG"))
    assert [(one.width, one.height) for one in made.screen] == [(400, 300), (800, 600), (1600, 1200)]
    assert (made.fallback.width, made.fallback.height) == (800, 600)
    assert made.printed.height == 874, "74 mm at 300 to the inch"
    small = derive(encoded(corners(300, 200), "PNG"))
    assert [(one.width, one.height) for one in small.screen] == [(300, 200)]


def test_what_is_made_depends_on_the_photo_alone():
    photo = encoded(scene(1000, 700), "JPEG")
    assert packed(derive(photo)) == packed(derive(photo))
    assert unpacked(packed(derive(photo))) == derive(photo)


def test_grey_of_sixteen_bits_keeps_its_greys():
    deep = Image.new("I;16", (64, 64), 32768)
    made = derive(encoded(deep, "PNG"))
    assert made.facts == ("deep",)
    assert abs(int(Image.open(io.BytesIO(made.fallback.data)).convert("L").getpixel((5, 5))) - 128) <= 3


def test_transparency_has_white_behind_it():
    made = derive(encoded(Image.new("RGBA", (50, 50), (0, 0, 0, 0)), "PNG"))
    assert Image.open(io.BytesIO(made.fallback.data)).convert("RGB").getpixel((5, 5)) == (255, 255, 255)


def test_printing_colours_become_screen_colours():
    made = derive(encoded(Image.new("CMYK", (50, 50), (0, 255, 255, 0)), "JPEG"))
    red, green, blue = Image.open(io.BytesIO(made.fallback.data)).convert("RGB").getpixel((5, 5))
    assert made.facts == ("cmyk",)
    assert red > 180 > 90 > max(green, blue)


def test_of_what_moves_the_first_frame_is_taken():
    frames = [Image.new("RGB", (40, 40), colour) for colour in ("red", "blue")]
    photo = encoded(frames[0], "GIF", save_all=True, append_images=frames[1:], duration=100)
    made = derive(photo)
    assert made.facts == ("animated",)
    assert set(quarters(made.fallback.data)) == {"red"}


def test_a_heic_photo_is_read_with_the_extra():
    heif = pytest.importorskip("pillow_heif")
    heif.register_heif_opener()
    photo = encoded(corners(256, 128), "HEIF", quality=95)
    made = derive(photo)
    assert (made.width, made.height, made.format) == (256, 128, "HEIF")
    assert quarters(made.fallback.data) == QUARTERS[1]


@pytest.mark.parametrize(
    ("photo", "words"),
    [
        (b"", "empty"),
        (b"\x89PNG\r\n\x1a\n rubbish", "damaged"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>", "SVG"),
        (b"%PDF-1.7", "PDF"),
        (b"II*\0\x08\0\0\0", "not shown"),
        (b"\0\0\0\x18ftypmp42", "video"),
        (b"just words", "no picture"),
        (encoded(scene(400, 300), "JPEG")[:9000], "damaged \\(its end is missing"),
        (b"\0\0\0\x18ftypheic\0\0\0\0mif1heic" + bytes(100), "HEIC, and damaged"),
    ],
)
def test_what_is_no_photo_is_said_in_words(photo: bytes, words: str):
    with pytest.raises(UnreadableError, match=words):
        derive(photo)


def test_a_truncated_photo_is_refused_even_after_a_pdf_was_set():
    import weasyprint.images  # type: ignore[import-untyped]  # noqa: F401  (it lets Pillow read what is cut short)

    with pytest.raises(UnreadableError, match="damaged"):
        derive(encoded(scene(400, 300), "JPEG")[:9000])


def test_a_bomb_is_refused_before_it_is_opened_up():
    import zlib

    def chunk(name: bytes, data: bytes) -> bytes:
        return len(data).to_bytes(4, "big") + name + data + zlib.crc32(name + data).to_bytes(4, "big")

    size = (50_000).to_bytes(4, "big")
    bomb = (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", size + size + b"\x08\x02\0\0\0")
        + chunk(b"IDAT", zlib.compress(b"\0" * 999))
    )
    with pytest.raises(UnreadableError, match="50000 × 50000 pixels"):
        derive(bomb)
