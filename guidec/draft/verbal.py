"""A word that may be a verb where it stands -> a verb or a plain word."""

from __future__ import annotations

from guidec.draft.hearing import Token
from guidec.draft.item import Item
from guidec.draft.lead import MODIFIERS
from guidec.draft.verbs import verb_forms
from guidec.draft.vocabulary import Vocabulary, vocabulary
from guidec.draft.wordset import among

__all__ = ["is_verb", "word"]


_LEAD_IN = among(
    "to and then i we you they i'll we'll you'll i'd you'd just can could will "
    "would gonna wanna let's go ahead must should please now also so"
)


_VERB_NEXT = among(
    "the a an it them these those this that your my its all both up off out down "
    "on in onto each every out away some around over it's"
)


_EXISTS = among("it's there's they're are is got have that's then 's")


def is_verb(piece: list[str], items: list[Item], words: Vocabulary) -> bool:
    """Whether a word that can be a name and a verb is the verb here."""
    word = piece[0]
    if word not in verb_forms():
        return False
    before = items[-1] if items else None
    follows = piece[1] if len(piece) > 1 else ""
    if before is None or before.stop == 2:
        return follows in _VERB_NEXT or bool(words.term(piece[1:2]))
    if before.kind in among("num drive size thing value"):
        return (
            before.kind == "thing"
            and follows in among("the it them your up")
            and word not in ("screw", "clip", "plug")
        )
    text = before.text
    if follows in among("are is were was 's have has"):
        return False
    if text in ("just", "only", "all") and word.endswith("s") and len(items) > 1 and items[-2].text in _EXISTS:
        return False
    if (
        text in among("it they i we you who which doesn't don't they'll it'll can't won't just")
        and before.kind == "word"
    ):
        return True
    if text in words.small["determiners"] or text in words.small["generic"] or text in MODIFIERS:
        return text in ("these", "those") and False
    if text in _LEAD_IN or text in words.small["starters"] or text in words.small["adverbs"]:
        return (
            follows in _VERB_NEXT
            or follows == "with"
            or text in among("to i we you i'll we'll you'll let's ahead can just")
        )
    return follows in among("it them the your") and text not in words.small["prepositions"]


_STATED = among(
    "is are 's it's that's they're was were be comes come lies now fully all somewhere nice pretty keep stay "
    "stays totally completely clean bone super really"
)


def word(token: Token, piece: list[str], items: list[Item]) -> tuple[Item, int]:
    """A token as a verb or a plain word, and how many tokens it takes."""
    kind = "verb" if token.text in verb_forms() else "word"
    if items and items[-1].text in ("a", "an") and not items[-1].stop:
        kind = "word"
    if token.text in among("free open loose clear dry clean") and items and items[-1].text in _STATED:
        kind = "word"
    if kind == "word" and _improvised(token, piece, items):
        kind = "verb"
    if token.text == "do" and piece[1:2] and piece[1] in among("the those these both that this"):
        kind = "verb"
    elif token.text in among("do does did done doing"):
        kind = "word"
    if token.text == "back" and piece[1:3] not in (
        ["out"],
        ["it", "out"],
        ["them", "out"],
        ["these", "out"],
        ["those", "out"],
    ):
        kind = "word"
    if piece[1:2] == ["to"] and token.text in among("need needs needed got use used get going go"):
        kind = "word"
    return Item(
        kind, token.text, token.start, token.first, token.last, token.stop, leads=token.leads, words=(token.text,)
    ), 1


def _removes_nothing(word: str) -> bool:
    """`switch it off`, `switched it off`, `turning that off`: a particle, and nothing comes off."""
    stems = (
        word,
        word.removesuffix("ed"),
        word.removesuffix("d"),
        word.removesuffix("ing"),
        word.removesuffix("s"),
    )
    return any(stem in _NO_REMOVAL or (stem[-1:] == stem[-2:-1] and stem[:-1] in _NO_REMOVAL) for stem in stems)


def _improvised(token: Token, piece: list[str], items: list[Item]) -> bool:
    """A verb that no lexicon has, told by its particle: `flick the cover off`, `the lid flops out`."""
    word = token.text
    if len(piece) < 2 or not word.isalpha() or len(word) < 3 or _removes_nothing(word) or token.stop:
        return False
    small = vocabulary().small
    if any(
        word in small[name]
        for name in among(
            "stop starters prepositions particles adverbs determiners auxiliaries negations generic subjects be"
        )
    ) or word.endswith("ly"):
        return False
    before = items[-1] if items and not items[-1].stop else None
    if before is not None and (
        before.text in small["determiners"]
        or before.text in small["generic"]
        or before.kind in ("num", "drive", "size")
    ):
        return False
    named = before is not None and (before.kind == "thing" or before.text in among("it that this just then which"))
    self_ = named and word.endswith("s") and not word.endswith("ss")
    after = piece[1:7]
    if self_:
        return any(one in among("off out free away") for one in after[:2]) and after[0] in among(
            "off out free away right straight just"
        )
    led = (
        before is None
        or before.text in _LEAD_IN
        or before.text in among("and then just to carefully gently slowly i'm we're you're i've we've you've")
    )
    if not led:
        return False
    if after[0] in among("it them that those these this") and after[1:2]:
        return after[1] in among("off out free away loose")
    if after[0] in among("the your each both this that those these its"):
        reach = next((n for n in range(2, min(5, len(after))) if after[n] in among("off out free away")), 0)
        return bool(reach) and not any(one in verb_forms() for one in after[1:reach])
    return False


_NO_REMOVAL = frozenset(
    [
        "look",
        "check",
        "watch",
        "figure",
        "find",
        "point",
        "sort",
        "help",
        "try",
        "hang",
        "stay",
        "keep",
        "leave",
        "stand",
        "start",
        "hand",
        "map",
        "make",
        "hold",
        "read",
        "call",
        "shout",
        "mark",
        "give",
        "show",
        "finish",
        "switch",
        "power",
        "kick",
        "put",
        "round",
        "carry",
        "log",
        "sign",
        "fill",
        "print",
        "write",
        "spell",
        "rule",
        "freak",
        "black",
        "white",
        "cut",
        "fade",
        "wear",
        "wash",
        "wipe",
        "test",
        "talk",
        "speak",
        "think",
        "know",
        "want",
        "need",
        "love",
        "like",
        "use",
        "turn",
        "run",
        "set",
        "lay",
        "throw",
        "clear",
        "hear",
        "tell",
        "share",
        "buy",
        "sell",
        "send",
        "order",
        "opt",
        "time",
        "line",
        "ring",
        "max",
        "burn",
        "dry",
        "heat",
        "warm",
        "cool",
        "sponsor",
        "video",
        "channel",
        "camera",
        "phone",
        "bit",
        "thing",
        "bug",
        "lot",
    ]
)
