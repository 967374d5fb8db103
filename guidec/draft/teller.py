"""Clauses -> the story: who does what to which thing, with what, and what is only said."""

from __future__ import annotations

from collections.abc import Sequence

from guidec.draft import doing, kinds, moods, quantities, sets
from guidec.draft.clauses import Clause
from guidec.draft.hearing import Corrected
from guidec.draft.mind import Mind
from guidec.draft.story import Aside, Named, Quote, Screws, Story, Trip, Verdict
from guidec.draft.vocabulary import Vocabulary
from guidec.draft.wordset import among, phrased

__all__ = ["tell"]

TRIP = 35.0
"""Seconds that a side trip lasts at most without a word that says so."""
SPONSOR = 75.0


def tell(told: Sequence[Clause], words: Vocabulary, corrected: Sequence[Corrected]) -> Story:
    """The story of all clauses."""
    mind = Mind(words)
    mind.story.corrected = list(corrected)
    mind.story.device = _device(told)
    mind.told = told
    for at, clause in enumerate(told):
        hear(mind, clause, told[at - 1] if at else None, told[at + 1] if at + 1 < len(told) else None)
    sets.close(mind)
    return mind.story


def _device(told: Sequence[Clause]) -> str:
    """What is taken apart: the first device named in the first minute and a half."""
    for clause in told:
        if clause.start > 90:
            break
        for item in clause.items:
            if (
                item.is_a("device")
                and item.head
                not in phrased(
                    "thing|unit|machine|device|set|controller|torch|iron|saw|keyboard|speaker|"
                    "impact driver|toothbrush|grinder"
                )
            ) or (
                item.is_a("device")
                and item.head in among("speaker saw keyboard controller grinder iron torch")
                and item.det in ("a", "an", "this")
            ):
                return item.head
    return ""


def hear(mind: Mind, clause: Clause, before: Clause | None, after: Clause | None) -> None:
    """Take in one clause."""
    mind.before, mind.now, mind.after = before, clause, after
    if _verdict(mind, clause, after) or _talk(mind, clause):
        return
    if _refit(mind, clause):
        return
    _side(mind, clause)
    _asides(mind, clause)
    doing.work(mind, clause)


# ------------------------------------------------------------ talk that is no work


def _talk(mind: Mind, clause: Clause) -> bool:
    """Whether a clause is talk; it is noted as such."""
    if mind.sponsor >= 0:
        ends = (
            moods.is_("resume", clause) and not moods.is_("sponsor", clause)
        ) or clause.start - mind.sponsor > SPONSOR
        if not (
            ends
            or doing.is_work(mind, clause)
            or any(
                (item.is_a("screw") and item.count)
                or (
                    item.is_a("part", "connector", "screw")
                    and item.det in among("the this these your its")
                    and not item.is_a("device")
                )
                for item in clause.items
            )
        ):
            return _left_out(mind, clause)
        mind.sponsor = -1.0
    if moods.is_("sponsor", clause):
        mind.sponsor = clause.start
        return _left_out(mind, clause)
    if moods.is_("overview", clause) or (
        clause.start < 45
        and "today" in clause.text.split()
        and not any(item.is_a("screw") for item in clause.items)
    ):
        mind.overview = True
        return _left_out(mind, clause)
    if mind.overview:
        if mind.before is not None and mind.before.text.endswith(("today", "today is", "today the")):
            return _left_out(mind, clause)
        if clause.lead in ("and", "then", "plus") and clause.start < 40 and not clause.fresh:
            return _left_out(mind, clause)
        mind.overview = False
    if any(moods.is_(mood, clause) for mood in ("social", "greet")) and not doing.is_work(mind, clause):
        return _left_out(mind, clause)
    if moods.is_("story", clause) and not (
        doing.is_work(mind, clause) or any(item.is_a("screw") for item in clause.items)
    ):
        return _left_out(mind, clause)
    return False


def _left_out(mind: Mind, clause: Clause) -> bool:
    mind.story.talk.append(mind.quote(clause))
    return True


def _verdict(mind: Mind, clause: Clause, after: Clause | None) -> bool:
    """`a seven out of ten`."""
    items = clause.items
    for at, item in enumerate(items):
        if item.kind != "num" or item.number is None:
            continue
        rest = list(items[at + 1 : at + 5])
        words = [one.text for one in rest]
        if words[:1] in (["points"], ["point"], ["stars"]):
            rest, words = rest[1:], words[1:]
        if (
            words[:1] == ["outta"]
            or words[:2] == ["out", "of"]
            or (words[:1] == ["of"] and "points" in clause.text)
        ):
            number = next((one.number for one in rest if one.kind == "num"), None)
            if (
                number
                and number in (5, 10, 20, 100)
                and item.number <= number
                and not any(one.is_a("screw", "clip", "connector") for one in rest)
            ):
                mind.story.verdict = Verdict(mind.quote(clause), item.number, number)
                named = any(one.is_a("tool", "supply", "part", "screw") for one in items[:at])
                mind.refitting = mind.refitting and named
                return not named
    return False


# ------------------------------------------------------------ going back


def _refit(mind: Mind, clause: Clause) -> bool:
    """Whether a clause speaks of putting back; it is kept as a remark then."""
    starts = moods.is_("refit_start", clause)
    if (
        starts
        and clause.lead in ("when", "before")
        and mind.before
        and _same_breath(mind, clause)
        and any(word in mind.before.text.split() for word in among("need we'll you'll remember later want will"))
    ):
        starts = False
    if (
        mind.refitting
        and not starts
        and (clause.lead in among("okay ok alright right next anyway but well") or _takes_up_work(mind, clause))
    ):
        mind.refitting = False
    elif starts:
        mind.refitting = True
    local = moods.is_("refit", clause)
    if not (mind.refitting or local):
        return False
    if (
        local
        and not starts
        and clause.lead in among("when before and if")
        and _same_breath(mind, clause)
        and mind.last
        and mind.before
        and mind.last.quote.first >= mind.before.items[0].first
        and mind.last.do in ("treat", "check", "undo")
    ):
        mind.story.acts.remove(mind.last) if mind.last in mind.story.acts else None
        _remark(mind, mind.before)
    elif local and not starts and clause.lead in ("when", "before") and mind.before and _same_breath(mind, clause):
        _remark(mind, mind.before)
    _remark(mind, clause)
    return True


def _same_breath(mind: Mind, clause: Clause) -> bool:
    return bool(mind.before and not clause.fresh and clause.start - mind.before.start < 8)


def _takes_up_work(mind: Mind, clause: Clause) -> bool:
    return clause.lead in among("i i'm i'll now") and doing.is_work(mind, clause) and clause.fresh


def _remark(mind: Mind, clause: Clause) -> None:
    """A refit remark of one clause, joined to the one before where they are neighbours."""
    thing: Named | Screws | None = None
    for at, item in enumerate(clause.items):
        if item.is_a("tool", "supply", "adhesive", "thermal") and not item.is_a("part", "screw"):
            kind = kinds.kind_of(mind, clause, at)
            if kind == "tool":
                mind.names.thing("tool", item, name=kinds.tool_name(item))
            elif kind in ("supply", "adhesive", "thermal"):
                found = mind.names.thing("supply", item)
                quantities.amounts(mind, clause, found)
        elif item.is_a("part") and thing is None and item.det != "no":
            thing = mind.names.find("part", item.text, item.start)
        elif item.is_a("screw"):
            thing = thing or (mind.story.screws[-1] if mind.story.screws else None)
        elif item.kind == "value" and item.amount and item.amount.unit in ("N·m", "N·cm"):
            mind.story.torques.append((item.amount, mind.quote(clause)))
    last = mind.story.refits[-1] if mind.story.refits else None
    quote = mind.quote(clause)
    if len(clause.text.split()) < 4 and not (last and quote.first - last.quote.last <= 2):
        return
    if (
        last
        and quote.first - last.quote.last <= 2
        and len(last.text) < 160
        and not clause.fresh
        and (
            clause.lead in among("before because which so")
            or (clause.lead != "and" and clause.verb is None)
            or len(last.text.split()) < 8
        )
    ):
        last.text += " " + clause.text
        last.quote = last.quote.to(quote)
        last.thing = last.thing or thing
        return
    if last and last.quote.first == quote.first:
        return
    mind.story.refits.append(Aside(quote, clause.text, thing))


# ------------------------------------------------------------ side trips


def _side(mind: Mind, clause: Clause) -> None:
    """Begin or end a side trip."""
    if (
        mind.trip is None
        and any(said in clause.text for said in ("you'd ", "you would "))
        and not any(said in clause.text for said in phrased("want|need|better|you'd think|be surprised|expect"))
        and doing.is_work(mind, clause)
    ):
        mind.trip = Trip(mind.quote(clause), mind.part)
        mind.story.trips.append(mind.trip)
        return
    if found := moods.phrase("side", clause.text):
        goal = next(
            (item for item in clause.items if item.is_a("part", "connector") and not item.is_a("tool")), None
        )
        if (
            goal is None
            and mind.after is not None
            and any(word in among("need want after replacing is are") for word in clause.text.split()[-2:])
        ):
            goal = next((item for item in mind.after.items if item.is_a("part")), None)
        short = found[0].split()[-1:] != ["have"] and "got" not in found[0] and "have" not in found[0]
        if goal is not None and short:
            thing = mind.names.thing("part", goal)
            mind.trip = Trip(mind.quote(clause), thing, after=None)
            mind.story.trips.append(mind.trip)
            return
        if (
            goal is None
            and short
            and "it" in clause.text.split()
            and mind.part
            and ("only" in clause.text or "want it" in clause.text)
        ):
            mind.trip = Trip(mind.quote(clause), mind.part)
            mind.story.trips.append(mind.trip)
            return
    if mind.trip is None:
        return
    words = clause.text.split()
    mine = any(word in among("i'm i'll we'll we're i we let's i've we've") for word in words[:3])
    if (
        moods.is_("side_ends", clause)
        or mine
        or clause.start - mind.trip.quote.start > TRIP
        or (clause.fresh and _told_as_done(mind, clause))
    ):
        mind.trip = None
    else:
        mind.trip.quote = mind.trip.quote.to(mind.quote(clause))


def _told_as_done(mind: Mind, clause: Clause) -> bool:
    """A new sentence that no longer speaks to `you`."""
    text = clause.text
    return (
        not any(word in among("you you'd you'll would could can your") for word in text.split())
        and clause.start - (mind.trip.quote.start if mind.trip else 0) > 6
    )


# ------------------------------------------------------------ risks and hazards


def _asides(mind: Mind, clause: Clause) -> None:
    text = clause.text
    hazard, risk = moods.phrase("hazard", text), moods.phrase("risk", text)
    if hazard and not (hazard[0] in ("gloves",) and doing.is_work(mind, clause)):
        quote, words = _with_neighbour(mind, clause)
        last = mind.story.hazards[-1] if mind.story.hazards else None
        if last and quote.first - last.quote.last <= 12:
            last.text = last.text if words in last.text else f"{last.text} {words}"
            last.quote = last.quote.to(quote)
        else:
            mind.story.hazards.append(Aside(quote, words, _about(mind, clause), _signal(words)))
        return
    if risk:
        about = _about(mind, clause)
        quote, words = _with_neighbour(mind, clause)
        home = mind.last
        if about is None and home is None:
            mind.story.remarks.append(Aside(quote, words))
            return
        aside = Aside(quote, words, about)
        recent = mind.story.remarks[-1] if mind.story.remarks else None
        if recent and recent.signal == "risk" and quote.first - recent.quote.last <= 8:
            recent.text = recent.text if words in recent.text else f"{recent.text} {words}"
            recent.quote = recent.quote.to(quote)
            return
        aside.signal = "risk"
        mind.story.remarks.append(aside)


def _with_neighbour(mind: Mind, clause: Clause) -> tuple[Quote, str]:
    """The clause, with the one before where it only goes on from it."""
    quote, words = mind.quote(clause), clause.text
    first = clause.items[0].text
    if (
        (
            mind.before
            and not clause.fresh
            and (
                first in among("because cause cos it it'll they and or they're it's you'll that you which if")
                or len(words.split()) < 4
            )
        )
        and quote.first - mind.quote(mind.before).last <= 1
        and len(mind.before.text) < 120
    ):
        return mind.quote(mind.before).to(quote), f"{mind.before.text} {words}"
    return quote, words


def _about(mind: Mind, clause: Clause) -> Named | Screws | None:
    """What a warning is about: a thing named in it, else the thing in focus."""
    for item in clause.items:
        if item.is_a("part", "connector", "clip", "adhesive", "fastening") and not (
            item.is_a("device") and (item.head == mind.story.device or not item.is_a("part"))
        ):
            kind = next(kind for kind in among("part connector clip adhesive fastening") if kind in item.kinds)
            return mind.names.find(kind, item.text, item.start) or mind.names.thing(kind, item)
    for item in clause.items:
        if item.is_a("screw") and mind.story.screws:
            return mind.story.screws[-1]
    if mind.many is not None and any(item.text in among("them they they're these those") for item in clause.items):
        return mind.many
    return mind.part or mind.many


def _signal(words: str) -> str:
    """The signal word for a hazard: injury that can be serious is WARNING, the rest CAUTION."""
    grave = (
        "fire",
        "shock",
        "kill",
        "lethal",
        "fatal",
        "deadly",
        "explo",
        "electrocut",
        "mains",
        "volts",
        "charge",
        "bites",
        "high voltage",
        "punctur",
        "stab",
        "toxic",
    )
    return "WARNING" if any(word in words for word in grave) else "CAUTION"
