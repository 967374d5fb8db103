"""Tokens -> items: numbers, values, drives, sizes, names of the trade with what describes them, verbs, words.

Names are found by their last word (the lexicon's longest term), then reach to the left over describing words, and
on to the right where another term follows ("battery connector"). What no lexicon knows but stands like a name
("the crumb flap") becomes a `noun`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from guidec.draft.counting import number_at
from guidec.draft.hearing import Token
from guidec.draft.item import Amount, Item
from guidec.draft.measures import drive_at, size_at, value_at
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
_MODIFIERS = among(
    "left right top bottom front back rear upper lower side inner outer middle "
    "centre center main mid black white red green blue yellow silver grey gray "
    "brown gold orange clear plastic metal rubber steel brass aluminium aluminum "
    "copper nylon glass felt wooden leather foam ceramic press push flip pull "
    "slide lock board charge charging open closed wire two three four five six "
    "seven eight hot cold stretch release snap drive power volume home"
)
_LINKED = frozenset(["of"])
_HANDY = among(
    "bin pick clip plug wipe press tap hook clamp brush lever drill punch file tape glue label cap seal mount"
)
_NOUN_TAILS = among(
    "strip line roll tube rail bar rod film sheet liner insert carrier box "
    "compartment chamber tower stack column piece section surround bung plug-in "
    "rim lip bay well pocket stem hub ball spool rack ladder web leaf fin fork "
    "link peg bolster"
)
_CORDS = frozenset(["flex", "cable", "ribbon", "lead", "wire", "connector", "plug", "harness"])
_THIRD = frozenset(
    ["covers", "plugs", "clips", "seals", "mounts", "hooks", "screws", "locks", "caps", "frames", "labels"]
)
_TOOL_FIRST = frozenset(["allen", "hex"])
_PORTIONS = among("set drop drops few pair rest bit dab blob bunch couple")
_SHARES = among("more other others remaining")


@dataclass(frozen=True)
class _Spotter:
    words: Vocabulary
    tokens: Sequence[Token]

    @property
    def texts(self) -> list[str]:
        return [token.text for token in self.tokens]


def spot(tokens: Sequence[Token], words: Vocabulary) -> tuple[Item, ...]:
    """The items of all tokens. Fillers are gone; a stop after one stays with the item before it."""
    kept = _without_fillers(_parted(tokens), words)
    kept = _corrected_numbers(kept, words)
    items: list[Item] = []
    at = 0
    texts = [token.text for token in kept]
    stops = [token.stop for token in kept]
    while at < len(kept):
        room = next((n for n in range(at, min(at + 12, len(kept))) if stops[n]), min(at + 11, len(kept) - 1)) + 1
        piece = texts[at:room]
        found = _measure(piece, kept, at) or _name(piece, kept, at, items, words) or _word(kept[at], piece, items)
        item, taken = found
        items.append(item)
        at += taken
    return tuple(_nouns(_gathered(items, words), words))


_WHOLE = among(
    "it's that's there's here's what's let's who's he's she's where's how's everything's this's everybody's one's"
)


def _parted(tokens: Sequence[Token]) -> list[Token]:
    """`board's` as `board` and `'s`, `screws're` likewise; `it's`, `let's` and their like stay whole."""
    parted: list[Token] = []
    for token in tokens:
        word, mark, tail = token.text.rpartition("'")
        if token.text == "right" and parted and parted[-1].text == "all" and not parted[-1].stop:
            parted[-1] = replace(parted[-1], text="alright", last=token.last, stop=token.stop)
            continue
        if (
            mark
            and tail in ("s", "re", "ll")
            and token.text not in _WHOLE
            and len(word) > 2
            and word not in ("they", "you")
        ):
            parted += [replace(token, text=word, stop=0), replace(token, text=f"'{tail}")]
        else:
            parted.append(token)
    return parted


def _without_fillers(tokens: Sequence[Token], words: Vocabulary) -> list[Token]:
    kept: list[Token] = []
    at = 0
    texts = [token.text for token in tokens]
    while at < len(tokens):
        size = next(
            (len(phrase) for phrase in words.phrases if tuple(texts[at : at + len(phrase)]) == phrase), 0
        ) or (texts[at] in words.small["fillers"])
        if size and not _correcting(texts, at, words):
            stop = max(token.stop for token in tokens[at : at + size])
            if kept and stop:
                kept[-1] = replace(kept[-1], stop=max(kept[-1].stop, stop))
            at += size
            continue
        repeated = kept and kept[-1].text == texts[at] and not kept[-1].stop and texts[at].isalpha()
        if repeated and not number_at(texts, at):
            at += 1
            continue
        kept.append(tokens[at])
        at += 1
    return kept


def _correcting(texts: Sequence[str], at: int, words: Vocabulary) -> bool:
    return any(tuple(texts[at : at + len(phrase)]) == phrase for phrase in words.corrections) and bool(
        at and number_at(texts, at - 1)
    )


def _corrected_numbers(tokens: list[Token], words: Vocabulary) -> list[Token]:
    """`three um sorry four more screws` -> `four more screws`; the same across a few words: `ten screws sorry eleven`."""
    texts = [token.text for token in tokens]
    at = 0
    while at < len(tokens):
        phrase = next((p for p in words.corrections if tuple(texts[at : at + len(p)]) == p), None)
        after = at + len(phrase) if phrase else 0
        right = number_at(texts, after) if phrase and after < len(texts) else None
        if phrase and right:
            for back in range(at - 1, max(at - 5, -1), -1):
                left = number_at(texts, back)
                if left and texts[back] not in ("a", "an") and (back == 0 or not number_at(texts, back - 1)):
                    between = texts[back + left[1] : at]
                    unit = texts[after + right[1] : after + right[1] + 1]
                    if not between or between == unit or back + left[1] == at:
                        del tokens[back:after]
                        del texts[back:after]
                        at = back
                        break
                    break
        at += 1
    return tokens


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
    if found := drive_at(piece, 0):
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
    if piece[0] == "can" and items and items[-1].text in ("the", "this", "that") and not items[-1].stop:
        item = _item("thing", "can", kept, at, 1)
        return replace(item, kinds={"part": "other"}, head="can"), 1
    if piece[0] in ("back", "back's") and _the_back(piece, items, words):
        item = _item("thing", "back", kept, at, 1)
        return replace(item, kinds={"part": "cover"}, head="back"), 1
    return None


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
    if (
        text in among("it they i we you who which doesn't don't they'll it'll can't won't just")
        and before.kind == "word"
    ):
        return True
    if text in words.small["determiners"] or text in words.small["generic"] or text in _MODIFIERS:
        return text in ("these", "those") and False
    if text in _LEAD_IN or text in words.small["starters"] or text in words.small["adverbs"]:
        return (
            follows in _VERB_NEXT
            or follows == "with"
            or text in among("to i we you i'll we'll you'll let's ahead can just")
        )
    return follows in among("it them the your") and text not in words.small["prepositions"]


def _word(token: Token, piece: list[str], items: list[Item]) -> tuple[Item, int]:
    kind = "verb" if token.text in verb_forms() else "word"
    if items and items[-1].text in ("a", "an") and not items[-1].stop:
        kind = "word"
    if (
        token.text in among("free open loose clear dry clean")
        and items
        and items[-1].text in among("is are 's it's that's they're was be comes come lies now fully all")
    ):
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


# ---------------------------------------------------------------- names gathered


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


def _gathered(items: list[Item], words: Vocabulary) -> list[Item]:
    """Names with their describing words, determiners and counts; `X of the Y` as one."""
    done: list[Item] = []
    at = 0
    while at < len(items):
        item = items[at]
        if item.kind != "thing":
            done.append(item)
            at += 1
            continue
        at += 1
        while at < len(items) and not item.stop and _compound(item, items, at):
            after = items[at]
            item = replace(
                after,
                text=f"{item.text} {after.text}",
                start=item.start,
                first=item.first,
                leads=item.leads,
                kinds=_joined_kinds(item, after),
                words=(*item.words, *after.words),
                head=after.head,
            )
            at += 1
        item = _reach_left(item, done, words)
        if (
            at + 1 < len(items)
            and not item.stop
            and items[at].text == "of"
            and items[at + 1].text in words.small["determiners"]
        ):
            whole = next((n for n in range(at + 2, min(at + 5, len(items))) if items[n].kind == "thing"), None)
            between = items[at + 2 : whole] if whole else []
            if (
                whole
                and item.is_a("part")
                and all(one.kind == "word" and one.text not in words.small["stop"] for one in between)
            ):
                item = replace(
                    item,
                    text=f"{items[whole].text} {item.text}" if item.head.split()[-1] in _CORDS else item.text,
                    last=items[whole].last,
                    stop=items[whole].stop,
                )
                at = whole + 1
        done.append(item)
    return done


def _compound(item: Item, items: list[Item], at: int) -> bool:
    """Whether the next item goes on with the name: another term right behind, that is not done something to."""
    after = items[at]
    if after.kind != "thing" or (item.plural and not item.text.endswith("s") and item.is_a("screw")):
        return False
    if after.head == item.head:
        return False
    return not (item.plural and not after.is_a("screw"))


def _joined_kinds(item: Item, after: Item) -> dict[str, str]:
    kinds = dict(after.kinds)
    if after.head in among("socket bit driver screwdriver key gun") and "part" in kinds:
        kinds.pop("tool", None) if item.is_a("part") and after.head in ("driver", "socket") else None
    return kinds


def _reach_left(item: Item, done: list[Item], words: Vocabulary) -> Item:
    """The item with what stands before it and describes it; taken from the end of `done`."""
    mods: list[str] = []
    found: dict[str, Any] = {"first": item.first, "start": item.start, "leads": item.leads}
    det, count, more, same, drive, size, fresh = "", None, False, False, "", "", ""
    value: Amount | None = None
    lead: tuple[str, ...] = item.words
    small = words.small
    screws = item.is_a("screw")
    tool = item.is_a("tool")
    while done and not done[-1].stop:
        last = done[-1]
        text = last.text
        if det in among("the its your my their") and last.kind != "word" and not (more and last.kind == "num"):
            break
        if (
            found["leads"]
            and last.kind in ("word", "verb")
            and text not in _MODIFIERS
            and text not in small["determiners"]
            and text not in small["generic"]
            and text not in among("of more other another same")
        ):
            break
        if text in _PORTIONS and last.kind in ("word", "verb") and (not lead or lead[0] != "of"):
            if text in among("set drop dab rest"):
                break
        if last.kind == "drive" and (screws or tool or item.is_a("connector")) and not drive:
            drive = text
        elif last.kind == "size" and screws and not size:
            size = text
        elif (
            last.kind == "value"
            and last.amount
            and last.amount.unit in ("mm", "cm", "in")
            and (screws or tool or item.is_a("supply", "adhesive", "part"))
        ) or (
            last.kind == "value"
            and last.amount
            and last.amount.unit in ("%", "kohm", "ohm")
            and item.is_a("supply", "tool", "part")
        ):
            value = last.amount
        elif last.kind == "num" and count is None and last.number is not None and last.number == int(last.number):
            if mods and len(mods) == 1 and mods[0] in among("wire pin way part") and last.number < 13:
                mods.insert(0, last.words[0])
            else:
                count = int(last.number)
        elif (
            count is not None
            and text in among("the these those all other my your of its same remaining last first")
            and last.kind == "word"
        ):
            if text in ("the", "these", "those"):
                det = text
            same = same or text == "same"
            if text == "of" and (len(done) < 2 or done[-2].text != "all"):
                break
        elif count is not None:
            break
        elif text in among("more other another additional further extra"):
            more = True
            if text == "another":
                det = text
        elif text == "same":
            same = True
        elif text in small["determiners"]:
            if det and det not in ("a", "the"):
                break
            if det and text not in among("all both these those"):
                break
            det = det or text
            if text in ("a", "an", "the") and not (text == "the"):
                found = {"first": last.first, "start": last.start, "leads": last.leads}
                lead = (*last.words, *lead)
                done.pop()
                break
        elif text == "of" and screws and len(done) >= 2 and done[-2].text == "more":
            same = True
        elif text == "of" and det in among("these those the them your my"):
            if len(done) >= 2 and (
                done[-2].text in among("all both couple pair rest each set one last first row line bunch")
                or done[-2].kind == "num"
            ):
                pass
            else:
                break
        elif text in ("couple", "pair") and item.plural:
            count = 2
        elif (
            text == "of" and len(done) >= 2 and done[-2].text in among("couple pair set bit drop dab blob lot few")
        ):
            pass
        elif text in among("set drop drops few pair rest bit dab blob single little tiny last bunch"):
            if text == "single":
                count = 1
            if text == "last":
                det = det or "last"
        elif text in small["generic"]:
            if text in ("new", "fresh", "replacement"):
                fresh = text
            if text in ("old",):
                fresh = fresh or text
        elif det:
            break
        elif last.kind in ("word", "verb") and len(mods) < 3 and _describes(last, done, small, mods):
            mods.insert(0, text)
        elif last.kind == "num" and len(mods) < 3:
            break
        else:
            break
        found = {"first": last.first, "start": last.start, "leads": last.leads}
        lead = (*last.words, *lead)
        done.pop()
    if (
        count is not None
        and count < 13
        and item.text.split()[0] in ("pin", "wire", "way")
        and len(item.text.split()) > 1
    ):
        mods.insert(0, {2: "two", 3: "three", 4: "four"}.get(count, str(count)))
        count = None
    if det in among("a an one another") and count is None and screws and not item.plural:
        count = 1
    if det == "both" and item.plural:
        count = 2
    mods = [mod.removesuffix("'s") for mod in mods]
    if screws:
        name = "screw" if item.head in ("screw", "bolt", "fastener") or item.is_a("screw") else item.text
    else:
        name = " ".join((*mods, item.text))
    return replace(
        item, text=name, det=det, count=count, more=more, same=same, drive=drive, size=size, value=value, fresh=fresh,
        words=lead, **found,
    )  # fmt: skip


def _describes(last: Item, done: list[Item], small: dict[str, frozenset[str]] | object, mods: list[str]) -> bool:
    """Whether a word before a name describes it."""
    table: dict[str, frozenset[str]] = small  # type: ignore[assignment]
    text = last.text
    if not text[:1].isalpha() or len(text) < 2:
        return False
    before = done[-2].text if len(done) > 1 and not done[-2].stop else ""
    framed = (
        before in table["determiners"] or before in table["generic"] or (len(done) > 1 and done[-2].kind == "num")
    )
    if text in among("left right back top front open"):
        return (
            framed
            or text in ("left", "top", "front")
            or (before in ("to", "from") and False)
            or (text == "right" and before in ("the", "left"))
        )
    if last.kind == "verb" and text not in _MODIFIERS:
        return (
            framed and before in table["determiners"] and text not in among("see find note remove take look using")
        )
    if text in ("two", "three", "four"):
        return False
    if text in ("end", "max", "half") or (
        (text in table["particles"] or text in table["adverbs"]) and not (framed and text in _MODIFIERS)
    ):
        return False
    if (
        text in table["stop"]
        or text in table["starters"]
        or text in table["prepositions"]
        or text in table["subjects"]
    ):
        return framed and text in _MODIFIERS
    if text.endswith("ly") or ("'" in text and not text.endswith("'s")):
        return False
    if text.endswith("'s"):
        return framed and text not in table["subjects"]
    if (
        text.endswith("ing")
        and not framed
        and text not in among("charging retaining locking cooling mounting bearing heating")
    ):
        return False
    return True


# ---------------------------------------------------------------- names that no lexicon knows


def _nouns(items: list[Item], words: Vocabulary) -> list[Item]:
    """`the` (or another determiner) and one to three words that are none of speech: a `noun`."""
    small = words.small
    done: list[Item] = []
    at = 0
    while at < len(items):
        item = items[at]
        if (
            item.kind == "word"
            and item.text in small["determiners"]
            and item.text not in among("no that this all")
            and not item.stop
        ):
            stop = at + 1
            while (
                stop < len(items)
                and stop - at <= 4
                and (items[stop].kind == "word" or (items[stop].kind == "num" and stop == at + 1))
                and _content(items[stop], small)
            ):
                stop += 1
                if items[stop - 1].stop:
                    break
            row = [one for one in items[at + 1 : stop] if one.text not in small["generic"] and one.kind == "word"]
            counts = [one for one in items[at + 1 : stop] if one.kind == "num"]
            if row and row[-1].text.isalpha() and row[-1].text not in _MODIFIERS:
                last = singular(row[-1].text)
                text = " ".join((*(one.text for one in row[:-1]), last))
                count = int(counts[0].number or 0) if counts else None
                done.append(
                    Item(
                        "noun", text, item.start, item.first, items[stop - 1].last, items[stop - 1].stop, leads=item.leads,
                        det=item.text,
                        plural=last != row[-1].text, head=last, count=count,
                        words=tuple(word for one in items[at:stop] for word in one.words),
                    )
                )  # fmt: skip
                at = stop
                continue
        done.append(item)
        at += 1
    return done


def _content(item: Item, small: dict[str, frozenset[str]] | object) -> bool:
    table: dict[str, frozenset[str]] = small  # type: ignore[assignment]
    if item.kind == "num":
        return True
    text = item.text
    return text in table["generic"] or not (
        text in table["stop"] or text in table["starters"] or text in table["prepositions"] or text in table["subjects"]
        or text in table["adverbs"] or "'" in text
    )  # fmt: skip
