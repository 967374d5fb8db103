"""Quotes that start with a signal word -> hazards."""

from __future__ import annotations

from collections.abc import Mapping
from difflib import get_close_matches

from guidec.model.clauses import word
from guidec.model.context import Context
from guidec.model.printed import text
from guidec.model.types import Hazard, Signal
from guidec.notes.syntax import Paragraph, Piece, Quote, Word
from guidec.rules.finding import Finding

__all__ = ["hazard", "is_heard"]

_PLAIN = frozenset({"NOTE", "NOTES", "NOTIZ"})
_OTHERS = {"WARN": "WARNING", "ATTENTION": "CAUTION", "BEWARE": "WARNING", "HAZARD": "WARNING"}
_DASHES = frozenset("-–—!.")
_ALWAYS = {signal.value: signal.value for signal in Signal}


def is_heard(quote: Quote, context: Context) -> bool:
    """Whether a quote keeps what was said in the recording (`> heard @1:12: words`): it is never printed."""
    words = context.source.slice(quote.span).lstrip("> \t").split(None, 1)
    return len(words) == 2 and words[0] == "heard" and words[1].startswith("@")


def hazard(quote: Quote, context: Context) -> Hazard | None:
    """The hazard a quote states, or None. A signal word in other letters is reported: it may be meant as one."""
    first = quote.blocks[0] if quote.blocks else None
    if not isinstance(first, Paragraph) or len(first.inline.pieces) < 2:
        return None
    head, colon, *rest = first.inline.pieces
    if not isinstance(head, Word):
        return None
    signals = {**_ALWAYS, **(context.lexicon.signals if context.lexicon else {})}
    if word(colon) != ":":
        _check_colon(head, colon, signals, context)
        return None
    if head.text not in signals:
        meant = _meant(head.text, signals)
        if meant:
            context.report(Finding.at("M212", head.span, word=head.text, signal=meant, suggest=[meant]))
        return None
    words = [text(rest, context.source, context.printed), *_further(quote, context)]
    return Hazard(
        quote.span,
        Signal(signals[head.text]),
        "\n".join(filter(None, words)),
        first.inline,
        blocks=quote.blocks[1:],
    )


def _check_colon(head: Word, following: Piece, signals: Mapping[str, str], context: Context) -> None:
    """Report a signal word that stands for itself, in capitals or on a line of its own, and has no colon."""
    upper = head.text.upper()
    apart = "\n" in context.source.text[head.span.end : following.span.start] or word(following) in _DASHES
    if upper in signals and (apart or (head.text == upper and len(upper) > 1)):
        found = Finding.at("M212", head.span, variant="colon", word=head.text, signal=upper, suggest=[f"{upper}:"])
        context.report(found)


def _meant(typed: str, signals: Mapping[str, str]) -> str:
    """The signal word that a slip, small letters or another word may stand for; nothing for a plain note."""
    upper = typed.upper()
    if upper in signals or upper in _PLAIN:
        return upper if upper in signals else ""
    return _OTHERS.get(upper) or next(iter(get_close_matches(upper, signals, n=1, cutoff=0.8)), "")


def _further(quote: Quote, context: Context) -> list[str]:
    """The text of the quote's other paragraphs."""
    more: list[tuple[Piece, ...]] = [one.inline.pieces for one in quote.blocks[1:] if isinstance(one, Paragraph)]
    return [text(pieces, context.source, context.printed) for pieces in more]
