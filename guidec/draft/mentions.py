"""What a clause names without doing anything to it -> looks, topics, sets, glue, connectors, parts in focus."""

from __future__ import annotations

from dataclasses import dataclass

from guidec.draft import moods
from guidec.draft.clauses import Clause
from guidec.draft.holding import stuck
from guidec.draft.joints import connector, set_type
from guidec.draft.kinds import is_itself, kind_of
from guidec.draft.mind import Mind
from guidec.draft.reading import CABLES, barred_from, base_of
from guidec.draft.refer import placed
from guidec.draft.story import Act, Named, Screws
from guidec.draft.told import mention
from guidec.draft.wordset import among, phrased

__all__ = ["named"]


_SHARES = among("all both rid out each set pair couple rest lot bunch row")


@dataclass(slots=True)
class _Scene:
    """One clause while its names are taken in: what was done in it, whether it points, forbids or turns to a
    topic."""

    mind: Mind
    clause: Clause
    told: Act | None
    look: bool
    barred: int
    topic: bool
    group: list[Named]

    def forbids(self, at: int) -> bool:
        """Whether an item stands behind a `don't`."""
        return bool(self.barred) and at > self.barred

    def loose(self, at: int) -> bool:
        """Whether an item is only named beside the matter: behind a preposition, or as what something has."""
        items = self.clause.items
        before = items[at - 1].text if at else ""
        loose = at > 0 and before in self.mind.words.small["prepositions"]
        if before == "of" and (at < 2 or items[at - 2].kind == "num" or items[at - 2].text in _SHARES):
            loose = False
        if loose and self.topic and self.clause.verb is None and before in ("for", "to", "onto") and at < 5:
            loose = any(one.kind == "thing" for one in items[:at])
        owned = at > 1 and any(one.text in ("has", "have") for one in items[:at])
        return loose or (owned and items[0].text not in among("we you i here there"))

    def first(self, at: int) -> bool:
        """Whether an item is the first part that anything is done at (`take the screws out of the back cover`)."""
        part, items = self.mind.part, self.clause.items
        led = at > 0 and items[at - 1].text in ("from", "of", "on") and items[at].det == "the"
        screws = self.told is not None and self.told.do == "undo"
        return led and screws and (part is None or part.gone) and not self.barred

    def open_to(self, at: int) -> bool:
        """Whether the talk may go on with an item: nothing was done here, or only its connector was opened."""
        return self.told is None or (self.told.do == "unplug" and not self.clause.items[at].is_a("connector"))

    def aside(self, at: int) -> bool:
        """Whether an item is only a means (`squeeze the two buttons`) or stands in a remark beside the work
        (`where these panels splinter`): the talk stays with what it was about."""
        if self.told is not None:
            return False
        items, verb = self.clause.items, self.clause.verb
        if any(item.text in ("there's", "there") for item in items[:3]):
            return False
        if self.clause.lead in among("where because cause cos whereas although though unless like as since"):
            return True
        if verb is None or at < verb or base_of(self.clause) not in among("squeeze press push pinch hold depress"):
            return False
        return not any(item.text in among("out off through away") for item in items[verb:])


def named(mind: Mind, clause: Clause, told: Act | None) -> None:
    """What a clause names without doing anything to it: looks, topics, sets told, glue, connectors."""
    look = moods.phrase("look", clause.text) is not None
    topic = told is None and (clause.verb is None or moods.phrase("topic", clause.text) is not None)
    scene = _Scene(mind, clause, told, look, barred_from(clause), topic, [])
    for at, item in enumerate(clause.items):
        if item.kind != "thing":
            continue
        kind = kind_of(mind, clause, at, base_of(clause))
        if kind == "screw":
            _screws(scene, at)
        elif kind in among("adhesive clip fastening thermal solder"):
            _fixing(scene, at, kind)
        elif kind == "connector":
            _plug(scene, at)
        elif kind == "part":
            _part(scene, at)
    stuck(mind, clause)
    _told_of_link(mind, clause)
    for thing in told.things if told is not None else ():
        if isinstance(thing, Named) and thing.kind == "part":
            mind.part = thing
        if isinstance(thing, Named) and thing.plural:
            mind.many = thing
    mind.group = scene.group or mind.group


def _screws(scene: _Scene, at: int) -> None:
    """A set that is told: with a count, a drive or a size, or as `a screw`; `the screws` alone tell nothing
    new."""
    item = scene.clause.items[at]
    met = scene.told.things if scene.told else []
    mends = item.ellipsis == "mend"
    if (scene.forbids(at) and not mends) or any(
        isinstance(thing, Screws) and thing.heard == item.start for thing in met
    ):
        return
    if not {"none", "everything"}.isdisjoint(scene.clause.text.split()):
        return
    said = item.count is not None or bool(item.drive)
    if not (said or item.size or item.det in among("a an one another") or not scene.loose(at)):
        return
    if not said and item.det in among("the those these that my its this"):
        return
    if not any(text in scene.clause.text for text in phrased("screw hole|screw head|screw post")):
        mention(scene.mind, scene.clause, at)


def _fixing(scene: _Scene, at: int, kind: str) -> None:
    """Glue, clips, pins, paste, joints."""
    mind, item = scene.mind, scene.clause.items[at]
    if scene.forbids(at):
        return
    if kind == "fastening" and not (item.count or scene.look or "held" in scene.clause.text):
        return
    if kind == "clip" and item.text == "tab" and mind.glue is not None and item.start - mind.glue.heard < 12:
        return
    found = mind.names.thing(kind, item, name=placed(mind, scene.clause, item, kind))
    if kind == "clip" and item.det in ("a", "an") and not item.plural and not found.plural:
        found.count = found.count or 1
    if kind == "adhesive":
        mind.glue = found
    if item.plural or item.count:
        mind.many = found
    elif kind in ("clip", "fastening") and base_of(scene.clause) not in _LATCHED:
        mind.fix = found


_LATCHED = among("flip lift push press squeeze pinch raise swing depress slide")


def _plug(scene: _Scene, at: int) -> None:
    """A connector that nothing is done to yet."""
    mind, item = scene.mind, scene.clause.items[at]
    vague = bool(item.det) and (item.plural or item.det in ("the", "that", "this"))
    opened = scene.told is not None and scene.told.do == "unplug"
    held = vague and scene.loose(at) and scene.clause.items[at - 1].text not in ("on", "by")
    if opened or scene.forbids(at) or held:
        return
    found = connector(mind, scene.clause, item)
    scene.group.append(found)
    if item.plural:
        mind.many = found


def _part(scene: _Scene, at: int) -> None:
    """A part: shown, turned to, or only named."""
    mind, clause, item = scene.mind, scene.clause, scene.clause.items[at]
    loose = scene.loose(at) or scene.aside(at)
    shown = scene.look and not loose and not scene.barred and item.det not in ("no", "my")
    found = mind.names.find("part", item.text, item.start)
    turned = scene.topic and not scene.forbids(at)
    if found is None and (
        shown or turned or scene.first(at) or (not loose and not scene.barred and scene.open_to(at))
    ):
        found = mind.names.thing("part", item)
    if found is None:
        return
    aside = at > 0 and clause.items[at - 1].text == "of"
    if not loose or not (aside or (mind.link is not None and mind.link.heard >= clause.start)):
        found.heard = item.start
    if not loose:
        mind.named = found
    if scene.told is not None and found in scene.told.things:
        return
    if item.head.split()[-1:] and item.head.split()[-1] in CABLES:
        lone = at + 1 < len(clause.items) and clause.items[at + 1].text == "1"
        if scene.forbids(at) or (lone and mind.link is not None and item.start - mind.link.heard < 8):
            return  # `the three-wire one`
        _cord(scene, at, found, loose)
        return
    if (shown and _pointed(clause, at)) or (not loose and _told_of(scene, at, found)):
        found.shown = True
    bare = (mind.part is None or mind.part.gone) and not scene.group
    if (not loose or bare) and not found.gone:
        scene.group.append(found)
        if not is_itself(mind, item):
            mind.part = found
            mind.many = found if item.plural else mind.many
    if scene.topic and not loose and not found.gone:
        mind.story.topics.append((clause.start, found))


_STANDS = among("is 's are sits sit lives live stays stay hangs has gets goes lies rests stands")


def _told_of(scene: _Scene, at: int, found: Named) -> bool:
    """Whether something is said of a part itself: it is the subject of `is`, `sits`, `has`, or what `that's`
    names."""
    items = scene.clause.items
    if scene.told is not None or scene.barred or found.cls in ("other", "cable", "cover", ""):
        return False
    if items[at].det not in among("the this that these those a an"):
        return False
    after = items[at + 1].text if at + 1 < len(items) else ""
    before = items[at - 1].text if at else ""
    return after in _STANDS or before in among("'s is are it's that's there's here's this see leave show you got")


def _cord(scene: _Scene, at: int, found: Named, loose: bool) -> None:
    """A cable: it may be opened next."""
    items = scene.clause.items
    scene.group.append(found)
    set_type(scene.mind, scene.clause, found, items[at])
    if (not loose or items[at - 1].text in ("with", "of", "for")) and not found.gone:
        scene.mind.cord = found
        if items[at].plural:
            scene.mind.many = found


def _told_of_link(mind: Mind, clause: Clause) -> None:
    """`that's a flip lock one`, right behind a connector."""
    latest = max(
        (one for one in (mind.link, mind.cord) if one is not None), key=lambda one: one.heard, default=None
    )
    if latest is None or clause.start - latest.heard >= 8 or any(one.is_a("connector") for one in clause.items):
        return
    if clause.items[0].text in among("that's it's they're which all this these"):
        set_type(mind, clause, latest, clause.items[0])


def _pointed(clause: Clause, at: int) -> bool:
    """Whether the words point at an item: it stands behind the pointing words, or is their subject."""
    found = moods.phrase("look", clause.text)
    if found is None:
        return False
    before = " ".join(word for item in clause.items[:at] for word in item.words)
    after = " ".join(word for item in clause.items[at + 1 :] for word in item.words)
    return len(before) >= found.start() or "here" in after or "there" in after
