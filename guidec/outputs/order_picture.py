"""The order of the operations -> a picture of it as inline SVG, and the same in words.

Ink alone tells everything: a box for each operation with the parts it frees, a double frame for another way, a bar
for what makes the device dead, a broken line where any one of several ways serves.
"""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from guidec.outputs.box_text import wrapped
from guidec.outputs.fill import fill
from guidec.outputs.order_layout import Laid, lay_out
from guidec.outputs.precedence import Node, Precedence
from guidec.outputs.words import Words
from guidec.quick import dataclass

__all__ = ["OrderRow", "OrderView", "order_view"]

WIDE, PAD = 150.0, 8.0
TITLE, SMALL = 13.5, 12.0
PAGE = 1000.0
"""How much of a drawing (in its own units) a page of paper takes; a taller one is parted between two layers."""
ARROW = 6.0
PAPER = ("#000", ' font-family="Sheet Sans, DejaVu Sans, sans-serif"')
SCREEN = ("currentColor", "")
"""Ink and font of a drawing."""


@dataclass(frozen=True, slots=True)
class OrderRow:
    """One operation in words: what it waits for, what it frees, and what else the picture shows of it."""

    number: int
    id: str
    title: str
    waits: str
    frees: str
    more: str


@dataclass(frozen=True, slots=True)
class OrderView:
    """The picture (on paper in as many pieces as it needs), how to read it, and the same in words."""

    pictures: tuple[Markup, ...]
    reading: str
    rows: tuple[OrderRow, ...]


def order_view(order: Precedence, says: Words, *, paper: bool) -> OrderView:
    """The picture of an order."""
    texts = {node.id: _Text(node, says) for node in order.nodes}
    waits = [(before, wait.after) for wait in order.waits for before in wait.before]
    choices = {(before, wait.after) for wait in order.waits if len(wait.before) > 1 for before in wait.before}
    laid = lay_out({own: (WIDE, text.height) for own, text in texts.items()}, waits, choices)
    drawing = _Drawing(order, texts, laid, choices, *(PAPER if paper else SCREEN))
    bands = _bands(laid) if paper else [(0.0, laid.height)]
    return OrderView(
        tuple(drawing.svg(says, at, *band, of=len(bands)) for at, band in enumerate(bands)),
        says("order-reading") + _signs(order, says),
        tuple(_row(order, says, node) for node in order.nodes),
    )


def _signs(order: Precedence, says: Words) -> str:
    """What the signs mean that this picture has."""
    found = [says("order-dead")] if any(node.isolates for node in order.nodes) else []
    found += [says("order-other")] if any(node.other for node in order.nodes) else []
    found += [says("order-any")] if any(len(wait.before) > 1 for wait in order.waits) else []
    return "".join(f" {text}" for text in found)


# ---------------------------------------------------------------- words


def _row(order: Precedence, says: Words, node: Node) -> OrderRow:
    numbers = {one.id: one.number for one in order.nodes}
    before = [sorted(numbers[own] for own in wait.before) for wait in order.waits if wait.after == node.id]
    waits = [_any(says, each) for each in sorted(before, key=lambda each: (len(each) > 1, each))]
    return OrderRow(
        node.number,
        node.id,
        node.title,
        says("waits-for", numbers=says.joined(waits)) if waits else says("waits-for-none"),
        says("frees", parts=says.joined(_part(says, *part) for part in node.parts)) if node.parts else "",
        " ".join(text[0].upper() + text[1:] + "." for text in _more(node, says)),
    )


def _any(says: Words, numbers: list[int]) -> str:
    text = says("or").join(map(str, numbers))
    return f"({text})" if len(numbers) > 1 else text


def _part(says: Words, name: str, how: str) -> str:
    return name if how == "removed" else f"{name} {says(f'how-short.{how}')}"


def _more(node: Node, says: Words) -> list[str]:
    found = [says("another-way", number=node.other)] if node.other else []
    found += [says("makes-dead")] if node.isolates else []
    return found + ([says("optional")] if node.optional else [])


# ---------------------------------------------------------------- boxes


class _Text:
    """What stands in a box, line by line: the title, then what more there is to say, then the parts."""

    def __init__(self, node: Node, says: Words) -> None:
        room = WIDE - 2 * PAD
        self.title = wrapped(f"{node.number} {node.title}", TITLE * 1.05, room)
        self.more = [line for text in _more(node, says) for line in wrapped(text, SMALL, room)]
        self.parts = [line for part in node.parts for line in wrapped(_part(says, *part), SMALL, room)]
        self.top = PAD + len(self.title) * (TITLE + 3) + len(self.more) * (SMALL + 3)
        self.height = self.top + (len(self.parts) * (SMALL + 3.5) + 9 if self.parts else 0) + PAD - 3


# ---------------------------------------------------------------- drawing


def _bands(laid: Laid) -> list[tuple[float, float]]:
    """The pieces of a drawing, top and bottom, parted where no box stands."""
    edges = sorted((box.y - box.height / 2, box.y + box.height / 2) for box in laid.boxes.values())
    gaps, low = [], 0.0
    for top, bottom in edges:
        gaps += [(low + top) / 2] if top > low and low > 0 else []
        low = max(low, bottom)
    found, start = [], 0.0
    for at, gap in enumerate([*gaps, laid.height]):
        following = gaps[at + 1] if at + 1 < len(gaps) else laid.height
        if gap == laid.height or following - start > PAGE:
            found.append((start, gap))
            start = gap
    return found


@dataclass(frozen=True, slots=True)
class _Drawing:
    """Writes the elements of a picture."""

    order: Precedence
    texts: dict[str, _Text]
    laid: Laid
    choices: set[tuple[str, str]]
    ink: str
    font: str

    def svg(self, says: Words, at: int, top: float, bottom: float, *, of: int) -> Markup:
        """One piece of the picture, with its title and description."""
        title = says("order-title") + (f" ({at + 1}/{of})" if of > 1 else "")
        about = says("order-about", operations=len(self.order.nodes), parts=self._parts())
        body = Markup("\n").join([*self._lines(top, bottom), *self._boxes(top, bottom)])
        edge = 4
        box = f"{-edge} {_n(top - edge)} {_n(self.laid.width + 2 * edge)} {_n(bottom - top + 2 * edge)}"
        size = f'width="{_n(self.laid.width + 2 * edge)}" height="{_n(bottom - top + 2 * edge)}"'
        return fill(
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" {size} role="img" '
            f'aria-labelledby="order-title-{at} order-desc-{at}" fill="none" stroke-width="1.3"{self.font}>\n'
            '<title id="order-title-{n}">{title}</title><desc id="order-desc-{n}">{about}</desc>\n{body}\n</svg>',
            n=at,
            title=title,
            about=about,
            body=body,
        )

    def _parts(self) -> int:
        return len({name for node in self.order.nodes for name, _ in node.parts})

    def _lines(self, top: float, bottom: float) -> Iterator[Markup]:
        for line in self.laid.lines:
            ys = [y for _, y in line.points]
            if min(ys) > bottom or max(ys) < top:
                continue
            dashed = ' stroke-dasharray="6 4"' if (line.before, line.after) in self.choices else ""
            points = list(line.points)
            if line.after:
                points[-1] = _short(points[-2], points[-1])
            path = "M" + " L".join(f"{_n(x)} {_n(y)}" for x, y in points)
            yield Markup(f'<path d="{path}" stroke="{self.ink}"{dashed}/>')
            if line.after and top <= line.points[-1][1] <= bottom + 1:
                yield Markup(f'<path d="{_arrow(line.points[-2], line.points[-1])}" fill="{self.ink}"/>')
        for x, y in self.laid.branchings:
            if top <= y <= bottom:
                yield Markup(f'<circle cx="{_n(x)}" cy="{_n(y)}" r="3" fill="{self.ink}"/>')

    def _boxes(self, top: float, bottom: float) -> Iterator[Markup]:
        for node in self.order.nodes:
            box = self.laid.boxes[node.id]
            if top <= box.y <= bottom:
                left, upper = box.x - box.width / 2, box.y - box.height / 2
                yield from self._frame(node, left, upper, box.height)
                yield from self._words(self.texts[node.id], left, upper)

    def _frame(self, node: Node, x: float, y: float, height: float) -> Iterator[Markup]:
        yield _rect(x, y, WIDE, height, self.ink)
        if node.other:
            yield _rect(x + 3, y + 3, WIDE - 6, height - 6, self.ink)
        if node.isolates:
            yield Markup(f'<rect x="{_n(x - 2)}" y="{_n(y)}" width="5" height="{_n(height)}" fill="{self.ink}"/>')

    def _words(self, text: _Text, x: float, y: float) -> Iterator[Markup]:
        at = y + PAD
        for line in text.title:
            at += TITLE + 3
            yield self._line(line, x, at - 5, TITLE, 600)
        for line in text.more:
            at += SMALL + 3
            yield self._line(line, x, at - 4, SMALL, 400, ' font-style="italic"')
        if text.parts:
            rule = y + text.top + 4
            yield Markup(f'<path d="M{_n(x)} {_n(rule)} H{_n(x + WIDE)}" stroke="{self.ink}" stroke-width=".7"/>')
            at = rule + 2
        for line in text.parts:
            at += SMALL + 3.5
            yield self._line(line, x, at - 3, SMALL, 400)

    def _line(self, words: str, x: float, y: float, size: float, weight: int, more: str = "") -> Markup:
        font = f'font-size="{_n(size)}" font-weight="{weight}"{more}'
        tag = f'<text x="{_n(x + PAD)}" y="{_n(y)}" {font} fill="{self.ink}">'
        return fill(tag + "{}</text>", words)


def _rect(x: float, y: float, width: float, height: float, ink: str) -> Markup:
    size = f'width="{_n(width)}" height="{_n(height)}"'
    return Markup(f'<rect x="{_n(x)}" y="{_n(y)}" {size} stroke="{ink}"/>')


def _short(before: tuple[float, float], end: tuple[float, float]) -> tuple[float, float]:
    """The end of a line drawn back to the foot of its arrow."""
    (x, y), (dx, dy) = end, _way(before, end)
    return x - dx * ARROW, y - dy * ARROW


def _way(before: tuple[float, float], end: tuple[float, float]) -> tuple[float, float]:
    length = max(abs(end[0] - before[0]) + abs(end[1] - before[1]), 1e-9)
    return (end[0] - before[0]) / length, (end[1] - before[1]) / length


def _arrow(before: tuple[float, float], end: tuple[float, float]) -> str:
    (x, y), (dx, dy) = end, _way(before, end)
    foot, half = (x - dx * ARROW * 1.5, y - dy * ARROW * 1.5), ARROW * 0.6
    sides = ((foot[0] - dy * half, foot[1] + dx * half), (foot[0] + dy * half, foot[1] - dx * half))
    return f"M{_n(x)} {_n(y)} " + " ".join(f"L{_n(a)} {_n(b)}" for a, b in sides) + " Z"


def _n(value: float) -> str:
    """A number with one decimal at most."""
    return (
        f"{value:.1f}".removesuffix(".0").replace("-0", "0")
        if abs(value) < 0.05
        else f"{value:.1f}".removesuffix(".0")
    )
