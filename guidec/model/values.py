"""Value marks (`heat`, `wait`, `torque`, `measure`) -> values with units, each with its place."""

from __future__ import annotations

import re

from guidec.model.quantities import fault, missing, read_one
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
    keys = tuple(
        Finding.at("M110", key.name_span, variant="value", key=key.name, kind=mark.kind) for key in mark.keys
    )
    value, findings = _READERS[mark.kind](mark, text, span)
    return value, (*findings, *keys)


def body(mark: Mark) -> tuple[str, Span]:
    """All that a mark says after its kind word, and where; its keys left out."""
    start = mark.kind_span.end - mark.span.start
    end = len(mark.text) - mark.text.endswith("}")
    if mark.keys:
        end = mark.text.rfind(";", start, mark.keys[0].name_span.start - mark.span.start)
    text = mark.text[start:end]
    begin = mark.span.start + start + len(text) - len(text.lstrip())
    return text.strip(), Span(begin, begin + len(text.strip()))


def _heat(mark: Mark, text: str, span: Span) -> _Read:
    due = ("temperature", "time")
    found = every_quantity(text, span.start, due)
    findings: list[Finding] = [] if found else [missing(text, span, due, "heat")]
    kept: dict[str, Quantity] = {}
    for quantity in found:
        if quantity.dimension not in due:
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
