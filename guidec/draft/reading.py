"""A verb where it stands -> its reading, and whether the words forbid, plan or only suppose it."""

from __future__ import annotations

import re

from guidec.draft.clauses import Clause
from guidec.draft.mind import Mind
from guidec.draft.verbs import Doing, doings
from guidec.draft.wordset import among

__all__ = [
    "BE",
    "CABLES",
    "DIRECT",
    "EASING",
    "NEGATIVE",
    "OPENING",
    "OVER",
    "PARTICLES",
    "STRONG",
    "UNSURE",
    "barred_from",
    "base_of",
    "is_enough",
    "is_forbidden",
    "particles_of",
    "read_verb",
    "turns_over",
]


STRONG = among(
    "undo unscrew unbolt unfasten loosen slacken unplug disconnect unclip unsnap "
    "unlatch unhook unpin unroute release detach desolder unsolder cut slit snip "
    "remove pry prise lever peel separate extract withdraw unwind unwrap slice "
    "unlock unmount uninstall dismount unstick unglue unwire unfix untape lose "
    "disengage unseal unthread unseat unpop unfold"
)


DIRECT = among("lift pull pop slide slip ease tug tease free flip")


OPENING = among(
    "unplug disconnect detach unlatch release unclip unseat unpop unlock unwire unhook unsnap disengage"
)


EASING = among(
    "do come pull pop lift slide flip wiggle ease push take slip tug flick lever pry prise snap work nudge click"
)
"""What opens a cable's connector, when the cable itself does not come out whole."""


PARTICLES = among("off out up away free loose back apart aside open over down")


CABLES = among("cable flex ribbon lead wire harness loom cord interconnect")


BE = among("is are was were be been being 's 're get gets got getting has have needs")


UNSURE = among("might may could maybe perhaps possibly")


NEGATIVE = among(
    "don't dont never not without didn't doesn't cannot can't won't isn't aren't "
    "wouldn't shouldn't avoid instead haven't hasn't couldn't wasn't"
)


def barred_from(clause: Clause) -> int:
    """From where on a clause forbids: `never with anything metal`, `do not use canned air`; 0 where it does
    not."""
    for at, item in enumerate(clause.items):
        if item.text in among("never don't not without instead avoid no didn't dont") and not (
            item.text == "not" and at and clause.items[at - 1].text in ("if", "or")
        ):
            if item.text == "don't" and any(
                one.text in ("have", "forget") for one in clause.items[at + 1 : at + 3]
            ):
                continue
            if item.text == "no" and any(one.text in ("fewer", "less") for one in clause.items[at + 1 : at + 2]):
                continue
            return max(at, 1)
    return 0


def base_of(clause: Clause) -> str:
    """The plain form of the verb of a clause, empty where it has none."""
    verb = clause.verb
    rows = doings(clause.items[verb].text) if verb is not None else ()
    return rows[0].base if rows else ""


def particles_of(clause: Clause, verb: int) -> list[str]:
    """The particles of a verb: behind it or behind its object, up to a preposition that ends its reach."""
    found = [
        item.text
        for item in clause.items[: min(verb, 3)]
        if item.text in ("off", "out", "away") and verb - clause.items.index(item) in (1, 2)
    ]
    for at in range(verb + 1, len(clause.items)):
        item = clause.items[at]
        if item.kind == "verb" and item.text not in ("free", "open", "back"):
            break
        if item.text in among("with using by at through if so until because"):
            break
        if item.text == "over" and at + 1 < len(clause.items) and clause.items[at + 1].kind in ("thing", "noun"):
            continue
        if item.kind in ("thing", "noun"):
            continue
        if item.text in PARTICLES or item.text in among("through around upside onto forward forwards"):
            found.append(item.text)
    return found


def read_verb(clause: Clause, verb: int) -> tuple[Doing, str] | None:
    """The reading of a verb that fits its particles, and the particle it takes."""
    particles = particles_of(clause, verb)
    text = clause.text
    rows = doings(clause.items[verb].text)
    for row in rows:
        if row.particle and (
            row.particle in particles
            or (" " in row.particle and row.particle in text)
            or (row.particle == "through" and "through" in text)
        ):
            return row, row.particle
    for row in rows:
        if not row.particle:
            return row, particles[0] if particles else ""
    return None


def is_forbidden(mind: Mind, clause: Clause, verb: int) -> bool:
    """Whether the verb is forbidden, planned, asked or only supposed: `don't`, `before you`, `if you`, `to
    remove it`."""
    words = [item.text for item in clause.items[:verb]]
    negated = any(word in NEGATIVE for word in words) and "forget" not in words
    if negated and not ("can't" in words and "start" in words):
        return True
    if clause.lead in ("until", "till") and any("third" in row.forms for row in doings(clause.items[verb].text)):
        return False  # `until the whole thing lifts away`
    if words[:1] == ["or"] and words[1:2] and words[1] in among("you you'll it it'll they they'll we'll i'll"):
        return True
    if clause.lead in among("before if unless until till although whereas"):
        return True
    if (
        clause.lead in ("when", "once")
        and "when" in words
        and any(row.passive for row in doings(clause.items[verb].text))
    ):
        return True
    if "could" in words and mind.after is not None and mind.after.lead == "but":
        return True
    meant = mind.before is not None and not clause.fresh and mind.before.text.endswith("means")
    if meant or "means" in words:
        return True
    if any(word in among("before until than what how whether wouldn't why") for word in words):
        return True
    if words[-1:] == ["to"] and all(
        word in among("to so and now then in order but okay first for") for word in words
    ):
        return not _carried(mind, clause)
    return not words and not clause.fresh and _led_to(mind)


def _led_to(mind: Mind) -> bool:
    """Whether the clause before ends in a `to` that forbids or only plans: `don't have to`, `to`, `how to`."""
    lead = [item.text for item in mind.before.items] if mind.before is not None else []
    if not lead or lead[-1] not in among("to not without don't"):
        return False
    if lead[-1] != "to" or lead[-2:] == ["not", "to"]:
        return True
    starters = mind.words.small["starters"]
    content = [word for word in lead[:-1] if word not in starters and word not in ("in", "order", "just")]
    if not content or content[-1] in among("how supposed designed enough tempted"):
        return True
    plan = among("have need possible easy hard how supposed designed try trying tempted time ready used")
    return any(word in plan for word in content[-2:]) and any(word in NEGATIVE for word in content)


def _carried(mind: Mind, clause: Clause) -> bool:
    """`to lever …` right after a clause that takes a tool up."""
    before = mind.before
    if before is None or clause.fresh:
        return False
    return any(item.is_a("tool") for item in before.items) and any(
        item.text in among("use using take grab need get with i'm") for item in before.items
    )


def is_enough(clause: Clause, verb: int, row: Doing, particle: str) -> bool:
    """Whether a verb undoes here: by itself (`unscrew`), with a particle (`take … off`), or straight on a
    thing."""
    after = [item.text for item in clause.items[verb + 1 :]]
    if row.base == "do":
        return True
    if row.base in among("back free open cut strip flip break press push") and not after and not row.particle:
        return False
    if (
        "apart" in after
        and row.base in ("take", "pull", "taking")
        and any(item.is_a("device") for item in clause.items)
    ):
        return False
    if row.particle or row.base in STRONG:
        return not (
            row.base == "lose" and not any(item.text in ("you", "you'll", "have") for item in clause.items[:verb])
        )
    inward = any(
        word in among("in into between under behind along underneath inside") for word in after
    ) and not any(word in PARTICLES for word in after)
    if particle and particle not in among("through around onto upside over down forward forwards aside open"):
        return True
    if row.base in DIRECT:
        return not inward and not (row.base == "slide" and not particle and _sideways(after))
    return row.base in ("twist", "rotate") and particle in ("off", "out", "free")


def _sideways(after: list[str]) -> bool:
    """`slide the carriage to the left`: it stays on."""
    return "to" in after and any(word in among("left right side front back end") for word in after)


OVER = re.compile(
    r"upside down|\b(?:face|screen|display|glass|belly|lid|keys?|buttons?|wheels?|bottom|back|feet|right side)"
    r"(?: side)? (?:down|up)\b|\bthe (?:other|wrong|right) way (?:up|round|over)|"
    r"\bso (?:that )?the \w+ faces? (?:up|down|you|us)\b|"
    r"\bon(?:to)? (?:its|his|her|their|the) (?:own )?(?:back|face|front|belly|tummy|side|lid|head|nose|screen|"
    r"roof|stomach)\b(?! (?:of|cover|panel|board))"
)


def turns_over(clause: Clause, verb: int) -> bool:
    """`flip it over onto its lid`, `turn the phone upside down`, `flip it over`: the device, not a part."""
    word = {row.base for row in doings(clause.items[verb].text)}
    if not word & {"turn", "flip", "tip", "roll", "stand", "lay", "put", "place", "set", "rest", "spin", "pop"}:
        return False
    rest = " ".join(" ".join(item.words) or item.text for item in clause.items[verb + 1 :])
    over = OVER.search(rest) is not None or (
        bool(word & {"turn", "flip", "tip", "roll"}) and ("over" in rest.split() or "onto it" in rest)
    )
    things = [
        item
        for item in clause.items[verb + 1 :]
        if item.is_a("part", "connector")
        and not item.is_a("device")
        and item.det not in ("its",)
        and item.text not in ("back", "screen", "face", "glass", "lid")
    ]
    return over and not things
