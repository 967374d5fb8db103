"""Places in a source -> the lines that show them: line numbers, text, carets, and a word at each.

The main place is underlined with `^`, others with `-`. Of a place that runs over many lines the first two and
the last are shown. A line that is too long is cut to the part around its places.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from guidec.messages.cells import Cells, cells
from guidec.messages.diagnostic import Spot
from guidec.quick import dataclass
from guidec.source import Source

__all__ = ["Paint", "excerpt", "gutter"]

Paint = Callable[[str, str], str]
"""(style, text) -> text: styles are `gutter`, `main` and `other`."""

_CUT = "…"


@dataclass(frozen=True, slots=True)
class _Stroke:
    """An underline within one line, in columns; `message` where the place ends."""

    start: int
    end: int
    main: bool
    message: str

    @property
    def style(self) -> str:
        return "main" if self.main else "other"


def gutter(spots: Iterable[Spot]) -> int:
    """The width of the widest line number."""
    return max(len(str(spot.end.line)) for spot in spots)


def excerpt(source: Source, here: Spot, labels: Sequence[Spot], paint: Paint, width: int) -> Iterator[str]:
    """The lines of an excerpt, `width` columns of text at most, without the line that names the file."""
    size = gutter([here, *labels])
    bar = paint("gutter", f"{'':{size}} |")
    yield bar
    before = 0
    shown = _lines([here, *labels])
    for line in shown:
        if before and line - before == 2:
            yield f"{_numbered(line - 1, size, paint)}{_whole(source, line - 1, width)}".rstrip()
        elif before and line - before > 2:
            yield paint("gutter", "...".ljust(size + 2))[:None].rstrip()
        layout = cells(source.line(line))
        strokes = [*_strokes(layout, labels, line, main=False), *_strokes(layout, [here], line, main=True)]
        text, moved = _window(layout, strokes, width)
        yield f"{_numbered(line, size, paint)}{text}".rstrip()
        yield from (f"{bar} {row}" for row in _rows(moved, paint))
        before = line


def _numbered(line: int, size: int, paint: Paint) -> str:
    return paint("gutter", f"{line:>{size}} |") + " "


def _whole(source: Source, line: int, width: int) -> str:
    return _window(cells(source.line(line)), [], width)[0]


def _last_line(spot: Spot) -> int:
    """A place that ends at the start of a line ends, to the eye, on the one before."""
    ends_early = spot.end.column == 1 and spot.end.line > spot.start.line
    return spot.end.line - 1 if ends_early else spot.end.line


def _lines(spots: Iterable[Spot]) -> list[int]:
    lines: set[int] = set()
    for spot in spots:
        first, last = spot.start.line, _last_line(spot)
        lines |= {first, min(first + 1, last), last}
    return sorted(lines)


def _strokes(layout: Cells, spots: Sequence[Spot], line: int, *, main: bool) -> Iterator[_Stroke]:
    for spot in spots:
        last = _last_line(spot)
        if not spot.start.line <= line <= last:
            continue
        indent = next((at for at, shown in zip(layout.columns, layout.shown, strict=False) if shown.strip()), 0)
        start = layout.starts[spot.start.column - 1] if line == spot.start.line else indent
        end = layout.ends[spot.end.column - 1] if line == spot.end.line else layout.width
        yield _Stroke(start, max(end, start + 1), main, spot.message if line == last else "")


def _window(layout: Cells, strokes: list[_Stroke], width: int) -> tuple[str, list[_Stroke]]:
    """The text of a line, cut to `width` columns around its strokes, and the strokes moved along."""
    if layout.width <= width:
        return "".join(layout.shown), strokes
    focus = next((stroke.start for stroke in strokes if stroke.main), strokes[0].start if strokes else 0)
    first = min(stroke.start for stroke in strokes) if strokes else 0
    anchor = first if focus - first < width * 2 // 3 else focus
    low = min(max(anchor - width // 4, 0), layout.width - width)
    low = 0 if anchor < width // 2 else low
    high = low + width
    kept = [k for k in range(len(layout.shown)) if layout.columns[k] >= low and layout.columns[k + 1] <= high]
    left, right = layout.columns[kept[0]], layout.columns[kept[-1] + 1]
    head = _CUT if left > 0 else ""
    text = head + "".join(layout.shown[k] for k in kept) + (_CUT if right < layout.width else "")
    shift = len(head) - left
    return text, [_moved(stroke, left, right, shift) for stroke in strokes]


def _moved(stroke: _Stroke, left: int, right: int, shift: int) -> _Stroke:
    start = min(max(stroke.start, left), right)
    return _Stroke(start + shift, max(min(stroke.end, right), start + 1) + shift, stroke.main, stroke.message)


def _rows(strokes: list[_Stroke], paint: Paint) -> Iterator[str]:
    """The underlines of a line, the last word beside them, every other word on a row of its own."""
    if not strokes:
        return
    row: dict[int, tuple[str, str]] = {}
    for stroke in sorted(strokes, key=lambda stroke: (stroke.start - stroke.end, stroke.main)):  # short over long
        sign = "^" if stroke.main else "-"
        row |= dict.fromkeys(range(stroke.start, stroke.end), (stroke.style, sign))
    said = sorted((stroke for stroke in strokes if stroke.message), key=lambda stroke: (stroke.start, stroke.main))
    beside = said[-1] if said and said[-1].end >= max(stroke.end for stroke in strokes) else None
    underline = _painted(row, paint)
    yield f"{underline} {paint(beside.style, beside.message)}" if beside else underline
    waiting = said[:-1] if beside else said
    while waiting:
        stroke = waiting[-1]
        rails = {other.start: (other.style, "|") for other in waiting[:-1] if other.start < stroke.start}
        lead = _painted(rails, paint)
        yield lead + " " * (stroke.start - _width(rails)) + paint(stroke.style, stroke.message)
        waiting = waiting[:-1]


def _width(row: dict[int, tuple[str, str]]) -> int:
    return max(row) + 1 if row else 0


def _painted(row: dict[int, tuple[str, str]], paint: Paint) -> str:
    """Single characters by column -> a string, each run of one style painted at once."""
    out, run, style = [], "", ""
    for column in range(_width(row)):
        now, sign = row.get(column, ("", " "))
        if now != style:
            out.append(paint(style, run) if style else run)
            run, style = "", now
        run += sign
    return "".join([*out, paint(style, run) if style else run])
