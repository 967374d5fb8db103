"""Every form of transcript, as tools write them and as people mend them."""

from __future__ import annotations

import codecs
import contextlib
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidec.draft.decode import decoded
from guidec.draft.transcript import UnreadableError, read_transcript

VTT = """WEBVTT - a title
Kind: captions

STYLE
::cue { color: lime }

NOTE
00:00:00.000 is no cue here
and neither is this

intro
00:01.000 --> 00:02.500 align:start position:0%
<v Mara>undo the <i>four</i> screws</v>

1:00:03.000 --> 1:00:05.000
lift &amp; slide
the cover off
"""
# After W3C WebVTT, sections 4.1 to 4.3 and 6.3: notes and styles are no cues, tags and entities are no text.

SRT = """1
00:00:01,000 --> 00:00:02,500
<font color="#fff">undo the {\\an8}screws</font>

00:00:03,000 --> 00:00:04,000
no number here
3
00:00:05,000 --> 00:00:06,000
and no blank line above
"""


def texts(data: str | bytes) -> list[str]:
    return [cue.text for cue in read_transcript(data if isinstance(data, bytes) else data.encode())]


def test_webvtt_notes_styles_tags_voices_and_entities():
    first, second = read_transcript(VTT.encode())
    assert (first.text, first.speaker, first.start, first.end) == ("undo the four screws", "Mara", 1.0, 2.5)
    assert (second.text, second.start) == ("lift & slide the cover off", 3603.0)
    assert first.line == 12


def test_subrip_with_styling_without_numbers_without_blank_lines():
    assert texts(SRT) == ["undo the screws", "no number here", "and no blank line above"]


@pytest.mark.parametrize(
    "text",
    [
        "[0:05] undo it\n[1:02:03] lift it",
        "0:05 undo it\n1:02:03 lift it",
        "(0:05) undo it (1:02:03) lift it",
        "0:05\nundo it\n1:02:03\nlift it",
        "[00:05] - undo it\n\n[01:02:03.5] lift it",
        "0:05 - undo it\n1:02:03 – lift it",
    ],
)
def test_stamps_at_line_starts_and_in_mid_line(text):
    first, second = read_transcript(text.encode())
    assert (first.start, first.text) == (5.0, "undo it")
    assert (int(second.start), second.text) == (3723, "lift it")
    assert first.end == second.start


def test_a_clock_within_a_sentence_is_no_stamp():
    assert texts("[0:05] a ratio of 3:45 is fine") == ["a ratio of 3:45 is fine"]


def test_words_before_the_first_stamp_start_at_nought():
    first, second = read_transcript(b"hello there\n[0:05] undo it")
    assert (first.start, first.text, second.start) == (0.0, "hello there", 5.0)


@pytest.mark.parametrize("wrap", ["\n".join, lambda rows: "[" + ",".join(rows) + "]"])
def test_json_lines_and_a_json_array(wrap):
    rows = [
        json.dumps({"start": 1.5, "end": 3, "text": "undo\nit"}),
        json.dumps({"start": "0:04", "text": "lift it"}),
    ]
    first, second = read_transcript(wrap(rows).encode())
    assert (first.start, first.end, first.text) == (1.5, 3.0, "undo it")
    assert (second.start, second.text) == (4.0, "lift it")


def test_broken_json_lines_are_passed_over():
    assert texts(
        '{"start": 1, "text": "undo it"}\n{"start": 2, "te\n{"start": true, "text": "x"}\n{"text": "y"}'
    ) == ["undo it"]


ROLLING = """WEBVTT

00:00.000 --> 00:02.000
undo the four

00:02.000 --> 00:02.010
undo the four

00:02.010 --> 00:04.000
undo the four
screws<00:02.500><c> at</c><00:03.000><c> the</c><00:03.500><c> back</c>

00:04.000 --> 00:06.000
screws at the back
then lift
"""


def test_rolling_captions_are_told_once_and_keep_their_word_times():
    cues = read_transcript(ROLLING.encode())
    assert " ".join(cue.text for cue in cues) == "undo the four screws at the back then lift"
    beats = cues[1].beats
    assert [cues[1].text[beat.at :].split()[0] for beat in beats] == ["at", "the", "back"]
    assert [beat.start for beat in beats] == [2.5, 3.0, 3.5]


def test_what_is_said_twice_at_another_time_stays():
    text = "0:01 undo the four screws\n0:20 undo the four screws"
    assert len(texts(text)) == 2


def test_speakers_and_sounds_are_taken_out():
    cues = read_transcript(b"0:01 >> MARA: undo it [Music]\n0:05 TOM: (laughs) lift it\n0:09 >> yes")
    assert [(cue.speaker, cue.text.strip()) for cue in cues] == [
        ("MARA", "undo it"),
        ("TOM", "lift it"),
        ("MARA", "yes"),
    ] or [cue.text.strip() for cue in cues] == ["undo it", "lift it", "yes"]


CODECS = [
    ("utf-8", b""),
    ("utf-8", codecs.BOM_UTF8),
    ("utf-16-le", codecs.BOM_UTF16_LE),
    ("utf-16-be", codecs.BOM_UTF16_BE),
    ("utf-16-le", b""),
    ("utf-16-be", b""),
    ("utf-32-le", codecs.BOM_UTF32_LE),
    ("cp1252", b""),
]


@pytest.mark.parametrize(("codec", "mark"), CODECS)
def test_encodings_with_and_without_a_mark(codec, mark):
    text = "0:05 – prüfe die Schrauben…\r\n0:09 “fertig”\r"
    assert decoded(mark + text.encode(codec)) == text.replace("\r\n", "\n").replace("\r", "\n")


@given(st.binary(max_size=200))
def test_any_bytes_decode(data):
    assert isinstance(decoded(data), str)


@given(st.text(max_size=200))
def test_any_text_is_read_or_refused_in_words(text):
    with contextlib.suppress(UnreadableError):
        assert all(cue.end >= 0 and cue.text for cue in read_transcript(text.encode("utf-8", "surrogatepass")))


@pytest.mark.parametrize(
    ("data", "words"), [(b"", "empty"), (b"  \n", "empty"), (b"no time at all", "no line"), (b"{}", "no line")]
)
def test_what_is_no_transcript_is_refused(data, words):
    with pytest.raises(UnreadableError, match=words):
        read_transcript(data)
