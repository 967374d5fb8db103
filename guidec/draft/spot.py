"""Tokens -> items: numbers, values, drives, sizes, names of the trade with what describes them, verbs, words.

Names are found by their last word (the lexicon's longest term), then reach to the left over describing words, and
on to the right where another term follows ("battery connector"). What no lexicon knows but stands like a name
("the crumb flap") becomes a `noun`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from guidec.draft.counting import number_at
from guidec.draft.drives import drive_at
from guidec.draft.fastened import fastened
from guidec.draft.fillers import corrected_numbers, parted, without_fillers
from guidec.draft.hearing import Token
from guidec.draft.item import Item
from guidec.draft.lead import MODIFIERS
from guidec.draft.lengths import lengths
from guidec.draft.measures import size_at, value_at
from guidec.draft.names import gathered, unknown_names
from guidec.draft.verbs import verb_forms
from guidec.draft.vocabulary import Vocabulary, singular, vocabulary
from guidec.draft.wordset import among

__all__ = ["spot"]

_LEAD_IN = among(
    "to and then i we you they i'll we'll you'll i'd you'd just can could will "
    "would gonna wanna let's go ahead must should please now also so"
)


_VERB_NEXT = among(
    "the a an it them these those this that your my its all both up off out down "
    "on in onto each every out away some around over it's"
)


_HANDY = among(
    "bin pick clip plug wipe press tap hook clamp brush lever drill punch file tape glue label cap seal mount"
)


_NOUN_TAILS = among(
    "strip line roll tube rail bar rod film sheet liner insert carrier box "
    "compartment chamber tower stack column piece section surround bung plug-in "
    "rim lip bay well pocket stem hub ball spool rack ladder web leaf fin fork "
    "link peg bolster"
)


_THIRD = frozenset(
    ["covers", "plugs", "clips", "seals", "mounts", "hooks", "screws", "locks", "caps", "frames", "labels"]
)


_TOOL_FIRST = frozenset(["allen", "hex"])


_PORTIONS = among("set drop drops few pair rest bit dab blob bunch couple")


def spot(tokens: Sequence[Token], words: Vocabulary) -> tuple[Item, ...]:
    """The items of all tokens. Fillers are gone; a stop after one stays with the item before it."""
    kept = without_fillers(parted(tokens), words)
    kept = corrected_numbers(kept, words)
    items: list[Item] = []
    at = 0
    texts = [token.text for token in kept]
    stops = [token.stop for token in kept]
    while at < len(kept):
        room = next((n for n in range(at, min(at + 12, len(kept))) if stops[n]), min(at + 11, len(kept) - 1)) + 1
        piece = texts[at:room]
        found = (
            _measure(piece, kept, at)
            or _fitting(piece, kept, at, items, words)
            or _name(piece, kept, at, items, words)
            or _word(kept[at], piece, items)
        )
        item, taken = found
        items.append(item)
        at += taken
    return tuple(unknown_names(fastened(gathered(lengths(items), words), words), words))


def _measure(piece: list[str], kept: Sequence[Token], at: int) -> tuple[Item, int] | None:
    token = kept[at]
    if (
        len(piece) > 1
        and _TOOL_FIRST.isdisjoint(piece[:1]) is False
        and piece[1] in among("key keys wrench driver bit socket")
    ):
        return None
    if found := size_at(piece, 0):
        return _item("size", found[0], kept, at, found[1]), found[1]
    if found := _drive(piece, kept, at):
        return _item("drive", found[0], kept, at, found[1]), found[1]
    if value := value_at(piece, 0):
        bound = _bound(kept, at)
        amount = replace(value[0], bound=bound)
        return replace(_item("value", amount.text, kept, at, value[1]), amount=amount), value[1]
    if token.text not in ("a", "an") and (number := number_at(piece, 0)):
        return replace(_item("num", f"{number[0]:g}", kept, at, number[1]), number=number[0]), number[1]
    if number := number_at(piece, 0):
        return replace(_item("num", f"{number[0]:g}", kept, at, number[1]), number=number[0]), number[1]
    return None


def _drive(piece: list[str], kept: Sequence[Token], at: int) -> tuple[str, int] | None:
    """A drive; the `one` of `a phillips one` is the screw and not the size."""
    found = drive_at(piece, 0)
    if (
        found is None
        or not found[0].endswith("1")
        or piece[found[1] - 1] != "one"
        or "number" in piece[: found[1]]
    ):
        return found
    lead = [token.text for token in kept[max(0, at - 3) : at]]
    headed = piece[0] in ("cross", "crosshead", "plus")
    return (found[0][:-1], found[1] - 1) if headed or any(word in ("a", "an") for word in lead) else found


def _bound(kept: Sequence[Token], at: int) -> str:
    before = [token.text for token in kept[max(0, at - 2) : at]]
    if before[-1:] and before[-1] in ("under", "below"):
        return "<"
    if before == ["less", "than"]:
        return "<"
    if (
        (before[-1:] and before[-1] in ("over", "above"))
        or before == ["more", "than"]
        or before == ["at", "least"]
    ):
        return ">"
    return ""


def _item(kind: str, text: str, kept: Sequence[Token], at: int, size: int) -> Item:
    rows = kept[at : at + size]
    return Item(
        kind,
        text,
        rows[0].start,
        rows[0].first,
        rows[-1].last,
        rows[-1].stop,
        leads=rows[0].leads,
        words=tuple(row.text for row in rows),
    )


def _name(
    piece: list[str], kept: Sequence[Token], at: int, items: list[Item], words: Vocabulary
) -> tuple[Item, int] | None:
    """The longest term here, unless its one word is a verb where it stands."""
    for size in range(min(words.longest, len(piece)), 0, -1):
        term = words.term(piece[:size])
        if term is None:
            continue
        if size == 1 and _is_verb(piece, items, words):
            return None
        if (
            size == 1
            and piece[0].endswith("s")
            and items
            and items[-1].kind == "thing"
            and not items[-1].stop
            and piece[1:2]
            and piece[1] in words.small["determiners"]
            and piece[0] in _THIRD
        ):
            return None
        if (
            size == 1
            and piece[0] in _HANDY
            and piece[1:2]
            and piece[1] in among("up it them down")
            and not (items and items[-1].text in words.small["determiners"])
        ):
            return None
        if piece[size : size + 1] in (["loaded"], ["fire"], ["free"]) and piece[0] in ("spring", "catch", "lint"):
            return None
        longer = piece[size : size + 1]
        if (longer and longer[0] in _NOUN_TAILS and "part" in term.kinds and not words.term(longer)) or (
            longer
            and singular(longer[0]) in _NOUN_TAILS
            and "part" in term.kinds
            and not words.term(longer)
            and longer[0] != "lines"
        ):
            size += 1
        name = " ".join((*piece[: size - 1], singular(piece[size - 1])))
        plural = piece[size - 1] != singular(piece[size - 1])
        item = _item("thing", name, kept, at, size)
        return replace(item, kinds=dict(term.kinds), plural=plural, head=name), size
    if (
        piece[0] == "can"
        and items
        and (
            items[-1].text in ("the", "this", "big", "tall", "metal")
            or (items[-1].text == "that" and piece[1:2] and piece[1] in _CAN)
        )
        and not items[-1].stop
    ):
        item = _item("thing", "can", kept, at, 1)
        return replace(item, kinds={"part": "other"}, head="can"), 1
    if piece[0] in ("back", "back's") and _the_back(piece, items, words):
        item = _item("thing", "back", kept, at, 1)
        return replace(item, kinds={"part": "cover"}, head="back"), 1
    return None


_CAN = among("is 's off out away over lid and has comes lifts pops from")


def _the_back(piece: list[str], items: list[Item], words: Vocabulary) -> bool:
    """`the back` as a part: after a determiner, not after `on`, `at`, `from`, and not before `of`."""
    if not items or items[-1].text not in ("the", "your", "whole") or items[-1].stop:
        return False
    lead = items[-2].text if len(items) > 1 else ""
    follows = piece[1] if len(piece) > 1 else ""
    return (
        lead not in among("on at from around round down to toward towards along across in")
        and follows not in ("of", "side")
        and words.term(piece[1:2]) is None
    )


_EXISTS = among("it's there's they're are is got have that's then 's")


def _is_verb(piece: list[str], items: list[Item], words: Vocabulary) -> bool:
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


def _fitting(
    piece: list[str], kept: Sequence[Token], at: int, items: list[Item], words: Vocabulary
) -> tuple[Item, int] | None:
    """`two push in terminals`: how a thing is fixed, as one describing word."""
    if tuple(piece[:2]) not in words.fittings or not items or items[-1].stop:
        return None
    framed = items[-1].kind in ("num", "value") or items[-1].text in words.small["determiners"]
    if (
        not framed
        or items[-1].text in ("this", "that", "each")
        or not any(words.term(piece[2 : 2 + n]) for n in (1, 2))
    ):
        return None
    return replace(_item("word", "-".join(piece[:2]), kept, at, 2), words=tuple(piece[:2])), 2


def _word(token: Token, piece: list[str], items: list[Item]) -> tuple[Item, int]:
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


def _improvised(token: Token, piece: list[str], items: list[Item]) -> bool:
    """A verb that no lexicon has, told by its particle: `flick the cover off`, `the lid flops out`."""
    word = token.text
    if len(piece) < 2 or not word.isalpha() or len(word) < 3 or word in _NO_REMOVAL or token.stop:
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
    self_ = before is not None and before.kind == "thing" and word.endswith("s") and not before.stop
    after = piece[1:7]
    if self_:
        return any(one in among("off out free away") for one in after[:2]) and after[0] in among(
            "off out free away right straight just"
        )
    led = (
        before is None
        or before.text in _LEAD_IN
        or before.text in among("and then just to carefully gently slowly")
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
