"""The recording's chapters: valid WebVTT, and a list of `m:ss title`.

Outside: the syntax of WebVTT (W3C, section 4, "WebVTT file structure"), checked line by line here, and the
`webvtt-py` package. The rules of the text form (first at 0:00, ten seconds apart) are the project's own.
"""

from __future__ import annotations

import io
import itertools
import re
from collections.abc import Callable
from dataclasses import replace
from html import unescape
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidec.model.types import Guide
from guidec.outputs import chapters
from tests.outputs.conftest import SAMPLES, guide_at, guide_of

STAMP = r"(\d{2,}):([0-5]\d):([0-5]\d)\.(\d{3})"
TIMING = re.compile(rf"{STAMP} --> {STAMP}")


def cues(data: bytes) -> list[tuple[float, float, str]]:
    """WebVTT read after its syntax: a signature, then blocks parted by blank lines: a timing and text."""
    text = data.decode("utf-8")
    assert text.startswith("WEBVTT\n\n")
    assert "\r" not in text
    assert text.endswith("\n")
    assert not text.endswith("\n\n")
    found = []
    for block in text.removeprefix("WEBVTT\n\n").rstrip("\n").split("\n\n"):
        timing, words = block.split("\n")
        read = TIMING.fullmatch(timing)
        assert read, timing
        numbers = [int(one) for one in read.groups()]
        start, end = (h * 3600 + m * 60 + s + ms / 1000 for h, m, s, ms in (numbers[:4], numbers[4:]))
        assert "-->" not in words
        assert "<" not in words
        assert not re.search(r"&(?!amp;|lt;|gt;)", words)
        assert words.strip()
        found.append((start, end, unescape(words)))
    return found


def lines(data: bytes) -> list[tuple[int, str]]:
    found = []
    for line in data.decode("utf-8").splitlines():
        read = re.fullmatch(r"(?:(\d+):)?(\d+):([0-5]\d) (\S.*)", line)
        assert read, line
        found.append((int(read[1] or 0) * 3600 + int(read[2]) * 60 + int(read[3]), read[4]))
    return found


def timed(*operations: tuple[str, str], length: str = "59:00", extra: str = "") -> Guide:
    body = "".join(f"## {title} @{time}\n\n- Look at it.\n\n" for title, time in operations)
    return guide_of(
        f'---\ntitle: The whole\nrecording: {{file: a.mp4, length: "{length}"{extra}}}\n---\n\n# T\n\n{body}'
    )


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_samples_have_valid_chapters(path: Path) -> None:
    guide = guide_at(path)
    made = chapters.files(guide)
    found = cues(made["chapters.vtt"])
    starts = [start for start, _, _ in found]
    assert starts == sorted(set(starts))
    assert len(found) == len(guide.operations)
    assert all(start < end for start, end, _ in found)
    assert all(end <= following for (_, end, _), following in zip(found, starts[1:], strict=False))
    listed = lines(made["chapters.txt"])
    assert listed[0][0] == 0
    assert all(later - earlier >= 10 for (earlier, _), (later, _) in itertools.pairwise(listed))


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_another_reader_of_webvtt_reads_the_same(path: Path) -> None:
    webvtt = pytest.importorskip("webvtt")
    data = chapters.files(guide_at(path))["chapters.vtt"]
    read = [(one.start_in_seconds, unescape(one.text)) for one in webvtt.from_buffer(io.BytesIO(data))]
    assert read == [(int(start), title) for start, _, title in cues(data)]


def test_a_chapter_lasts_to_its_end_or_to_the_next() -> None:
    guide = timed(("One", "0:10-0:40"), ("Two", "1:00"), ("Three", "2:00-9:00"), ("Four", "3:00"), length="4:00")
    assert [(one.start, one.end) for one in chapters.chapters(guide)] == [
        (10, 40),
        (60, 120),
        (120, 180),
        (180, 240),
    ]


def test_an_end_before_its_start_is_not_believed() -> None:
    guide = timed(("One", "1:00-1:10"), ("Two", "2:00"), length="3:00")
    one, two = guide.operations
    assert one.time
    backwards = replace(one, time=replace(one.time, end=30.0))
    guide = replace(guide, operations=(backwards, two))
    assert [(one.start, one.end) for one in chapters.chapters(guide)] == [(60, 120), (120, 180)]


def test_without_a_length_the_last_chapter_lasts_a_minute() -> None:
    guide = guide_of("# T\n\n## One @0:10\n\n- Look at it.\n")
    assert [(one.start, one.end) for one in chapters.chapters(guide)] == [(10, 70)]


def test_the_offset_moves_them() -> None:
    guide = timed(("One", "0:10-0:40"), extra=', offset: "0:05"')
    assert [(one.start, one.end) for one in chapters.chapters(guide)] == [(15, 45)]


def test_operations_out_of_order_come_by_time_and_one_time_counts_once() -> None:
    guide = timed(("Late", "5:00"), ("Early", "1:00"), ("Twin", "5:00"))
    assert [one.title for one in chapters.chapters(guide)] == ["20 Early", "10 Late"]


def test_the_text_form_starts_at_nought_and_keeps_ten_seconds_apart() -> None:
    guide = timed(("One", "0:04"), ("Two", "0:13"), ("Three", "0:14"), ("Four", "0:23"), ("Five", "0:24"))
    assert lines(chapters.files(guide)["chapters.txt"]) == [(0, "10 One"), (13, "20 Two"), (23, "40 Four")]
    late = timed(("One", "0:10"), ("Two", "0:30"))
    assert lines(chapters.files(late)["chapters.txt"]) == [(0, "The whole"), (10, "10 One"), (30, "20 Two")]


def test_a_long_recording_shows_hours() -> None:
    guide = timed(("One", "0:00"), ("Two", "1:02:03"), length="2:00:00")
    assert chapters.files(guide)["chapters.txt"] == b"0:00:00 10 One\n1:02:03 20 Two\n"


def test_signs_with_a_meaning_are_escaped() -> None:
    guide = timed(("A < b & c --> d", "0:10"))
    assert cues(chapters.files(guide)["chapters.vtt"])[0][2] == "10 A < b & c --> d"


def test_a_guide_without_times_has_no_chapters(note: Callable[[str], Guide]) -> None:
    assert chapters.files(note("## One\n\n- Look at it.\n")) == {}


@given(st.lists(st.integers(0, 3500), min_size=1, max_size=12))
def test_any_times_make_valid_chapters(times: list[int]) -> None:
    guide = timed(*((f"Op {k}", f"{at // 60}:{at % 60:02}") for k, at in enumerate(times)))
    made = chapters.files(guide)
    assert [start for start, _, _ in cues(made["chapters.vtt"])] == sorted(set(times))
    listed = [start for start, _ in lines(made["chapters.txt"])]
    assert listed[0] == 0
    assert all(later - earlier >= 10 for earlier, later in itertools.pairwise(listed))
