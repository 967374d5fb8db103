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
from guidec.draft.spelling import spelled
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


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("a j s t plug", "a jst plug"),
        ("the j s tea connector", "the jst connector"),
        ("an ess ess dee", "an ssd"),
        ("the ess s d slot", "the ssd slot"),
        ("an l cee d panel", "an lcd panel"),
        ("two l e dees", "two leds"),
        ("the p c b", "the pcb"),
        ("a pee cee bee", "a pcb"),
        ("the n f see coil", "the nfc coil"),
        ("the en eff cee antenna", "the nfc antenna"),
        ("the you espy port", "the usb port"),
        ("the u s bee port", "the usb port"),
        ("the you see bee port", "the you see bee port"),
        ("the f p c latch", "the fpc latch"),
        ("that eff eff cee cable", "that ffc cable"),
        ("the h d m eye port", "the hdmi port"),
        ("the gee pee ess antenna", "the gps antenna"),
        ("the c p u", "the cpu"),
        ("some p t f e grease", "some ptfe grease"),
        ("the p s you", "the psu"),
        ("the b m s board", "the bms board"),
    ],
)
def test_names_spelt_letter_by_letter_are_read(said, meant):
    assert listened(said) == meant


@pytest.mark.parametrize(
    "said",
    [
        "as you see it is off",
        "i see you are in",
        "why are you in here",
        "oh i see",
        "you be the judge",
        "tea or coffee",
        "see you at sea",
        "are you ok",
        "i am a bee",
        "the queue is long",
    ],
)
def test_words_that_are_letters_too_spell_nothing(said):
    assert listened(said) == said


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("on the heat matt", "on the heat mat"),
        ("an opening pik", "an opening pick"),
        ("the suction kup", "the suction cup"),
        ("with eye so pro pill alcohol", "with isopropyl alcohol"),
        ("the why fie card", "the wifi card"),
        ("a roll of captain tape", "a roll of kapton tape"),
        ("the ribbon kable", "the ribbon cable"),
        ("some solder wik", "some solder wick"),
        ("the drive belled", "the drive belled"),
        ("take the brown board", "take the brown board"),
        ("the sprung screws", "the sprung screws"),
        ("a grey box", "a grey box"),
    ],
)
def test_a_term_of_two_is_heard_where_one_word_is_there_and_the_other_sounds_the_same(said, meant):
    assert listened(said) == meant


def test_of_random_rows_next_to_none_spells_a_name():
    wordfreq = pytest.importorskip("wordfreq")
    words = [word for word in wordfreq.top_n_list("en", 5_000) if word.isalpha()]
    draw = random.Random(21)
    rows = [[draw.choice(words) for _ in range(3)] for _ in range(50_000)]
    changed = [(row, found) for row in rows if (found := spelled(row, 0, 3))]
    assert len(changed) <= 5, changed  # 1 in 10,000


def test_of_trade_words_beside_ordinary_ones_next_to_none_makes_another_term():
    wordfreq = pytest.importorskip("wordfreq")
    words = [word for word in wordfreq.top_n_list("en", 3_000) if word.isalpha()]
    heads = sorted({term[0] for term in vocabulary().terms if len(term) == 2})
    draw = random.Random(22)
    rows = [[draw.choice(heads), draw.choice(words)] for _ in range(50_000)]
    changed = [(row, found) for row in rows if (found := EAR.paired(row, 0, 2))]
    assert len(changed) <= 10, changed  # 1 in 5,000


def test_a_blank_more_or_less_is_no_correction():
    for said in ("the stand off", "my multi meter", "the adhesives", "the heat sink"):
        assert EAR.listen(heard([Cue(0, 5, said)]))[1] == ()


def test_what_was_heard_is_kept():
    _, corrected = EAR.listen(heard([Cue(3, 6, "pry it with a spud jar")]))
    assert [(one.heard, one.meant, 3 < one.start < 6) for one in corrected] == [("spud jar", "spudger", True)]


def test_a_lexicon_of_ones_own_adds_names_and_confusions():
    own = Ear(build({"tools": "flangenator", "misheard": {"flangenator": {"heard": "flange in eight her"}}}))
    tokens, made = own.listen(heard([Cue(0, 5, "use the flange in eight her or the flanjenator")]))
    assert " ".join(token.text for token in tokens) == "use the flangenator or the flangenator"
    assert len(made) == 2
