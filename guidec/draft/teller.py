"""Clauses -> the story: who does what to which thing, with what, and what is only said."""

from __future__ import annotations

from collections.abc import Sequence

from guidec.draft import doing, moods, sets
from guidec.draft.clauses import Clause
from guidec.draft.hearing import Corrected
from guidec.draft.item import Item
from guidec.draft.naming import Names
from guidec.draft.story import Act, Aside, Named, Quote, Screws, Story, Trip, Verdict
from guidec.draft.vocabulary import Vocabulary

__all__ = ["Teller", "tell"]

TRIP = 35.0
"""Seconds that a side trip lasts at most without a word that says so."""
SPONSOR = 75.0


def tell(told: Sequence[Clause], words: Vocabulary, corrected: Sequence[Corrected]) -> Story:
    """The story of all clauses."""
    teller = Teller(words)
    teller.story.corrected = list(corrected)
    teller.story.device = _device(told)
    teller.told = told
    for at, clause in enumerate(told):
        teller.hear(clause, told[at - 1] if at else None, told[at + 1] if at + 1 < len(told) else None)
    sets.close(teller)
    return teller.story


def _device(told: Sequence[Clause]) -> str:
    """What is taken apart: the first device named in the first minute and a half."""
    for clause in told:
        if clause.start > 90:
            break
        for item in clause.items:
            if item.is_a("device") and item.head not in ("thing", "unit", "machine", "device", "set", "controller", "torch", "iron", "saw", "keyboard", "speaker", "impact driver", "toothbrush", "grinder") or (
                item.is_a("device") and item.head in ("speaker", "saw", "keyboard", "controller", "grinder", "iron", "torch") and item.det in ("a", "an", "this")
            ):
                return item.head
    return ""


class Teller:
    """What is known at a place of the talk: the things in focus, what is pending, which sort of talk it is."""

    def __init__(self, words: Vocabulary) -> None:
        self.words = words
        self.story = Story()
        self.names = Names(self.story, words)
        self.told: Sequence[Clause] = ()
        self.part: Named | None = None
        self.link: Named | None = None
        self.glue: Named | None = None
        self.cord: Named | None = None
        self.set: Screws | None = None
        self.group: list[Named] = []
        self.many: Named | Screws | None = None
        self.met: dict[int, Screws] = {}
        self.hand: list[tuple[float, Named]] = []
        self.last: Act | None = None
        self.trip: Trip | None = None
        self.sponsor = -1.0
        self.refitting = False
        self.before: Clause | None = None
        self.after: Clause | None = None
        self.overview = False
        self.negated = False

    # ------------------------------------------------------------ one clause

    def hear(self, clause: Clause, before: Clause | None, after: Clause | None) -> None:
        """Take in one clause."""
        self.before, self.after = before, after
        if self._verdict(clause, after) or self._talk(clause):
            return
        if self._refit(clause):
            return
        self._side(clause)
        self._asides(clause)
        doing.work(self, clause)

    def quote(self, clause: Clause) -> Quote:
        """The words of a clause."""
        return Quote(clause.start, clause.items[0].first, clause.items[-1].last)

    def add(self, act: Act) -> None:
        """Enter an action: in the main line, or in the side trip that is on."""
        if self.trip is not None:
            self.trip.acts.append(act)
            return
        self.story.acts.append(act)
        self.last = act

    # ------------------------------------------------------------ talk that is no work

    def _talk(self, clause: Clause) -> bool:
        """Whether a clause is talk; it is noted as such."""
        if self.sponsor >= 0:
            ends = moods.is_("resume", clause) and not moods.is_("sponsor", clause) or clause.start - self.sponsor > SPONSOR
            if not (ends or doing.is_work(self, clause)):
                return self._left_out(clause)
            self.sponsor = -1.0
        if moods.is_("sponsor", clause):
            self.sponsor = clause.start
            return self._left_out(clause)
        if moods.is_("overview", clause) or clause.start < 45 and "today" in clause.text.split() and not any(item.is_a("screw") for item in clause.items):
            self.overview = True
            return self._left_out(clause)
        if self.overview:
            if self.before is not None and self.before.text.endswith(("today", "today is", "today the")):
                return self._left_out(clause)
            if clause.lead in ("and", "then", "plus") and clause.start < 40 and not clause.fresh:
                return self._left_out(clause)
            self.overview = False
        if any(moods.is_(mood, clause) for mood in ("social", "greet")) and not doing.is_work(self, clause):
            return self._left_out(clause)
        if moods.is_("story", clause) and not (doing.is_work(self, clause) or any(item.is_a("screw") for item in clause.items)):
            return self._left_out(clause)
        return False

    def _left_out(self, clause: Clause) -> bool:
        self.story.talk.append(self.quote(clause))
        return True

    def _verdict(self, clause: Clause, after: Clause | None) -> bool:
        """`a seven out of ten`."""
        items = clause.items
        for at, item in enumerate(items):
            if item.kind != "num" or item.number is None:
                continue
            rest = [one for one in items[at + 1 : at + 5]]
            words = [one.text for one in rest]
            if words[:1] in (["points"], ["point"], ["stars"]):
                rest, words = rest[1:], words[1:]
            if words[:1] == ["outta"] or words[:2] == ["out", "of"] or words[:1] == ["of"] and "points" in clause.text:
                number = next((one.number for one in rest if one.kind == "num"), None)
                if number and number in (5, 10, 20, 100) and item.number <= number and not any(one.is_a("screw", "clip", "connector") for one in rest):
                    self.story.verdict = Verdict(self.quote(clause), item.number, number)
                    self.refitting = False
                    return True
        return False

    # ------------------------------------------------------------ going back

    def _refit(self, clause: Clause) -> bool:
        """Whether a clause speaks of putting back; it is kept as a remark then."""
        starts = moods.is_("refit_start", clause)
        if starts and clause.lead in ("when", "before") and self.before and self._same_breath(clause) and any(word in self.before.text.split() for word in ("need", "we'll", "you'll", "remember", "later", "want", "will")):
            starts = False
        if self.refitting and not starts and (clause.lead in ("okay", "ok", "alright", "right", "next", "anyway", "but", "well") or self._takes_up_work(clause)):
            self.refitting = False
        elif starts:
            self.refitting = True
        local = moods.is_("refit", clause)
        if not (self.refitting or local):
            return False
        if local and not starts and clause.lead in ("when", "before", "and", "if") and self._same_breath(clause) and self.last and self.before and self.last.quote.first >= self.before.items[0].first and self.last.do in ("treat", "check", "undo"):
            self.story.acts.remove(self.last) if self.last in self.story.acts else None
            self._remark(self.before)
        elif local and not starts and clause.lead in ("when", "before") and self.before and self._same_breath(clause):
            self._remark(self.before)
        self._remark(clause)
        return True

    def _same_breath(self, clause: Clause) -> bool:
        return bool(self.before and not clause.fresh and clause.start - self.before.start < 8)

    def _takes_up_work(self, clause: Clause) -> bool:
        return clause.lead in ("i", "i'm", "i'll", "now") and doing.is_work(self, clause) and clause.fresh

    def _remark(self, clause: Clause) -> None:
        """A refit remark of one clause, joined to the one before where they are neighbours."""
        thing: Named | Screws | None = None
        for at, item in enumerate(clause.items):
            if item.is_a("tool", "supply", "adhesive", "thermal") and not item.is_a("part", "screw"):
                kind = doing.kind_of(self, clause, at)
                if kind == "tool":
                    self.names.thing("tool", item, name=doing.tool_name(item))
                elif kind in ("supply", "adhesive", "thermal"):
                    found = self.names.thing("supply", item)
                    doing.amounts(self, clause, found)
            elif item.is_a("part") and thing is None and item.det != "no":
                thing = self.names.find("part", item.text, item.start)
            elif item.is_a("screw"):
                thing = thing or (self.story.screws[-1] if self.story.screws else None)
            elif item.kind == "value" and item.amount and item.amount.unit in ("N·m", "N·cm"):
                self.story.torques.append((item.amount, self.quote(clause)))
        last = self.story.refits[-1] if self.story.refits else None
        quote = self.quote(clause)
        if len(clause.text.split()) < 4 and not (last and quote.first - last.quote.last <= 2):
            return
        if last and quote.first - last.quote.last <= 2 and len(last.text) < 160 and not clause.fresh and (clause.lead in ("before", "because", "which", "so") or clause.lead != "and" and clause.verb is None or len(last.text.split()) < 8):
            last.text += " " + clause.text
            last.quote = last.quote.to(quote)
            last.thing = last.thing or thing
            return
        if last and last.quote.first == quote.first:
            return
        self.story.refits.append(Aside(quote, clause.text, thing))

    # ------------------------------------------------------------ side trips

    def _side(self, clause: Clause) -> None:
        """Begin or end a side trip."""
        if self.trip is None and any(said in clause.text for said in ("you'd ", "you would ")) and not any(said in clause.text for said in ("want", "need", "better", "you'd think", "be surprised", "expect")) and doing.is_work(self, clause):
            self.trip = Trip(self.quote(clause), self.part)
            self.story.trips.append(self.trip)
            return
        if found := moods.phrase("side", clause.text):
            goal = next((item for item in clause.items if item.is_a("part", "connector") and not item.is_a("tool")), None)
            if goal is None and self.after is not None and any(word in ("need", "want", "after", "replacing", "is", "are") for word in clause.text.split()[-2:]):
                goal = next((item for item in self.after.items if item.is_a("part")), None)
            short = found[0].split()[-1:] != ["have"] and "got" not in found[0] and "have" not in found[0]
            if goal is not None and short:
                thing = self.names.thing("part", goal)
                self.trip = Trip(self.quote(clause), thing, after=None)
                self.story.trips.append(self.trip)
                return
            if goal is None and short and "it" in clause.text.split() and self.part and ("only" in clause.text or "want it" in clause.text):
                self.trip = Trip(self.quote(clause), self.part)
                self.story.trips.append(self.trip)
                return
        if self.trip is None:
            return
        words = clause.text.split()
        mine = any(word in ("i'm", "i'll", "we'll", "we're", "i", "we", "let's", "i've", "we've") for word in words[:3])
        if moods.is_("side_ends", clause) or mine or clause.start - self.trip.quote.start > TRIP or clause.fresh and self._told_as_done(clause):
            self.trip = None
        else:
            self.trip.quote = self.trip.quote.to(self.quote(clause))

    def _told_as_done(self, clause: Clause) -> bool:
        """A new sentence that no longer speaks to `you`."""
        text = clause.text
        return not any(word in ("you", "you'd", "you'll", "would", "could", "can", "your") for word in text.split()) and clause.start - (self.trip.quote.start if self.trip else 0) > 6

    # ------------------------------------------------------------ risks and hazards

    def _asides(self, clause: Clause) -> None:
        text = clause.text
        hazard, risk = moods.phrase("hazard", text), moods.phrase("risk", text)
        if hazard and not (hazard[0] in ("gloves",) and doing.is_work(self, clause)):
            quote, words = self._with_neighbour(clause)
            last = self.story.hazards[-1] if self.story.hazards else None
            if last and quote.first - last.quote.last <= 12:
                last.text = last.text if words in last.text else f"{last.text} {words}"
                last.quote = last.quote.to(quote)
            else:
                self.story.hazards.append(Aside(quote, words, self._about(clause), _signal(words)))
            return
        if risk:
            about = self._about(clause)
            quote, words = self._with_neighbour(clause)
            home = self.last
            if about is None and home is None:
                self.story.remarks.append(Aside(quote, words))
                return
            aside = Aside(quote, words, about)
            recent = self.story.remarks[-1] if self.story.remarks else None
            if recent and recent.signal == "risk" and quote.first - recent.quote.last <= 8:
                recent.text = recent.text if words in recent.text else f"{recent.text} {words}"
                recent.quote = recent.quote.to(quote)
                return
            aside.signal = "risk"
            self.story.remarks.append(aside)

    def _with_neighbour(self, clause: Clause) -> tuple[Quote, str]:
        """The clause, with the one before where it only goes on from it."""
        quote, words = self.quote(clause), clause.text
        first = clause.items[0].text
        if self.before and not clause.fresh and (first in ("because", "cause", "cos", "it", "it'll", "they", "and", "or", "they're", "it's", "you'll", "that", "you", "which", "if") or len(words.split()) < 4):
            if quote.first - self.quote(self.before).last <= 1 and len(self.before.text) < 120:
                return self.quote(self.before).to(quote), f"{self.before.text} {words}"
        return quote, words

    def _about(self, clause: Clause) -> Named | Screws | None:
        """What a warning is about: a thing named in it, else the thing in focus."""
        for item in clause.items:
            if item.is_a("part", "connector", "clip", "adhesive", "fastening") and not item.is_a("device"):
                kind = next(kind for kind in ("part", "connector", "clip", "adhesive", "fastening") if kind in item.kinds)
                return self.names.find(kind, item.text, item.start) or self.names.thing(kind, item)
        for item in clause.items:
            if item.is_a("screw") and self.story.screws:
                return self.story.screws[-1]
        if self.many is not None and any(item.text in ("them", "they", "they're", "these", "those") for item in clause.items):
            return self.many
        return self.part or self.many


def _signal(words: str) -> str:
    """The signal word for a hazard: injury that can be serious is WARNING, the rest CAUTION."""
    grave = ("fire", "shock", "kill", "lethal", "fatal", "deadly", "explo", "electrocut", "mains", "volts", "charge", "bites", "high voltage", "punctur", "stab", "toxic")
    return "WARNING" if any(word in words for word in grave) else "CAUTION"


_ = Item
