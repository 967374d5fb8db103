"""A story as told -> the same with what only the whole of it shows: what makes the device dead, looks, loose
ends."""

from __future__ import annotations

from typing import TypeGuard

from guidec.draft.story import Act, Aside, Named, Screws, Story
from guidec.draft.wordset import among

__all__ = ["finish"]

MAINS = ("mains", "wall plug", "power cord", "mains lead", "mains plug", "power lead", "power cable")

SOON = 60.0
"""Seconds within which a plug that is pulled before anything else is done is that of the mains."""

JUST = 8.0
"""Seconds after an action within which a warning is still about it."""

BREATH = 10
"""Words between two tools that are taken up in one breath at most."""

DEAD = 15.0
"""Seconds between the unplugging of what powers the device and the words that it is dead."""


def finish(story: Story) -> Story:
    """The finished story (the same object)."""
    story.isolate, story.power = _isolation(story)
    _look(story)
    _remarks(story)
    _torques(story)
    return story


def _isolation(story: Story) -> tuple[Named | None, str]:
    """The connector, plug or pack whose opening makes the device dead, as the words have it."""
    opened = [(act, thing) for act in story.acts if act.do == "unplug" for thing in act.things if _is_named(thing)]
    mains = _mains(story, opened)
    if mains is not None:
        return mains, "mains"
    links = [row for row in opened if _of_a_pack(row[1])]
    off = [(act, thing) for act in story.acts if act.do == "remove" for thing in act.things if _is_pack(thing)]
    if links and not (off and off[0][0].start < links[0][0].start - SOON / 2):
        return links[0][1], "battery"
    late = not off or off[0][1].quote.start > 0.5 * story.acts[-1].start
    found = (_before_dead(story, opened) if late else None) or (off[0][1] if off else None)
    return found, "battery" if found is not None else ""


def _mains(story: Story, opened: list[tuple[Act, Named]]) -> Named | None:
    """The mains plug: by its name, or what is pulled before anything else is done."""
    for act, thing in opened:
        early = act.start < SOON and thing.name.split()[-1] in among("plug cord lead charger adapter")
        bare = len(thing.name.split()) == 1 or any(word in thing.name for word in MAINS)
        if any(word in thing.name for word in MAINS) or (early and bare):
            return thing
    first = next((act for act in story.acts if act.do not in ("turn", "look", "hand")), None)
    pulled = next((thing for act, thing in opened if act is first and act.start < SOON), None)
    return pulled if pulled is not None and not _of_a_pack(pulled) else None


def _of_a_pack(thing: Named) -> bool:
    """The connector of a battery."""
    return "battery" in thing.name or thing.name.startswith(("pack ", "cell "))


def _is_named(thing: Named | Screws) -> TypeGuard[Named]:
    return isinstance(thing, Named)


def _is_pack(thing: Named | Screws) -> TypeGuard[Named]:
    """A battery itself: no bay, no button cell of a clock."""
    if not isinstance(thing, Named) or thing.cls != "battery" or "coin" in thing.name:
        return False
    return thing.name.split()[-1] in among("battery cell pack accumulator module batteries a")


def _before_dead(story: Story, opened: list[tuple[Act, Named]]) -> Named | None:
    """What was unplugged right before the words say that the device is dead."""
    for at in story.dead:
        near = [thing for act, thing in opened if 0 <= at - act.start < DEAD]
        if near:
            return near[-1]
    return None


def _look(story: Story) -> None:
    """Looks for the parts that are only shown, and for sets, glue and connectors told that nothing is done to."""
    handled = {id(thing) for act in story.acts for thing in act.things}
    handled |= {id(thing) for trip in story.trips for act in trip.acts for thing in act.things}
    for thing in story.named:
        if id(thing) in handled:
            continue
        told = (thing.kind == "part" and thing.shown) or (thing.kind in ("adhesive", "clip") and thing.certain)
        if told:
            story.acts.append(Act("look", "Note", thing.quote, [thing]))
    for row in story.screws:
        if id(row) not in handled and not row.split:
            story.acts.append(Act("look", "Note", row.quote, [row]))
    used = {id(tool) for act in story.acts for tool in (*act.tools, *act.supplies)}
    used |= {id(tool) for trip in story.trips for act in trip.acts for tool in (*act.tools, *act.supplies)}
    for thing in story.named:
        if thing.kind in ("tool", "supply") and id(thing) not in used:
            act = Act("hand", "At hand:", thing.quote, [])
            (act.tools if thing.kind == "tool" else act.supplies).append(thing)
            story.acts.append(act)
    story.acts.sort(key=lambda act: act.quote.first)
    story.acts[:] = _gathered(story.acts)


def _gathered(acts: list[Act]) -> list[Act]:
    """Tools taken up in one breath are one line."""
    found: list[Act] = []
    for act in acts:
        last = found[-1] if found else None
        if last is not None and last.do == act.do == "hand" and act.quote.first - last.quote.last <= BREATH:
            last.tools += act.tools
            last.supplies += act.supplies
            last.quote = last.quote.to(act.quote)
        else:
            found.append(act)
    return found


def _remarks(story: Story) -> None:
    """Risks and refit remarks to the action that they speak of: the next with that thing, else the last before."""
    work = [act for act in story.acts if act.do not in ("hand",)]
    for aside in story.remarks:
        home = _home(work, aside)
        if home is not None:
            home.risks.append(aside)
    for aside in story.refits:
        home = _refit_home(work, aside)
        if home is not None:
            home.refits.append(aside)


def _home(work: list[Act], aside: Aside) -> Act | None:
    around = [act for act in work if -30 < act.start - aside.quote.start < 75]
    own = [act for act in around if aside.thing is not None and aside.thing in act.things and act.do != "look"]
    if own:
        return min(own, key=lambda act: abs(act.start - aside.quote.start))
    doing = [act for act in work if act.do != "look"]
    after = [act for act in doing if 0 <= act.start - aside.quote.start < 30]
    before = [act for act in doing if act.start <= aside.quote.start]
    if before and aside.quote.start - before[-1].start < JUST:
        return before[-1]
    return after[0] if after else before[-1] if before else doing[0] if doing else None


def _refit_home(work: list[Act], aside: Aside) -> Act | None:
    doing = [act for act in work if act.do not in ("look", "turn")]
    own = [act for act in doing if aside.thing is not None and aside.thing in act.things]
    if own:
        return own[-1]
    before = [act for act in doing if act.start <= aside.quote.start]
    return before[-1] if before else None


def _torques(story: Story) -> None:
    """A torque goes with the set whose screws were last told, where only one set can be meant."""
    for amount, quote in story.torques:
        rows = [row for row in story.screws if isinstance(row, Screws) and row.torque is None]
        near = [row for row in rows if quote.start - row.quote.start < 20]
        target = near[-1] if near else rows[-1] if rows else None
        if target is not None:
            target.torque = amount
            target.said = quote
