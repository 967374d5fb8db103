"""The content of an operation -> lines, hazards, pictures and prose for the templates, each line with its number.

Lines of `1.` lists are counted through an operation, lines of `-` lists are lettered: a number says that the order
matters, a letter that it does not. A line inside a line carries its parent's.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import field

from markupsafe import Markup, escape

from guidec.model import types as model
from guidec.model.types import Hazard, Line, Lines, Operation, Shown
from guidec.notes.syntax import Mark
from guidec.outputs.figure import key
from guidec.outputs.fill import fill, joined
from guidec.outputs.inline import Pen, after_colon, bound
from guidec.quick import dataclass
from guidec.source import Span

__all__ = ["Content", "Counts", "Draw", "HazardView", "LineView", "contents", "hazard", "letters", "stamp"]

_EMPTY = Markup("")
Draw = Callable[[Shown], tuple[int, Markup]]


@dataclass(frozen=True, slots=True)
class HazardView:
    """A hazard: `signal` in lower case for its class, `word` in the guide's language."""

    signal: str
    word: str
    html: Markup
    added: bool


@dataclass(frozen=True, slots=True)
class LineView:
    """One line. `id` is its first action's, `also` the ids of the others; a remark has neither."""

    id: str
    also: tuple[str, ...]
    label: str
    name: str
    html: Markup
    time: str
    flags: tuple[str, ...]
    hazards: tuple[HazardView, ...]
    risks: tuple[tuple[Markup, Markup], ...]
    refits: tuple[Markup, ...]
    below: tuple[Content, ...]
    remark: bool


@dataclass(frozen=True, slots=True)
class Content:
    """One thing that stands in an operation. `kind`: lines, hazard, picture, prose or group."""

    kind: str
    html: Markup = _EMPTY
    lines: tuple[LineView, ...] = ()
    ordered: bool = True
    hazard: HazardView | None = None
    number: int = 0
    caption: str = ""
    key: Markup = _EMPTY


@dataclass(slots=True)
class _Count:
    """Where the numbers and letters of one level have got to."""

    ordered: int = 0
    free: int = 0

    def next(self, ordered: bool) -> str:
        if ordered:
            self.ordered += 1
            return str(self.ordered)
        self.free += 1
        return letters(self.free)


@dataclass(slots=True)
class Counts:
    """Gives the lines of one operation their labels, in the order in which they stand."""

    levels: dict[str, _Count] = field(default_factory=dict)

    def label(self, under: str, *, ordered: bool, action: bool) -> tuple[str, str]:
        """The own label of the next line below the one labelled `under`, and the whole; a free remark has none."""
        own = self.levels.setdefault(under, _Count()).next(ordered) if action or ordered else ""
        return own, f"{under}.{own}" if under and own else own or under


@dataclass(frozen=True, slots=True)
class _Writer:
    """What the content of one operation is written with."""

    pen: Pen
    draw: Draw
    number: str
    placed: frozenset[Span]
    labels: Mapping[Span, str] | None
    counts: Counts = field(default_factory=Counts)


def stamp(seconds: float) -> str:
    """Seconds as `m:ss` or `h:mm:ss`."""
    minutes, rest = divmod(int(seconds), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{rest:02}" if hours else f"{minutes}:{rest:02}"


def letters(number: int) -> str:
    """1 -> a, 26 -> z, 27 -> aa."""
    text = ""
    while number:
        number, rest = divmod(number - 1, 26)
        text = chr(ord("a") + rest) + text
    return text


def hazard(pen: Pen, item: Hazard) -> HazardView:
    """A hazard in the author's words, or an added one."""
    first = after_colon(pen.text(item.inline)) if item.inline else escape(bound(pen.words.figures(item.text)))
    html = fill("<p>{}</p>", first) + joined("", [pen.block(block) for block in item.blocks])
    return HazardView(item.signal.lower(), pen.words(item.signal.value), html, item.added)


def contents(
    pen: Pen,
    draw: Draw,
    operation: Operation | None,
    content: Sequence[model.Content],
    actions: Sequence[str],
    labels: Mapping[Span, str] | None = None,
) -> tuple[Content, ...]:
    """What stands in an operation, in order; each hazard that belongs to an action stands in that action's line,
    and those of the whole operation, which the page shows first, are left out. `labels`: of the lines by their
    spans, where they are not to be counted here."""
    known = [] if operation is None else [*operation.hazards]
    known += [item for name in actions for item in pen.guide.actions[name].hazards]
    known += pen.guide.hazards if operation is None else ()
    number = str(operation.number) if operation else ""
    return tuple(_each(_Writer(pen, draw, number, frozenset(item.span for item in known), labels), content, ""))


def _each(writer: _Writer, content: Sequence[model.Content], under: str) -> Iterator[Content]:
    for item in content:
        match item:
            case Lines():
                lines = tuple(_line(writer, line, item.ordered, under) for line in item.lines)
                yield Content(
                    "lines", lines=lines, ordered=item.ordered or sum(not line.remark for line in lines) < 2
                )
            case Hazard() if item.span not in writer.placed:
                yield Content("hazard", hazard=hazard(writer.pen, item))
            case Shown():
                number, html = writer.draw(item)
                marks = key(writer.pen, item, number)
                yield Content("picture", html, number=number, caption=item.title or item.alt, key=marks)
            case model.Group() if writer.number:
                yield Content("group", writer.pen.text(item.inline))
            case model.Group():
                yield Content("prose", fill('<p class="head">{}</p>', writer.pen.text(item.inline)))
            case model.Prose():
                html = writer.pen.block(item.block)
                if html.striptags().strip():
                    yield Content("prose", html)


def _line(writer: _Writer, line: Line, ordered: bool, under: str) -> LineView:
    pen = writer.pen
    actions = [pen.guide.actions[name] for name in line.actions]
    if writer.labels is None:
        own, label = writer.counts.label(under, ordered=ordered, action=bool(actions))
    else:
        own = label = writer.labels.get(line.span, "")
    ids = [f"a-{name.replace('/', '-')}" for name in line.actions]
    time = next((action.time for action in actions if action.time), None)
    marks = line.inline.marks
    return LineView(
        id=ids[0] if ids else "",
        also=tuple(ids[1:]),
        label=label if own else "",
        name=f"{writer.number}.{label}",
        html=pen.text(line.inline),
        time=_times(time.start, time.end) if time else "",
        flags=_flags(pen, actions),
        hazards=tuple(hazard(pen, item) for action in actions for item in action.hazards),
        risks=tuple(_risk(pen, actions, mark) for mark in marks if mark.kind == "risk"),
        refits=tuple(pen.say_more(mark) for mark in marks if mark.kind == "refit"),
        below=tuple(_each(writer, line.content, label)),
        remark=not actions,
    )


def _times(start: float, end: float | None) -> str:
    return stamp(start) if end is None else f"{stamp(start)}–{stamp(end)}"


def _flags(pen: Pen, actions: list[model.Action]) -> tuple[str, ...]:
    on = {"optional": [one for one in actions if one.optional], "partly": [one for one in actions if one.partly]}
    return tuple([pen.words(key) for key, found in on.items() if found])


def _risk(pen: Pen, actions: list[model.Action], mark: Mark) -> tuple[Markup, Markup]:
    """What is at risk, and how."""
    risk = next((risk for action in actions for risk in action.risks if risk.span == mark.span), None)
    if not mark.details:
        return Markup(""), pen.say_more(mark)
    if risk is None or risk.thing is None:
        return escape(mark.name), pen.say_more(mark)
    name = pen.thing(risk.thing.id, risk.thing.name) if risk.thing.id else escape(risk.thing.name)
    return name, pen.say_more(mark)
