"""Stills: the right frame, the sharpest near it, turned upright, whatever the file is like."""

from __future__ import annotations

from pathlib import Path

import pytest

av = pytest.importorskip("av")

from guidec.draft import film as film_module  # noqa: E402
from guidec.draft.film import UnreadableVideoError, stills  # noqa: E402 - after the decoder is known to be there
from tests.draft.film import bare_stream, film, number_in, turned  # noqa: E402

STEADY = [number / 25 for number in range(250)]


def numbers(path: Path, times: list[float]) -> list[int]:
    return [number_in(still.image) for still in stills(path, times)[0]]


def test_a_still_is_of_the_second_before_the_time_asked_for(tmp_path):
    path = film(tmp_path / "a.mp4", STEADY)
    for asked, number in zip([1.0, 4.0, 7.5], numbers(path, [1.0, 4.0, 7.5]), strict=True):
        assert asked - 1.05 <= STEADY[number] <= asked + 0.15


def test_the_sharpest_frame_is_taken(tmp_path):
    sharp = [number for number in range(250) if number % 12 in (3, 4, 5, 6, 7, 8, 9)]
    path = film(tmp_path / "a.mp4", STEADY, sharp=sharp, group=250)
    found = numbers(path, [2.0, 5.0, 8.0])
    assert len(found) == 3
    assert all(number in sharp for number in found)


def test_a_variable_frame_rate_is_read_by_the_time_stamps(tmp_path):
    times = [0.0]
    for number in range(200):
        times.append(times[-1] + (0.02 if number % 40 < 20 else 0.11))
    path = film(tmp_path / "a.mp4", times)
    for asked in (1.7, 3.3, 6.1, 9.0):
        (number,) = numbers(path, [asked])
        assert asked - 1.1 <= times[number] <= asked + 0.12


@pytest.mark.parametrize("degrees", [90, 180, 270])
def test_a_turned_video_is_turned_upright(tmp_path, degrees):
    path = turned(film(tmp_path / "a.mp4", STEADY[:50]), degrees)
    ((still,), said) = stills(path, [1.0])
    upright = still.image.rotate(degrees, expand=True)  # turns the picture back by what the matrix turned it
    assert still.image.size == ((180, 320) if degrees != 180 else (320, 180))
    assert 0 <= number_in(upright) <= 28
    assert said == []


def test_a_file_that_cannot_seek_gives_the_right_frames(tmp_path):
    path = bare_stream(tmp_path / "a.bin", STEADY)
    found, said = stills(path, [2.0, 6.0])
    assert [still.asked for still in found] == [2.0, 6.0]
    first, second = (number_in(still.image) for still in found)
    assert 24 <= first <= 54
    assert 124 <= second <= 154
    assert said == [] or said == ["the video has no index to seek by: it was read from the start"]


def test_a_file_whose_index_was_never_written_still_gives_stills(tmp_path):
    path = film(tmp_path / "a.mkv", STEADY)
    data = path.read_bytes()
    path.write_bytes(data[: data.rindex(b"\x1c\x53\xbb\x6b")])  # the Cues element of Matroska, RFC 9559
    first, second = numbers(path, [2.0, 6.0])
    assert 24 <= first <= 54
    assert 124 <= second <= 154


def test_a_seek_that_lands_too_late_is_given_up_and_said(tmp_path, monkeypatch):
    path = film(tmp_path / "a.mp4", STEADY)
    seek = film_module.av_seek
    monkeypatch.setattr(film_module, "av_seek", lambda film, goal: seek(film, goal + 4))
    found, said = stills(path, [2.0, 5.0])
    assert [24 <= number_in(found[0].image) <= 54, 99 <= number_in(found[1].image) <= 129] == [True, True]
    assert said == ["the video has no index to seek by: it was read from the start"]


def test_a_time_past_the_end_is_said(tmp_path):
    path = film(tmp_path / "a.mp4", STEADY[:75])
    found, said = stills(path, [1.0, 40.0])
    assert [still.asked for still in found] == [1.0]
    assert len(said) == 1
    assert "0:40 is past the end" in said[0]


def test_a_cut_off_file_gives_what_it_has(tmp_path):
    path = film(tmp_path / "a.mkv", STEADY)
    whole = path.read_bytes()
    path.write_bytes(whole[: len(whole) // 2])
    found, said = stills(path, [1.0, 9.0])
    assert [still.asked for still in found] == [1.0]
    assert any("0:09" in line for line in said)


@pytest.mark.parametrize("data", [b"", b"no video at all", b"\x00" * 5000])
def test_what_is_no_video_is_refused(tmp_path, data):
    path = tmp_path / "a.mp4"
    path.write_bytes(data)
    with pytest.raises(UnreadableVideoError):
        stills(path, [1.0])


def test_progress_is_told(tmp_path):
    path = film(tmp_path / "a.mp4", STEADY[:100])
    heard: list[int] = []
    stills(path, [0.5, 1.5, 2.5], heard.append)
    assert heard == [1, 2, 3]
