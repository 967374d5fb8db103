"""Items -> items whose names are whole: compounds joined, described words taken along, `X of the Y` as one, and
what no
lexicon knows but stands like a name."""

from __future__ import annotations

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


def unknown_names(items: list[Item], words: Vocabulary) -> list[Item]:
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
            if row and row[-1].text.isalpha() and row[-1].text not in MODIFIERS:
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
