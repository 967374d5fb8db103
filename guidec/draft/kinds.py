"""A name where it stands -> what kind of thing it is there, and how a tool is called."""

from __future__ import annotations

from guidec.draft.clauses import Clause
from guidec.draft.item import Item
from guidec.draft.mind import Mind
from guidec.draft.reading import OPENING, PARTICLES, STRONG, read_verb
from guidec.draft.wordset import among

__all__ = ["KINDS", "is_itself", "kind_of", "tool_name"]


KINDS = ("part", "connector", "screw", "clip", "adhesive", "fastening", "solder", "thermal")


def is_itself(mind: Mind, item: Item) -> bool:
    """Whether a name is that of the device that is taken apart."""
    return item.is_a("device") and (item.head == mind.story.device or not item.is_a("part"))


ORDER = ("part", "connector", "tool", "supply", "clip", "adhesive", "thermal", "solder", "fastening")


def kind_of(mind: Mind, clause: Clause, at: int, verb: str = "") -> str:
    """The kind of thing that an item is where it stands; `` for the device itself and for nothing at all."""
    item = clause.items[at]
    if item.kind == "noun":
        return "noun"
    if _nothing(mind, clause, item) or _simile(clause, at):
        return ""
    kinds = item.kinds
    if "screw" in kinds:
        return "screw"
    before = [one.text for one in clause.items[max(0, at - 4) : at]]
    if ("tool" in kinds and len(kinds) > 1) or item.head in mind.words.either:
        return _either(item, before, verb, clause, at)
    if "adhesive" in kinds or ("supply" in kinds and "thermal" in kinds):
        return _stuff(item, before, verb)
    if "connector" in kinds and "part" in kinds:
        return "connector" if verb in OPENING or item.head.endswith(("lead", "plug")) else "part"
    if item.head == "plug" and "part" not in kinds and verb not in OPENING:
        known = mind.names.find("part", item.text, item.start)
        if known is not None and item.start - known.heard < 30:
            return "part"
    return next((kind for kind in ORDER if kind in kinds), "")


def _nothing(mind: Mind, clause: Clause, item: Item) -> bool:
    """Names that mean no thing here: `no screws`, a new part that would be bought, the device, `catch fire`."""
    kinds = item.kinds
    if not kinds or item.det == "no":
        return True
    bought = item.fresh in ("new", "replacement") and item.det in ("a", "an", "", "another")
    if "part" in kinds and bought and not mind.refitting:
        return True
    if "supply" in kinds and item.fresh == "old" and not ({"thermal", "adhesive", "part", "tool"} & set(kinds)):
        return True
    if "device" in kinds:
        vague = item.text in among("thing unit device machine") or ("part" not in kinds and "tool" not in kinds)
        if vague or item.head == mind.story.device:
            return True
    return "clip" in kinds and _no_clip(clause, item)


def _no_clip(clause: Clause, item: Item) -> bool:
    """`catch you later`, `its tail catches`, `solder the tab`, `tab nine`: words for clips that mean none."""
    at = clause.items.index(item)
    after = clause.items[at + 1] if at + 1 < len(clause.items) else None
    bare = not item.det and item.count is None and item.text == item.head
    if (
        item.head == "catch"
        and bare
        and (not item.plural or (at and clause.items[at - 1].kind in ("thing", "noun")))
    ):
        return True
    if item.head == "clip" and "catch fire" in clause.text:
        return True
    if item.head != "tab":
        return False
    numbered = after is not None and after.kind == "num" and not item.stop and not item.plural
    pulled = item.det in ("its", "the") and at > 0 and clause.items[at - 1].text == "by"
    return numbered or pulled or _CHARGED.intersection(clause.text.split()) != frozenset()


_CHARGED = among(
    "solder soldered soldering desolder weld welded element ohm ohms volt volts negative positive bare live "
    "meter probe probes terminal spade spades push-on wire wires crimp crimped current iron nickel earth neutral"
)
"""Beside these a tab is one that carries current."""


def _simile(clause: Clause, at: int) -> bool:
    """`like a sock`, `as thin as a card`: what something is only compared with."""
    before = clause.items[at - 1].text if at else ""
    return before in ("like", "as", "than") and clause.items[at].det in ("a", "an")


def _stuff(item: Item, before: list[str], verb: str) -> str:
    """Glue, tape or paste: a supply where it is new or put on, else what holds or conducts already."""
    fresh = item.fresh in ("new", "fresh", "replacement")
    if "supply" not in item.kinds:
        return "supply" if fresh or "pre cut" in item.text or "replacement" in item.text else "adhesive"
    if any(word in among("stuck held glued fixed bonded attached") for word in before) and not fresh:
        return "thermal" if "thermal" in item.kinds else "adhesive"
    put = among("put apply use add with using need get some dab drop fit want place stick lay")
    if fresh or (any(word in put for word in before) and verb not in STRONG):
        return "supply"
    return "thermal" if "thermal" in item.kinds else "adhesive"


def _either(item: Item, before: list[str], verb: str, clause: Clause, at: int) -> str:
    """Tool or part (`brush`, `card`, `driver`, `lever`): by what stands before it and what is done to it."""
    used = any(word in among("with using use used via") for word in before)
    taken = not (item.head == "brush" and item.plural) and (
        any(word in among("grab take get need my need a") for word in before) or item.det in among("a an my some")
    )
    if "tool" in item.kinds and (used or (taken and verb not in STRONG and not _object_of(clause, at))):
        return "tool"
    if "part" in item.kinds and "tool" not in item.kinds:
        return "part"
    sounding = among("speaker bass mid range tweeter full led woofer")
    if item.head == "driver" and not _object_of(clause, at) and sounding.isdisjoint(item.words):
        return "tool"
    if item.head in among(
        "brush driver lever socket hook roller blade arm needle resistor clamp flash "
        "probe blower magnet coin tip pin terminal card drill file bit"
    ) and (verb in STRONG or _object_of(clause, at) or item.plural):
        return (
            "part"
            if "tool" not in item.kinds
            or item.head in among("brush driver lever hook roller blade arm card magnet resistor clamp blower")
            else "tool"
        )
    if "supply" in item.kinds and "tool" not in item.kinds:
        return "supply"
    if "tool" in item.kinds and ("part" not in item.kinds or used):
        return "tool"
    if "fastening" in item.kinds:
        return "fastening"
    if "connector" in item.kinds:
        return "connector"
    return "part" if "part" in item.kinds else "tool" if "tool" in item.kinds else ""


def _object_of(clause: Clause, at: int) -> bool:
    """Whether an item is what an undoing verb of the clause takes: right behind the verb, or its subject."""
    verb = clause.verb
    if verb is None:
        return False
    reading = read_verb(clause, verb)
    if (
        reading is None
        or reading[0].family not in ("undo", "move")
        or not (reading[0].particle or reading[0].base in STRONG or reading[1])
    ):
        return False
    between = [one.text for one in clause.items[min(verb, at) + 1 : max(verb, at)]]
    if any(word in among("with using by from of through") for word in between):
        return False
    return at < verb or all(word in PARTICLES or word in among("and all of both") for word in between)


def tool_name(item: Item) -> str:
    """The name of a tool, its drive or size before it: `T5 screwdriver`, `3 mm pin punch`."""
    words = item.text
    if item.drive and item.drive not in words:
        if item.drive.startswith("?"):
            zeros = {"0": "zero", "00": "double zero", "000": "triple zero"}
            words = f"{zeros.get(item.drive[1:], '')} {words}".strip()
        elif item.drive in among("SL PH T H JIS PZ 5L 3W"):
            shown = {
                "SL": "slotted",
                "PH": "phillips",
                "T": "torx",
                "H": "hex",
                "PZ": "pozidriv",
                "5L": "pentalobe",
                "3W": "tri wing",
                "JIS": "JIS",
            }
            said = " ".join(word for word in item.words if word in among("flat flathead blade head slotted"))
            words = f"{said or shown[item.drive]} {words}"
        else:
            words = f"{item.drive} {words}"
    elif item.value and item.value.unit in ("mm", "in"):
        words = f"{item.value.text} {words}"
    if item.plural and item.head in ("glove", "card"):
        words += "s"
    return words
