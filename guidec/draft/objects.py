"""A verb and its clause -> what it is done to: names behind it, its subject, what a pronoun means."""

from __future__ import annotations

from collections.abc import Sequence

from guidec.draft import sets
from guidec.draft.clauses import Clause
from guidec.draft.item import Item
from guidec.draft.joints import LATCHES, comes_whole, connector, connector_of
from guidec.draft.kinds import is_itself, kind_of
from guidec.draft.mind import Mind, recent
from guidec.draft.pronouns import meant
from guidec.draft.reading import BE, CABLES, OPENING, PARTICLES, STRONG, particles_of
from guidec.draft.set_details import details
from guidec.draft.story import Named, Things
from guidec.draft.told import mention
from guidec.draft.verbs import Doing, doings
from guidec.draft.wordset import among, phrased

__all__ = ["NOT_PARTS", "counted", "objects", "part_of", "placed", "things_of"]

NOT_PARTS = among(
    "time look moment minute second bit thing way step video photo picture link "
    "note break chance deep breath care job go turn word point place look-see "
    "lunch nap end start side edge corner top bottom middle inside outside wall "
    "bath table bench desk floor fridge lid-off hand finger thumb nail world day "
    "week hour year kid name idea guess reason problem fault question answer "
    "comment description bell subscribe channel code offer deal quarter rest lot "
    "pile trick sound noise dust hair dirt sand gunk crud line direction angle "
    "mess state score measurement reading quote message page box bag pattern "
    "colour color order position location power electricity voltage current "
    "pressure tension slack load clockwise anticlockwise half length width thumb "
    "tray cloth towel seal-off hole slot gap seam recess groove notch surface area "
    "space room spot recording knuckle eye eyebrow skin knee lap elbow palm mouth nose-bleed tongue lip neighbour "
    "neighbor customer owner friend chair saucer plate-full pot-holder drawer-full curtain carpet window sink van "
    "kitchen garage shed workshop bath-tub shoebox sofa money trouble mind breath while bean"
)


def objects(mind: Mind, clause: Clause, verb: int, row: Doing, particle: str) -> Things:
    """What a verb is done to: the names behind it, else its subject; pronouns mean what is in focus."""
    before = clause.items[:verb]
    passive = "past" in row.forms and any(item.text in BE for item in before[-4:])
    lifts = bool(before) and before[-1].kind in ("thing", "noun") and before[-1].plural and "base" in row.forms
    said_of_itself = row.passive or (("third" in row.forms or lifts) and bool(particle))
    told = any(item.kind in ("thing", "noun") or item.text in _THEY for item in before)
    if particle == "apart" and not any(item.kind in ("thing", "noun") for item in clause.items):
        return []  # the device itself
    if said_of_itself and told:
        refs = subject(mind, clause, verb, row)
        if refs or (row.passive and "third" in row.forms):
            return refs
    if not passive and (refs := _behind(mind, clause, verb, row)):
        return refs
    return subject(mind, clause, verb, row)


_THEY = among("it they that it'll those these this she he both everything all they'll")


def _behind(mind: Mind, clause: Clause, verb: int, row: Doing) -> Things:
    """The names after a verb, up to the first preposition other than `of`."""
    items = clause.items
    refs: Things = []
    for at in range(verb + 1, len(items)):
        item = items[at]
        if _ends(mind, clause, at, row, bool(refs)):
            break
        if item.kind in ("thing", "noun"):
            refs += things_of(mind, clause, at, row)
        elif refs:
            continue
        elif item.kind == "word" and item.text in _PRONOUNS:
            if at + 1 == len(items) or items[at + 1].kind not in ("thing", "noun"):
                numbers = (int(one.number) for one in items[verb + 1 : at + 3] if one.kind == "num" and one.number)
                return meant(mind, clause, item.text, row, next(numbers, None))
        elif item.kind == "num" and item.number:
            if (at + 1 == len(items) or items[at + 1].kind in ("word", "drive") or item.stop) and (
                rows := counted(mind, item)
            ):
                return rows
        elif item.kind == "drive" and row.family == "undo" and items[at - 1].kind == "num":
            details(mind, Clause(items[at - 1 : at + 1], ""))
            refs += [mind.set] if mind.set and not mind.set.gone else []
    return refs or _unsaid(mind, clause, verb, row)


def _unsaid(mind: Mind, clause: Clause, verb: int, row: Doing) -> Things:
    """`two caps, unscrew`, `grab it by the shaft and lift`: an order without its object, named before."""
    small = mind.words.small
    lead = all(
        item.text in small["starters"] or item.text in small["adverbs"] or item.text in _PARTS_OF_ORDERS
        for item in clause.items[:verb]
    )
    if not lead or not any("base" in one.forms for one in doings(clause.items[verb].text)):
        return []
    if any(item.kind in ("thing", "noun", "num", "value", "drive") for item in clause.items[verb + 1 :]):
        return []
    if any(item.text not in small["adverbs"] and item.text not in PARTICLES for item in clause.items[verb + 1 :]):
        return []
    recent_many = mind.many is not None and not mind.many.gone and clause.start - mind.many.heard < 10
    return meant(mind, clause, "them" if recent_many else "it", row, None)


_PARTS_OF_ORDERS = among("just gently and then to")


def _ends(mind: Mind, clause: Clause, at: int, row: Doing, found: bool) -> bool:
    """Whether the reach of a verb ends at an item."""
    items, text = clause.items, clause.items[at].text
    if items[at].kind == "verb":
        return text not in among("free open back loose")
    if items[at].kind != "word":
        return False
    follow = items[at + 1] if at + 1 < len(items) else None
    if text in mind.words.small["prepositions"] and text not in PARTICLES and text != "of":
        through = (
            text in ("through", "around", "across")
            and not found
            and row.base in among("slice cut run saw unscrew")
        )
        return not through and not (text == "on" and row.base == "cut")
    if text == "of":
        return found or items[at - 1].text in ("out", "off", "away", "up")
    if (
        found
        and text in among("over down up back open")
        and follow is not None
        and follow.kind in ("thing", "noun")
    ):
        return follow.det in among("his its your their")
    if (
        found
        and text in ("off", "out", "away", "from")
        and follow is not None
        and follow.kind in ("thing", "noun")
    ):
        return bool(follow.det)
    return text in among("but because so if like")


_PRONOUNS = among("it them em these those that this they both everything each all one him her")


def counted(mind: Mind, item: Item) -> Things:
    """`undo all eight`, `take these four out`, `slide all six off`: what was told with that count."""
    number = int(item.number or 0)
    waiting = sets.pending(mind, item.start, 120)
    if rows := [row for row in waiting if row.count == number]:
        return [rows[-1]]
    if waiting and sum(row.count or 0 for row in waiting) == number:
        return list(waiting)
    kinds = among("clip connector part adhesive fastening")
    named = [
        row
        for row in mind.story.named
        if row.count == number and row.kind in kinds and recent(row, item.start, 60)
    ]
    return [named[-1]] if named else []


def things_of(mind: Mind, clause: Clause, at: int, row: Doing) -> Things:
    """The thing that an item is as the object of a verb."""
    item = clause.items[at]
    kind = kind_of(mind, clause, at, row.base)
    head = item.head.split()[-1] if item.head else ""
    if kind in ("noun", "clip") and row.base in ("desolder", "unsolder"):
        return [mind.names.thing("solder", item)]
    if kind == "screw":
        return _sets(mind, clause, at)
    if kind == "noun":
        return _unknown(mind, clause, item, row)
    if kind == "" and item.is_a("device") and item.text in ("thing", "unit", "lot"):
        return meant(mind, clause, "it", row, None)
    if head in LATCHES and row.base not in ("remove", "take", "unscrew"):
        return []
    cable = head in CABLES and kind in ("part", "connector")
    if row.base == "do" and not (cable or kind == "connector"):
        return []
    if row.base == "squeeze" and kind not in ("clip", "fastening"):
        return []
    if cable:
        return [_cable(mind, clause, item, row)]
    if kind == "part":
        return _parts(mind, clause, item, row)
    if kind == "connector":
        return [connector(mind, clause, item)]
    if kind in among("clip adhesive fastening solder thermal"):
        return [mind.names.thing(kind, item, name=placed(mind, clause, item, kind))]
    return []


def _sets(mind: Mind, clause: Clause, at: int) -> Things:
    """The set that is named; `the screws` are all that are still in."""
    item = clause.items[at]
    found = mention(mind, clause, at)
    if found is None:
        return []
    every = item.det in among("the those these all") and item.count is None and item.plural and not item.drive
    others = [one for one in sets.pending(mind, item.start, 45) if one is not found] if every else []
    return [*others, found]


def _unknown(mind: Mind, clause: Clause, item: Item, row: Doing) -> Things:
    """A name that no lexicon has: a part, if the verb is plain enough and the name is none of common things."""
    weak = row.family == "undo" and not (row.base in STRONG or particles_of(clause, clause.verb or 0))
    if weak or item.head in LATCHES or item.head in NOT_PARTS or item.det == "no":
        return []
    if item.det in among("my his her our") and row.family != "move":
        return []
    things = among("ring spring bearing housing bushing casing fitting coating lining string wing")
    if item.head.endswith(("ing", "ness", "tion")) and item.head not in things:
        return []
    if row.base in among("get come go pick") and item.det not in ("the", "this", "that"):
        return []
    thing = mind.names.thing("part", item)
    thing.cls = thing.cls or "other"
    thing.certain = False
    return [thing]


def _cable(mind: Mind, clause: Clause, item: Item, row: Doing) -> Named:
    """A cable: opened, desoldered, or taken out whole."""
    if row.base in among("desolder unsolder cut snip melt"):
        return mind.names.thing("solder", item)
    eases = row.base in among("do come pull pop lift slide flip wiggle ease push take slip tug")
    if row.base in OPENING or (eases and not comes_whole(clause, item, row)):
        return connector(mind, clause, item)
    return part_of(mind, item, "cable")


def _parts(mind: Mind, clause: Clause, item: Item, row: Doing) -> Things:
    """A part; to unplug it is to open its connector, to release a lever takes nothing off."""
    if row.base in ("unplug", "disconnect", "unseat"):
        return [connector_of(mind, clause, item)]
    if item.head == "lever" and row.base in among("unclip unlatch release unhook"):
        return []
    return [part_of(mind, item)]


def part_of(mind: Mind, item: Item, cls: str = "") -> Named:
    found = mind.names.thing("part", item)
    if cls and not found.cls:
        found.cls = cls
    return found


def placed(mind: Mind, clause: Clause, item: Item, kind: str) -> str:
    """The name of glue, tape or clips, with the part they hold where the words give none: `battery tape`."""
    if kind not in among("adhesive clip fastening solder"):
        return item.text
    known = mind.names.find(kind, item.text, item.start)
    if known is not None and not known.gone and item.det in ("the", "that", "this", "all", "those", "these", ""):
        return known.name
    bare = phrased(
        "adhesive|glue|tape|double sided tape|adhesive strip|sticky tape|hot glue|clip|tab|plastic clip|catch"
    )
    owner = _held(mind, clause, item) if kind in ("adhesive", "clip") and item.text in bare else ""
    return f"{owner} {item.text}" if owner else item.text


def _held(mind: Mind, clause: Clause, item: Item) -> str:
    """The part that glue or clips hold: the subject of the clause, else the part in focus."""
    for one in clause.items[: clause.items.index(item)]:
        if one.is_a("part") and not is_itself(mind, one) and not one.is_a("tool") and not one.stop:
            return one.text
    part = recent(mind.part, item.start, 30)
    return part.name if part else ""


# ---------------------------------------------------------------- the subject


def subject(mind: Mind, clause: Clause, verb: int, row: Doing) -> Things:
    """The subject of a verb said of itself or in the passive: `the coil comes off`, `the screws are removed`."""
    items, forms = clause.items, row.forms
    be = any(item.text in BE for item in items[:verb])
    if _by_somebody(items[:verb], be=be):
        return []
    if _goes_on(mind, clause, verb, row):
        plural = any(item.text in ("are", "they") for item in mind.before.items) if mind.before else False
        return meant(mind, clause, "they" if plural else "it", row, None)
    modal = any(item.text in _MODAL for item in items[:verb])
    past = "past" in forms and (be or row.base in ("come", "pop"))
    if not (row.passive or "third" in forms or "base" in forms or past or modal):
        return []
    if "ing" in forms and not row.passive and not be:
        return []
    refs: Things = _relative(mind, clause, row)
    for at in range(0 if not refs else verb, verb):
        refs += _subject_at(mind, clause, at, row, bool(refs))
    if not refs and row.passive:
        refs = _inverted(mind, clause, verb, row)
    return refs


_MODAL = among("can must should will 'll just easily to simply then straight right now it'll they'll all both")


def _by_somebody(before: Sequence[Item], *, be: bool) -> bool:
    """Whether `i`, `we` or `you` do it, so that the verb's subject is nobody's part."""
    said = among("i we you it they that these those this them")
    heads = [item.text for item in before if item.kind in ("thing", "noun") or item.text in said]
    things = bool(before) and before[-1].kind in ("thing", "noun")
    if things or (heads and heads[-1] in among("it they that these those this")):
        return False
    persons = among("i we you i'm i'll we'll you'll we're let's i've we've you've you'd i'd")
    mine = any(item.text in persons for item in before)
    return mine and (not be or any(item.text in among("i've we've i'm we're") for item in before))


def _goes_on(mind: Mind, clause: Clause, verb: int, row: Doing) -> bool:
    """`they are twisted | and pulled`: the subject of the clause before."""
    starters = mind.words.small["starters"]
    bare = clause.lead == "and" and all(item.text in starters for item in clause.items[:verb])
    if not bare or "past" not in row.forms or "base" in row.forms or mind.before is None:
        return False
    return any(item.text in among("are is were was") for item in mind.before.items)


def _subject_at(mind: Mind, clause: Clause, at: int, row: Doing, found: bool) -> Things:
    """What an item before the verb adds to the subject."""
    items = clause.items
    item, before = items[at], items[at - 1].text if at else ""
    follow = items[at + 1] if at + 1 < len(items) else None
    if item.kind in ("thing", "noun"):
        led = (
            before in mind.words.small["prepositions"]
            and before not in PARTICLES
            and before not in ("until", "till")
        )
        return [] if led else things_of(mind, clause, at, row)
    if found:
        return []
    if (
        item.kind == "num"
        and item.number
        and (at == 0 or before in among("all those these the both right and so"))
    ):
        return counted(mind, item)
    if item.kind == "word" and item.text in among("it it'll they they'll that this these those them both"):
        named = follow is not None and follow.kind in ("thing", "noun", "num")
        if not named or (follow is not None and (follow.is_a("device") or follow.text == "1")):
            return meant(mind, clause, item.text.removesuffix("'ll"), row, None)
    return []


def _relative(mind: Mind, clause: Clause, row: Doing) -> Things:
    """`the antenna cables | which just pull off`: the last name of the clause before."""
    before = mind.before
    if before is None or clause.items[0].text not in ("which", "that"):
        return []
    last = next(
        (n for n in range(len(before.items) - 1, -1, -1) if before.items[n].kind in ("thing", "noun")), None
    )
    return [] if last is None or before.items[-1].stop == 2 else things_of(mind, before, last, row)


def _inverted(mind: Mind, clause: Clause, verb: int, row: Doing) -> Things:
    """`off it comes`, `and off comes the lid`."""
    items = clause.items
    if items[0].text in among("off out and then so") and any(one.text in ("it", "they", "that") for one in items):
        lone = any(one.text in ("it", "that") for one in items)
        if refs := meant(mind, clause, "it" if lone else "they", row, None):
            return refs
    refs = []
    for at in range(verb + 1, len(items)):
        led = items[at - 1].text in mind.words.small["prepositions"] - PARTICLES
        if items[at].kind in ("thing", "noun") and not led:
            refs += things_of(mind, clause, at, row)
    return refs
