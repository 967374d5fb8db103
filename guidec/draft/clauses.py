"""Items -> clauses: stretches with at most one thing done in them.

Captions have few stops, so a clause starts where speech starts one: at a stop, at a word like "then", "so" or
"if",
at a subject with its verb, and at a verb where one has been heard already.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from guidec.draft.item import Item
from guidec.draft.verbs import doings
from guidec.draft.vocabulary import Vocabulary
from guidec.draft.wordset import among
from guidec.quick import dataclass

__all__ = ["Clause", "clauses"]

_SUBORDINATE = among("if before after once when while until unless because cause cos since although whereas till")
_BE = among(
    "is are was were 's 're get gets got isn't aren't wasn't be been needs has "
    "have had just can could will would should must may might 'll then already "
    "simply also both all now never easily goes comes"
)
_AUX = among(
    "is are was were 's 're 'll can could will would should must may might has "
    "have had needs need wants get gets got don't didn't doesn't isn't aren't "
    "won't can't"
)
_BACKED = among("to that which who what how where like think than as as")


@dataclass(frozen=True, slots=True)
class Clause:
    """One clause. `lead`: the word it starts with that sets its mood (`if`, `then`, `and`, `to`, …), or ``.
    `fresh`: it starts a sentence, as far as can be told."""

    items: tuple[Item, ...]
    lead: str
    fresh: bool = False

    @property
    def text(self) -> str:
        """Its words, understood and in lower case."""
        return " ".join(word for item in self.items for word in item.words)

    @property
    def start(self) -> float:
        """When it is spoken."""
        return self.items[0].start

    @property
    def verb(self) -> int | None:
        """The place of its verb, or None."""
        return next((n for n, item in enumerate(self.items) if item.kind == "verb"), None)


def clauses(items: Sequence[Item], words: Vocabulary) -> tuple[Clause, ...]:
    """The clauses, in order; every item is in one."""
    made: list[Clause] = []
    now: list[Item] = []
    fresh = True
    for at, item in enumerate(items):
        ended = bool(now and now[-1].stop == 2)
        if now and (ended or _starts(items, at, now, words)):
            made.append(_clause(now, fresh))
            fresh = ended
            now = []
        now.append(item)
    if now:
        made.append(_clause(now, fresh))
    return tuple(made)


def _clause(items: list[Item], fresh: bool) -> Clause:
    lead = items[0].text if items[0].kind in ("word", "verb") else ""
    for item in items[:3]:
        if item.text in _SUBORDINATE and item.kind == "word":
            lead = item.text
            break
    return Clause(tuple(items), lead, fresh)


@dataclass(frozen=True, slots=True)
class _Place:
    """A place between two items: what has been said of the clause (`now`), what comes, whether a verb was
    heard."""

    items: Sequence[Item]
    at: int
    now: list[Item]
    words: Vocabulary
    busy: bool

    @property
    def item(self) -> Item:
        """What comes."""
        return self.items[self.at]

    @property
    def before(self) -> Item:
        """What was said last."""
        return self.now[-1]

    def follow(self, n: int = 1) -> Item | None:
        """The item `n` further on."""
        return self.items[self.at + n] if self.at + n < len(self.items) else None

    def after(self, n: int = 1) -> str:
        """The text of the item `n` further on, or ``."""
        further = self.follow(n)
        return further.text if further else ""

    def verb_said(self) -> bool:
        """Whether a verb has been heard."""
        return any(one.kind == "verb" for one in self.now)


_SAID = among("is are 's it's that's there's they're these're see has have here's")


def _starts(items: Sequence[Item], at: int, now: list[Item], words: Vocabulary) -> bool:
    """Whether a clause starts at an item: the first rule that has an opinion decides."""
    negations = words.small["negations"]
    busy = any(one.kind == "verb" or one.text in negations or one.text in _SAID for one in now)
    place = _Place(items, at, now, words, busy)
    return next((starts for rule in _RULES if (starts := rule(place)) is not None), False)


def _by_word(place: _Place) -> bool | None:
    """Words that start clauses, subjects."""
    item, small = place.item, place.words.small
    if item.kind in ("word", "verb") and item.text in small["starters"]:
        return _starter(place.items, place.at, place.now, place.words, place.busy)
    if item.kind == "word" and item.text in small["subjects"]:
        return _subject(place.items, place.at, place.now, place.words)
    return None


def _by_shape(place: _Place) -> bool | None:
    """Turns of speech that stand alone, and the ends of cues."""
    if _stands_alone(place.items, place.at, place.now, place.words):
        return True
    if place.item.leads and _new_cue(place.items, place.at, place.now, place.words):
        return True
    return None


def _by_state(place: _Place) -> bool | None:
    """`crack the case | open` goes on; `armature out | lift it` does not."""
    item, before = place.item, place.before
    if item.kind != "verb":
        return None
    further = place.follow()
    if item.text in ("open", "free", "loose") and before.kind in ("thing", "noun"):
        return None if further is not None and further.kind in ("thing", "noun") else False
    if before.text in ("out", "off", "away") and len(place.now) > 1 and place.now[-2].kind == "thing":
        return None if place.verb_said() else True
    return None


def _by_order(place: _Place) -> bool | None:
    """`let it sit`, `don't`, `careful`, `underneath it is`."""
    item, before, small = place.item, place.before, place.words.small
    if item.text in _BEGINNERS and item.kind in ("word", "verb"):
        led = any(before.text in small[name] for name in ("starters", "auxiliaries", "adverbs"))
        return (
            not led
            and before.text not in _BACKED
            and before.text not in among("and but i you we to just please so")
        )
    if item.text in among("underneath under behind inside below beneath") and place.after() in among(
        "it that this there here those them"
    ):
        return place.busy and place.after(2) in among("is are 's you we there's there")
    return None


def _by_name(place: _Place) -> bool | None:
    """A name behind a name; a name with a verb of its own."""
    item, before = place.item, place.before
    if (
        item.kind == "thing"
        and before.kind in ("thing", "noun")
        and place.busy
        and not before.stop
        and (item.det or item.count is not None)
    ):
        return True
    if before.text in among("here's there's that's it's this that") and item.kind in ("thing", "noun"):
        return False
    if item.kind not in ("thing", "noun", "num") or not place.busy:
        return None
    if before.kind == "verb" and before.text not in among("free open loose dry clear cool short"):
        return None
    if before.text in place.words.small["prepositions"] and not _loose(place):
        return None
    own = _has_verb(place.items, place.at, place.words)
    return own and before.text not in ("and", "or", "than") and _complete(place.now)


def _loose(place: _Place) -> bool:
    """Whether the word before is the particle of a verb that has its object: `set the cover aside | the plug
    …`."""
    item, before, now = place.item, place.before, place.now
    if before.text not in place.words.small["particles"] or len(now) < 2:
        return False
    if before.text in among("over down up under around") and item.det and not item.leads:
        return False
    held = now[-2].kind in ("thing", "noun") or now[-2].text in among("it them that those these back not")
    return held and any(one.kind == "verb" for one in now[:-1])


def _by_verb(place: _Place) -> bool | None:
    """A further verb, or an order."""
    item, before, now = place.item, place.before, place.now
    if item.kind != "verb":
        return None
    if before.text in ("does", "did", "do") and now[0].text in among("before than as like until"):
        return True
    if before.kind in ("thing", "noun") and place.after() in among("all them those these both it that"):
        return _plain(item)
    if place.verb_said():
        return _second_verb(item, before, now)
    if place.busy and (
        _imperative(item, before, place.words) or _orders(place.items, place.at, before, place.words)
    ):
        return True
    return None


def _by_turn(place: _Place) -> bool | None:
    """`or you'll …`, `shout out to`, `my mum …`, `on assembly`, `this one …`."""
    item, before, small = place.item, place.before, place.words.small
    led = before.text in small["prepositions"]
    if item.text == "or" and place.after() in among("you you'll it it'll they they'll else i'll we'll"):
        return True
    if item.text == "shout" and place.after() == "out":
        return True
    if item.kind == "noun" and item.det == "my" and place.busy and not led:
        return True
    if item.text == "on" and place.after() in ("assembly", "reassembly"):
        return True
    if (
        item.text in ("this", "that")
        and place.after() == "1"
        and _has_verb(place.items, place.at + 1, place.words)
    ):
        return not led and before.kind != "verb"
    return None


def _by_comma(place: _Place) -> bool | None:
    """A comma behind what can stand, before what can start."""
    if place.before.stop != 1 or not place.busy or place.item.kind not in among("thing noun num verb drive"):
        return None
    own = place.item.kind == "verb" or _has_verb(place.items, place.at, place.words)
    return _complete(place.now) and own


def _plain(item: Item) -> bool:
    """Whether a verb stands in its plain form."""
    return any("base" in doing.forms for doing in doings(item.text))


_RULES: tuple[Callable[[_Place], bool | None], ...] = (
    _by_word, _by_shape, _by_state, _by_order, _by_name, _by_verb, _by_turn, _by_comma,
)  # fmt: skip


_BEGINNERS = among("let leave don't never do careful mind watch remember keep please")


def _stands_alone(items: Sequence[Item], at: int, now: list[Item], words: Vocabulary) -> bool:
    """`battery out card out`, `out it comes`, `on the way back in`, `print head next`, and a name behind an
    object and
    its particle (`set the cover aside | battery connector first`)."""
    item, before = items[at], now[-1]
    follow = [one.text for one in items[at + 1 : at + 4]]
    if (
        item.text in among("out off up away")
        and item.kind == "word"
        and follow[:1]
        and follow[0] in among("it they that she")
        and len(items) > at + 2
        and items[at + 2].kind == "verb"
    ):
        return True
    if (
        item.text == "going"
        and follow[:1] == ["back"]
        and before.text not in among("when is it's they're i'm we're")
    ):
        return True
    if (item.text == "on" and follow[:2] == ["the", "way"]) or (
        item.text == "on" and items[at + 1 : at + 2] and items[at + 1].text == "way"
    ):
        return "back" in follow
    if (
        item.kind not in ("thing", "noun")
        or (before.kind == "verb" and before.text not in ("free", "open"))
        or before.text in among("and or to of with the")
    ):
        return False
    if before.text in words.small["determiners"] or before.text in words.small["starters"]:
        return False
    ends = (
        len(items) <= at + 2
        or items[at + 1].stop
        or items[at + 2].kind in among("thing verb noun num")
        or items[at + 2].text not in among("of the in with on")
    )
    if (
        follow[:1]
        and follow[0] in ("out", "off")
        and ends
        and before.text not in words.small["prepositions"] - words.small["particles"]
    ):
        return True
    if (
        item.det == ""
        and follow[:1] in (["that's"], ["it's"])
        and before.kind == "word"
        and before.text not in words.small["prepositions"] - words.small["particles"]
    ):
        return any(one.kind == "verb" or one.text in ("is", "'s", "are") for one in now)
    if (
        follow[:1] in (["next"], ["first"])
        and before.text not in words.small["prepositions"] - words.small["particles"]
    ):
        return True
    return (
        len(now) > 2
        and (before.text in among("aside off out away free apart too") or _upright(item, before))
        and (now[-2].kind in ("thing", "noun") or now[-2].text in among("it them those that these"))
        and any(one.kind == "verb" for one in now[:-2])
    )  # fmt: skip


def _upright(item: Item, before: Item) -> bool:
    """`over`, `down`, `up` as a particle, and not before the place that it leads to."""
    return before.text in ("over", "down", "up") and (not item.det or item.leads)


def _imperative(item: Item, before: Item, words: Vocabulary) -> bool:
    """Whether a verb in its plain form, after a clause that stands ("they're tight take them out"), starts
    anew."""
    if not any("base" in doing.forms for doing in doings(item.text)):
        return False
    if before.kind in among("thing noun drive size value num"):
        return True
    if before.text in among("just then gently carefully simply"):
        return True
    small = words.small
    return (
        before.text in among("here there off out up it them down together though too again now tight one stuck in")
        and before.text not in small["auxiliaries"]
    )


def _new_cue(items: Sequence[Item], at: int, now: list[Item], words: Vocabulary) -> bool:
    """Whether a clause ends with its cue: what was said can stand, and what comes can start."""
    item, before = items[at], now[-1]
    small = words.small
    follow = items[at + 1] if at + 1 < len(items) else None
    if (
        item.kind == "verb"
        and follow is not None
        and follow.kind in ("thing", "noun")
        and follow.det
        and before.kind != "verb"
        and any("base" in doing.forms for doing in doings(item.text))
    ) and (
        before.text in ("her", "him", "me")
        or not (
            before.text in small["prepositions"]
            or before.text in small["auxiliaries"]
            or before.text in small["subjects"]
            or before.text in among("and or not don't the to i you we")
        )
    ):
        return True
    if before.kind == "word" and (
        before.text in small["prepositions"] - small["particles"]
        or before.text in small["determiners"]
        or before.text in small["auxiliaries"]
        or before.text in small["starters"]
        or before.text in small["be"]
        or before.text in among("and or i you we they it's that's there's i'm is very about like just a")
    ):
        return False
    verbs = [n for n, one in enumerate(now) if one.kind == "verb"]
    if verbs:
        tail = now[verbs[-1] + 1 :]
        front = now[: verbs[-1]]
        stands = any(
            one.kind in among("thing noun num value drive")
            or one.text in among("it them those that these this off out away free up over down")
            for one in tail
        ) or any(one.kind in ("thing", "noun") for one in front)
        if not stands or (
            len(now) > verbs[-1] + 1
            and tail[-1].text in among("off out up away")
            and not any(
                one.kind in ("thing", "noun") or one.text in among("it them those that they")
                for one in (*tail, *front)
            )
        ):
            return False
    elif not any(
        one.text in among("is are 's it's that's there's they're has have here's got") for one in now
    ) and (
        not any(one.kind in ("thing", "noun") for one in now)
        or (len(now) > 6 and before.kind not in among("thing noun drive size value num"))
    ):
        return False
    if item.kind == "verb":
        return any("base" in doing.forms for doing in doings(item.text))
    if item.kind in ("thing", "noun"):
        return (
            bool(item.det)
            or item.count is not None
            or _has_verb(items, at, words)
            or (
                bool(items[at + 1 : at + 2])
                and items[at + 1].text
                in among("next first out off and now has hangs held at on in of sit sits goes go has have")
            )
        )
    if item.kind == "num":
        return before.kind not in ("thing", "noun") or True
    return item.text in among(
        "these those this they it they're it's that's there's here's both all each "
        "under underneath behind inside on with at before up down under use using with "
        "over"
    ) and item.text not in among("with on at before down up all using under behind inside over")


def _orders(items: Sequence[Item], at: int, before: Item, words: Vocabulary) -> bool:
    """Whether a plain verb with an object behind it starts a new order: `… in between | peel that off`."""
    item = items[at]
    follow = items[at + 1] if at + 1 < len(items) else None
    if follow is None or item.stop or not any("base" in doing.forms for doing in doings(item.text)):
        return False
    small = words.small
    participle = before.kind == "verb" and any("past" in doing.forms for doing in doings(before.text))
    if (
        (before.kind == "verb" and not participle)
        or before.text in small["auxiliaries"]
        or before.text in small["subjects"]
        or before.text in small["negations"]
        or before.text in small["be"]
    ):
        return False
    if before.text in among(
        "and or the a an of by with without who which that both all these those they things people"
    ):
        return False
    return follow.text in among("it that them those these this") or (
        follow.kind in ("thing", "noun") and bool(follow.det)
    )


def _complete(now: list[Item]) -> bool:
    """Whether what has been said can stand: its verb has something beside it."""
    verb = next((n for n, one in enumerate(now) if one.kind == "verb"), None)
    if verb is None or any(
        one.text in among("is are 's they're it's that's") for one in now[max(0, verb - 3) : verb]
    ):
        return True
    return len(now) > verb + 1 or (verb > 0 and now[verb - 1].kind in ("thing", "noun"))


def _starter(items: Sequence[Item], at: int, now: list[Item], words: Vocabulary, busy: bool) -> bool:
    item, before = items[at], now[-1]
    text = item.text
    after = items[at + 1] if at + 1 < len(items) else None
    only_leads = all(one.text in words.small["starters"] or one.text in words.small["fillers"] for one in now)
    if text in ("and", "plus"):
        return after is not None and _opens(items, at + 1, words)
    if only_leads and text not in _SUBORDINATE:
        return False
    if text in among("first second third last right well good perfect great nice cool lovely"):
        det = before.kind == "word" and (
            before.text in words.small["determiners"]
            or before.text in words.small["prepositions"]
            or before.text in among("as very that's it's pretty really straight comes is 's look looks")
        )
        later = after is not None and (
            after.text in among("off out up here there away on in now next side at through down across back")
        )
        if (
            after is not None
            and after.kind in ("thing", "noun")
            and text in among("last first second third")
            and before.text in words.small["determiners"]
        ):
            return False
        if text == "first" and (before.kind in ("thing", "noun") or not busy):
            return False
        return not det and not later and before.kind != "verb"
    if text in among("also now there then again next where yes here"):
        if (
            text in ("then", "just", "now")
            and before.kind in ("thing", "noun")
            and after is not None
            and after.kind == "verb"
            and any("third" in doing.forms for doing in doings(after.text))
        ):
            return False
        if text in ("there", "here", "where"):
            return (
                after is not None
                and after.text in among("is are 's was you we i")
                and before.text not in among("in over up down from out right")
            )
        if text == "also" and after is not None and after.kind in ("thing", "noun"):
            return False
        return busy or (
            before.kind in ("thing", "noun", "num") and text in ("then", "now", "next") and text != "next"
        )
    if text in ("which", "who"):
        return before.text not in words.small["prepositions"]
    if text == "since":
        return True
    return not (text == "so" and before.text in among("or like about just do look"))


def _opens(items: Sequence[Item], at: int, words: Vocabulary) -> bool:
    """Whether a clause of its own follows an `and`."""
    n = at
    while (
        n < len(items)
        and items[n].kind == "word"
        and (
            items[n].text in words.small["adverbs"]
            or items[n].text
            in among("then so uh once if when after before with it's that's there's they're these")
        )
    ):
        if items[n].text not in words.small["adverbs"]:
            return True
        n += 1
    if n >= len(items):
        return False
    item = items[n]
    if item.kind == "verb":
        return True
    if item.kind == "word":
        return (
            item.text in words.small["subjects"]
            or item.text in words.small["auxiliaries"]
            or item.text in words.small["starters"]
            or item.text in words.small["negations"]
            or item.text in among("both these those this off out in set put underneath behind under inside")
        )
    return _has_verb(items, n, words)


def _subject(items: Sequence[Item], at: int, now: list[Item], words: Vocabulary) -> bool:
    item, before = items[at], now[-1]
    text = item.text
    only_leads = all(one.text in words.small["starters"] or one.text in among("all only just or") for one in now)
    if only_leads or before.text in _BACKED or (before.kind == "word" and before.text in _AUX):
        return False
    if text in among("it this that these those he she they we you i"):
        if before.text in words.small["prepositions"] or (before.kind == "verb" and text in ("it", "you")):
            return False
        return text in among("we you i they he she") or _has_verb(items, at, words)
    return before.text not in words.small["prepositions"] or "'" in text


def _has_verb(items: Sequence[Item], at: int, words: Vocabulary) -> bool:
    """Whether a name is followed by a verb of its own: a form of be, an auxiliary, or a verb said of itself."""
    n = at + 1
    if items[at].stop:
        return False
    while (
        n < len(items)
        and n < at + 4
        and items[n].kind == "word"
        and (items[n].text in words.small["adverbs"] or items[n].text in ("itself", "themselves"))
        and not items[n].stop
    ):
        n += 1
    if n >= len(items):
        return False
    item = items[n]
    if item.kind == "word":
        return item.text in _AUX or item.text in among(
            "it's they're that's hangs sits lives goes needs looks covers hold holds"
        )
    if item.kind != "verb":
        return False
    forms = {form for doing in doings(item.text) for form in doing.forms}
    if "third" in forms:
        return True
    plural = items[at].plural or items[at].text in among("these those they both")
    return (
        plural
        and "base" in forms
        and bool(items[n + 1 : n + 2])
        and items[n + 1].text in words.small["particles"] | {"right", "straight", "just", "in", "on"}
    )


def _second_verb(item: Item, before: Item, now: list[Item]) -> bool:
    """Whether a further verb starts a clause."""
    forms = {form for doing in doings(item.text) for form in doing.forms}
    if before.text in among("to by without for of"):
        return True
    while before.text in among("just then gently slowly carefully simply now also") and before is not now[0]:
        before = now[now.index(before) - 1]
    if before.kind == "verb" or before.text in among(
        "go going let's ahead be been just start i you we gonna wanna can could help not don't it's"
    ):
        return (before.kind == "verb" and False) or before.text in ("i", "you", "we")
    if "ing" in forms and "base" not in forms:
        return before.kind in ("thing", "noun")
    if before.kind in ("thing", "noun", "num") or before.text in among(
        "it them off out up away free in down over these those that back here there aside open"
    ):
        return True
    return before.text in among("and or then but just go also gently slowly carefully")
