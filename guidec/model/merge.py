"""All that is said of one thing -> its details and keys, and the places that disagree."""

from __future__ import annotations

from dataclasses import field
from typing import Any

from guidec.model.counted import as_keys
from guidec.model.keys import RefReader, Value, read_key
from guidec.model.notation import read_notation
from guidec.model.notation_faults import faults
from guidec.model.said import Said, raw_text
from guidec.model.types import Amount, FastenerNotation, Quantity
from guidec.notes.syntax import Key
from guidec.quick import dataclass, replace
from guidec.rules.finding import Finding
from guidec.source import Span
from guidec.trade.likeness import distance, fold
from guidec.trade.units import find_quantities

__all__ = ["CONNECTOR_TYPES", "Facts", "connector_type", "merge"]

CONNECTOR_TYPES = ("press-fit", "flip-lock", "slide-lock", "coaxial", "plug", "contacts")
"""How a connector opens, in the words of the language; others are taken as they are."""


@dataclass(slots=True)
class Facts:
    """What a thing is: its details as text, a screw set's read apart, and its keys.

    `raw`: the details character for character as they stand at `details_span`.
    """

    details: str = ""
    raw: str = ""
    details_span: Span = Span(0, 0)
    notation: FastenerNotation | None = None
    keys: dict[str, Value] = field(default_factory=dict)


def merge(name: str, kind: str, places: list[Said], refs: RefReader) -> tuple[Facts, tuple[Finding, ...]]:
    """Put together what several places say of a thing; the first that says something wins."""
    facts = Facts()
    findings: list[Finding] = []
    for place in places:
        said = as_keys(place, kind)
        if said.details:
            findings += _details(facts, name, kind, said)
        for key in said.keys:
            canonical, value, faults = read_key(kind, _exact(said, key), refs)
            findings += faults if said.mark else [one for one in faults if not _by_schema(one)]
            if value is None:
                continue
            first = facts.keys.setdefault(canonical, value)
            if first is not value and _plain(first.value) != _plain(value.value):
                labels = {"first": first.span}
                findings.append(
                    Finding.at("M103", value.span, variant="key", labels=labels, name=name, key=canonical)
                )
    return facts, tuple(findings)


def _exact(said: Said, key: Key) -> Key:
    """A key whose value is as typed, character for character, so that offsets in it hold."""
    if said.mark is None or key.value is None or len(key.value) == key.value_span.end - key.value_span.start:
        return key
    return replace(key, value=raw_text(said.mark, key.value_span))


def _by_schema(fault: Finding) -> bool:
    """Whether the front matter's schema reports it: an unknown key, one without a value, a word not on a list."""
    whole = str(fault.facts.get("value", "")).lstrip("-").isdecimal()
    listed = fault.code == "M112" and (whole if fault.variant == "count" else fault.facts.get("key") != "class")
    return listed or fault.code in ("M110", "M111")


def _plain(value: Any) -> Any:
    """A value as it is compared: names and words folded, quantities by what they measure."""
    if isinstance(value, str):
        return fold(value)
    if isinstance(value, tuple):
        return sorted(fold(ref.name) for ref in value)
    if isinstance(value, Quantity):
        return (f"{value.low:.4g}", f"{value.high:.4g}", value.bound, value.dimension)
    if isinstance(value, Amount):
        return _plain(value.quantity) if value.quantity else fold(value.text)
    return value


def _details(facts: Facts, name: str, kind: str, said: Said) -> list[Finding]:
    """Take the details of one more place in."""
    if kind == "screw":
        return _notation(facts, name, said)
    slips = [_type_slip(said)] if kind == "connector" else []
    return [*_text(facts, name, said), *filter(None, slips)]


def connector_type(details: str) -> str:
    """A connector's type in the language's own spelling (`Flip Lock` is `flip-lock`), or as typed."""
    folded = "-".join(fold(details).split())
    return folded if folded in CONNECTOR_TYPES else details


def _type_slip(said: Said) -> Finding | None:
    """A connector's type that is nearly one of the usual ones."""
    typed = connector_type(said.details)
    if typed in CONNECTOR_TYPES or len(typed) < 5:
        return None
    near = next(
        (one for one in CONNECTOR_TYPES if distance(fold(typed), one, 2) <= 2 and one + "s" != fold(typed)), None
    )
    if near is None:
        return None
    return Finding.at("M115", said.details_span, suggest=(near,), type=typed, nearest=near)


def _text(facts: Facts, name: str, said: Said) -> list[Finding]:
    """Take details that are plain text in."""
    if not facts.details:
        facts.details, facts.details_span, facts.raw = said.details, said.details_span, said.raw
        return []
    together = _together(facts.details, said.details)
    if together is None:
        labels = {"first": facts.details_span}
        return [
            Finding.at("M103", said.details_span, labels=labels, name=name, **_both(facts.details, said.details))
        ]
    facts.details = facts.raw = together
    if together == said.details:
        facts.details_span, facts.raw = said.details_span, said.raw
    return []


def _both(one: str, other: str) -> dict[str, Any]:
    return {"one": " ".join(one.split()), "other": " ".join(other.split())}


def _together(one: str, other: str) -> str | None:
    """Two details as one, or None where they disagree.

    They agree where one says all that the other says; they complete each other where each gives quantities of
    which the other has none.
    """
    first, second = fold(one), fold(other)
    if first == second:
        return one
    first_words, second_words = set(first.replace(",", " ").split()), set(second.replace(",", " ").split())
    if second_words <= first_words:
        return one
    if first_words <= second_words:
        return other
    mine = {quantity.dimension: _plain(quantity) for quantity in find_quantities(one)}
    theirs = {quantity.dimension: _plain(quantity) for quantity in find_quantities(other)}
    if not mine or not theirs or _wordy(one) or _wordy(other):
        return None
    if any(mine[dimension] != theirs[dimension] for dimension in mine.keys() & theirs.keys()):
        return None
    more = [quantity.typed for quantity in find_quantities(other) if quantity.dimension not in mine]
    return ", ".join((one, *more))


def _wordy(text: str) -> bool:
    """Whether a text says more than quantities."""
    for quantity in find_quantities(text):
        text = text.replace(quantity.typed, "")
    return any(char.isalnum() for char in text)


def _notation(facts: Facts, name: str, said: Said) -> list[Finding]:
    new = read_notation(said.raw, said.details_span.start)
    findings = list(faults(said.raw, said.details_span.start, new))
    old = facts.notation
    if old is None:
        facts.notation, facts.details, facts.details_span = new, said.details, said.details_span
        return findings
    for what, one, other, here, there in (
        ("count", old.count, new.count, new.count_span, old.count_span),
        ("drive", old.drives, new.drives, new.drive_span, old.drive_span),
        ("thread", old.thread, new.thread, new.thread_span, old.thread_span),
    ):
        if one and other and _thread_plain(one) != _thread_plain(other) and here and there:
            if what == "thread" and _completes(old, new):
                continue
            shown: dict[str, Any] = {"one": _shown(one), "other": _shown(other)}
            findings.append(
                Finding.at(
                    "M103", here, variant="notation", labels={"first": there}, name=name, what=what, **shown
                )
            )
    facts.notation = _filled(old, new)
    facts.details = facts.details if old.rest or not new.rest else f"{facts.details}, {new.rest}"
    return findings


def _thread_plain(value: Any) -> Any:
    return sorted(value) if isinstance(value, tuple) else value


def _shown(value: Any) -> str:
    if isinstance(value, tuple):
        return "|".join(value)
    return str(getattr(value, "text", value))


def _completes(old: FastenerNotation, new: FastenerNotation) -> bool:
    """Whether two threads differ only in what one of them leaves out."""
    one, other = old.thread, new.thread
    assert one is not None
    assert other is not None
    pairs = ((one.system, other.system), (one.diameter_mm, other.diameter_mm))
    holes = ((one.pitch_mm, other.pitch_mm), (one.length_mm, other.length_mm))
    return all(a == b for a, b in pairs) and all(a is None or b is None or a == b for a, b in holes)


def _filled(old: FastenerNotation, new: FastenerNotation) -> FastenerNotation:
    """The older notation, with what it leaves out from the newer."""
    merged = old
    if old.count is None:
        merged = replace(merged, count=new.count, count_span=new.count_span)
    if not old.drives:
        drives = {"drives": new.drives, "drive_span": new.drive_span, "unknown_drives": new.unknown_drives}
        merged = replace(merged, **drives)  # type: ignore[arg-type]
    better = old.thread and new.thread and _completes(old, new) and len(new.thread.text) > len(old.thread.text)
    if old.thread is None or better:
        merged = replace(merged, thread=new.thread, thread_span=new.thread_span)
    if not old.rest:
        merged = replace(merged, rest=new.rest, rest_span=new.rest_span)
    return merged
