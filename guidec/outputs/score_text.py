"""What is shown of an assessment -> text for a terminal of 80 columns."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from textwrap import wrap

from wcwidth import wcswidth

from guidec.outputs.score_tables import TableView
from guidec.outputs.score_view import LimitView, PartView, ScoreView
from guidec.outputs.words import Words

__all__ = ["text"]

WIDTH = 80


def text(view: ScoreView, words: Words) -> str:
    """The whole of it."""
    return "\n".join(line.rstrip() for line in _lines(view, words)) + "\n"


def _lines(view: ScoreView, words: Words) -> Iterator[str]:
    yield from _wrapped(_headline(view))
    for said in (view.outside, "" if view.result else view.meaning, view.verdict):
        yield from _wrapped(said)
    if view.result:
        yield from _wrapped(f"{words('score.citation')}: {view.citation}")
        yield from _wrapped(view.limits_of_classes)
        yield from _block(view.scores)
        yield from _wrapped(view.sum)
    yield from _block(view.parts)
    for said in view.part_sums:
        yield from _wrapped(said, "", "  ")
    yield from _listed(words("score.unknowns"), view.unknowns)
    yield from _listed(words("score.assumptions"), view.assumptions)
    yield from _block(view.ideas)
    if view.workings:
        yield from ("", words("score.workings"))
        yield from _wrapped(view.workings_note)
    for part in view.workings:
        yield from _part(part)
    yield from _block(view.classes)
    yield from _wrapped(view.classes_note)
    if view.limits:
        yield from ("", words("score.limits"))
    for limit in view.limits:
        yield from _limit(limit)
    yield from _block(view.operations)
    yield from _block(view.ways)
    yield from _wrapped(view.times_note)


def _headline(view: ScoreView) -> str:
    if not view.result:
        return view.title
    return f"{view.title}: {view.result}" + (f", {view.meaning}" if view.meaning else "")


def _wrapped(said: str, first: str = "", rest: str = "") -> list[str]:
    return wrap(said, WIDTH, initial_indent=first, subsequent_indent=rest, break_on_hyphens=False) if said else []


def _listed(title: str, items: Iterable[str]) -> Iterator[str]:
    items = list(items)
    if items:
        yield from ("", title)
    for item in items:
        yield from _wrapped(item, "- ", "  ")


def _part(part: PartView) -> Iterator[str]:
    yield ""
    yield from _wrapped(part.title, "  ", "  ")
    room = max((wcswidth(label) for label, _ in part.lines), default=0)
    for label, said in part.lines:
        first = f"    {_padded(label, room)}  "
        yield from _wrapped(said, first, " " * wcswidth(first))


def _limit(limit: LimitView) -> Iterator[str]:
    yield ""
    yield from _wrapped(f"{limit.title} ({limit.citation})", "  ", "  ")
    for part, verdict, reasons in limit.rows:
        yield from _wrapped(f"{part}: {verdict}; {'; '.join(reasons)}", "  - ", "    ")
    yield from _wrapped(f"({limit.caution})", "  ", "  ")


# ---------------------------------------------------------------- tables


def _block(table: TableView | None) -> Iterator[str]:
    """A table under its title; the widest column of text is wrapped where the table is too wide."""
    if table is None or not table.rows:
        return
    yield from ("", table.title)
    rows = [tuple(label for _, label in table.columns), *table.rows]
    widths = [max(wcswidth(row[at]) for row in rows) for at in range(len(table.columns))]
    over = sum(widths) + 2 * (len(widths) - 1) - WIDTH
    if over > 0:
        widest = max(range(len(widths)), key=lambda at: widths[at])
        widths[widest] = max(widths[widest] - over, 12)
    for row in rows:
        yield from _row(row, widths, [style for style, _ in table.columns])


def _row(row: tuple[str, ...], widths: list[int], styles: list[str]) -> Iterator[str]:
    cells = [wrap(cell, width) or [""] for cell, width in zip(row, widths, strict=True)]
    for at in range(max(len(cell) for cell in cells)):
        pieces = [cell[at] if at < len(cell) else "" for cell in cells]
        padded = (
            _padded(piece, width, right=style == "right")
            for piece, width, style in zip(pieces, widths, styles, strict=True)
        )
        yield "  ".join(padded)


def _padded(said: str, width: int, *, right: bool = False) -> str:
    blank = " " * max(width - wcswidth(said), 0)
    return blank + said if right else said + blank
