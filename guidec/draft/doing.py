"""A clause of work -> what is done in it: its verb, what it is done to, with what; and what is only named."""

from __future__ import annotations

import re

from guidec.draft import moods, sets
from guidec.draft.clauses import Clause
from guidec.draft.item import Amount, Item
from guidec.draft.mind import Mind
from guidec.draft.story import Act, Named, Screws
from guidec.draft.verbs import Doing, doings
from guidec.draft.wordset import among, phrased

__all__ = ["amounts", "is_work", "kind_of", "tool_name", "work"]

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
PARTICLES = among("off out up away free loose back apart aside open over down")
SOLVENTS = (
    "isopropyl",
    "alcohol",
    "isopropanol",
    "ipa",
    "acetone",
    "adhesive remover",
    "glue remover",
    "naphtha",
    "lighter fluid",
    "petroleum",
    "ethanol",
    "meths",
)
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
CABLES = among("cable flex ribbon lead wire harness loom cord interconnect")
LATCHES = among("latch bar lock flap gate zip tab hasp")
BE = among("is are was were be been being 's 're get gets got getting has have needs")
UNSURE = among("might may could maybe perhaps possibly")
NEGATIVE = among(
    "don't dont never not without didn't doesn't cannot can't won't isn't aren't "
    "wouldn't shouldn't avoid instead haven't hasn't couldn't wasn't"
)
KINDS = ("part", "connector", "screw", "clip", "adhesive", "fastening", "solder", "thermal")


# ---------------------------------------------------------------- what a name is


def _itself(mind: Mind, item: Item) -> bool:
    """Whether a name is that of the device that is taken apart."""
    return item.is_a("device") and (item.head == mind.story.device or not item.is_a("part"))


def kind_of(mind: Mind, clause: Clause, at: int, verb: str = "") -> str:
    """The kind of thing that an item is where it stands; `` for the device itself and for nothing at all."""
    item = clause.items[at]
    if item.kind == "noun":
        return "noun"
    kinds = item.kinds
    if not kinds or item.det == "no":
        return ""
    if (
        item.fresh in ("new", "replacement")
        and "part" in kinds
        and not mind.refitting
        and item.det in ("a", "an", "", "another")
    ):
        return ""
    if "supply" in kinds and item.fresh == "old" and not ({"thermal", "adhesive", "part", "tool"} & set(kinds)):
        return ""
    before = [one.text for one in clause.items[max(0, at - 4) : at]]
    if "screw" in kinds:
        return "screw"
    if "device" in kinds:
        own = mind.story.device
        if (
            item.head == own
            or ("part" not in kinds and "tool" not in kinds)
            or item.text in among("thing unit device machine")
        ):
            return ""
    if item.text == "clip" and clause.text.endswith("catch fire"):
        return ""
    if "clip" in kinds and item.head == "catch" and "fire" in clause.text:
        return ""
    if ("tool" in kinds and len(kinds) > 1) or item.head in mind.words.either:
        return _either(item, before, verb, clause, at)
    if "supply" in kinds and ("adhesive" in kinds or "thermal" in kinds):
        putting = any(
            word in among("put apply use add with using need get some dab drop fit want place stick lay")
            for word in before
        )
        if item.fresh in ("new", "fresh", "replacement") or (putting and verb not in STRONG):
            return "supply"
        return "thermal" if "thermal" in kinds else "adhesive"
    if "adhesive" in kinds and (
        item.fresh in ("new", "fresh", "replacement") or "pre cut" in item.text or "replacement" in item.text
    ):
        return "supply"
    if "connector" in kinds and "part" not in kinds and item.head == "plug" and verb not in OPENING:
        known = mind.names.find("part", item.text, item.start)
        if known is not None and item.start - known.heard < 30:
            return "part"
    if "connector" in kinds and "part" in kinds:
        return "connector" if verb in OPENING or item.head.endswith(("lead", "plug")) else "part"
    for kind in ("part", "connector", "tool", "supply", "clip", "adhesive", "thermal", "solder", "fastening"):
        if kind in kinds:
            return kind
    return ""


def _either(item: Item, before: list[str], verb: str, clause: Clause, at: int) -> str:
    """Tool or part (`brush`, `card`, `driver`, `lever`): by what stands before it and what is done to it."""
    used = any(word in among("with using use used via") for word in before)
    taken = any(word in among("grab take get need my need a") for word in before) or item.det in among(
        "a an my some"
    )
    if "tool" in item.kinds and (used or (taken and verb not in STRONG and not _object_of(clause, at))):
        return "tool"
    if "part" in item.kinds and "tool" not in item.kinds:
        return "part"
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
    reading = _reading(clause, verb)
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
        if item.drive in among("SL PH T H JIS PZ 5L 3W"):
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


# ---------------------------------------------------------------- the clause


def is_work(mind: Mind, clause: Clause) -> bool:
    """Whether something is plainly done in a clause: an undoing verb with a thing of the trade, not a `don't`."""
    verb = clause.verb
    if verb is None or any(item.text in NEGATIVE for item in clause.items[:verb]):
        return False
    things = [
        item
        for item in clause.items
        if (item.is_a(*KINDS) and "subscribe" not in item.text and item.head not in ("button",))
        or item.is_a("screw")
    ]
    rows = doings(clause.items[verb].text)
    return bool(things) and any(
        row.family in ("undo", "soften", "turn")
        and (row.base in STRONG or row.base in DIRECT or _particles(clause, verb))
        for row in rows
    )


def work(mind: Mind, clause: Clause) -> None:
    """Enter what a clause of work says."""
    story = mind.story
    start = len(story.screws)
    _tools(mind, clause)
    verb = clause.verb
    while (
        verb is not None
        and clause.items[verb].text
        in among("going go get gets got getting use using used put puts need needs stick run runs let")
        and (later := _later_verb(clause, verb)) is not None
    ):
        verb = later
    told = _discharged(mind, clause)
    if told is None and (found := _GIVE.search(clause.text)):
        told = _cleaned(mind, clause, "Clean") if found else None
    if told is None:
        told = _metered(mind, clause)
    if told is None and verb is not None:
        told = _act(mind, clause, verb)
    if told is None:
        told = _state(mind, clause)
    if told is None:
        told = _likewise(mind, clause)
    if told is None or (told.do == "undo" and not told.things):
        told = _solvent(mind, clause) or told
    _named(mind, clause, told)
    sets.ellipses(mind, clause)
    sets.details(mind, clause)
    if len(story.screws) > start:
        _holds(mind, clause, story.screws[start:])
    _values(mind, clause, told)


def _discharged(mind: Mind, clause: Clause) -> Act | None:
    """`hold it across both legs for ten seconds`, after a resistor was taken up: a discharge."""
    text = clause.text
    if (
        "across" not in text.split()
        or not any(word in text.split() for word in among("hold holding touch put place bridge lay"))
        or _barred(clause)
    ):
        return None
    if not any(
        any(word in tool.name for word in among("resistor discharge insulated screwdriver lamp"))
        for _, tool in mind.hand
    ):
        return None
    full = next(
        (row for row in reversed(mind.story.named) if row.kind == "part" and "capacitor" in row.name), None
    )
    if full is None:
        return None
    act = Act("treat", "Discharge", mind.quote(clause), [full])
    _dress(mind, act, clause)
    mind.add(act)
    return act


_GIVE = re.compile(
    r"\bgive (?:it|them|that|this|those|the \w+(?: \w+)?) (?:all )?a (?:\w+ )?(?:clean|wipe|brush|dust|scrub|rinse|wash|blow)\b"
)


def _metered(mind: Mind, clause: Clause) -> Act | None:
    """`set your meter to ohms`, `put the probes on`: a check of what is in focus."""
    words = clause.text.split()
    if not any(
        item.is_a("tool") and item.head in among("meter multimeter tester voltmeter") for item in clause.items
    ) or _barred(clause):
        return None
    if (
        not any(word in words for word in among("set ohms volts continuity megohms resistance diode put grab get"))
        or mind.part is None
    ):
        return None
    if any(doing.family == "check" for item in clause.items if item.kind == "verb" for doing in doings(item.text)):
        return None
    act = Act("check", "Measure", mind.quote(clause), [mind.part])
    _dress(mind, act, clause)
    mind.add(act)
    return act


def _likewise(mind: Mind, clause: Clause) -> Act | None:
    """`there's a touch ribbon as well, same thing`: the last action again, on what is named here."""
    too = (
        clause.text.endswith((" too", " as well", " also"))
        and any(item.is_a("connector") for item in clause.items)
        and mind.last is not None
        and mind.last.do == "unplug"
    )
    if not too and not any(
        said in clause.text
        for said in phrased("same thing|same again|same deal|same way|same for|likewise|same with")
    ):
        return None
    last = mind.last
    if last is None or clause.start - last.start > 15 or last.do not in ("unplug", "remove"):
        return None
    row = Doing("unplug" if last.do == "unplug" else "take", "", "undo", "", frozenset({"base"}))
    for at, item in enumerate(clause.items):
        if item.is_a("part", "connector"):
            refs = _thing(mind, clause, at, row)
            if refs:
                return _undo(mind, clause, item, Doing(row.base, "", "undo", last.verb, row.forms), "", refs)
    return None


def _later_verb(clause: Clause, verb: int) -> int | None:
    return next((n for n in range(verb + 1, len(clause.items)) if clause.items[n].kind == "verb"), None)


def _tools(mind: Mind, clause: Clause) -> None:
    """Tools and supplies named in a clause, whether or not anything is done in it; not those of a `don't`."""
    barred = _barred(clause)
    for at, item in enumerate(clause.items):
        if item.kind != "thing":
            continue
        kind = kind_of(mind, clause, at, _base(clause))
        if kind not in ("tool", "supply") or (barred and at >= barred):
            continue
        if kind == "tool" and _idle(clause, at):
            continue
        if (
            kind == "tool"
            and item.det == "the"
            and at
            and clause.items[at - 1].text in among("for of from on in to")
            and mind.names.find("tool", item.text, item.start) is None
        ):
            continue
        if kind == "supply" and not _supplying(clause, at):
            continue
        if (
            kind == "tool"
            and item.value is not None
            and item.head in ("allen key", "hex key", "hex driver")
            and mind.set is not None
            and mind.set.drive == "H"
        ):
            mind.set.drive = f"H{item.value.low:g}"
        if (
            kind == "tool"
            and item.head in phrased("nut driver|socket|spanner|socket wrench")
            and mind.set is not None
            and not mind.set.drive
            and item.start - mind.set.heard < 15
        ):
            mind.set.drive = "NUT" if item.value is None else f"NUT{item.value.low:g}"
        name = tool_name(item) if kind == "tool" else item.text
        found = mind.names.thing(kind, item, name=name)
        if kind == "supply":
            amounts(mind, clause, found)
        if not any(tool is found for _, tool in mind.hand):
            mind.hand.append((item.start, found))


def _supplying(clause: Clause, at: int) -> bool:
    """Whether a supply is used or put somewhere here, not only named (`it leaks oil`)."""
    before = [item.text for item in clause.items[max(0, at - 6) : at]]
    own = clause.items[at].words
    after = [item.text for item in clause.items[at + 1 : at + 4]]
    if clause.items[at].det in ("that", "this") and not any(word in ("with", "using", "use") for word in before):
        return False
    asked = among(
        "with using use used put apply add drop dab bit drops blob splash smear squirt "
        "need needs want wants get grab squirt spray some on take pour drip inject try "
        "got fresh new flood gets goes blast clean wipe have like"
    )
    if (
        any(word in asked for word in (*before, *own))
        or clause.items[at].value is not None
        or clause.items[at].fresh in ("new", "fresh")
    ):
        return "leak" not in " ".join(before) and "leaking" not in before
    if clause.verb is None and any(item.is_a("tool") or item.kind == "value" for item in clause.items):
        return True
    return any(
        word in among("along under on around in into loosens softens dissolves works will for and")
        for word in after
    ) or (clause.verb is None and not before)


def _barred(clause: Clause) -> int:
    """From where on a clause forbids: `never with anything metal`, `do not use canned air`; 0 where it does not."""
    for at, item in enumerate(clause.items):
        if item.text in among("never don't not without instead avoid no didn't dont") and not (
            item.text == "not" and at and clause.items[at - 1].text in ("if", "or")
        ):
            if item.text == "don't" and any(
                one.text in ("have", "forget") for one in clause.items[at + 1 : at + 3]
            ):
                continue
            return max(at, 1)
    return 0


def _idle(clause: Clause, at: int) -> bool:
    """A tool's word that is none here: `the tip of the tweezers` is, `a quick drill` is not; a `bit` needs a drive."""
    item = clause.items[at]
    if item.head == "bit" and not item.drive and item.text in ("bit", "little bit"):
        after = clause.items[at + 1].text if at + 1 < len(clause.items) else ""
        return after in ("of", "more", "and") or not any(
            word in item.words for word in among("long right correct special security proper small extra")
        )
    if (
        item.head in phrased("hot air|water|hook|file|saw|drill|torch|clamp|needle|driver")
        and len(item.words) == 1
        and item.det == ""
    ):
        return True
    return (
        item.head in among("tester meter probe vice grips")
        and item.det == ""
        and len(item.words) == 1
        and not any(one.text in ("with", "using", "use") for one in clause.items[:at])
    )


def _base(clause: Clause) -> str:
    verb = clause.verb
    rows = doings(clause.items[verb].text) if verb is not None else ()
    return rows[0].base if rows else ""


# ---------------------------------------------------------------- verbs


def _particles(clause: Clause, verb: int) -> list[str]:
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
        if item.text in PARTICLES or item.text in among("through around upside onto forward forwards"):
            found.append(item.text)
    return found


def _reading(clause: Clause, verb: int) -> tuple[Doing, str] | None:
    """The reading of a verb that fits its particles, and the particle it takes."""
    particles = _particles(clause, verb)
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


def _act(mind: Mind, clause: Clause, verb: int) -> Act | None:
    """The action of a clause's verb; None where there is none."""
    items = clause.items
    if _forbidden(mind, clause, verb):
        return None
    reading = _reading(clause, verb)
    if reading is None:
        return None
    row, particle = reading
    if row.base in among("flip lift open release undo pop push unlock") and any(
        item.text in phrased("latch|lock bar|locking bar|flap|lever|locking tab")
        for item in items
        if item.kind in ("noun", "thing", "word")
    ):
        mind.latched = clause.start
    if row.family == "turn" or _turns(clause, verb, particle):
        return _turn(mind, clause)
    if row.family == "supply":
        return _supplied(mind, clause, verb, row)
    if row.family == "hand":
        return None
    if row.family == "soften":
        return _soften(mind, clause, verb, row)
    if row.family in ("treat", "check"):
        return _treat(mind, clause, verb, row, particle)
    if row.family == "undo" and not _enough(mind, clause, verb, row, particle):
        return None
    refs = _objects(mind, clause, verb, row, particle)
    if (
        not refs
        and row.base in among("pull lift unplug disconnect wiggle")
        and verb == len(items) - 1
        and mind.link is not None
        and not mind.link.gone
        and clause.start - mind.link.heard < 9
    ):
        refs = [mind.link]
    if not refs:
        return None
    if row.family == "move":
        return _move(mind, clause, verb, row, particle, refs)
    return _undo(mind, clause, items[verb], row, particle, refs)


def _forbidden(mind: Mind, clause: Clause, verb: int) -> bool:
    """Whether the verb is forbidden, planned, asked or only supposed: `don't`, `before you`, `if you`, `to remove it`."""
    words = [item.text for item in clause.items[:verb]]
    items_verb = clause.items[verb]
    if any(word in NEGATIVE for word in words) and "forget" not in words:
        if not ("can't" in words and "start" in words):
            return True
    if clause.lead in ("until", "till") and any("third" in one.forms for one in doings(items_verb.text)):
        return False
    if words[:1] == ["or"] and len(words) > 1 and words[1] in among("you you'll it it'll they they'll we'll i'll"):
        return True
    if clause.lead in among("before if unless until till although whereas"):
        return True
    if any(word in among("before until than what how whether wouldn't") for word in words):
        return True
    if words[-1:] == ["to"] and all(word in among("to so and now then in order but okay first") for word in words):
        return not _carried(mind, clause)
    if (
        mind.before is not None
        and not clause.fresh
        and mind.before.items[-1].text in among("to not without don't")
        and words == []
    ):
        lead = [item.text for item in mind.before.items]
        if lead[-1] in ("not", "without", "don't") or lead[-2:] == ["not", "to"]:
            return True
        content = [
            word
            for word in lead[:-1]
            if word not in mind.words.small["starters"] and word not in ("in", "order", "just")
        ]
        if not content:
            return True
        if any(
            word in among("have need possible easy hard how supposed designed try trying tempted time ready used")
            for word in content[-2:]
        ) and any(word in NEGATIVE for word in content):
            return True
        if content[-1:] in (["how"], ["supposed"], ["designed"], ["enough"], ["tempted"]):
            return True
    if "would" in words and "you" not in words and "i'd" not in words and "i" in words:
        return False
    return False


def _carried(mind: Mind, clause: Clause) -> bool:
    """`to lever …` right after a clause that takes a tool up."""
    before = mind.before
    if before is None or clause.fresh:
        return False
    return any(item.is_a("tool") for item in before.items) and any(
        item.text in among("use using take grab need get with i'm") for item in before.items
    )


def _enough(mind: Mind, clause: Clause, verb: int, row: Doing, particle: str) -> bool:
    """Whether a verb undoes here: by itself (`unscrew`), with a particle (`take … off`), or straight on a thing."""
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
        return not inward
    return row.base in ("twist", "rotate") and particle in ("off", "out", "free")


def _turns(clause: Clause, verb: int, particle: str) -> bool:
    """`flip it over onto its lid`, `turn the phone upside down`, `flip it over`: the device, not a part."""
    word = {row.base for row in doings(clause.items[verb].text)}
    if not word & {"turn", "flip", "tip", "roll", "stand"}:
        return False
    rest = " ".join(item.text for item in clause.items[verb + 1 :])
    over = (
        "over" in rest.split()
        or "upside down" in rest
        or "onto its" in rest
        or "face down" in rest
        or "onto it" in rest
        or "the other way up" in rest
    )
    things = [
        item
        for item in clause.items[verb + 1 :]
        if item.is_a("part", "connector")
        and not item.is_a("device")
        and item.det not in ("its",)
        and item.text != "back"
    ]
    return over and not things


def _turn(mind: Mind, clause: Clause) -> Act | None:
    if any(item.is_a("screw") for item in clause.items):
        return None
    device = mind.story.device or "device"
    last = mind.last
    if last is not None and last.do == "turn" and clause.start - last.start < 4:
        return last
    act = Act("turn", "Turn over", mind.quote(clause), plain=f"the {device}")
    mind.add(act)
    return act


# ---------------------------------------------------------------- what it is done to


def _objects(mind: Mind, clause: Clause, verb: int, row: Doing, particle: str) -> list[Named | Screws]:
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
                refs += _pronoun(mind, clause, text, row, count)
                break
            continue
        if item.kind == "num" and not refs and item.number:
            follows = items[at + 1] if at + 1 < len(items) else None
            if follows is None or follows.kind in ("word", "drive") or item.stop:
                rows = _counted(mind, item, clause)
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
            refs += _thing(mind, clause, at, row)
    if not refs and stopped and row.base in ("unplug", "disconnect"):
        pass
    return refs


_PRONOUNS = among("it them these those that this they both everything each all one")


def _counted(mind: Mind, item: Item, clause: Clause) -> list[Named | Screws]:
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


def _thing(mind: Mind, clause: Clause, at: int, row: Doing) -> list[Named | Screws]:
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
            (row.family == "undo" and not (row.base in STRONG or _particles(clause, clause.verb or 0)))
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
        return _pronoun(mind, clause, "it", row, None)
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
            and not _whole(clause, item, row)
        )
        return [_connector(mind, clause, item)] if opens else [_part(mind, item, "cable")]
    if kind == "part" and row.base in ("unplug", "disconnect", "unseat"):
        return [_connector(mind, clause, item, of=item.text)]
    if kind == "part" and row.base in among("unclip unlatch release unhook") and item.head in ("lever",):
        return []
    if kind == "connector":
        return [_connector(mind, clause, item)]
    if kind in among("clip adhesive fastening solder thermal"):
        if kind == "thermal" and row.family == "undo":
            return [mind.names.thing("thermal", item)]
        return [mind.names.thing(kind, item, name=_placed(mind, clause, item, kind))]
    if kind == "part":
        if row.base in ("desolder", "unsolder"):
            return [_part(mind, item)]
        return [_part(mind, item)]
    return []


def _whole(clause: Clause, item: Item, row: Doing) -> bool:
    """Whether a cable comes out whole rather than out of its socket: `pull the old cable out through the yoke`."""
    text = clause.text
    if (
        any(word in text for word in phrased("through|out of the way|entirely|whole|completely|whole cable"))
        or item.fresh == "old"
    ):
        return True
    if row.base in ("take", "lift", "peel") and "flex" not in item.text and "straight" not in text:
        return row.base in ("take", "peel")
    return row.base == "take"


def _part(mind: Mind, item: Item, cls: str = "") -> Named:
    found = mind.names.thing("part", item)
    if cls and not found.cls:
        found.cls = cls
    return found


_PLAIN_CONNECTOR = frozenset(
    [
        "black",
        "blue",
        "board",
        "connector",
        "fit",
        "flat",
        "flip",
        "four",
        "header",
        "jst",
        "little",
        "lock",
        "on",
        "own",
        "pin",
        "plug",
        "press",
        "press-fit",
        "pull",
        "push",
        "red",
        "single",
        "slide",
        "snap",
        "socket",
        "spade",
        "terminal",
        "three",
        "to",
        "two",
        "white",
        "wire",
        "zero",
        "zif",
    ]
)
_BARE = among("connector plug zif jst terminal ffc fpc press_connector header coax")


def _connector(mind: Mind, clause: Clause, item: Item, of: str = "") -> Named:
    """The connector that an item is, named after what it belongs to where the words give no better name."""
    name = item.text
    names = mind.names
    if of:
        known = names.find("part", of, item.start)
        base = known.name if known and of in known.name else of
        recent = mind.link
        if recent is not None and not recent.gone and of in recent.name and item.start - recent.heard < 20:
            return recent
        name = f"{base} connector"
        existing = [
            row for row in mind.story.named if row.kind == "connector" and of in row.name.split() and not row.gone
        ]
        if existing:
            return existing[-1]
        found = names.thing("connector", item, name=name)
    else:
        head = name.split()
        plain_name = all(word in _PLAIN_CONNECTOR for word in head)
        pointed = item.det in ("a", "an") or (plain_name and item.det in ("the", "this", "that", ""))
        if (
            pointed
            and clause.items[0].text in among("it's that's this they're these it so")
            and mind.link is not None
            and item.start - mind.link.heard < 12
            and (clause.items[0].text != "so" or "that's" in clause.text)
        ):
            _type(mind, clause, mind.link, item)
            return mind.link
        plain = all(
            word in _PLAIN_CONNECTOR or word in among("connector plug socket cable ffc fpc terminal coax header")
            for word in head
        )
        known = names.find(
            "connector", name, item.start, definite=item.det not in ("a", "an", "another") and not item.more
        )
        cord = next(
            (
                thing
                for thing in reversed(mind.group)
                if thing.kind == "part" and thing.name.split()[-1] in CABLES and item.start - thing.heard < 15
            ),
            None,
        )
        if known is not None and known.gone and item.count is not None and item.count != known.count:
            known = None
        if (
            known is not None
            and known.gone
            and plain
            and (owner := _owner(mind, clause, item))
            and owner not in known.name
        ):
            known = None
        bare = names.find("part", name, item.start) if known is None and name in CABLES else None
        if bare is not None and item.start - bare.heard < 40:
            found = _opened(mind, bare)
        elif known is not None:
            found = names.thing("connector", item, name=known.name)
        elif (
            plain
            and cord is not None
            and not any(
                one.is_a("part") and one is not item
                for one in clause.items[: clause.items.index(item)]
                if one in clause.items
            )
        ):
            found = _opened(mind, cord)
        elif plain and (owner := _owner(mind, clause, item)) and owner.split()[-1] in CABLES:
            found = _opened(
                mind, mind.names.find("part", owner, item.start) or names.thing("connector", item, name=owner)
            )
        elif plain and (owner := _owner(mind, clause, item)):
            last = "plug" if "plug" in head else "cable" if "cable" in head else "connector"
            found = names.thing("connector", item, name=f"{owner} {last}")
        else:
            cable = next(
                (
                    row
                    for row in mind.story.named
                    if row.kind == "connector" and row.name.split()[0] == head[0] and not row.gone and row.implied
                ),
                None,
            )
            found = cable or names.thing("connector", item)
    _type(mind, clause, found, item)
    if not found.type and item.start - mind.latched < 8:
        found.type = "flip-lock"
    mind.link = found
    return found


def _owner(mind: Mind, clause: Clause, item: Item) -> str:
    """What a nameless connector belongs to: `the plug on the pump`; the part in the clause before it (`the camera
    unclips its …`, `the motor's plug`); else the part in focus."""
    for at, one in enumerate(clause.items):
        if at and one is not item and one.first > item.last and one.is_a("part") and not one.is_a("tool"):
            if clause.items[at - 1].text in among("for to of from on in at"):
                return one.text
    for one in clause.items:
        if one is item:
            break
        if one.is_a("part") and not _itself(mind, one) and not one.is_a("tool"):
            return one.text
    for at, one in enumerate(clause.items):
        if one is not item and one.is_a("part") and at and clause.items[at - 1].text in among("for to of from"):
            return one.text
    if "battery" in clause.text or (mind.part is not None and mind.part.cls == "battery"):
        return "battery"
    if mind.part is not None and item.start - mind.part.heard < 25:
        return mind.part.name
    return ""


def _type(mind: Mind, clause: Clause, found: Named, item: Item) -> None:
    if found.type:
        return
    text = f" {' '.join(item.words)} {clause.text} "
    for name, phrases in mind.words.types.items():
        for phrase in phrases:
            said = " ".join(phrase)
            if f" {said} " in text or f" {said}s " in text:
                if (
                    said in phrased("latch|slider|flap|plug|locking bar")
                    and said == "plug"
                    and name == "plug"
                    and "plug" not in found.name
                    and "plug" not in item.words
                ):
                    continue
                found.type = name
                return


def _placed(mind: Mind, clause: Clause, item: Item, kind: str) -> str:
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
        if one.is_a("part") and not _itself(mind, one) and not one.is_a("tool") and not one.stop:
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
        return _pronoun(
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
            refs += _thing(mind, clause, at, row)
        elif (
            item.kind == "num"
            and item.number
            and not refs
            and at + 1 <= verb
            and (at == 0 or items[at - 1].text in among("all those these the both right and so"))
        ):
            refs += _counted(mind, item, clause)
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
                refs += _pronoun(mind, clause, item.text.removesuffix("'ll"), row, None)
    if (
        not refs
        and row.passive
        and clause.items[0].text in among("off out and then so")
        and any(one.text in ("it", "they", "that") for one in items)
    ):
        refs += _pronoun(
            mind, clause, "it" if any(one.text in ("it", "that") for one in items) else "they", row, None
        )
    if not refs and row.passive:
        for at in range(verb + 1, len(items)):
            if (
                items[at].kind in ("thing", "noun")
                and items[at - 1].text not in mind.words.small["prepositions"] - PARTICLES
            ):
                refs += _thing(mind, clause, at, row)
    return refs


def _after_with(items: tuple[Item, ...], at: int) -> bool:
    return items[at - 1].text == "with" and False


def _pronoun(mind: Mind, clause: Clause, word: str, row: Doing, count: int | None) -> list[Named | Screws]:
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
            return [_opened(mind, thing) for thing in both] if row.base in OPENING else list(both)
        if group and (
            row.base in ("unplug", "disconnect")
            or (
                row.base in among("pull pop slide lift come")
                and all(thing.name.split()[-1] in CABLES for thing in group)
            )
        ):
            return [_opened(mind, thing) for thing in group]
        latest = mind.many
        if (
            isinstance(latest, Named)
            and not latest.gone
            and latest.kind == "part"
            and latest.name.split()[-1] in CABLES
            and start - latest.heard < 40
            and (not waiting or latest.heard > waiting[-1].heard)
        ):
            return [_opened(mind, latest)]
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
            return [_opened(mind, cord)]
        if row.base in ("peel", "remove", "take"):
            return [cord]
    link = mind.link if mind.link is not None and not mind.link.gone and start - mind.link.heard < 30 else None
    part = mind.part if mind.part is not None and not mind.part.gone and start - mind.part.heard < 90 else None
    if row.base in OPENING or row.base == "flip":
        if link:
            return [link]
        if part and row.base in ("unplug", "disconnect"):
            return [_opened(mind, part)]
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


def _opened(mind: Mind, thing: Named) -> Named:
    """The connector of a part or cable that gets unplugged."""
    if thing.kind == "connector":
        return thing
    cable = thing.name.split()[-1] in CABLES
    if cable:
        thing.gone = True
    if not thing.type and thing.heard - mind.latched < 12 and mind.latched - thing.heard < 12:
        thing.type = "flip-lock"
    name = thing.name if cable else f"{thing.name} connector"
    found = mind.names.find("connector", name, thing.heard)
    if found is None:
        found = Named(
            "connector",
            name,
            thing.quote,
            type=thing.type,
            heard=thing.heard,
            plural=thing.plural,
            count=thing.count,
            head=thing.head,
        )
        mind.story.named.append(found)
    if cable and thing in mind.story.named and not thing.shown:
        mind.story.named.remove(thing)
    return found


# ---------------------------------------------------------------- entering actions


def _undo(
    mind: Mind, clause: Clause, verb: Item, row: Doing, particle: str, refs: list[Named | Screws]
) -> Act | None:
    """Screws and other fastenings undone, connectors opened, parts off."""
    first = next(
        (
            n
            for n, item in enumerate(clause.items)
            if item.is_a("supply") and any(word in item.text for word in SOLVENTS)
        ),
        None,
    )
    if (
        first is not None
        and clause.items[first].first < verb.first
        and "with" not in [item.text for item in clause.items[:first]]
    ):
        return _soak(mind, clause, first)
    if row.base in among("desolder unsolder cut snip"):
        refs = [
            _soldered(mind, ref) if isinstance(ref, Named) and ref.kind == "part" and ref.cls == "cable" else ref
            for ref in refs
        ]
    rows = [ref for ref in refs if isinstance(ref, Screws)]
    things = [ref for ref in refs if isinstance(ref, Named)]
    told: Act | None = None
    if rows:
        told = sets.undo(mind, clause, rows, _verb_words(row, particle, "Undo")) or _again(mind)
    for kinds, do in (
        (("clip", "adhesive", "fastening", "solder", "thermal"), "undo"),
        (("connector",), "unplug"),
        (("part",), "remove"),
    ):
        some = [thing for thing in things if thing.kind in kinds]
        some = [
            thing
            for thing in some
            if not thing.gone or mind.trip is not None or (thing.plural and clause.start - thing.heard > 120)
        ]
        if not some:
            continue
        if do == "remove":
            if row.base in ("loosen", "slacken", "flip") and not particle:
                continue
            sets.implied(mind, clause, some[0])
            mind.part = some[-1] if some[-1].kind == "part" else mind.part
        if (
            do == "remove"
            and len(some) > 1
            and any(
                word in clause.text for word in phrased("as one|as a unit|in one piece|in one go|as an assembly")
            )
        ):
            some = some[:1]
        if do == "remove" and not particle and row.base in DIRECT and some[0].cls == "button":
            continue
        if do == "remove" and any(
            word in clause.text for word in phrased("still attached|still connected|still plugged|still wired")
        ):
            act = Act("move", "Lay aside", mind.quote(clause), list(some))
            mind.part = some[0]
            _dress(mind, act, clause)
            mind.add(act)
            told = act
            continue
        default = {"undo": "Undo", "unplug": "Unplug", "remove": "Remove"}[do]
        act = Act(do, _verb_words(row, particle, default, do), mind.quote(clause), list(some))
        if mind.trip is None:
            for thing in some:
                thing.gone = True
        act.optional = any(item.text in UNSURE for item in clause.items) and row.base not in ("come",)
        _dress(mind, act, clause)
        mind.add(act)
        told = act
    if told is None and things:
        told = _again(mind)
    if told is not None and rows:
        _dress(mind, told, clause)
    return told


def _soldered(mind: Mind, cord: Named) -> Named:
    """The solder joints of a wire."""
    found = mind.names.find("solder", cord.name, cord.heard)
    if found is None:
        found = Named("solder", cord.name, cord.quote, heard=cord.heard, count=cord.count, plural=cord.plural)
        mind.story.named.append(found)
    if cord in mind.story.named and not cord.shown:
        mind.story.named.remove(cord)
    return found


def _again(mind: Mind) -> Act | None:
    """Said once more: nothing new."""
    return mind.last


def _verb_words(row: Doing, particle: str, default: str, do: str = "undo") -> str:
    """A verb as a note says it."""
    if row.note:
        words = row.note
    elif particle and particle in PARTICLES and row.particle in ("", particle):
        words = f"{row.base} {particle}".capitalize()
    elif row.base in STRONG or row.base in among("lift pull slide pop ease slip free"):
        words = row.base.capitalize()
    else:
        words = default
    if (
        words.split()[0] in among("Take Twist Rotate Pull Lift Slide Press Push Tip Pop Pick Tap Slip Peel")
        and len(words.split()) == 1
    ):
        words = (
            {"undo": "Undo", "unplug": "Unplug", "remove": words + " off"}[do]
            if words.split()[0] != "Pull"
            else words + " off"
        )
    if words.split()[-1] in among("through over aside down around onto upside"):
        words = words.split()[0]
    return words


def _dress(mind: Mind, act: Act, clause: Clause) -> None:
    """Give an action the tools and supplies that its words name: those of its clause, and those taken up just before."""
    start, end = clause.items[0].start, clause.items[-1].start
    kept = []
    for heard, thing in mind.hand:
        if end - heard > 14:
            continue
        if heard >= start - 8 or heard >= start:
            target = act.tools if thing.kind == "tool" else act.supplies
            if thing not in target:
                target.append(thing)
            thing.gone = True
        else:
            kept.append((heard, thing))
    mind.hand = kept


def _move(
    mind: Mind, clause: Clause, verb: int, row: Doing, particle: str, refs: list[Named | Screws]
) -> Act | None:
    if row.base in ("bend", "spread", "hold") and "third" in row.forms and "base" not in row.forms:
        return None
    if row.base in among("open lay bend swing fold hinge tuck tilt set move drop straighten lower flop"):
        parts = [
            ref
            for ref in refs
            if isinstance(ref, Named) and ref.kind in ("part", "connector", "clip") and (not ref.gone)
        ]
        if row.base in ("set", "lay") and not parts:
            return _again(mind) if refs else None
        links = [ref for ref in parts if ref.kind == "connector"]
        if links and row.base == "open":
            act = Act("unplug", "Unlatch", mind.quote(clause), list(links))
            for link in links:
                link.gone = True
            _dress(mind, act, clause)
            mind.add(act)
            return act
        parts = [ref for ref in parts if ref.kind == "part"]
        if not parts:
            return None
        if (
            mind.last is not None
            and mind.last.do == "move"
            and mind.last.things == parts
            and clause.start - mind.last.start < 12
        ):
            return mind.last
        if row.base in ("set",):
            sets.implied(mind, clause, parts[0])
            parts[0].gone = True
            act = Act("remove", "Remove", mind.quote(clause), list(parts))
        else:
            if row.base not in ("bend", "straighten"):
                sets.implied(mind, clause, parts[0])
            act = Act(
                "move", row.note or f"{row.base} {particle}".strip().capitalize(), mind.quote(clause), list(parts)
            )
        for part in parts:
            part.shown = True
        mind.part = parts[-1]
        _dress(mind, act, clause)
        mind.add(act)
        return act
    return None


def _soften(mind: Mind, clause: Clause, verb: int, row: Doing) -> Act | None:
    """Heat: the glue named in the clause, else the part, else whatever glue or part is in focus."""
    items = clause.items
    things: list[Named | Screws] = []
    plain = ""
    for at, item in enumerate(items):
        if item.kind not in ("thing", "noun") or at == verb:
            continue
        kind = kind_of(mind, clause, at, row.base)
        if kind == "adhesive":
            things.append(mind.names.thing("adhesive", item, name=_placed(mind, clause, item, "adhesive")))
        elif kind == "part" and not (items[at - 1].text in ("from", "with", "off") if at else False):
            things.append(_part(mind, item))
        elif kind == "screw":
            found = sets.mention(mind, clause, at)
            things += [found] if found else []
        elif (item.kind == "noun" and row.base == "soak" and not plain) or (
            item.kind == "noun" and item.head in among("edge seam side edges perimeter border rim") and not plain
        ):
            plain = " ".join(item.words)
        elif kind == "" and item.is_a("device"):
            plain = plain or " ".join(item.words)
    glue = [thing for thing in things if isinstance(thing, Named) and thing.kind == "adhesive"]
    if not things:
        near = (
            mind.glue
            if mind.glue is not None and clause.start - mind.glue.heard < 30 and not mind.glue.gone
            else None
        )
        fixed = (
            mind.set
            if mind.set is not None
            and not mind.set.gone
            and clause.start - mind.set.heard < 15
            and "it" in clause.text.split()
            else None
        )
        cord = (
            mind.cord
            if mind.cord is not None and not mind.cord.gone and clause.start - mind.cord.heard < 10
            else None
        )
        if near is not None:
            things = [near]
        elif cord is not None and (mind.part is None or cord.heard >= mind.part.heard):
            things = [cord]
        elif fixed is not None:
            things = [fixed]
        elif mind.part is not None and not mind.part.gone and clause.start - mind.part.heard < 60:
            things = [mind.part]
    if not things and not plain and not any(item.kind == "value" for item in items):
        return None
    act = Act("soften", _heat_verb(row), mind.quote(clause), glue or things[:1], plain=plain)
    _dress(mind, act, clause)
    last = mind.last
    if (
        last is not None
        and last.do == "soften"
        and clause.start - last.start < 15
        and (last.things == act.things or not act.things or not last.things)
    ):
        last.quote = last.quote.to(act.quote)
        last.things = last.things or act.things
        last.tools += [tool for tool in act.tools if tool not in last.tools]
        return last
    mind.add(act)
    return act


def _heat_verb(row: Doing) -> str:
    return row.note or {"warm": "Warm", "heat": "Heat", "soak": "Soak", "soften": "Soften"}.get(row.base, "Warm")


_HEATERS = (
    "heat gun",
    "hot air",
    "heat mat",
    "heating mat",
    "hair dryer",
    "heat pad",
    "hot plate",
    "heat plate",
    "heat bag",
    "heat lamp",
    "heated mat",
    "heating pad",
    "hairdryer",
    "hot air station",
    "heat",
)


def _supplied(mind: Mind, clause: Clause, verb: int, row: Doing) -> Act | None:
    """`drop a bit of isopropyl on the edge`, `put a dab of grease on the gears`, `heat needs to be applied`."""
    items = clause.items
    if any(item.text == "heat" for item in items) and row.base in among("apply put add use"):
        return _soften(mind, clause, verb, Doing("heat", "", "soften", "Warm", frozenset()))
    supply = next(
        (
            at
            for at, item in enumerate(items)
            if item.kind == "thing" and kind_of(mind, clause, at, row.base) == "supply"
        ),
        None,
    )
    if supply is None:
        if row.base in ("use", "using") or row.base == "put":
            tool = next(
                (item for item in items if item.is_a("tool") and any(word in item.text for word in _HEATERS)), None
            )
            if tool is not None and any(
                item.kind == "value" and item.amount and item.amount.unit in ("°C", "°F") for item in items
            ):
                return _soften(mind, clause, verb, Doing("heat", "", "soften", "Warm", frozenset()))
        return None
    name = items[supply].text
    if any(word in name for word in SOLVENTS):
        return _soak(mind, clause, supply)
    if any(word in name for word in among("cleaner spirit vinegar descaler detergent degreaser soap air water")):
        return _cleaned(mind, clause, "Clean")
    if row.base in ("use", "run") or any(
        word in name for word in among("tape swab cloth bud wipe towel braid wick flux solder")
    ):
        return None
    things = _near_things(mind, clause, supply)
    act = Act("treat", "Apply", mind.quote(clause), things)
    _dress(mind, act, clause)
    mind.add(act)
    return act


def _near_things(mind: Mind, clause: Clause, supply: int) -> list[Named | Screws]:
    found: list[Named | Screws] = []
    for at, item in enumerate(clause.items):
        if at != supply and kind_of(mind, clause, at) == "part":
            found.append(_part(mind, item))
    return found


def _solvent(mind: Mind, clause: Clause) -> Act | None:
    """`just a bit of isopropyl along the edge`: a solvent and a place, with no verb."""
    if _barred(clause):
        return None
    at = next(
        (
            n
            for n, item in enumerate(clause.items)
            if item.is_a("supply") and any(word in item.text for word in SOLVENTS)
        ),
        None,
    )
    if at is None:
        at = next(
            (
                n
                for n, item in enumerate(clause.items)
                if item.is_a("supply") and any(word in item.text for word in among("cleaner grease oil lube"))
            ),
            None,
        )
        target = next(
            (
                n
                for n, item in enumerate(clause.items)
                if at is not None
                and n > at
                and kind_of(mind, clause, n) == "part"
                and clause.items[n - 1].text in among("on in into onto to")
            ),
            None,
        )
        if at is None or target is None or clause.verb is not None:
            return None
        act = Act("treat", "Apply", mind.quote(clause), [_part(mind, clause.items[target])])
        _dress(mind, act, clause)
        mind.add(act)
        return act
    if not any(
        item.text
        in among(
            "along under around underneath behind between in into down on over beneath loosens softens dissolves"
        )
        for item in clause.items
    ):
        return None
    if mind.last is not None and mind.last.do == "treat" and clause.start - mind.last.start < 6:
        return None
    return _soak(mind, clause, at)


def _soak(mind: Mind, clause: Clause, supply: int) -> Act | None:
    """A solvent on glue: soaking. On a board or contacts with a brush or cloth it cleans."""
    items = clause.items
    text = clause.text
    if any(
        word in text.split() for word in among("clean wipe scrub swab brush cloth toothbrush cotton wash rinse")
    ):
        return _cleaned(mind, clause, "Clean")
    things: list[Named | Screws] = []
    for at, item in enumerate(items):
        kind = kind_of(mind, clause, at) if item.kind == "thing" else ""
        if kind == "adhesive":
            things.append(mind.names.thing("adhesive", item, name=_placed(mind, clause, item, "adhesive")))
        elif kind == "part" and item.det and not things:
            things.append(_part(mind, item))
    glue = (
        mind.glue if mind.glue is not None and not mind.glue.gone and clause.start - mind.glue.heard < 45 else None
    )
    if not any(isinstance(thing, Named) and thing.kind == "adhesive" for thing in things) and glue is not None:
        things = [glue]
    if not things and mind.part is not None and not mind.part.gone:
        things = [mind.part]
    act = Act("soften", "Soak", mind.quote(clause), things[:1], plain="the edge" if "edge" in text else "")
    _dress(mind, act, clause)
    mind.add(act)
    return act


def _cleaned(mind: Mind, clause: Clause, verb: str) -> Act | None:
    things: list[Named | Screws] = []
    plain = ""
    for at, item in enumerate(clause.items):
        if at and clause.items[at - 1].text in ("with", "using"):
            continue
        kind = kind_of(mind, clause, at) if item.kind in ("thing", "noun") else ""
        if kind == "part":
            things.append(_part(mind, item))
        elif kind == "thermal":
            things.append(mind.names.thing("thermal", item))
        elif kind == "adhesive":
            things.append(mind.names.thing("adhesive", item))
        elif kind == "noun" and item.head not in NOT_PARTS:
            plain = plain or " ".join(item.words)
    if not things and not plain:
        if any(item.text in among("it that them those") for item in clause.items) or not any(
            item.kind in ("thing", "noun") and kind_of(mind, clause, at) not in ("tool", "supply")
            for at, item in enumerate(clause.items)
        ):
            if mind.part is not None:
                things = [mind.part]
    if not things and not plain:
        return None
    act = Act("treat", verb, mind.quote(clause), things, plain=plain)
    _dress(mind, act, clause)
    last = mind.last
    if last is not None and last.do == "treat" and clause.start - last.start < 8 and (last.things == things):
        last.quote = last.quote.to(act.quote)
        last.tools += [tool for tool in act.tools if tool not in last.tools]
        last.supplies += [one for one in act.supplies if one not in last.supplies]
        return last
    mind.add(act)
    return act


def _treat(mind: Mind, clause: Clause, verb: int, row: Doing, particle: str) -> Act | None:
    """Cleaning, greasing, discharging, testing, measuring."""
    items = clause.items
    text = clause.text
    if row.family == "treat" and row.base not in among(
        "apply grease lubricate oil lube discharge drain short power switch shut dry cool bleed insulate turn"
    ):
        if row.base == "blow" and not any(item.is_a("supply", "tool") for item in items) and not particle:
            return None
        return _cleaned(mind, clause, "Clean")
    if row.base in among("power switch shut turn cool insulate"):
        return None
    if row.base == "dry":
        return None
    if row.base == "apply":
        return _supplied(mind, clause, verb, row)
    things: list[Named | Screws] = []
    for at, item in enumerate(items):
        if (
            item.kind == "thing"
            and at != verb
            and kind_of(mind, clause, at) == "part"
            and not (at and items[at - 1].text in ("with", "using"))
        ):
            things.append(_part(mind, item))
    if row.family == "check":
        if row.base == "check" and (
            ("out" in text.split() and row.particle == "")
            or (
                any(item.text in among("if that whether for") for item in items[verb + 1 : verb + 2])
                and not things
            )
        ):
            return None
        value = any(
            item.kind == "value" and item.amount and item.amount.unit in among("V mV ohm kohm Mohm A mm uF kV")
            for item in items
        )
        if (
            not things
            and any(item.text in ("it", "that", "them") for item in items[verb:])
            and mind.part is not None
        ):
            things = [mind.part]
        if not things and not value and not any(item.is_a("tool") for item in items):
            return None
        base = {"probe": "measure"}.get(row.base, row.base)
        act = Act("check", base.capitalize(), mind.quote(clause), things)
        _dress(mind, act, clause)
        mind.add(act)
        return act
    if not things and mind.part is not None and any(item.text in among("it them that they're") for item in items):
        things = [mind.part]
    if not things:
        return None
    base = row.note or row.base.capitalize()
    act = Act("treat", base, mind.quote(clause), things)
    _dress(mind, act, clause)
    mind.add(act)
    return act


# ---------------------------------------------------------------- states, looks, mentions


def _state(mind: Mind, clause: Clause) -> Act | None:
    """`motherboard is out`, `the cover's off`, `all nine out`, `battery out, card out`: done, with no verb."""
    items = clause.items
    if any(item.text in NEGATIVE or item.text in among("if before until unless sticking") for item in items):
        return None
    told: Act | None = None
    for at, item in enumerate(items):
        gone = item.kind == "verb" and item.text == "go" and at and items[at - 1].text == "can"
        if not gone and item.text not in among(
            "out off free gone loose away removed disconnected unplugged undone clear"
        ):
            continue
        if (item.kind == "verb" and item.text == "free") or (at == 0 and item.text != "out"):
            continue
        after = items[at + 1].text if at + 1 < len(items) else ""
        if "out of the way" in clause.text and item.text == "out":
            after = ""
        if (
            after in among("of the to there here on in with")
            and item.text in among("out off away clear")
            and not (
                after == "of"
                and items[at + 2 : at + 3]
                and items[at + 2].text in ("the",)
                and "way" in clause.text
            )
        ):
            continue
        back = at - 1
        while (
            back >= 0
            and items[back].kind in ("word", "verb")
            and (
                items[back].text in BE
                or items[back].text
                in among(
                    "can now just all completely fully right then it's that's is straight easy "
                    "already come nice 's"
                )
            )
        ):
            back -= 1
        if back < 0:
            if items[0].text in ("that's", "it's", "they're") and at <= 2 and item.text in ("out", "off", "free"):
                word = "they" if items[0].text == "they're" else "it"
                refs = _pronoun(mind, clause, word, _TAKE, None)
                if refs:
                    told = _undo(mind, clause, item, _TAKE, "out" if item.text == "out" else "off", refs) or told
            continue
        subject = items[back]
        refs = []
        if gone and (subject.kind != "thing" or subject.is_a("screw", "tool")):
            continue
        if subject.kind in ("thing",) and not (
            back and items[back - 1].text in mind.words.small["prepositions"] and items[back - 1].text != "with"
        ):
            refs = _thing(mind, clause, back, _UNPLUG if item.text in ("disconnected", "unplugged") else _TAKE)
            if subject.is_a("connector") and not subject.is_a("part"):
                refs = [_connector(mind, clause, subject)]
        elif subject.kind == "num" and subject.number:
            refs = _counted(mind, subject, clause)
            if refs and mind.trip is None and isinstance(refs[0], Named) and refs[0].kind == "part":
                refs = []
        elif subject.text in ("it", "that", "this"):
            refs = _pronoun(mind, clause, subject.text, _TAKE, None)
        elif subject.text in among("them those these they one"):
            refs = _pronoun(mind, clause, "them", _TAKE, None)
            if subject.text == "one":
                refs = [ref for ref in refs if isinstance(ref, Screws) and ref.count == 1]
        if refs:
            told = _undo(mind, clause, item, _TAKE, "off" if item.text == "off" else "out", refs) or told
    return told


_TAKE = Doing("take", "", "undo", "", frozenset({"base"}))
_UNPLUG = Doing("unplug", "", "undo", "Unplug", frozenset({"base"}))


def _named(mind: Mind, clause: Clause, told: Act | None) -> None:
    """What a clause names without doing anything to it: looks, topics, sets told, glue, connectors."""
    items = clause.items
    look = moods.phrase("look", clause.text) is not None
    done = {id(thing) for thing in told.things} if told else set()
    barred = _barred(clause)
    group: list[Named] = []
    verb = clause.verb
    topic = told is None and (verb is None or moods.phrase("topic", clause.text) is not None)
    for at, item in enumerate(items):
        if item.kind != "thing":
            continue
        kind = kind_of(mind, clause, at, _base(clause))
        loose = (
            at > 0
            and items[at - 1].text in mind.words.small["prepositions"]
            and items[at - 1].text not in ("of", "is")
        )
        if loose and topic and verb is None and items[at - 1].text in ("for", "to", "onto") and at < 5:
            loose = False
        loose = loose or (
            at > 1
            and any(one.text in ("has", "have") for one in items[:at])
            and items[0].text not in among("we you i here there")
        )
        if kind == "screw":
            if not (barred and at > barred) and not any(
                isinstance(thing, Screws) and thing.heard == item.start for thing in (told.things if told else [])
            ):
                if (
                    item.count is not None
                    or item.drive
                    or item.size
                    or item.det in among("a an one another")
                    or not loose
                ):
                    if (
                        item.det not in among("the those these that my its this")
                        or item.count is not None
                        or item.drive
                    ):
                        if not any(
                            text in clause.text
                            for text in phrased("screw holes|screw hole|screw head|screw heads|screw post")
                        ):
                            sets.mention(mind, clause, at)
            continue
        if kind in among("adhesive clip fastening thermal solder"):
            if (barred and at > barred) or (
                kind == "fastening" and not (item.count or look or "held" in clause.text)
            ):
                continue
            if (
                kind == "clip"
                and item.text == "tab"
                and mind.glue is not None
                and item.start - mind.glue.heard < 12
            ):
                continue
            named = mind.names.thing(kind, item, name=_placed(mind, clause, item, kind))
            if kind == "adhesive":
                mind.glue = named
            if item.plural or item.count:
                mind.many = named
            elif kind in ("clip", "fastening"):
                mind.fix = named
            continue
        if kind == "connector":
            if (told is not None and told.do == "unplug") or (
                loose and bool(item.det) and (item.plural or item.det in ("the", "that", "this"))
            ):
                continue
            if barred and at > barred:
                continue
            named = _connector(mind, clause, item)
            group.append(named)
            if item.plural:
                mind.many = named
            continue
        if kind != "part":
            continue
        found = mind.names.find("part", item.text, item.start)
        shown = look and not loose and not barred and item.det not in ("no", "my")
        cable = item.head.split()[-1] in CABLES if item.head else False
        if found is None and (shown or topic or (not loose and told is None and not barred)):
            found = mind.names.thing("part", item)
        if found is None:
            continue
        found.heard = item.start
        if id(found) in done:
            continue
        if cable:
            group.append(found)
            _type(mind, clause, found, item)
            if (not loose or items[at - 1].text in ("with", "of", "for")) and not found.gone:
                mind.cord = found
                if item.plural:
                    mind.many = found
            continue
        if shown and _pointed(clause, at):
            found.shown = True
        if not loose or mind.part is None:
            if not found.gone and not _itself(mind, item):
                mind.part = found
                if item.plural:
                    mind.many = found
            if not found.gone:
                group.append(found)
        if topic and not loose and not found.gone:
            mind.story.topics.append((clause.start, found))
    _stuck(mind, clause)
    if (
        mind.link is not None
        and clause.start - mind.link.heard < 8
        and not any(one.is_a("connector") for one in clause.items)
        and clause.items[0].text in among("that's it's they're which all this these")
    ):
        _type(mind, clause, mind.link, items[0])
    if told is not None:
        for thing in told.things:
            if isinstance(thing, Named) and thing.kind == "part":
                mind.part = thing
            if isinstance(thing, Named) and thing.plural:
                mind.many = thing
    if group:
        mind.group = group if told is None or told.do != "unplug" else group


def _stuck(mind: Mind, clause: Clause) -> None:
    """`the button flex is glued to the plastic`: glue, though nobody calls it by name."""
    items = clause.items
    at = next((n for n, item in enumerate(items) if item.text in ("glued", "taped")), None)
    if at is None or any(item.is_a("adhesive", "supply") for item in items) or _barred(clause):
        return
    owner = next(
        (items[n] for n in range(at - 1, -1, -1) if items[n].is_a("part") and not _itself(mind, items[n])), None
    )
    name = (
        owner.text
        if owner is not None
        else mind.part.name
        if mind.part is not None and not mind.part.gone and clause.start - mind.part.heard < 15
        else ""
    )
    if not name or (owner is None and not any(item.text in among("it's it is 's") for item in items[:at])):
        return
    kind = "glue" if items[at].text == "glued" else "tape"
    if mind.names.find("adhesive", f"{name} {kind}", clause.start) is None:
        named = mind.names.thing("adhesive", items[at], name=f"{name} {kind}")
        mind.glue = named


def _pointed(clause: Clause, at: int) -> bool:
    """Whether the words point at an item: it stands behind the pointing words, or is their subject."""
    found = moods.phrase("look", clause.text)
    if found is None:
        return False
    before = " ".join(word for item in clause.items[:at] for word in item.words)
    after = " ".join(word for item in clause.items[at + 1 :] for word in item.words)
    return len(before) >= found.start() or "here" in after or "there" in after


def _holds(mind: Mind, clause: Clause, fresh: list[Screws]) -> None:
    """What new sets hold: the subject of `is held by`, the object of `holding`, the part in focus."""
    text = clause.text
    items = clause.items
    parts = [at for at, item in enumerate(items) if item.kind == "thing" and kind_of(mind, clause, at) == "part"]
    held = any(
        word in text
        for word in phrased(
            "held|secured|fixed|fastened|attached by|attached with|mounted with|screwed|has|bolted|retained"
        )
    )
    holding = any(
        word in text for word in phrased("holding|hold |holds|securing|secure|keeping|retaining|hold down")
    )
    target: Named | None = None
    if parts and (held or holding):
        at = parts[0] if held and not holding else parts[-1]
        target = mind.names.thing("part", items[at])
    elif held and mind.part is not None and not mind.part.gone and clause.start - mind.part.heard < 30:
        target = mind.part
    if target is not None:
        for row in fresh:
            row.holds = row.holds or target
        mind.part = target if not target.gone else mind.part


def _values(mind: Mind, clause: Clause, told: Act | None) -> None:
    """Values of a clause: to the battery, to the action, to the meter."""
    items = clause.items
    text = clause.text
    if moods.phrase("work_only", text):
        return
    for at, item in enumerate(items):
        amount = item.amount
        if item.kind != "value" or amount is None:
            continue
        unit = amount.unit
        if unit in ("mAh", "Ah", "Wh"):
            _to_battery(mind, clause, amount)
        elif unit in ("V", "mV", "kV"):
            meter = any(
                word in text
                for word in phrased("measur|meter|reads|read |across|should be|wants to be|under|less than|below")
            ) or (told is not None and told.do == "check")
            last = mind.last
            if meter or (last is not None and last.do == "check" and clause.start - last.start < 12):
                _measured(mind, clause, amount)
            elif (
                not any(item.is_a("part") and "capacitor" in item.text for item in items)
                and "about" not in text.split()[:2]
            ):
                _to_battery(mind, clause, amount)
        elif (
            unit in among("ohm Mohm A uF")
            or (unit == "kohm" and not any(one.value == amount for one in items))
            or (unit == "mm" and told is not None and told.do == "check")
            or (
                unit == "mm"
                and mind.last is not None
                and mind.last.do == "check"
                and clause.start - mind.last.start < 8
                and ("should" in text or "than" in text)
            )
        ):
            _measured(mind, clause, amount)
        elif unit in ("°C", "°F"):
            _heated(mind, clause, amount, told)
        elif unit in ("s", "min", "h"):
            _timed(mind, clause, at, amount, told)
        elif unit in ("N·m", "N·cm"):
            mind.story.torques.append((amount, mind.quote(clause)))
        elif unit in among("ml l g %"):
            _poured(mind, clause, amount, told)
    if told is None or told.do != "check":
        _bare_reading(mind, clause)


def _bare_reading(mind: Mind, clause: Clause) -> None:
    """`mine's 2.1`, `three sixty` with no unit: a reading or a temperature, by what went before."""
    last = mind.last
    for at, item in enumerate(clause.items):
        if (
            item.kind != "num"
            or item.number is None
            or (at + 1 < len(clause.items) and clause.items[at + 1].kind == "thing")
        ):
            continue
        if (
            last is not None
            and last.do == "check"
            and last.measures
            and clause.start - last.start < 15
            and item.number != int(item.number)
        ):
            last.measures.append(Amount(item.number, last.measures[-1].unit))
            last.quote = last.quote.to(mind.quote(clause))
        elif (
            item.number >= 150
            and any((one.is_a("tool") and "iron" in one.text) or one.text == "iron" for one in clause.items)
            and at
            and clause.items[at - 1].text in among("at to about around")
        ):
            _heated(mind, clause, Amount(item.number, "°C"), None)


def _to_battery(mind: Mind, clause: Clause, amount: Amount) -> None:
    battery = next(
        (
            row
            for row in reversed(mind.story.named)
            if row.kind == "part" and row.cls == "battery" and clause.start - row.heard < 60
        ),
        None,
    )
    if battery is not None and not any(value.unit == amount.unit for value in battery.values):
        battery.values.append(amount)
        battery.said = battery.said.to(mind.quote(clause)) if battery.said else mind.quote(clause)


def _measured(mind: Mind, clause: Clause, amount: Amount) -> None:
    last = mind.last
    if last is None or last.do != "check" or clause.start - last.start > 20:
        things: list[Named | Screws] = [mind.part] if mind.part is not None else []
        last = Act("check", "Measure", mind.quote(clause), things)
        _dress(mind, last, clause)
        mind.add(last)
    if not any(value == amount for value in last.measures):
        last.measures.append(amount)
        last.quote = last.quote.to(mind.quote(clause))
    if "across" in clause.text and not last.where:
        last.where = "across " + clause.text.split("across ", 1)[1].split(" with ")[0].split(" is ")[0]


def _heated(mind: Mind, clause: Clause, amount: Amount, told: Act | None) -> None:
    text = clause.text
    if (amount.unit == "°C" and amount.low <= 45) or (
        amount.low in (90, 180) and any(word in text for word in among("rotate turn twist angle each swing"))
    ):
        return
    soldered = mind.last is not None and any(
        isinstance(thing, Named) and thing.kind == "solder" for thing in mind.last.things
    )
    if told is None and soldered and mind.last is not None and clause.start - mind.last.start < 25:
        told = mind.last
        _dress(mind, told, clause)
    last = told if told is not None and told.do in among("soften undo remove treat unplug") else mind.last
    hot = last is not None and (
        last.do == "soften"
        or any(
            "iron" in tool.name or "heat" in tool.name or "hot" in tool.name or "dryer" in tool.name
            for tool in last.tools
        )
    )
    if last is None or clause.start - last.start > 20 or (not hot and told is None):
        things: list[Named | Screws] = []
        if mind.glue is not None and not mind.glue.gone:
            things = [mind.glue]
        elif mind.part is not None and not mind.part.gone:
            things = [mind.part]
        last = Act("soften", "Warm", mind.quote(clause), things)
        _dress(mind, last, clause)
        mind.add(last)
    if not any(value.unit == amount.unit for value in last.heat):
        last.heat.append(amount)
        last.quote = last.quote.to(mind.quote(clause))


def _timed(mind: Mind, clause: Clause, at: int, amount: Amount, told: Act | None) -> None:
    text = clause.text
    if any(
        word in text
        for word in phrased(
            "hours later buddy|minute job|minutes ago|hours ago|still got|years|this video|"
            "it took|takes me|took me|spent|quick|warranty|in a minute|in a second|"
            "give me a|back in|one second|wait a minute|per minute|thirty minute"
        )
    ):
        return
    if (
        amount.low == 1
        and clause.items[at].words[:1] == ("a",)
        and not any(word in text for word in phrased("for a|sit|leave|wait|give|let"))
    ):
        return
    last = told or mind.last
    warm = last is not None and last.do == "soften" and last.verb != "Soak"
    heating = any(word in text for word in phrased("heat|warm|face down|hot"))
    if (
        warm
        and clause.start - (last.start if last else 0) < 25
        and not any(word in text.split() for word in among("sit leave wait cool"))
    ):
        assert last is not None
        if not any(value.unit in ("s", "min", "h") for value in last.heat):
            last.heat.append(amount)
            last.quote = last.quote.to(mind.quote(clause))
        return
    if heating and not warm and any(word in text for word in ("for", "another", "about")) and "cool" not in text:
        fresh = _soften(mind, clause, clause.verb or 0, Doing("heat", "", "soften", "Warm", frozenset()))
        if fresh is not None:
            fresh.heat.append(amount)
            return
    if moods.phrase("wait", text) is None:
        if warm and last is not None and clause.start - last.start < 25:
            last.heat.append(amount)
        return
    if "later" in text and last is not None and last.waits:
        return
    if last is None or clause.start - last.start > 40:
        home = Act("treat", "Leave", mind.quote(clause), [])
        home.waits.append(amount)
        if mind.part is not None:
            home.things = [mind.part]
        mind.add(home)
        return
    if not any(value.unit == amount.unit and value.low == amount.low for value in last.waits):
        last.waits.append(amount)
        last.quote = last.quote.to(mind.quote(clause))


def _poured(mind: Mind, clause: Clause, amount: Amount, told: Act | None) -> None:
    last = told or mind.last
    supply = None
    for item in clause.items:
        if item.is_a("supply"):
            supply = mind.names.find("supply", item.text, item.start)
    if supply is None and last is not None and last.supplies and clause.start - last.start < 15:
        supply = last.supplies[-1]
    if supply is None or ("off" in clause.text and amount.unit == "%"):
        return
    if not any(value.unit == amount.unit for value in supply.values):
        supply.values.append(amount)
        supply.said = mind.quote(clause)


def amounts(mind: Mind, clause: Clause, supply: Named) -> None:
    """Strength and amount said in a clause that names a supply."""
    for item in clause.items:
        if item.kind == "value" and item.amount and item.amount.unit in among("ml g l %"):
            if not any(value.unit == item.amount.unit for value in supply.values):
                supply.values.append(item.amount)
                if supply.quote.first < clause.items[0].first:
                    supply.said = mind.quote(clause)
