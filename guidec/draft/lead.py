"""What stands before a name -> the name with its determiner, count, sizes and describing words.

Read from right to left by an ordered row of takers: each takes the word, ends the name, or leaves the word to
the next.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace

from guidec.draft.item import Amount, Item
from guidec.draft.wordset import among

__all__ = ["MODIFIERS", "reach_left"]

MODIFIERS = among(
    "left right top bottom front back rear upper lower side inner outer middle "
    "centre center main mid black white red green blue yellow silver grey gray "
    "brown gold orange clear plastic metal rubber steel brass aluminium aluminum "
    "copper nylon glass felt wooden leather foam ceramic press push flip pull "
    "slide lock board charge charging open closed wire two three four five six "
    "seven eight hot cold stretch release snap drive power volume home"
)


_TAKE, _STOP = True, False
_Taker = Callable[["_Front", Item], bool | None]


@dataclass(slots=True)
class _Front:
    """What has been found before a name, right to left. `done`: what is left before it."""

    item: Item
    done: list[Item]
    small: Mapping[str, frozenset[str]]
    lead: tuple[str, ...]
    first: int
    start: float
    leads: bool
    mods: list[str] = field(default_factory=list)
    det: str = ""
    count: int | None = None
    more: bool = False
    same: bool = False
    drive: str = ""
    size: str = ""
    fresh: str = ""
    value: Amount | None = None
    over: bool = False

    @property
    def screws(self) -> bool:
        """Whether the name is that of screws."""
        return self.item.is_a("screw")

    def before(self, place: int = 2) -> Item | None:
        """The item `place` before the name."""
        return self.done[-place] if len(self.done) >= place else None


def reach_left(item: Item, done: list[Item], small: Mapping[str, frozenset[str]]) -> Item:
    """The item with what stands before it and describes it; taken from the end of `done`."""
    front = _Front(item, done, small, item.words, item.first, item.start, item.leads)
    while done and not done[-1].stop and not front.over:
        last = done[-1]
        if not next((taken for taker in _TAKERS if (taken := taker(front, last)) is not None), _STOP):
            break
        front.first, front.start, front.leads = last.first, last.start, last.leads
        front.lead = (*last.words, *front.lead)
        done.pop()
    return _named(front)


def _edge(front: _Front, last: Item) -> bool | None:
    """Where no name goes on: before `the 4`, across the end of a cue, at a portion."""
    text = last.text
    if front.det in among("the its your my their") and last.kind != "word":
        before = front.before()
        whole = front.lead[:1] == ("of",) and before is not None and before.text == "all"
        return None if (front.more or whole) and last.kind == "num" else _STOP
    plain = last.kind in ("word", "verb")
    if (
        front.leads
        and plain
        and not (text in MODIFIERS or text in front.small["determiners"])
        and text not in front.small["generic"]
        and text not in among("of more other another same")
    ):
        return _STOP
    if plain and text in among("set drop dab rest") and front.lead[:1] != ("of",):
        return _STOP
    return None


def _sizes(front: _Front, last: Item) -> bool | None:
    """`T5`, `M2x6`, `3 mm`, `90 %`."""
    item = front.item
    if last.kind == "drive" and item.is_a("screw", "tool", "connector") and not front.drive:
        front.drive = last.text
        return _TAKE
    if last.kind == "size" and front.screws and not front.size:
        front.size = last.text
        return _TAKE
    if last.kind == "value" and last.amount is not None:
        length = last.amount.unit in ("mm", "cm", "in") and item.is_a(
            "screw", "tool", "supply", "adhesive", "part"
        )
        share = last.amount.unit in ("%", "kohm", "ohm") and item.is_a("supply", "tool", "part")
        if length or share:
            front.value = last.amount
            return _TAKE
    return None


def _counts(front: _Front, last: Item) -> bool | None:
    """The count, and the little that may stand before it."""
    text = last.text
    if last.kind == "num" and front.count is None and last.number is not None and last.number == int(last.number):
        if len(front.mods) == 1 and front.mods[0] in among("wire pin way part") and last.number < 13:
            front.mods.insert(0, last.words[0])
        else:
            if front.item.is_a("tool") and not front.item.plural and last.number > 1:
                return _STOP
            front.count = int(last.number)
        return _TAKE
    if front.count is None:
        return None
    if last.kind == "word" and text in among("the these those all other my your of its same remaining last first"):
        front.det = text if text in ("the", "these", "those") else front.det
        front.same = front.same or text == "same"
        before = front.before()
        return _TAKE if text != "of" or (before is not None and before.text == "all") else _STOP
    return _STOP


def _others(front: _Front, last: Item) -> bool | None:
    """`two more`, `another`, `the same`."""
    if last.text in among("more other another additional further extra"):
        if last.text == "more" and front.same and front.item.is_a("tool"):
            return _STOP
        front.more = True
        front.det = "another" if last.text == "another" else front.det
        return _TAKE
    if last.text == "same":
        front.same = True
        return _TAKE
    return None


def _determiners(front: _Front, last: Item) -> bool | None:
    """`the`, `its`, `all the`, `both of these`; an `a` ends the name."""
    text = last.text
    if text not in front.small["determiners"]:
        return None
    if front.det and (front.det not in ("a", "the") or text not in among("all both these those")):
        return _STOP
    front.det = front.det or text
    front.over = text in ("a", "an")
    return _TAKE


def _of(front: _Front, last: Item) -> bool | None:
    """`two more of the …`, `all of these …`, `a couple of …`."""
    if last.text != "of":
        return None
    before = front.before()
    if front.screws and before is not None and before.text == "more":
        front.same = True
        return _TAKE
    wholes = among("all both couple pair rest each set one last first row line bunch")
    if front.det in among("these those the them your my"):
        return _TAKE if before is not None and (before.text in wholes or before.kind == "num") else _STOP
    return (
        _TAKE if before is not None and before.text in among("couple pair set bit drop dab blob lot few") else None
    )


def _portions(front: _Front, last: Item) -> bool | None:
    """`a couple`, `a bit`, `a single`."""
    text = last.text
    if text in ("couple", "pair") and front.item.plural:
        front.count = 2
        return _TAKE
    if text not in among("set drop drops few pair rest bit dab blob single little tiny last bunch"):
        return None
    front.count = 1 if text == "single" else front.count
    front.det = front.det or ("last" if text == "last" else "")
    return _TAKE


def _ages(front: _Front, last: Item) -> bool | None:
    """Words that say nothing of which one it is; new and old are kept."""
    if last.text not in front.small["generic"]:
        return None
    if last.text in ("new", "fresh", "replacement"):
        front.fresh = last.text
    elif last.text == "old":
        front.fresh = front.fresh or "old"
    return _TAKE


def _describing(front: _Front, last: Item) -> bool | None:
    """A word that belongs to the name."""
    if front.det or last.kind not in ("word", "verb") or len(front.mods) >= 3:
        return _STOP
    if not _describes(last, front):
        return _STOP
    front.mods.insert(0, last.text)
    return _TAKE


_TAKERS: tuple[_Taker, ...] = (
    _edge, _sizes, _counts, _others, _determiners, _of, _portions, _ages, _describing,
)  # fmt: skip


def _named(front: _Front) -> Item:
    """The item with its name, count and determiner."""
    item, count, mods = front.item, front.count, front.mods
    head = item.text.split()
    if count is not None and count < 13 and head[0] in ("pin", "wire", "way") and len(head) > 1:
        mods.insert(0, {2: "two", 3: "three", 4: "four"}.get(count, str(count)))
        count = None
    if front.det in among("a an one another") and count is None and front.screws and not item.plural:
        count = 1
    if front.screws and front.det == "its" and "own" in front.lead and count is None and not item.plural:
        count = 1
    if front.det == "both" and item.plural:
        count = 2
    name = "screw" if front.screws else " ".join((*(mod.removesuffix("'s") for mod in mods), item.text))
    return replace(
        item, text=name, det=front.det, count=count, more=front.more, same=front.same, drive=front.drive,
        size=front.size, value=front.value, fresh=front.fresh, words=front.lead, first=front.first,
        start=front.start, leads=front.leads,
    )  # fmt: skip


def _describes(last: Item, front: _Front) -> bool:
    """Whether a word before a name describes it."""
    table, text = front.small, last.text
    if not text[:1].isalpha() or len(text) < 2:
        return False
    ahead = front.before()
    before = ahead.text if ahead is not None and not ahead.stop else ""
    framed = (
        before in table["determiners"] or before in table["generic"] or (ahead is not None and ahead.kind == "num")
    )
    if text in among("left right back top front open"):
        return framed or text in ("left", "top", "front")
    if last.kind == "verb" and text not in MODIFIERS:
        return before in table["determiners"] and text not in among("see find note remove take look using")
    if text in among("two three four end max half"):
        return False
    if any(
        text in table[name] for name in ("particles", "adverbs", "stop", "starters", "prepositions", "subjects")
    ):
        return framed and text in MODIFIERS
    return _adjective(text, framed=framed)


def _adjective(text: str, *, framed: bool) -> bool:
    """A word of no list: not an adverb, not a clipped form, an -ing form only where a determiner frames it."""
    if text.endswith("ly") or ("'" in text and not text.endswith("'s")):
        return False
    if text.endswith(("'s", "ing")):
        return framed or text in among("charging retaining locking cooling mounting bearing heating")
    return True
