"""What an operation's strip holds -> its cells in words and links."""

from __future__ import annotations

from collections.abc import Iterable

from markupsafe import Markup, escape

from guidec.model import printed
from guidec.model.types import After, Connector, Kind, Operation, Part, Ref, ScrewSet
from guidec.outputs.fill import fill, joined
from guidec.outputs.inline import Pen
from guidec.outputs.strip import Gone, Strip
from guidec.outputs.viewlines import stamp
from guidec.outputs.words import Words
from guidec.quick import dataclass, replace

__all__ = ["StripView", "strip_view"]

SHOWN = 9
"""How many of the parts that are off a strip names; those before are only counted."""


@dataclass(frozen=True, slots=True)
class StripView:
    """The cells of a strip (class, label, value; `wide` in the class of one that takes a line of its own), and the
    few words of it that the running head repeats."""

    label: str
    cells: tuple[tuple[str, str, Markup], ...]
    run: str


def strip_view(pen: Pen, operation: Operation, strip: Strip) -> StripView:
    """The strip of an operation. Cells that the note gives no word for are left out."""
    says = pen.words
    cells = [
        ("time", _time(strip), ""),
        ("side", _side(says, strip), ""),
        ("in-hand", _list(pen.thing(name) for name in strip.tools) or escape(says("bare-hands")), ""),
        ("screws-here", _screws(pen, strip), ""),
        *((("after-also" if item.also else "after"), _after(pen, item), " wide") for item in operation.after),
        ("off-by-now", _off(pen, strip), " wide"),
        ("open-by-now", _list(_gone(pen, item) for item in strip.open), " wide"),
    ]
    return StripView(
        label=says("strip", number=operation.number),
        cells=tuple((name + wide, says(name), value) for name, value, wide in cells if value),
        run=_side(says, strip).striptags(),
    )


def _list(items: Iterable[Markup]) -> Markup:
    return joined(", ", items)


def _time(strip: Strip) -> Markup:
    if strip.time is None:
        return Markup("")
    start, end = stamp(strip.time.start), strip.time.end
    return escape(start if end is None else f"{start}–{stamp(end)}")


def _side(says: Words, strip: Strip) -> Markup:
    if strip.side is None:
        return Markup("")
    first = says.named("side", strip.side)
    if strip.ends_side is None or strip.ends_side == strip.side:
        return escape(first)
    return escape(says("side-turns", first=first, last=says.named("side", strip.ends_side)))


def _screws(pen: Pen, strip: Strip) -> Markup:
    shown = []
    for item in strip.screws:
        thing = pen.guide.things[item.id]
        assert isinstance(thing, ScrewSet)
        notation = replace(thing.notation, count=item.count) if thing.notation else None
        shown.append(pen.thing(item.id, printed.thing_text(replace(thing, notation=notation))))
    return _list(shown) or escape(pen.words("no-screws"))


def _gone(pen: Pen, item: Gone) -> Markup:
    link = pen.thing(item.id)
    return fill("{} ({})", link, pen.words("optional")) if item.optional else link


def _off(pen: Pen, strip: Strip) -> Markup:
    """Parts that are off, the latest named, those long off only counted."""
    says = pen.words
    if strip.together:
        return escape(says("off-back"))
    if not strip.off:
        return escape(says("off-none"))
    early = len(strip.off) - SHOWN
    shown = [_gone(pen, item) for item in strip.off[max(early, 0) :]]
    if early > 0:
        shown.insert(0, escape(says("off-earlier", count=early)))
    return _list(shown)


def _after(pen: Pen, after: After) -> Markup:
    """What an operation's own word puts before it."""
    if after.nothing:
        return escape(pen.words("after-nothing"))
    return _list(_state(pen, ref) for ref in after.refs)


def _state(pen: Pen, ref: Ref) -> Markup:
    """A thing or operation in the state that is waited for."""
    guide, says = pen.guide, pen.words
    thing = guide.things.get(ref.id or "")
    if thing is not None:
        state = "off" if isinstance(thing, Part) else "open" if isinstance(thing, Connector) else "undone"
        name = pen.thing(thing.id, thing.name if thing.kind is Kind.SCREW else None)
        return fill(says(f"state.{state}", name="{name}"), name=name)
    target = guide.operation.get(ref.id or "")
    if target is None:
        return escape(ref.name)
    link = fill('<a href="#op-{}">{} {}</a>', target.id, target.number, target.title)
    return fill(says("state.done", name="{name}"), name=link)
