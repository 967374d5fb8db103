"""Items -> clauses: stretches with at most one thing done in them.

Captions have few stops, so a clause starts where speech starts one: at a stop, at a word like "then", "so" or
"if",
at a subject with its verb, and at a verb where one has been heard already.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from guidec.draft.bounds import BEGINNERS, is_complete, is_imperative, is_plain, orders, second_verb, stands_alone
from guidec.draft.cue_ends import new_cue
from guidec.draft.item import Item
from guidec.draft.starters import BACKED, SUBORDINATE, has_verb, starter_starts, subject_starts
from guidec.draft.vocabulary import Vocabulary
from guidec.draft.wordset import among
from guidec.quick import dataclass

__all__ = ["Clause", "clause_of", "clauses"]


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
            made.append(clause_of(now, fresh=fresh))
            fresh = ended
            now = []
        now.append(item)
    if now:
        made.append(clause_of(now, fresh=fresh))
    return tuple(made)


def clause_of(items: Sequence[Item], *, fresh: bool) -> Clause:
    """The clause that items are."""
    lead = items[0].text if items[0].kind in ("word", "verb") else ""
    for item in items[:3]:
        if item.text in SUBORDINATE and item.kind == "word":
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


_SAID = among("is are 's it's that's there's they're these're see has have here's let leave wait")


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
        return starter_starts(place.items, place.at, place.now, place.words, place.busy)
    if item.kind == "word" and item.text in small["subjects"]:
        return subject_starts(place.items, place.at, place.now, place.words)
    return None


def _by_shape(place: _Place) -> bool | None:
    """Turns of speech that stand alone, and the ends of cues."""
    if stands_alone(place.items, place.at, place.now, place.words):
        return True
    if place.item.leads and new_cue(place.items, place.at, place.now, place.words):
        return True
    return None


def _by_state(place: _Place) -> bool | None:
    """`crack the case | open` goes on; `armature out | lift it` does not."""
    item, before = place.item, place.before
    if item.kind != "verb":
        return None
    further = place.follow()
    if item.text in ("open", "free", "loose") and before.text in among("it them that those this these"):
        return False
    if item.text in ("open", "free", "loose") and before.kind in ("thing", "noun"):
        return None if further is not None and further.kind in ("thing", "noun") else False
    if before.text in ("out", "off", "away") and len(place.now) > 1 and place.now[-2].kind == "thing":
        return None if place.verb_said() else True
    return None


def _by_order(place: _Place) -> bool | None:
    """`let it sit`, `don't`, `careful`, `underneath it is`."""
    item, before, small = place.item, place.before, place.words.small
    if item.text in BEGINNERS and item.kind in ("word", "verb"):
        led = any(before.text in small[name] for name in ("starters", "auxiliaries", "adverbs"))
        return (
            not led
            and before.text not in BACKED
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
    if before.text in among("second third fourth fifth sixth seventh eighth ninth tenth last other next first"):
        return False
    if (
        before.kind == "verb"
        and "with" in [one.text for one in place.now[:2]]
        and has_verb(place.items, place.at, place.words)
    ):
        return True  # `with the adhesive cut | the cover comes off`
    if before.kind == "verb" and before.text not in among("free open loose dry clear cool short"):
        return None
    if before.text in place.words.small["prepositions"] and not _loose(place):
        return None
    own = has_verb(place.items, place.at, place.words)
    return own and before.text not in ("and", "or", "than") and is_complete(place.now)


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
        return is_plain(item)
    if item.text == "go" and before.text.startswith("let"):
        return False
    if place.verb_said():
        return second_verb(item, before, now)
    if place.busy and (
        is_imperative(item, before, place.words) or orders(place.items, place.at, before, place.words)
    ):
        return True
    return None


def _by_turn(place: _Place) -> bool | None:
    """`or you'll …`, `shout out to`, `my mum …`, `on assembly`, `this one …`."""
    item, before, small = place.item, place.before, place.words.small
    led = before.text in small["prepositions"]
    further = place.follow()
    if item.text == "to" and item.leads and before.kind in ("thing", "noun") and further is not None:
        return further.kind == "verb" and is_plain(further)
    if item.text == "or" and place.after() in among("you you'll it it'll they they'll else i'll we'll"):
        return True
    if item.text == "reassembly" and before.text not in among("for on the to during"):
        return True
    started = place.now[0].text == "before" or (len(place.now) > 1 and place.now[1].text == "before")
    if (
        started
        and before.text in among("anything else start begin starting")
        and item.kind in among("thing verb noun")
    ):
        return True
    if item.text == "shout" and place.after() == "out":
        return True
    if item.kind == "noun" and item.det == "my" and place.busy and not led:
        return True
    if item.text == "on" and place.after() in ("assembly", "reassembly"):
        return True
    if item.text in ("this", "that") and place.after() == "1" and has_verb(place.items, place.at + 1, place.words):
        return not led and before.kind != "verb"
    return None


def _by_comma(place: _Place) -> bool | None:
    """A comma behind what can stand, before what can start."""
    if place.before.stop != 1 or not place.busy or place.item.kind not in among("thing noun num verb drive"):
        return None
    own = place.item.kind == "verb" or has_verb(place.items, place.at, place.words)
    return is_complete(place.now) and own


_RULES: tuple[Callable[[_Place], bool | None], ...] = (
    _by_word, _by_shape, _by_state, _by_order, _by_name, _by_verb, _by_turn, _by_comma,
)  # fmt: skip
