"""Names as they are mentioned -> the one thing that each means.

"The bracket" is the metal bracket of a minute ago, "the cable" the cable last spoken of, "the screen" the display.
"""

from __future__ import annotations

from guidec.draft.item import Item
from guidec.draft.story import Named, Quote, Story
from guidec.draft.vocabulary import Vocabulary
from guidec.draft.wordset import among

__all__ = ["Names", "said"]

_LIKE = (
    {
        "display",
        "screen",
        "display assembly",
        "screen assembly",
        "display panel",
        "display module",
        "lcd",
        "lcd panel",
        "display unit",
    },
    {"main board", "mainboard", "motherboard", "logic board", "mother board", "main pcb", "main circuit board"},
    {"heatsink", "heat sink"},
    {
        "battery",
        "double a battery",
        "triple a battery",
        "aa battery",
        "aaa battery",
        "battery pack",
        "battery cell",
        "pouch cell",
        "cell",
        "pack",
        "battery module",
    },
    {"microphone", "mic", "mike"},
    {"speaker", "loudspeaker", "loud speaker"},
    {"back glass", "back", "back cover", "back panel", "rear cover", "rear panel", "rear glass"},
    {"bottom cover", "bottom case", "bottom panel", "base cover", "bottom plate"},
    {"base plate", "baseplate"},
    {"gearbox", "gear box"},
    {"dust bin", "dustbin", "bin", "dirt bin"},
    {"mid frame", "midframe"},
    {"charging port", "charge port", "usb port", "usb c port"},
    {"charge port board", "charging port board", "usb board", "usb c board"},
    {"trackpad", "touchpad", "touch pad"},
    {"print head", "head"},
    {"brush roll", "brush roller", "brush bar"},
    {"double sided tape", "double stick tape", "two sided tape"},
    {"hot air gun", "hot air"},
    {"multimeter", "meter"},
    {"isopropyl alcohol", "isopropyl", "ipa", "rubbing alcohol", "alcohol", "isopropanol"},
    {"pry tool", "prying tool"},
    {"thread locker", "thread lock", "threadlock", "blue thread locker"},
    {"fibreglass pen", "fiberglass pen"},
    {"lens block", "lens unit", "lens assembly", "lens"},
    {"hair dryer", "hairdryer"},
    {"opening tool", "plastic opening tool"},
    {"fan", "cooling fan", "fan assembly"},
    {"pull tab", "stretch tab", "adhesive tab", "release tab"},
    {"adhesive", "glue"},
)
_CANON = {name: sorted(group)[0] for group in _LIKE for name in group}
_BARE = among("back cell pack head bin lens meter mic mike")
RECENT = 150.0
"""Seconds within which a bare head word means the thing last named with it."""


def said(name: str) -> str:
    """A name in the form by which names are compared."""
    words = name.split()
    for size in range(len(words), 0, -1):
        tail = " ".join(words[-size:])
        if tail in _CANON and (size == len(words) or tail not in _BARE):
            return " ".join((*words[:-size], _CANON[tail]))
    return name


class Names:
    """The things named so far, by what they are called."""

    def __init__(self, story: Story, words: Vocabulary) -> None:
        self.story = story
        self.words = words

    def find(self, kind: str, name: str, at: float, *, definite: bool = True) -> Named | None:
        """The thing of a kind that a name means: the same name; else one whose name ends with it, or that ends the
        name; the latest first."""
        key = said(name)
        span = 40.0 if key in among("wire lead cable flex ribbon") else RECENT
        rows = [row for row in self.story.named if row.kind == kind]
        exact = [row for row in rows if said(row.name) == key]
        if kind == "tool" and not exact and len(key.split()) > 1:
            exact = [
                row
                for row in rows
                if said(row.name).split()[0] == key.split()[0] and said(row.name).split()[-1] == key.split()[-1]
            ]
        if exact and len(key.split()) == 1:
            exact += [
                row
                for row in rows
                if said(row.name).endswith(" " + key) and at - row.heard < RECENT and not row.gone
            ]
        if exact:
            return max(exact, key=lambda row: row.heard)
        if not definite:
            return None
        short = [row for row in rows if said(row.name).endswith(" " + key) and at - row.heard < span]
        if short:
            open_ = [row for row in short if not row.gone]
            return max(open_ or short, key=lambda row: row.heard)
        longer = [
            row
            for row in rows
            if key.endswith(" " + said(row.name))
            and len(row.name.split()) == 1
            and at - row.heard < 40
            and not row.gone
            and kind in ("tool", "supply", "part")
            and not row.certain
        ]
        return max(longer, key=lambda row: row.heard) if longer else None

    def thing(self, kind: str, item: Item, *, name: str = "", implied: bool = False) -> Named:
        """The thing that an item names, declared if it is new."""
        name = name or item.text
        definite = item.det not in ("a", "an", "another") and not item.more
        if kind in ("supply",) and item.fresh in ("new", "fresh", "replacement"):
            name = f"new {name}"
        found = self.find(kind, name, item.start, definite=definite)
        quote = Quote(item.start, item.first, item.last)
        if (
            found is not None
            and found.gone
            and kind in ("connector", "clip")
            and item.count is not None
            and item.count != found.count
        ):
            found = None
        if found is None:
            cls = item.kinds.get("part", "") if kind == "part" else ""
            found = Named(kind, name, quote, cls=cls, plural=item.plural, implied=implied, head=item.head)
            self.story.named.append(found)
        elif (
            kind == "part"
            and len(name.split()) > len(found.name.split())
            and not found.gone
            and name.endswith(found.name)
        ):
            found.name = name
        found.heard = item.start
        if (
            item.count is not None
            and found.count is None
            and (kind != "part" or item.plural)
            and kind in among("clip connector adhesive fastening solder part")
        ):
            found.count = item.count
        found.plural = found.plural or item.plural
        if item.value and not any(value.unit == item.value.unit for value in found.values):
            found.values.append(item.value)
        return found
