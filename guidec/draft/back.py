"""Clauses on putting back -> remarks on going back (`refit`), one for each thing said."""

from __future__ import annotations

from itertools import pairwise

from guidec.draft import doing, kinds, moods, quantities
from guidec.draft.clauses import Clause, clause_of
from guidec.draft.item import Item
from guidec.draft.mind import Mind
from guidec.draft.reading import STRONG
from guidec.draft.story import Aside, Named, Screws
from guidec.draft.verbs import doings
from guidec.draft.wordset import among

__all__ = ["is_back"]

SHORT = 3
"""Words below which a clause says nothing by itself."""
LONG = 40
"""Words from which a remark is not gone on with."""
LONG_CLAUSE = 14
"""Words from which a clause may tell more than one thing."""
LATE = 0.75
"""Share of the talk after which a word on putting back opens a stretch of it."""


def is_back(mind: Mind, clause: Clause) -> bool:
    """Whether a clause speaks of putting back; it is kept as a remark then."""
    opens = moods.is_("back_opens", clause) and not (_asks_to_mind(mind, clause) or _undoes(clause))
    said = opens or moods.is_("back_said", clause)
    late = clause.start > LATE * mind.told[-1].start
    if mind.refitting and not opens and _ends(mind, clause, said=said):
        mind.refitting = False
    elif opens and (late or not _when(clause)):
        mind.refitting = True
    if not (mind.refitting or said or _follows(mind, clause)):
        return False
    mind.put_back = mind.at
    if said and not opens and clause.lead in among("when before and if") and _same_breath(mind, clause):
        _with_what_led_here(mind, clause)
    if not moods.is_("back_bare", clause):
        for part in _parts(clause):
            _remark(mind, part)
    return True


def _parts(clause: Clause) -> list[Clause]:
    """A long clause, parted where `and` goes on to another thing."""
    items = clause.items
    if sum(len(item.words) for item in items) < LONG_CLAUSE:
        return [clause]
    cuts = [
        at
        for at in range(3, len(items) - 2)
        if items[at].text == "and"
        and (items[at + 1].det in among("the a your") or items[at + 1].text in among("the a then put"))
    ]
    edges = [0, *cuts, len(items)]
    return [clause_of(items[a:b], fresh=clause.fresh and not a) for a, b in pairwise(edges)]


def _follows(mind: Mind, clause: Clause) -> bool:
    """Whether a clause goes on from a remark right before: its reason, or what `when it goes back` asks for."""
    if mind.put_back != mind.at - 1 or clause.fresh or mind.before is None:
        return False
    return moods.is_("hangs", clause) or (_when(mind.before) and moods.is_("back_opens", mind.before))


def _when(clause: Clause) -> bool:
    """`when it goes back`: speaks of its own sentence."""
    return clause.lead in among("when before while as on")


def _asks_to_mind(mind: Mind, clause: Clause) -> bool:
    """`we'll need it when we put it back`: the main words stand before."""
    before = mind.before
    if before is None or clause.lead not in ("when", "before") or not _same_breath(mind, clause):
        return False
    return any(word in among("need we'll you'll remember later want will") for word in before.text.split())


def _undoes(clause: Clause) -> bool:
    """`loosen them in reverse order`: an order of taking apart."""
    verb = clause.verb
    if verb is None or "back" in clause.text.split():
        return False
    return any(row.family == "undo" and row.base in STRONG for row in doings(clause.items[verb].text))


def _ends(mind: Mind, clause: Clause, *, said: bool) -> bool:
    """Whether a clause ends the stretch on putting back."""
    if moods.is_("back_ends", clause) or mind.scored_in(clause):
        return True
    if said:
        return False
    turned = clause.lead in among("okay ok alright right next anyway well") and doing.is_work(clause)
    own = clause.lead in among("i i'm i'll i've now") and doing.is_work(clause) and clause.fresh
    return turned or own


def _same_breath(mind: Mind, clause: Clause) -> bool:
    return bool(mind.before and not clause.fresh and clause.start - mind.before.start < 8)


def _with_what_led_here(mind: Mind, clause: Clause) -> None:
    """`put new tape on when you close it`: what was taken for work a clause ago is none."""
    before, last = mind.before, mind.last
    if before is None or clause.lead in ("and", "if"):
        return
    mistaken = last and last.quote.first >= before.items[0].first and last.do in ("treat", "check", "undo")
    if mistaken and last in mind.story.acts:
        mind.story.acts.remove(last)
    _remark(mind, before)


def _remark(mind: Mind, clause: Clause) -> None:
    """A remark of one clause, or a part of the one before where it only goes on from it."""
    thing = _about(mind, clause)
    last = mind.story.refits[-1] if mind.story.refits else None
    quote = mind.quote(clause)
    near = last is not None and quote.first - last.quote.last <= 2
    if last is not None and quote.first <= last.quote.last:
        return
    if last is not None and near and _goes_on(clause, last):
        last.text += " " + clause.text
        last.quote = last.quote.to(quote)
        last.thing = last.thing or thing
    elif len(clause.text.split()) >= SHORT or clause.lead in among("don't never"):
        mind.story.refits.append(Aside(quote, clause.text, thing))


def _goes_on(clause: Clause, last: Aside) -> bool:
    """Whether a clause belongs to the remark before."""
    length = len(last.text.split())
    if length >= LONG:
        return False
    bare = length < 2 * SHORT and moods.phrase("back_opens", last.text) is not None
    if moods.is_("hangs", clause) or length < SHORT or bare:
        return True
    return not clause.fresh and (clause.verb is None or clause.lead in among("it they it's they're that's"))


def _about(mind: Mind, clause: Clause) -> Named | Screws | None:
    """What a remark is about; tools and supplies named in it are noted."""
    thing: Named | Screws | None = None
    for at, item in enumerate(clause.items):
        if item.is_a("tool", "supply", "adhesive", "thermal") and not item.is_a("part", "screw"):
            _used(mind, clause, at)
        elif item.is_a("part") and thing is None and item.det != "no":
            thing = mind.names.find("part", item.text, item.start)
        elif item.is_a("screw"):
            thing = thing or (mind.story.screws[-1] if mind.story.screws else None)
        elif _is_torque(item):
            mind.story.torques.append((item.amount, mind.quote(clause)))  # type: ignore[arg-type]
    return thing


def _is_torque(item: Item) -> bool:
    return item.kind == "value" and item.amount is not None and item.amount.unit in ("N·m", "N·cm")


def _used(mind: Mind, clause: Clause, at: int) -> None:
    item, kind = clause.items[at], kinds.kind_of(mind, clause, at)
    if kind == "tool":
        mind.names.thing("tool", item, name=kinds.tool_name(item))
    elif kind in ("supply", "adhesive", "thermal"):
        quantities.amounts(mind, clause, mind.names.thing("supply", item))
