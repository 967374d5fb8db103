"""Text outside of lists and quotes -> what reads there like an action or a hazard, and is neither."""

from __future__ import annotations

import re
from collections.abc import Iterable

from guidec.model.clauses import clauses, word
from guidec.model.context import Context
from guidec.model.objects import roles
from guidec.model.types import Family, Signal
from guidec.notes.syntax import Heading, Inline, ItemList, Paragraph, Piece, Table, Word
from guidec.rules.finding import Finding
from guidec.source import Span

__all__ = ["check_early", "check_paragraph", "check_signal", "check_table", "has_other_level"]

_CHANGES = frozenset((Family.UNDO, Family.SOFTEN, Family.MOVE))
_STEP = frozenset(("step", "schritt", "no", "nr"))
_NUMBER = re.compile(r"\d{1,3}[a-z]?|[a-z]")
_AFTER = frozenset(".:)-–—")
_ALWAYS = {signal.value: signal.value for signal in Signal}


def check_paragraph(inline: Inline, context: Context) -> bool:
    """Report a paragraph that reads like an action ("Step 1. Lift off {lid}"); whether it does."""
    return _check((inline,), "paragraph", context)


def check_table(table: Table, context: Context) -> bool:
    """Report a table with cells that read like actions, once."""
    return _check((cell for row in table.rows for cell in row), "table", context)


def _check(stretches: Iterable[Inline], variant: str, context: Context) -> bool:
    found = [(verb, inline) for inline in stretches if (verb := _acting(inline, context)) is not None]
    for _, inline in found:
        context.doubted.update(mark.span for mark in inline.marks if context.acted_on(mark))
    if found and context.lexicon is not None:
        place = found[0][0]
        context.report(Finding.at("M201", place, variant=variant, verb=context.source.slice(place)))
    return bool(found)


def _acting(inline: Inline, context: Context) -> Span | None:
    """The verb of a stretch that would change something if it stood in a list."""
    lexicon = context.lexicon
    if lexicon is None or not any(context.acted_on(mark) for mark in inline.marks):
        return None
    for line in _lines(inline.pieces, context):
        for clause in clauses(_unnumbered(line), lexicon):
            if clause.last is None and "base" not in clause.sense.forms:
                break
            acted = clause.last is not None or roles(clause, lexicon, context.acted_on).objects
            if acted and clause.sense.family in _CHANGES:
                return clause.verb_span
    return None


def _lines(pieces: tuple[Piece, ...], context: Context) -> list[tuple[Piece, ...]]:
    """The pieces of each line of a stretch."""
    text = context.source.text
    starts = [0]
    for at in range(1, len(pieces)):
        if "\n" in text[pieces[at - 1].span.end : pieces[at].span.start]:
            starts.append(at)
    return [pieces[start:end] for start, end in zip(starts, [*starts[1:], len(pieces)], strict=True)]


def _unnumbered(pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """The pieces without a number of a step before them."""
    words = [word(piece) for piece in pieces[:4]]
    at = 1 if words and words[0] in _STEP else 0
    if at + 1 < len(words) and _NUMBER.fullmatch(words[at]) and words[at + 1] in _AFTER:
        return pieces[at + 2 :]
    return pieces


def check_signal(inline: Inline, context: Context) -> bool:
    """Report text that begins with a signal word and a colon, and is no quote; whether it does."""
    words = [piece for piece in inline.pieces if isinstance(piece, Word) and not _sign(piece.text)]
    if not words or words[0].code:
        return False
    head, upper = words[0], words[0].text.upper()
    signals = {**_ALWAYS, **(context.lexicon.signals if context.lexicon else {})}
    following = context.source.text[head.span.end : head.span.end + 3].lstrip("*_")
    hurts = signals.get(upper) not in (None, "NOTICE") or head.text == upper
    if upper not in signals or not hurts or following[:1] != ":":
        return False
    context.report(
        Finding.at("M212", head.span, variant="quote", word=head.text, signal=upper, suggest=[f"> {upper}:"])
    )
    return True


def _sign(text: str) -> bool:
    return not any(char.isalnum() for char in text)


def check_early(block: ItemList, context: Context, *, level: bool) -> None:
    """Report a list above the first operation that would act on something. `level`: a heading of another level
    stands above it."""
    lines = tuple(_first_lines(block))
    acting = [inline for inline in lines if _acting(inline, context) is not None]
    for inline in lines if acting else ():
        context.doubted.update(mark.span for mark in inline.marks if context.acted_on(mark))
    if acting:
        verb = _acting(acting[0], context)
        variant = "level" if level else ""
        context.report(Finding.at("M211", verb or acting[0].span, variant=variant))


def _first_lines(block: ItemList) -> Iterable[Inline]:
    for item in block.items:
        for one in item.blocks:
            if isinstance(one, ItemList):
                yield from _first_lines(one)
            elif isinstance(one, Paragraph):
                yield one.inline


def has_other_level(blocks: Iterable[object]) -> bool:
    """Whether a heading below the title stands among some blocks."""
    return any(isinstance(block, Heading) and block.level > 1 for block in blocks)
