"""A finished story -> the text of a draft note, each mark unconfirmed and beside the words it was made of."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import field

from guidec.draft.job import Job
from guidec.draft.speech import Heard
from guidec.draft.story import Act, Aside, Named, Quote, Screws, Story, Trip
from guidec.quick import dataclass
from guidec.trade.placeholders import PLACEHOLDERS

__all__ = ["Row", "Subject", "Writer", "clock"]


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


def clock(seconds: float) -> str:
    """`1:02`, `1:02:03`."""
    whole = int(seconds)
    hours, rest = divmod(whole, 3600)
    return f"{hours}:{rest // 60:02}:{rest % 60:02}" if hours else f"{rest // 60}:{rest % 60:02}"


class Writer:
    """Writes the rows of one note; which names are declared already is known as it goes."""

    def __init__(
        self,
        story: Story,
        jobs: Sequence[Job],
        heard: Sequence[Heard],
        subject: Subject,
        pictures: Mapping[int, tuple[str, str]] | None = None,
    ) -> None:
        self.story = story
        self.jobs = jobs
        self.heard = heard
        self.subject = subject
        self.pictures = pictures or {}
        self.declared: dict[int, str] = {}
        self.names: dict[str, int] = {}
        self.told: set[int] = set()
        self.kept: dict[str, str] = {}
        self.letters: list[str] = []
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
        self.declared.clear()
        self.names.clear()
        self.told.clear()
        lines: list[str] = []
        for row in self.rows:
            row.lines = self._row(row)
            if row.role != "line" and lines and lines[-1]:
                lines.append("")
            if row.role == "line" and lines and lines[-1] and not lines[-1].startswith(("1.", "-", " ")):
                lines.append("")
            row.at = len(lines) + 1
            lines += row.lines
        return "\n".join(lines) + "\n"

    def keep(self, known: Mapping[str, str]) -> None:
        """Take names (folded) with their kinds as declared by a note that lines are to be added to."""
        self.declared.clear()
        self.names.clear()
        self.told.clear()
        self.kept = dict(known)
        sets = {name for name, kind in known.items() if kind == "screw"}
        self.letters = [letter for letter in map(_letter_of, range(26 * 27)) if letter.casefold() not in sets]
        for thing in self.story.named:
            name = _clean(thing.name)
            if known.get(name.casefold()) == thing.kind:
                self.declared[id(thing)] = name
                self.names[name.casefold()] = id(thing)

    def again(self, row: Row) -> list[str]:
        """The lines of one row, as an addition to the note that was told to `keep`."""
        return self._row(row)

    def _row(self, row: Row) -> list[str]:
        if row.role == "front":
            return self._front()
        if row.role == "title":
            return [f"# {self._title()}"]
        if row.role == "heading" and row.job is not None:
            return self._heading(row)
        if row.role == "hazard" and row.aside is not None:
            return self._hazard(row.aside)
        if row.role == "trip" and row.trip is not None and row.trip.goal is not None:
            said = f"> heard @{clock(row.trip.quote.start)}: {escaped(self._words(row.trip.quote))}"
            return [f"A shorter way to the {_clean(row.trip.goal.name)} was told here.", "", said, ""]
        if row.act is not None:
            return self._line(row, row.act)
        return []

    # ------------------------------------------------------------ front matter

    def _title(self) -> str:
        return self.subject.title or PLACEHOLDERS["title"]

    def _front(self) -> list[str]:
        who = {name: getattr(self.subject, name) or PLACEHOLDERS[name] for name in ("maker", "model", "kind")}
        lines = ["---", f"title: {_quoted(self._title())}"]
        lines.append("subject: {" + ", ".join(f"{name}: {_quoted(word)}" for name, word in who.items()) + "}")
        lines.append("language: en")
        isolate = self.story.isolate
        if isolate is not None and self.isolate:
            act = next((act for act in self.story.acts if isolate in act.things), None)
            lines.append(f"power: {self.story.power}")
            lines.append(
                f"isolate: {self._name(isolate)}"
                + (f"  # heard @{clock(act.start)}: {self._words(act.quote, 90)}" if act else "")
            )
        verdict = self.story.verdict
        if verdict is not None:
            lines.append(
                f"verdict: {{points: {verdict.points:g}, out_of: {verdict.out_of:g}}}"
                f"  # heard @{clock(verdict.quote.start)}: {self._words(verdict.quote, 90)}"
            )
        return [*lines, "---"]

    # ------------------------------------------------------------ headings and hazards

    def _heading(self, row: Row) -> list[str]:
        job = row.job
        assert job is not None
        marks = f" {job.after}" if job.after and row.level == 0 else ""
        time = "" if job.trip else f" @{clock(job.start)}"
        lines = [f"## {job.title}{marks}{time}", ""]
        if row.picture:
            lines += [row.picture, ""]
        if job.trip:
            lines += [f"> heard @{clock(job.trip.quote.start)}: {escaped(self._words(job.trip.quote, 300))}", ""]
        return lines

    def _hazard(self, aside: Aside) -> list[str]:
        words = aside.text[:1].upper() + aside.text[1:]
        said = f"> heard @{clock(aside.quote.start)}: {escaped(self._words(aside.quote))}"
        return [f"> {aside.signal}: {escaped(words)}.", "", said, ""]

    # ------------------------------------------------------------ list lines

    def _line(self, row: Row, act: Act) -> list[str]:
        bullet = "-" if row.job is not None and row.job.free else "1."
        indent = " " * (len(bullet) + 1)
        heard = [f"{indent}> heard @{clock(act.start)}: {escaped(self._words(act.quote))}"]
        if row.level >= 2:
            return [f"{bullet} Unclear, to be written by hand. @{clock(act.start)}", *heard, ""]
        sentence = self._sentence(row, act)
        lines = [f"{bullet} {sentence} @{clock(act.start)}"]
        if row.level == 0:
            for aside in act.risks:
                lines.append(f"{indent}{self._risk(aside, act)}")
                heard.append(self._also(indent, aside, act))
            for aside in act.refits:
                lines.append(f"{indent}{{? refit {_plain(aside.text)}}}")
                heard.append(self._also(indent, aside, act))
        heard += [self._told(indent, thing, act) for thing in (*act.things, *act.supplies)]
        heard += [
            f"{indent}> heard @{clock(thing.quote.start)}: {escaped(self._words(thing.quote))}"
            for thing in act.things
            if isinstance(thing, Screws) and thing.said
        ]
        lines += list(dict.fromkeys(line for line in heard if line))
        if row.picture:
            lines += ["", f"{indent}{row.picture}"]
        return [*lines, ""]

    def _also(self, indent: str, aside: Aside, act: Act) -> str:
        """The words of a remark, unless they stand there already."""
        if act.quote.first <= aside.quote.first and aside.quote.last <= act.quote.last:
            return ""
        return f"{indent}> heard @{clock(aside.quote.start)}: {escaped(self._words(aside.quote))}"

    def _told(self, indent: str, thing: Named | Screws, act: Act) -> str:
        """The words in which a thing was first told, where they are not those of the action."""
        quote = thing.said or thing.quote
        if (act.quote.first <= quote.first and quote.last <= act.quote.last) or id(thing) in self.told:
            return ""
        self.told.add(id(thing))
        if isinstance(thing, Named) and not thing.values and not thing.type and thing.kind != "clip":
            return ""
        return f"{indent}> heard @{clock(quote.start)}: {escaped(self._words(quote))}"

    def _sentence(self, row: Row, act: Act) -> str:
        bare = row.level > 0
        objects = [self._thing(thing, bare) for thing in act.things]
        words = act.verb
        if act.do == "treat" and act.verb == "Apply":
            words += " " + _list([self._supply(one) for one in act.supplies])
            if objects:
                words += " to " + _list(objects)
        elif act.do == "hand":
            words += " " + _list(
                [
                    self._thing(one, bare) if one.kind == "tool" else self._supply(one)
                    for one in (*act.tools, *act.supplies)
                ]
            )
        else:
            words += " " + _list(objects) if objects else f" {act.plain}" if act.plain else ""
            used = [self._thing(tool, bare) for tool in act.tools] + [self._supply(one) for one in act.supplies]
            if used:
                words += " with " + _list(used)
        for mark in self._values(act):
            words += f" {mark}"
        if act.optional and not bare:
            words += " {? optional}"
        return words.strip() + "."

    def _values(self, act: Act) -> list[str]:
        marks = []
        if act.heat:
            shown = sorted(act.heat, key=lambda one: one.unit not in ("°C", "°F"))
            marks.append(f"{{? heat {', '.join(one.text for one in shown)}}}")
        marks += [f"{{? wait {one.text}}}" for one in act.waits]
        where = f" {_plain(act.where)}" if act.where else ""
        marks += [f"{{? measure {one.text}{where}}}" for one in act.measures]
        return marks

    def _risk(self, aside: Aside, act: Act) -> str:
        thing = aside.thing if aside.thing is not None else next(iter(act.things), None)
        known = thing is not None and id(thing) in self.declared
        if not known:
            thing = next((one for one in act.things if id(one) in self.declared), None)
        if thing is None:
            return (
                f"{{? refit take care: {_plain(aside.text)}}}"
                if False
                else f"Take care: {escaped(_plain(aside.text))}."
            )
        return f"{{? risk {self._name(thing)}: {_plain(aside.text)}}}"

    # ------------------------------------------------------------ marks

    def _name(self, thing: Named | Screws) -> str:
        """The name of a thing in the note: alone among the note's names."""
        if id(thing) in self.declared:
            return self.declared[id(thing)]
        if isinstance(thing, Screws):
            return self._letter(thing)
        name = _clean(thing.name)
        taken = self.names.get(name.casefold())
        if name.casefold() in self.kept and id(thing) not in self.declared:
            taken = taken or -1
        if taken is not None and taken != id(thing):
            for other in (
                f"{name} {thing.kind}",
                f"other {name}",
                f"third {name}",
                f"further {name} at {int(thing.quote.start)} s",
            ):
                if self.names.get(other.casefold()) in (None, id(thing)):
                    name = other
                    break
        self.names[name.casefold()] = id(thing)
        return name

    def _letter(self, row: Screws) -> str:
        sets = [one for one in self.story.screws if not one.split]
        number = sets.index(row) if row in sets else len(sets)
        letter = self.letters[number] if number < len(self.letters) else _letter_of(number)
        return f"{letter} {row.size[1:]} mm" if row.size.startswith("x") else letter

    def _thing(self, thing: Named | Screws, bare: bool) -> str:
        """A mark: with all that is known where the thing is first met, by its name after that."""
        name = self._name(thing)
        if id(thing) in self.declared:
            return f"{{? {name}}}"
        self.declared[id(thing)] = name
        if isinstance(thing, Screws):
            return self._screws(thing, name, bare)
        details = ""
        keys = []
        if thing.kind == "part":
            details = ", ".join(one.text for one in thing.values if one.unit in ("mAh", "Ah", "Wh", "V"))
            if thing.cls and thing.cls != "other" and not bare:
                keys.append(f"class={thing.cls}")
            if thing.count and thing.count > 1:
                keys.append(f"qty={thing.count}")
        elif thing.kind == "connector":
            details = thing.type
            if thing.count and thing.count > 1:
                keys.append(f"qty={thing.count}")
        elif thing.kind in ("clip", "fastening", "solder"):
            details = str(thing.count) if thing.count else ""
        mark = f"{{? {thing.kind} {name}" + (f": {details}" if details else "")
        return mark + "".join(f"; {key}" for key in keys) + "}"

    def _screws(self, row: Screws, name: str, bare: bool) -> str:
        size = "" if row.size.startswith("x") else row.size
        details = " ".join(word for word in (f"{row.count}x" if row.count else "", row.drive, size) if word)
        keys = []
        if row.captive:
            keys.append("captive")
        if row.left_hand:
            keys.append("hand=left")
        if row.torque and not bare:
            keys.append(f"torque={row.torque.text}")
        mark = f"{{? screw {name}" + (f": {details}" if details else "")
        return mark + "".join(f"; {key}" for key in keys) + "}"

    def _supply(self, thing: Named) -> str:
        name = self._name(thing)
        if id(thing) in self.declared:
            return f"{{? {name}}}"
        self.declared[id(thing)] = name
        details = ", ".join(one.text for one in sorted(thing.values, key=lambda one: one.unit != "%"))
        return f"{{? supply {name}" + (f": {details}" if details else "") + "}"

    # ------------------------------------------------------------ words

    def _words(self, quote: Quote, most: int = 400) -> str:
        words = " ".join(word.raw for word in self.heard[quote.first : quote.last + 1])
        return words if len(words) <= most else words[: most - 1].rsplit(" ", 1)[0] + " …"


def _letter_of(number: int) -> str:
    """0 A, 25 Z, 26 AA."""
    return chr(65 + number) if number < 26 else f"{chr(64 + number // 26)}{chr(65 + number % 26)}"


def _list(names: Sequence[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}" if names else ""


def _clean(name: str) -> str:
    return re.sub(r"[{};:=|\\]", " ", name).strip()


def _plain(text: str) -> str:
    """Words that may stand in a mark."""
    return (
        re.sub(r"\s+", " ", re.sub(r"[{};\\]", " ", text))
        .replace(":", ",")
        .replace(" 's", "'s")
        .replace(" 're", "'re")
        .strip()
    )


def escaped(text: str) -> str:
    """Words as plain text to Markdown and to the notes language."""
    text = text.replace(" 's", "'s").replace(" 're", "'re")
    return re.sub(r"([\\`*_{}\[\]<>#|~!&])", r"\\\1", text)


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'
