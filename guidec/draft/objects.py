"""A verb and its clause -> what it is done to: names behind it, its subject, what a pronoun means."""

from __future__ import annotations

from guidec.draft import sets
from guidec.draft.clauses import Clause
from guidec.draft.item import Item
from guidec.draft.joints import LATCHES, comes_whole, connector, opened
from guidec.draft.kinds import is_itself, kind_of
from guidec.draft.mind import Mind
from guidec.draft.reading import BE, CABLES, OPENING, PARTICLES, STRONG, particles_of
from guidec.draft.story import Named, Screws
from guidec.draft.verbs import Doing
from guidec.draft.wordset import among, phrased

__all__ = ["NOT_PARTS", "counted", "meant", "objects", "part_of", "placed", "things_of"]


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
    "space room spot recording"
)


def objects(mind: Mind, clause: Clause, verb: int, row: Doing, particle: str) -> list[Named | Screws]:
    """What a verb is done to: the names behind it, else its subject; pronouns mean what is in focus."""
    items = clause.items
    passive = verb > 0 and "past" in row.forms and any(item.text in BE for item in items[max(0, verb - 4) : verb])
    refs: list[Named | Screws] = []
    if (row.passive or ("third" in row.forms and particle)) and any(
        item.kind in ("thing", "noun") or item.text in among("it they that it'll") for item in items[:verb]
    ):
        refs = _in_front(mind, clause, verb, row)
        if refs:
            return refs
    if not passive:
        refs = _behind(mind, clause, verb, row)
        direct = bool(refs)
        if (
            direct
            and row.base in among("unclip unhook unlatch release")
            and any(isinstance(ref, Named) and ref.kind == "connector" for ref in refs)
        ):
            pass
        if refs or (row.base in STRONG and not _subject_done(clause, verb, row)):
            if refs:
                return refs
    refs = _in_front(mind, clause, verb, row)
    if refs:
        return refs
    if passive or row.passive or _subject_done(clause, verb, row):
        return []
    return []


def _subject_done(clause: Clause, verb: int, row: Doing) -> bool:
    return "third" in row.forms or row.passive


def _behind(mind: Mind, clause: Clause, verb: int, row: Doing) -> list[Named | Screws]:
    """The names after a verb, up to the first preposition other than `of`."""
    items = clause.items
    refs: list[Named | Screws] = []
    stopped = False
    for at in range(verb + 1, len(items)):
        item = items[at]
        text = item.text
        if item.kind == "verb" and text not in among("free open back loose"):
            break
        if item.kind == "word":
            if text in mind.words.small["prepositions"] and text not in PARTICLES and text != "of":
                if (
                    text in ("through", "around", "across")
                    and not refs
                    and row.base in among("slice cut run saw unscrew")
                ):
                    continue
                if text == "on" and row.base in ("cut",):
                    continue
                stopped = True
                break
            if text == "of" and items[at - 1].text in ("out", "off", "away"):
                break
            if (
                text in among("over down up back open")
                and at + 1 < len(items)
                and items[at + 1].kind in ("thing", "noun")
                and items[at + 1].det in among("his its your their")
                and refs
            ):
                break
            if text in among("but because so if like"):
                break
            if text in _PRONOUNS and not refs:
                count = next(
                    (int(one.number) for one in items[verb + 1 : at + 3] if one.kind == "num" and one.number), None
                )
                follows = items[at + 1] if at + 1 < len(items) else None
                if follows is not None and (follows.kind in ("thing", "noun")):
                    continue
                refs += meant(mind, clause, text, row, count)
                break
            continue
        if item.kind == "num" and not refs and item.number:
            follows = items[at + 1] if at + 1 < len(items) else None
            if follows is None or follows.kind in ("word", "drive") or item.stop:
                rows = counted(mind, item, clause)
                if rows:
                    refs += rows
                    break
            continue
        if item.kind == "drive" and not refs and row.family == "undo":
            before = items[at - 1]
            if before.kind == "num" and before.number:
                sets.details(mind, Clause(items[at - 1 : at + 1], ""))
                if mind.set and not mind.set.gone:
                    refs.append(mind.set)
            continue
        if item.kind in ("thing", "noun"):
            refs += things_of(mind, clause, at, row)
    if not refs and stopped and row.base in ("unplug", "disconnect"):
        pass
    return refs


_PRONOUNS = among("it them these those that this they both everything each all one")


def counted(mind: Mind, item: Item, clause: Clause) -> list[Named | Screws]:
    """`undo all eight`, `take these four out`, `slide all six off`: what was told with that count."""
    number = int(item.number or 0)
    rows = [row for row in sets.pending(mind, item.start, 120) if row.count == number]
    if rows:
        return [rows[-1]]
    waiting = sets.pending(mind, item.start, 120)
    if waiting and sum(row.count or 0 for row in waiting) == number:
        return list(waiting)
    named = [
        row
        for row in mind.story.named
        if row.count == number
        and not row.gone
        and item.start - row.heard < 60
        and row.kind in among("clip connector part adhesive fastening")
    ]
    if named:
        return [named[-1]]
    if waiting and (waiting[-1].count or 0) > number >= 1 and "of" not in clause.text:
        return []
    return []


def things_of(mind: Mind, clause: Clause, at: int, row: Doing) -> list[Named | Screws]:
    """The thing that an item is as the object of a verb."""
    item = clause.items[at]
    kind = kind_of(mind, clause, at, row.base)
    if kind == "screw":
        found = sets.mention(mind, clause, at)
        if found is None:
            return []
        rows = [found]
        if item.det in among("the those these all") and item.count is None and item.plural and not item.drive:
            rows = [one for one in sets.pending(mind, item.start, 45) if one is not found] + rows
        return list(rows)
    if kind == "noun" and item.head in LATCHES:
        return []
    if kind == "noun":
        if (
            (row.family == "undo" and not (row.base in STRONG or particles_of(clause, clause.verb or 0)))
            or item.head in NOT_PARTS
            or item.det == "no"
        ):
            return []
        if item.det in among("my his her our") and row.family != "move":
            return []
        if item.head.endswith(("ing", "ness", "tion")) and item.head not in among(
            "ring spring bearing housing bushing casing fitting coating lining string wing"
        ):
            return []
        if row.base in among("get come go pick") and item.det not in ("the", "this", "that"):
            return []
        thing = mind.names.thing("part", item)
        thing.cls = thing.cls or "other"
        thing.certain = False
        return [thing]
    if item.is_a("device") and item.text in ("thing", "unit", "lot") and kind == "":
        return meant(mind, clause, "it", row, None)
    if (
        item.head.split()[-1:]
        and item.head.split()[-1] in LATCHES
        and row.base not in ("remove", "take", "unscrew")
    ):
        return []
    cable = item.head.split()[-1] in CABLES if item.head else False
    if row.base == "do" and not (cable or kind in ("connector", "screw")):
        return []
    if row.base == "squeeze" and kind not in ("clip", "fastening"):
        return []
    if cable and kind in ("part", "connector"):
        if row.base in among("desolder unsolder cut snip") or row.base == "melt":
            return [mind.names.thing("solder", item)]
        opens = row.base in OPENING or (
            row.base in among("do come pull pop lift slide flip wiggle ease push take slip tug")
            and not comes_whole(clause, item, row)
        )
        return [connector(mind, clause, item)] if opens else [part_of(mind, item, "cable")]
    if kind == "part" and row.base in ("unplug", "disconnect", "unseat"):
        return [connector(mind, clause, item, of=item.text)]
    if kind == "part" and row.base in among("unclip unlatch release unhook") and item.head in ("lever",):
        return []
    if kind == "connector":
        return [connector(mind, clause, item)]
    if kind in among("clip adhesive fastening solder thermal"):
        if kind == "thermal" and row.family == "undo":
            return [mind.names.thing("thermal", item)]
        return [mind.names.thing(kind, item, name=placed(mind, clause, item, kind))]
    if kind == "part":
        if row.base in ("desolder", "unsolder"):
            return [part_of(mind, item)]
        return [part_of(mind, item)]
    return []


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
    if kind == "adhesive" and item.text in phrased(
        "adhesive|glue|tape|double sided tape|adhesive strip|sticky tape|hot glue"
    ):
        owner = _held(mind, clause, item)
        if owner:
            return f"{owner} {item.text}"
    if kind == "clip" and item.text in phrased("clip|tab|plastic clip|catch"):
        owner = _held(mind, clause, item)
        if owner:
            return f"{owner} {item.text}"
    return item.text


def _held(mind: Mind, clause: Clause, item: Item) -> str:
    """The part that glue or clips hold: the subject of the clause, else the part in focus."""
    for one in clause.items:
        if one is item:
            break
        if one.is_a("part") and not is_itself(mind, one) and not one.is_a("tool") and not one.stop:
            return one.text
    if mind.part is not None and item.start - mind.part.heard < 30 and not mind.part.gone:
        return mind.part.name
    return ""


def _in_front(mind: Mind, clause: Clause, verb: int, row: Doing) -> list[Named | Screws]:
    """The subject of a verb said of itself or in the passive: `the coil comes off`, `the screws are removed`."""
    items = clause.items
    refs: list[Named | Screws] = []
    forms = row.forms
    be = any(item.text in BE for item in items[:verb])
    modal = any(
        item.text
        in among("can must should will 'll just easily to simply then straight right now it'll they'll all both")
        for item in items[:verb]
    )
    heads = [
        item.text
        for item in items[:verb]
        if item.kind in ("thing", "noun") or item.text in among("i we you it they that these those this them")
    ]
    mine = not (
        (heads and heads[-1] in among("it they that these those this"))
        or (items[verb - 1].kind in ("thing", "noun") and verb > 0)
    ) and any(
        item.text in among("i we you i'm i'll we'll you'll we're let's i've we've you've you'd i'd")
        for item in items[:verb]
    )
    if (mine and not be) or (mine and any(item.text in among("i've we've i'm we're") for item in items[:verb])):
        return []
    if (
        all(item.text in mind.words.small["starters"] for item in items[:verb])
        and clause.lead == "and"
        and "past" in forms
        and "base" not in forms
        and mind.before is not None
        and any(item.text in among("are is were was") for item in mind.before.items)
    ):
        return meant(
            mind,
            clause,
            "they" if any(item.text in ("are", "they") for item in mind.before.items) else "it",
            row,
            None,
        )
    if not (
        row.passive
        or "third" in forms
        or (be and "past" in forms)
        or modal
        or "base" in forms
        or ("past" in forms and row.base in ("come", "pop"))
    ):
        return []
    if "ing" in forms and not row.passive and not be:
        return []
    for at in range(verb):
        item = items[at]
        if item.kind in ("thing", "noun") and not (
            at
            and items[at - 1].text not in ("until", "till")
            and items[at - 1].text in mind.words.small["prepositions"]
            and items[at - 1].text not in PARTICLES
            and not _after_with(items, at)
        ):
            refs += things_of(mind, clause, at, row)
        elif (
            item.kind == "num"
            and item.number
            and not refs
            and at + 1 <= verb
            and (at == 0 or items[at - 1].text in among("all those these the both right and so"))
        ):
            refs += counted(mind, item, clause)
        elif (
            item.kind == "word"
            and item.text in among("it it'll they they'll that this these those them both")
            and not refs
        ):
            follows = items[at + 1] if at + 1 < len(items) else None
            if (
                follows is None
                or follows.kind not in ("thing", "noun", "num")
                or follows.is_a("device")
                or follows.text == "1"
            ):
                refs += meant(mind, clause, item.text.removesuffix("'ll"), row, None)
    if (
        not refs
        and row.passive
        and clause.items[0].text in among("off out and then so")
        and any(one.text in ("it", "they", "that") for one in items)
    ):
        refs += meant(
            mind, clause, "it" if any(one.text in ("it", "that") for one in items) else "they", row, None
        )
    if not refs and row.passive:
        for at in range(verb + 1, len(items)):
            if (
                items[at].kind in ("thing", "noun")
                and items[at - 1].text not in mind.words.small["prepositions"] - PARTICLES
            ):
                refs += things_of(mind, clause, at, row)
    return refs


def _after_with(items: tuple[Item, ...], at: int) -> bool:
    return items[at - 1].text == "with" and False


def meant(mind: Mind, clause: Clause, word: str, row: Doing, count: int | None) -> list[Named | Screws]:
    """What `it`, `them`, `those` mean to a verb."""
    start = clause.start
    if row.base in among("cut desolder unsolder snip"):
        cords = [
            thing
            for thing in mind.group
            if thing.name.split()[-1] in CABLES and start - thing.heard < 40 and not thing.gone
        ]
        if not cords and mind.glue is not None and not mind.glue.gone and start - mind.glue.heard < 12:
            return [mind.glue]
        return (
            list(cords)
            if cords
            else [mind.cord]
            if mind.cord is not None and start - mind.cord.heard < 40 and not mind.cord.gone
            else []
        )
    many = word in among("them these those they both all each everything")
    waiting = sets.pending(mind, start, 60)
    latest_act = mind.last.start if mind.last is not None else 0.0
    group = [
        thing
        for thing in mind.group
        if not thing.gone and start - thing.heard < 25 and thing.heard >= latest_act - 1
    ]
    if many:
        if word == "both" and len(group) >= 2:
            both = list(group[-2:])
            return [opened(mind, thing) for thing in both] if row.base in OPENING else list(both)
        if group and (
            row.base in ("unplug", "disconnect")
            or (
                row.base in among("pull pop slide lift come")
                and all(thing.name.split()[-1] in CABLES for thing in group)
            )
        ):
            return [opened(mind, thing) for thing in group]
        latest = mind.many
        if (
            isinstance(latest, Named)
            and not latest.gone
            and latest.kind == "part"
            and latest.name.split()[-1] in CABLES
            and start - latest.heard < 40
            and (not waiting or latest.heard > waiting[-1].heard)
        ):
            return [opened(mind, latest)]
        if (
            isinstance(latest, Named)
            and not latest.gone
            and start - latest.heard < 60
            and (not waiting or latest.heard > waiting[-1].heard)
        ):
            return [latest]
        if waiting:
            if count:
                same = [one for one in waiting if one.count == count]
                return [same[-1]] if same else list(waiting[-1:])
            recent = [one for one in waiting if start - one.heard < 30] or waiting[-1:]
            return list(recent)
        if group:
            return list(group)
        if isinstance(latest, Named) and not latest.gone:
            return [latest]
        if isinstance(latest, Screws):
            return [latest] if not latest.gone else []
        return []
    lone = waiting[-1] if waiting and (waiting[-1].count == 1) else None
    if row.base in among("undo unscrew loosen unbolt slacken") and lone:
        return [lone]
    fix = mind.fix if mind.fix is not None and not mind.fix.gone and start - mind.fix.heard < 12 else None
    if (
        fix is not None
        and (mind.part is None or fix.heard > mind.part.heard)
        and (mind.link is None or fix.heard > mind.link.heard)
    ):
        return [fix]
    cord = mind.cord if mind.cord is not None and not mind.cord.gone and start - mind.cord.heard < 20 else None
    if (
        cord is not None
        and (mind.link is None or mind.link.gone or cord.heard >= mind.link.heard)
        and (mind.part is None or cord.heard >= mind.part.heard or mind.part.gone)
    ):
        if row.base in OPENING or row.base in among("flip pull pop lift slide wiggle come"):
            return [opened(mind, cord)]
        if row.base in ("peel", "remove", "take"):
            return [cord]
    link = mind.link if mind.link is not None and not mind.link.gone and start - mind.link.heard < 30 else None
    part = mind.part if mind.part is not None and not mind.part.gone and start - mind.part.heard < 90 else None
    if row.base in OPENING or row.base == "flip":
        if link:
            return [link]
        if part and row.base in ("unplug", "disconnect"):
            return [opened(mind, part)]
    glue = mind.glue if mind.glue is not None and not mind.glue.gone and start - mind.glue.heard < 12 else None
    if (
        glue is not None
        and start - glue.heard < 7
        and row.base in ("pull", "peel")
        and any(said in glue.name for said in ("tape", "tab", "strip"))
    ):
        return [glue]
    if lone and (part is None or lone.heard > part.heard) and (link is None or lone.heard > link.heard):
        return [lone]
    if link and (part is None or link.heard > part.heard + 0.01):
        return [link]
    if part:
        return [part]
    if glue and row.base in ("peel", "cut", "slice"):
        return [glue]
    return [link] if link else []
