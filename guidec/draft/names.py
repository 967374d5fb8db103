"""Items -> items whose names are whole: compounds joined, described words taken along, `X of the Y` as one, and
what no
lexicon knows but stands like a name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from guidec.draft.item import Item
from guidec.draft.lead import MODIFIERS, reach_left
from guidec.draft.vocabulary import Vocabulary, singular
from guidec.draft.wordset import among

__all__ = ["gathered", "unknown_names"]


_CORDS = frozenset(["flex", "cable", "ribbon", "lead", "wire", "connector", "plug", "harness"])


def gathered(items: list[Item], words: Vocabulary) -> list[Item]:
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
        item = reach_left(item, done, words.small)
        if (
            at + 1 < len(items)
            and not item.stop
            and (items[at].text == "of" or (items[at].text == "for" and item.head.split()[-1] in _CORDS))
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


def unknown_names(items: list[Item], words: Vocabulary) -> list[Item]:
    """The items, where a determiner and one to three words that are none of speech are a `noun`."""
    small = words.small
    done: list[Item] = []
    at = 0
    while at < len(items):
        item = items[at]
        leads = item.kind == "word" and item.text in small["determiners"] and not item.stop
        stop = _name_end(items, at, small) if leads and item.text not in among("no that this all") else at
        noun = _noun(items[at:stop], small) if stop > at else None
        done.append(noun or item)
        at = stop if noun is not None else at + 1
    return done


def _name_end(items: list[Item], at: int, small: Mapping[str, frozenset[str]]) -> int:
    """Where a name behind a determiner ends: at most four words on, a number only in front."""
    stop = at + 1
    while stop < len(items) and stop - at <= 4 and _content(items[stop], small, first=stop == at + 1):
        stop += 1
        if items[stop - 1].stop:
            break
    return stop


def _noun(row: list[Item], small: Mapping[str, frozenset[str]]) -> Item | None:
    """The name that a determiner and what follows it make; None where it is only a number or a colour."""
    lead, last = row[0], row[-1]
    said = [one.text for one in row[1:] if one.kind == "word" and one.text not in small["generic"]]
    if not said or not said[-1].isalpha() or said[-1] in MODIFIERS:
        return None
    head = singular(said[-1])
    count = next((int(one.number or 0) for one in row[1:] if one.kind == "num"), None)
    return Item(
        "noun", " ".join((*said[:-1], head)), lead.start, lead.first, last.last, last.stop, leads=lead.leads,
        det=lead.text, plural=head != said[-1], head=head, count=count,
        words=tuple(word for one in row for word in one.words),
    )  # fmt: skip


def _content(item: Item, small: Mapping[str, frozenset[str]], *, first: bool) -> bool:
    """Whether an item may stand in a name that no lexicon knows."""
    if item.kind != "word":
        return item.kind == "num" and first
    if item.text in small["generic"]:
        return True
    speech = ("stop", "starters", "prepositions", "subjects", "adverbs")
    return "'" not in item.text and not any(item.text in small[name] for name in speech)
