"""Value marks (`heat`, `wait`, `torque`, `measure`) -> values with units, each with its place."""

from __future__ import annotations

import re

from guidec.model.quantities import by_the_way, fault, missing, read_one
from guidec.model.said import raw_text
from guidec.model.types import Heat, Measure, Quantity, Wait
from guidec.notes.syntax import Mark
from guidec.rules.finding import Finding
from guidec.source import Span
from guidec.trade.units import every_quantity

__all__ = ["read_value"]

AnyValue = Heat | Wait | Measure | Quantity
_Read = tuple[AnyValue | None, tuple[Finding, ...]]


def read_value(mark: Mark) -> _Read:
    """What a value mark says and what is wrong with it.

    A value that cannot be read is kept with its text and None for its quantities; a `torque` then gives None.
    """
    text, span = body(mark)
    return _READERS[mark.kind](mark, text, span)


def body(mark: Mark) -> tuple[str, Span]:
    """All that a value mark says, and where: as typed, so that offsets hold, but line ends as blanks."""
    return raw_text(mark, mark.name_span), mark.name_span


def _heat(mark: Mark, text: str, span: Span) -> _Read:
    due = ("temperature", "time")
    found = every_quantity(text, span.start, due)
    findings: list[Finding] = [] if found else [missing(text, span, due, "heat")]
    kept: dict[str, Quantity] = {}
    serves = any(quantity.dimension in due for quantity in found)
    for quantity in found:
        if quantity.dimension not in due:
            if serves and by_the_way(quantity, text, span, due):
                continue
            findings.append(fault(quantity, due, "heat"))
        elif quantity.dimension in kept:
            first = kept[quantity.dimension].span
            word = "a " + quantity.dimension
            findings.append(Finding.at("M134", quantity.span, labels={"first": first}, what="heat", word=word))
        else:
            kept[quantity.dimension] = quantity
    return Heat(mark.span, text, kept.get("temperature"), kept.get("time")), tuple(findings)


def _wait(mark: Mark, text: str, span: Span) -> _Read:
    duration, findings = read_one(text, span, ("time",), "wait")
    return Wait(mark.span, text, duration), findings


def _torque(mark: Mark, text: str, span: Span) -> _Read:
    return read_one(text, span, ("torque",), "torque")


def _measure(mark: Mark, text: str, span: Span) -> _Read:
    found = every_quantity(text, span.start)
    value = next((quantity for quantity in found if quantity.dimension), None)
    if value:
        before = text[: value.span.start - span.start]
        after = text[value.span.end - span.start :]
        where = " ".join(part.strip(" ,;:") for part in (before, after))
        return Measure(mark.span, text, value, re.sub(r"\s+", " ", where).strip()), ()
    finding = fault(found[0], (), "measure") if found else missing(text, span, (), "measure")
    return Measure(mark.span, text, None, text), (finding,)


_READERS = {"heat": _heat, "wait": _wait, "torque": _torque, "measure": _measure}
