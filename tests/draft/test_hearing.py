"""Misheard trade words are put right, and ordinary words are left alone: measured both ways.

The ordinary words are the 40,000 most frequent of `wordfreq` 3.1 (from many kinds of text), which nothing in the
drafter has seen but a short list of words that sound like the trade's.
"""

from __future__ import annotations

import random

import pytest

from guidec.draft.cue import Cue
from guidec.draft.hearing import Ear
from guidec.draft.speech import heard
from guidec.draft.vocabulary import build, vocabulary

EAR = Ear(vocabulary())


def listened(text: str) -> str:
    tokens, _ = EAR.listen(heard([Cue(0, 10, text)]))
    return " ".join(token.text for token in tokens)


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("pry it up with a spud jar", "pry it up with a spudger"),
        ("a bit of eyes a propel alcohol", "a bit of isopropyl alcohol"),
        ("four fillips screws", "four phillips screws"),
        ("unplug the jay est tea plug", "unplug the jst plug"),
        ("the ziff connector", "the zif connector"),
        ("two penta lobe screws", "two pentalobe screws"),
        ("the sodder ing iron", "the soldering iron"),
        ("some captain tape", "some kapton tape"),
        ("the digit eyes her cable", "the digitizer cable"),
        ("six torques screws", "six torx screws"),
        ("take the section cup", "take the suction cup"),
        ("a hot hair gun", "a hot air gun"),
    ],
)
def test_listed_and_like_sounding_words_are_put_right(said, meant):
    assert listened(said) == meant


@pytest.mark.parametrize(
    "said",
    [
        "he talks a lot about it",
        "zip up your jacket",
        "the captain of the ship",
        "the eclipse was last week",
        "my friend phillip came by",
        "put the casserole in the oven",
        "the motor talks to the board over a bus",
        "she was a soldier",
    ],
)
def test_plain_speech_is_left_alone(said):
    assert listened(said) == said


def test_a_listed_word_needs_its_company():
    assert listened("it torques the frame") == "it torques the frame"
    assert listened("torques five screws") == "torx five screws"


def test_of_forty_thousand_ordinary_words_next_to_none_is_changed():
    wordfreq = pytest.importorskip("wordfreq")
    words = [word for word in wordfreq.top_n_list("en", 40_000) if word.isalpha()]
    changed = {word: found[0] for word in words if (found := EAR.by_sound([word], 0)) and found[0] != word}
    assert len(changed) <= 4, changed  # 1 in 10,000


def test_of_random_rows_of_ordinary_words_next_to_none_is_changed():
    wordfreq = pytest.importorskip("wordfreq")
    words = [word for word in wordfreq.top_n_list("en", 5_000) if word.isalpha()]
    draw = random.Random(20)
    rows = [[draw.choice(words) for _ in range(3)] for _ in range(20_000)]
    changed = [(row, found) for row in rows if (found := EAR.by_sound(row, 0))]
    assert len(changed) <= 10, changed  # 1 in 2,000


def test_most_of_what_captions_make_of_trade_words_is_heard():
    """Mishearings of our own, by sound alone, whether or not the list of confusions has them."""
    cases = {
        "twee sirs": "tweezers",
        "iso prop all": "isopropyl",
        "gas kit": "gasket",
        "solder whick": "solder wick",
        "impella": "impeller",
        "in peller": "impeller",
        "sir klip pliers": "circlip pliers",
        "therm ister": "thermistor",
        "threat locker": "thread locker",
        "suction cop": "suction cup",
        "pry in tool": "prying tool",
        "spachula": "spatula",
        "seringe": "syringe",
        "mother bord": "motherboard",
        "duble sided tape": "double sided tape",
        "an tena": "antenna",
        "track pad": "trackpad",
        "strap rench": "strap wrench",
        "poly imide tape": "polyimide tape",
        "print hed": "print head",
        "seem ripper": "seam ripper",
        "desolder ing pump": "desoldering pump",
        "soldring iron": "soldering iron",
        "thermal based": "thermal paste",
        "contacts cleaner": "contact cleaner",
        "capasitor": "capacitor",
        "potentio meter": "potentiometer",
        "retaining wring": "retaining ring",
        "electrolitic": "electrolytic",
    }
    found = {said: (EAR.by_sound(said.split(), 0) or ("",))[0] for said in cases}
    right = [said for said, meant in cases.items() if found[said].split()[:1] == meant.split()[:1]]
    assert len(right) >= 0.8 * len(cases), {said: found[said] for said in cases if said not in right}


def test_what_was_heard_is_kept():
    _, corrected = EAR.listen(heard([Cue(3, 6, "pry it with a spud jar")]))
    assert [(one.heard, one.meant, 3 < one.start < 6) for one in corrected] == [("spud jar", "spudger", True)]


def test_a_lexicon_of_ones_own_adds_names_and_confusions():
    own = Ear(build({"tools": "flangenator", "misheard": {"flangenator": {"heard": "flange in eight her"}}}))
    tokens, made = own.listen(heard([Cue(0, 5, "use the flange in eight her or the flanjenator")]))
    assert " ".join(token.text for token in tokens) == "use the flangenator or the flangenator"
    assert len(made) == 2
