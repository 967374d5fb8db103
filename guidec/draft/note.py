"""A finished story -> the text of a draft note, each mark unconfirmed and beside the words it was made of."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field

from guidec.draft.job import Job
from guidec.draft.marks import Marks
from guidec.draft.plain import clock, escaped, in_mark, listed, quoted, remark
from guidec.draft.speech import Heard
from guidec.draft.story import Act, Aside, Named, Quote, Screws, Story, Trip
from guidec.quick import dataclass
from guidec.trade.placeholders import PLACEHOLDERS

__all__ = ["Row", "Subject", "Writer"]

TOGETHER = 70
"""Words up to which two quotes that overlap are shown as one."""


@dataclass(frozen=True, slots=True)
class Subject:
    """What the options say of the device; None where they say nothing."""

    title: str | None = None
    maker: str | None = None
    model: str | None = None
    kind: str | None = None


@dataclass(slots=True)
class Row:
    """A piece of the note that can be written with less: `level` 0 in full, 1 without proposed keys, 2 as a
    remark.

    `role`: front, title, heading, hazard, line, trip. `lines`: as written last; `at`: the first line's number,
    from 1.
    """

    role: str
    act: Act | None = None
    job: Job | None = None
    aside: Aside | None = None
    trip: Trip | None = None
    level: int = 0
    lines: list[str] = field(default_factory=list)
    at: int = 0
    picture: str = ""


class Writer:
    """Writes the rows of one note; which names are declared already is known as it goes."""

    def __init__(self, story: Story, jobs: Sequence[Job], heard: Sequence[Heard], subject: Subject) -> None:
        self.story = story
        self.jobs = jobs
        self.heard = heard
        self.subject = subject
        self.marks = Marks(story)
        self.isolate = True
        self.rows = self._plan()

    def _plan(self) -> list[Row]:
        rows = [Row("front"), Row("title")]
        for job in self.jobs:
            rows.append(Row("heading", job=job))
            rows += [Row("hazard", aside=aside) for aside in job.hazards]
            rows += [Row("line", act=act, job=job) for act in job.acts]
            rows += [Row("trip", trip=trip) for trip in job.asides]
        return rows

    def text(self) -> str:
        """The note. Rows keep where they were written, so that a finding leads back to its row."""
        self.marks.clear()
        lines: list[str] = []
        for row in self.rows:
            row.lines = self.again(row)
            parted = row.role != "line" or not lines[-1].startswith(("1.", "-", " "))
            if lines and lines[-1] and parted:
                lines.append("")
            row.at = len(lines) + 1
            lines += row.lines
        return "\n".join(lines) + "\n"

    def keep(self, known: Mapping[str, str]) -> None:
        """Take names (folded) with their kinds as declared by a note that lines are to be added to."""
        self.marks.keep(known)

    def again(self, row: Row) -> list[str]:
        """The lines of one row."""
        if row.role == "front":
            return self._front()
        if row.role == "title":
            return [f"# {self._title()}"]
        if row.role == "heading" and row.job is not None:
            return self._heading(row, row.job)
        if row.role == "hazard" and row.aside is not None:
            return self._hazard(row.aside)
        if row.role == "trip" and row.trip is not None and row.trip.goal is not None:
            goal = self.marks.plain(row.trip.goal)
            return [f"A shorter way to the {goal} was told here.", "", self._said(row.trip.quote), ""]
        return self._line(row, row.act) if row.act is not None else []

    # ------------------------------------------------------------ front matter

    def _title(self) -> str:
        return self.subject.title or PLACEHOLDERS["title"]

    def _front(self) -> list[str]:
        who = {name: getattr(self.subject, name) or PLACEHOLDERS[name] for name in ("maker", "model", "kind")}
        subject = ", ".join(f"{name}: {quoted(word)}" for name, word in who.items())
        lines = ["---", f"title: {quoted(self._title())}", f"subject: {{{subject}}}", "language: en"]
        isolate, verdict = self.story.isolate, self.story.verdict
        if isolate is not None and self.isolate:
            act = next((act for act in self.story.acts if isolate in act.things), None)
            said = f"  # heard @{clock(act.start)}: {self._words(act.quote, 90)}" if act else ""
            lines += [f"power: {self.story.power}", f"isolate: {self.marks.name(isolate)}{said}"]
        if verdict is not None:
            lines.append(
                f"verdict: {{points: {verdict.points:g}, out_of: {verdict.out_of:g}}}"
                f"  # heard @{clock(verdict.quote.start)}: {self._words(verdict.quote, 90)}"
            )
        return [*lines, "---"]

    # ------------------------------------------------------------ headings and hazards

    def _heading(self, row: Row, job: Job) -> list[str]:
        marks = f" {job.after}" if job.after and row.level == 0 else ""
        time = "" if job.trip else f" @{clock(job.start)}"
        lines = [f"## {job.title}{marks}{time}", ""]
        if row.picture:
            lines += [row.picture, ""]
        if job.trip:
            lines += [self._said(job.trip.quote, most=300), ""]
        return lines

    def _hazard(self, aside: Aside) -> list[str]:
        words = remark(aside.text)
        return [f"> {aside.signal}: {escaped(words[:1].upper() + words[1:])}.", "", self._said(aside.quote), ""]

    # ------------------------------------------------------------ list lines

    def _line(self, row: Row, act: Act) -> list[str]:
        bullet = "-" if row.job is not None and row.job.free else "1."
        indent = " " * (len(bullet) + 1)
        if row.level >= 2:
            said = self._said(act.quote, indent)
            return [f"{bullet} Unclear, to be written by hand. @{clock(act.start)}", said, ""]
        lines = [f"{bullet} {self._sentence(row, act)} @{clock(act.start)}"]
        quotes = [act.quote]
        if row.level == 0:
            lines += [f"{indent}{self._risk(aside, act)}" for aside in act.risks]
            lines += [f"{indent}{{? refit {remark(aside.text)}}}" for aside in act.refits]
            quotes += [aside.quote for aside in (*act.risks, *act.refits)]
        quotes += self._told(act)
        lines += list(dict.fromkeys(self._said(quote, indent) for quote in _together(quotes)))
        if row.picture:
            lines += ["", f"{indent}{row.picture}"]
        return [*lines, ""]

    def _told(self, act: Act) -> list[Quote]:
        """The words in which the things of an action were first told, each thing once."""
        found: list[Quote] = []
        for thing in (*act.things, *act.supplies):
            quote = thing.said or thing.quote
            if id(thing) not in self.marks.told and not _within(quote, act.quote):
                self.marks.told.add(id(thing))
                if isinstance(thing, Screws) or thing.values or thing.type or thing.kind == "clip":
                    found.append(quote)
            if isinstance(thing, Screws) and thing.said:
                found.append(thing.quote)
        return found

    def _sentence(self, row: Row, act: Act) -> str:
        bare = row.level > 0
        objects = [self.marks.thing(thing, bare) for thing in act.things]
        supplies = [self.marks.supply(one) for one in act.supplies] if act.do != "hand" else []
        words = act.verb
        if act.do == "hand":
            words += " " + listed([self._taken(one, bare) for one in (*act.tools, *act.supplies)])
        elif act.do == "treat" and act.verb == "Apply" and supplies:
            words += f" {listed(supplies)}" + (f" to {listed(objects)}" if objects else "")
        else:
            words = "Treat" if act.verb == "Apply" else words
            words += f" {listed(objects)}" if objects else f" {act.plain}" if act.plain else ""
            used = [self.marks.thing(tool, bare) for tool in act.tools] + supplies
            words += f" with {listed(used)}" if used else ""
        for mark in _values(act):
            words += f" {mark}"
        if act.optional and not bare:
            words += " {? optional}"
        return words.strip() + "."

    def _taken(self, thing: Named, bare: bool) -> str:
        return self.marks.thing(thing, bare) if thing.kind == "tool" else self.marks.supply(thing)

    def _risk(self, aside: Aside, act: Act) -> str:
        """A risk of the thing it names, else of what the action is about, else a plain sentence."""
        about = (aside.thing, *act.things) if aside.thing is not None else act.things
        thing = next((one for one in about if one is not None and self.marks.knows(one)), None)
        if thing is None:
            return f"Take care: {escaped(remark(aside.text))}."
        return f"{{? risk {self.marks.name(thing)}: {remark(aside.text)}}}"

    # ------------------------------------------------------------ words

    def _said(self, quote: Quote, indent: str = "", most: int = 400) -> str:
        return f"{indent}> heard @{clock(quote.start)}: {escaped(self._words(quote, most))}"

    def _words(self, quote: Quote, most: int = 400) -> str:
        words = " ".join(word.raw for word in self.heard[quote.first : quote.last + 1])
        return words if len(words) <= most else words[: most - 1].rsplit(" ", 1)[0] + " …"


def _values(act: Act) -> list[str]:
    """Heats, waits and measures as marks."""
    marks = []
    if act.heat:
        shown = sorted(act.heat, key=lambda one: one.unit not in ("°C", "°F"))
        marks.append(f"{{? heat {', '.join(one.text for one in shown)}}}")
    marks += [f"{{? wait {one.text}}}" for one in act.waits]
    where = f" {in_mark(act.where)}" if act.where else ""
    return marks + [f"{{? measure {one.text}{where}}}" for one in act.measures]


def _within(inner: Quote, outer: Quote) -> bool:
    return outer.first <= inner.first and inner.last <= outer.last


def _together(quotes: Sequence[Quote]) -> list[Quote]:
    """Quotes in order, those that overlap as one."""
    found: list[Quote] = []
    for quote in quotes:
        for n, other in enumerate(found):
            both = other.to(quote)
            meets = quote.first <= other.last + 1 and other.first <= quote.last + 1
            if _within(quote, other) or (meets and both.last - both.first < TOGETHER):
                found[n] = both
                break
        else:
            found.append(quote)
    return found
