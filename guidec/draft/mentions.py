"""What a clause names without doing anything to it -> tools, looks, topics, sets, glue, what holds what."""

from __future__ import annotations

from guidec.draft import moods, sets
from guidec.draft.clauses import Clause
from guidec.draft.joints import connector, set_type
from guidec.draft.kinds import is_itself, kind_of, tool_name
from guidec.draft.mind import Mind
from guidec.draft.objects import placed
from guidec.draft.quantities import amounts
from guidec.draft.reading import CABLES, barred_from, base_of
from guidec.draft.story import Act, Named, Screws
from guidec.draft.wordset import among, phrased

__all__ = ["holds", "named", "tools"]


def tools(mind: Mind, clause: Clause) -> None:
    """Tools and supplies named in a clause, whether or not anything is done in it; not those of a `don't`."""
    barred = barred_from(clause)
    for at, item in enumerate(clause.items):
        if item.kind != "thing":
            continue
        kind = kind_of(mind, clause, at, base_of(clause))
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


def named(mind: Mind, clause: Clause, told: Act | None) -> None:
    """What a clause names without doing anything to it: looks, topics, sets told, glue, connectors."""
    items = clause.items
    look = moods.phrase("look", clause.text) is not None
    done = {id(thing) for thing in told.things} if told else set()
    barred = barred_from(clause)
    group: list[Named] = []
    verb = clause.verb
    topic = told is None and (verb is None or moods.phrase("topic", clause.text) is not None)
    for at, item in enumerate(items):
        if item.kind != "thing":
            continue
        kind = kind_of(mind, clause, at, base_of(clause))
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
            named = mind.names.thing(kind, item, name=placed(mind, clause, item, kind))
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
            named = connector(mind, clause, item)
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
            set_type(mind, clause, found, item)
            if (not loose or items[at - 1].text in ("with", "of", "for")) and not found.gone:
                mind.cord = found
                if item.plural:
                    mind.many = found
            continue
        if shown and _pointed(clause, at):
            found.shown = True
        if not loose or mind.part is None:
            if not found.gone and not is_itself(mind, item):
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
        set_type(mind, clause, mind.link, items[0])
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
    if at is None or any(item.is_a("adhesive", "supply") for item in items) or barred_from(clause):
        return
    owner = next(
        (items[n] for n in range(at - 1, -1, -1) if items[n].is_a("part") and not is_itself(mind, items[n])), None
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


def holds(mind: Mind, clause: Clause, fresh: list[Screws]) -> None:
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
