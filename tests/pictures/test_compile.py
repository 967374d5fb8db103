"""Whole compiles with photos as they come: nothing leaks, nothing broken stops the rest, bytes are bounded."""

from __future__ import annotations

import os
import re
import zlib
from collections.abc import Mapping
from pathlib import Path

import pytest
from PIL import Image

from guidec import compile as compiler
from guidec.edge import pictures
from guidec.messages import diagnose
from guidec.messages.diagnostic import Diagnostic

from .photos import PLANTED, corners, encoded, laden, scene

HEAD = """---
language: en
power: none
---

# Lamp

## Open

1. Undo {screw A: 2x PH1 M3x8}.
2. Lift off {part lid}.
"""


def build(folder: Path, body: str, **options: object) -> tuple[Mapping[str, bytes], tuple[Diagnostic, ...]]:
    note = folder / "lamp.md"
    note.write_text(f"{HEAD}\n{body}\n", encoding="utf-8")
    bundle = compiler.load(note)
    given = compiler.Options(**{"cache": folder / "cache", "pdf": False, **options})  # type: ignore[arg-type]
    built = compiler.build(bundle, given)
    return built.files, diagnose(bundle.source, built.findings)


def streams(pdf: bytes) -> bytes:
    """The PDF, and all that is deflated in it."""
    out = [pdf]
    for found in re.finditer(rb"stream\r?\n(.*?)endstream", pdf, re.S):
        try:
            out.append(zlib.decompress(found[1]))
        except zlib.error:
            continue
    return b"\n".join(out)


@pytest.mark.parametrize("format_", ["JPEG", "PNG", "WEBP", "AVIF"])
def test_no_file_that_is_written_holds_anything_of_what_was_beside_the_picture(tmp_path: Path, format_: str):
    name = f"photo.{format_.lower()}"
    (tmp_path / name).write_bytes(laden(format_, 6))
    files, _ = build(tmp_path, f"![The lid]({name})\n{{pin 10,10 90,10: A}}", pdf=True)
    assert {"guide.pdf", "index.html", "labels.pdf", "tray.svg"} <= set(files)
    for written, data in files.items():
        whole = streams(data) if written.endswith(".pdf") else data
        assert not [words for words in PLANTED if words.encode() in whole], written
        assert b"Exif\0" not in whole, written
    cached = [path.read_bytes() for path in (tmp_path / "cache").rglob("*") if path.is_file()]
    assert cached
    assert not [words for words in PLANTED for data in cached if words.encode() in data]


def test_paper_gets_its_photo_as_it_was_derived(tmp_path: Path):
    from guidec.pictures.derive import derive

    photo = encoded(scene(2400, 1800), "JPEG")
    (tmp_path / "a.jpg").write_bytes(photo)
    files, _ = build(tmp_path, "![The lid](a.jpg)", pdf=True)
    assert derive(photo).printed.data in files["guide.pdf"], "no second encoding"


def test_two_builds_write_the_same_bytes(tmp_path: Path):
    (tmp_path / "a.jpg").write_bytes(encoded(scene(900, 700), "JPEG"))
    body = "![The lid](a.jpg)\n{crop 0,0 50,50} {pin 10,10 40,10: A} {arrow 5,5 30,30: lid}"
    first, _ = build(tmp_path, body, pdf=True)
    again, _ = build(tmp_path, body, pdf=True, cache=tmp_path / "other")
    assert first == again


BROKEN = {
    "truncated.jpg": encoded(scene(400, 300), "JPEG")[:5000],
    "empty.png": b"",
    "words.png": b"not a picture",
    "drawing.svg": b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>",
    "drawing.png": b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>",
}


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_picture_is_one_message_at_its_line_and_the_rest_is_built(tmp_path: Path, name: str):
    (tmp_path / name).write_bytes(BROKEN[name])
    (tmp_path / "good.jpg").write_bytes(encoded(corners(), "JPEG"))
    files, found = build(tmp_path, f"![Broken]({name})\n\n![Good](good.jpg)")
    (trouble,) = [one for one in found if one.code == "N007"]
    assert trouble.here.start.line == 13
    assert files["index.html"].count(b'class="photo"') == 1
    assert b"Broken" in files["index.html"]
    assert b"alert" not in b"".join(files.values())


def test_links_out_of_the_folder_are_refused_and_links_inside_are_followed(tmp_path: Path):
    inside, outside = tmp_path / "notes", tmp_path / "secret.jpg"
    inside.mkdir()
    outside.write_bytes(encoded(corners(), "JPEG"))
    (inside / "real.jpg").write_bytes(encoded(corners(), "JPEG"))
    (inside / "link.jpg").symlink_to("real.jpg")
    (inside / "out.jpg").symlink_to(outside)
    body = "![a](link.jpg)\n\n![b](out.jpg)\n\n![c](../secret.jpg)\n\n![d](https://example.org/x.jpg)"
    files, found = build(inside, body)
    assert [one.code for one in found if one.code[0] == "N"] == ["N006", "N006", "N211"]
    assert files["index.html"].count(b'class="photo"') == 1


@pytest.mark.parametrize("name", ["two words.jpg", 'it\'s "it".jpg', "Gehäuse-蓋.jpg", "100%.jpg", "a&b<c>.jpg"])
def test_names_as_people_give_them(tmp_path: Path, name: str):
    (tmp_path / name).write_bytes(encoded(corners(), "JPEG"))
    typed = name.replace("%", "%25").replace("<", "\\<").replace(">", "\\>").replace("&", "&amp;")
    files, found = build(tmp_path, f"![The lid](<{typed}>)")
    assert not [one for one in found if one.code[0] == "N"]
    assert files["index.html"].count(b'class="photo"') == 1


def test_what_is_odd_in_a_picture_is_mentioned(tmp_path: Path):
    frames = [Image.new("RGB", (40, 40), colour) for colour in ("red", "blue")]
    (tmp_path / "moves.gif").write_bytes(encoded(frames[0], "GIF", save_all=True, append_images=frames[1:]))
    (tmp_path / "press.jpg").write_bytes(encoded(Image.new("CMYK", (40, 40)), "JPEG"))
    (tmp_path / "named.jpg").write_bytes(encoded(corners(), "PNG"))
    _, found = build(tmp_path, "![a](moves.gif)\n\n![b](press.jpg)\n\n![c](named.jpg)")
    assert [(one.code, one.here.start.line) for one in found if one.code[0] == "I"] == [
        ("I106", 13),
        ("I107", 15),
        ("I105", 17),
    ]


def test_a_file_that_grows_while_it_is_read_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    path = tmp_path / "a.jpg"
    path.write_bytes(encoded(corners(), "JPEG"))
    real = os.fstat

    def grows(descriptor: int) -> os.stat_result:
        found = real(descriptor)
        with path.open("ab") as file:
            file.write(b"more")
        return found

    monkeypatch.setattr(pictures.os, "fstat", grows)
    with pytest.raises(OSError, match="changes while"):
        pictures.read(path)


def test_a_pipe_put_in_a_pictures_place_is_not_waited_for(tmp_path: Path):
    os.mkfifo(tmp_path / "a.jpg")
    with pytest.raises(OSError, match="no plain file"):
        pictures.read(tmp_path / "a.jpg")


def test_the_page_keeps_room_for_pictures_and_loads_them_late(tmp_path: Path):
    (tmp_path / "a.jpg").write_bytes(encoded(scene(1800, 2400), "JPEG"))
    files, _ = build(tmp_path, "![The lid](a.jpg)\n{pin 10,10 90,10: A} {pin 50,50: lid}")
    page = files["index.html"].decode()
    (tag,) = re.findall(r"<img [^>]*>", page)
    assert 'width="465" height="620" loading="lazy"' in tag
    assert re.search(r'srcset="pictures/\w+\.webp 300w, pictures/\w+\.webp 600w, pictures/\w+\.webp 1200w"', page)
    assert {name for name in files if name.startswith("pictures/")} == set(re.findall(r"pictures/\w+\.\w+", page))
    key = re.search(r'<ol class="key".*?</ol>', page, re.S)
    assert key
    assert re.findall(r'class="pin">(\w+)</span> <a [^>]*href="#thing-(\w+)"', key[0]) == [
        ("A", "a"),
        ("1", "lid"),
    ]
    assert page.count('<a href="#thing-a" tabindex="-1">') == 2


def test_forty_photos_of_twelve_megapixels_stay_within_bounds(tmp_path: Path):
    photo = scene(4000, 3000)
    for at in range(40):
        photo.paste((at * 5, 9, 9), (0, 0, 40, 40))
        (tmp_path / f"{at}.jpg").write_bytes(encoded(photo, "JPEG", quality=90))
    pins = "{pin 10,10 90,10: A} {pin 50,50: lid}"
    body = "\n\n".join(f"![Picture {at} of the lid]({at}.jpg)\n{pins}" for at in range(40))
    files, _ = build(tmp_path, body, pdf=True)
    assert len(files["index.html"]) < 300_000
    assert len(files["guide.pdf"]) < 12_000_000
