"""A screw set's notation -> what in it could not be read, or can hardly be meant."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from guidec.model.notation import aside_key, tokens
from guidec.model.types import FastenerNotation
from guidec.rules.finding import Finding
from guidec.source import Span
from guidec.trade.drives import drive_family, likely_drives, sizeless_drives
from guidec.trade.threads import coarse_pitch

__all__ = ["faults"]

_DOUBTED = ("sizeless", "inch", "rest")


def faults(text: str, offset: int, notation: FastenerNotation) -> Iterator[Finding]:
    """The findings for the details `text` of a screw set, which start at `offset` in the note."""
    for token in tokens(text):
        if token.role not in _DOUBTED:
            continue
        span = Span(offset + token.start, offset + token.end)
        if token.role == "sizeless":
            yield _drive(token.value, span)
        elif token.role == "inch":
            yield Finding.at("M121", span, variant="inch", words=token.text, suggest=(token.value,))
        else:
            key = aside_key(token.text)
            yield Finding.at(
                "M121", span, variant=_variant(key), words=token.text, suggest=_as_key(key, token.text)
            )
    if notation.count == 0 and notation.count_span:
        yield Finding.at("M112", notation.count_span, variant="count", key="count", value="0")
    yield from _pitch(notation)


def _drive(typed: str, span: Span) -> Finding:
    family = sizeless_drives(typed)
    if family:
        return Finding.at("M120", span, variant="size", drive=typed, suggest=family[1:4], family=family[0])
    return Finding.at("M120", span, drive=typed, suggest=likely_drives(typed))


def _variant(key: str) -> str:
    return "key" if key else ""


def _as_key(key: str, word: str) -> tuple[str, ...]:
    if not key:
        return ()
    if key == "captive":
        return ("captive",)
    return (f"{key}={'left' if key == 'hand' else word.strip('.,')}",)


def _pitch(notation: FastenerNotation) -> Iterator[Finding]:
    """A pitch that the thread cannot have: most likely a length (`NUT5 M2.5x6`), or the two swapped."""
    thread, span = notation.thread, notation.thread_span
    if thread is None or span is None or thread.pitch_mm is None or thread.pitch_mm <= thread.diameter_mm / 2:
        return
    nut = any(drive_family(drive) == "NUT" for drive in notation.drives)
    facts: dict[str, Any] = {
        "thread": thread.text,
        "pitch": f"{thread.pitch_mm:g}",
        "size": f"{thread.diameter_mm:g}",
    }
    if thread.length_mm is not None and thread.length_mm < thread.pitch_mm:
        better = f"{thread.system}{thread.diameter_mm:g}x{thread.length_mm:g}x{thread.pitch_mm:g}"
        yield Finding.at("M122", span, variant="swapped", suggest=(better,), **facts)
    elif nut and thread.length_mm is None:
        coarse = coarse_pitch(thread.diameter_mm)
        better = f"{thread.system}{thread.diameter_mm:g}x{coarse:g}x{thread.pitch_mm:g}" if coarse else ""
        yield Finding.at("M122", span, suggest=(better,) if better else (), **facts)
    else:
        yield Finding.at("M122", span, variant="plain", **facts)
