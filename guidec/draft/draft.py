"""The bytes of a transcript -> the text of a draft note and what there is to say of it. The whole way on one page.

decode, read    bytes -> cues, each word once            guidec.draft.transcript
words           cues -> words with times                 guidec.draft.speech
hearing         words -> the same, misheard ones mended   guidec.draft.hearing
items           words -> names, values, verbs             guidec.draft.spot
clauses         items -> clauses                          guidec.draft.clauses
story           clauses -> what is done to what           guidec.draft.teller, .doing, .sets
                and what is only said                     .talk, .back, .detours, .warned, .verdicts
finish          what only the whole shows                 guidec.draft.finish
operations      actions -> operations with titles         guidec.draft.operations, .titles
trips           side trips -> operations of their own     guidec.draft.trips
note            story -> text                             guidec.draft.note, .marks, .plain
mend            text -> text that checks without errors   guidec.draft.mend
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from guidec.draft.clauses import clauses
from guidec.draft.cue import Cue
from guidec.draft.finish import finish
from guidec.draft.hearing import Ear
from guidec.draft.job import Job
from guidec.draft.mend import mended
from guidec.draft.note import Subject, Writer
from guidec.draft.operations import jobs
from guidec.draft.speech import Heard, heard
from guidec.draft.spot import spot
from guidec.draft.story import Story
from guidec.draft.teller import tell
from guidec.draft.transcript import read_transcript
from guidec.draft.trips import with_trips
from guidec.draft.vocabulary import build, vocabulary
from guidec.quick import dataclass

__all__ = ["Drafted", "draft"]


@dataclass(frozen=True, slots=True)
class Drafted:
    """A draft: the note's text, and what it was made of."""

    text: str
    story: Story
    jobs: tuple[Job, ...]
    cues: tuple[Cue, ...]
    words: tuple[Heard, ...]
    writer: Writer


def draft(data: bytes, subject: Subject | None = None, lexicon: Mapping[str, Any] | None = None) -> Drafted:
    """The draft of a transcript in any form. Raises `UnreadableError` where the bytes are no transcript."""
    cues = read_transcript(data)
    words = heard(cues)
    vocabulary_ = build(lexicon) if lexicon else vocabulary()
    tokens, corrected = Ear(vocabulary_).listen(words)
    story = finish(tell(clauses(spot(tokens, vocabulary_), vocabulary_), vocabulary_, corrected))
    work = tuple(with_trips(story, jobs(story)))
    writer = Writer(story, work, words, subject or Subject())
    text, _ = mended(writer)
    return Drafted(text, story, work, cues, words, writer)
