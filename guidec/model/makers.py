"""A kind, a name and facts -> the typed thing."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from guidec.model.counted import count_and_rest, without_pieces
from guidec.model.merge import Facts, connector_type
from guidec.model.slugs import earlier
from guidec.model.types import (
    Adhesive,
    Amount,
    Battery,
    Clip,
    Connector,
    Fastening,
    Kind,
    Part,
    Quantity,
    Ref,
    Reuse,
    ScrewSet,
    Solder,
    Supply,
    Thermal,
    Thing,
    Tool,
)
from guidec.source import Span
from guidec.trade.classes import propose_class
from guidec.trade.numbers import read_count
from guidec.trade.tools import propose_grade, turned_drives
from guidec.trade.units import find_quantities

__all__ = ["Common", "make"]

_LEADING = re.compile(r"(?P<count>\d+|[^\W\d_]+)\s*(?:[x×X](?!\w)\s*)?(?=\s|$|[,;x×X])")


class Common(NamedTuple):
    """What every thing has."""

    id: str
    name: str
    span: Span
    places: tuple[Span, ...]
    draft: bool = False
    language: str = "en"


def make(kind: Kind, common: Common, facts: Facts) -> Thing:
    """The thing of a kind, its defaults filled in and what can be proposed proposed."""
    base = {
        "id": common.id,
        "name": common.name,
        "span": common.span,
        "places": common.places,
        "kind": kind,
        "details": facts.details,
        "was": earlier(facts.keys["was"].value.split(",")) if "was" in facts.keys else (),
        "draft": common.draft,
    }
    return _MAKERS[kind](base, common, facts)


_OF_PARTS = {
    "qty": "qty",
    "number": "number",
    "material": "material",
    "mass": "mass",
    "under": "under",
    "sold-with": "sold_with",
    "source": "source",
}
_OF_SCREWS = {"head": "head", "colour": "colour", "torque": "torque", "grade": "grade", "holds": "holds"}


def _as_said(facts: Facts, fields: Mapping[str, str]) -> dict[str, Any]:
    """The values of the keys that stand, by the fields that take them as they are."""
    return {fields[key]: value.value for key, value in facts.keys.items() if key in fields}


def _get(facts: Facts, key: str, default: Any = None) -> Any:
    return facts.keys[key].value if key in facts.keys else default


def _one(facts: Facts, key: str) -> Ref | None:
    refs = _get(facts, key, ())
    return refs[0] if refs else None


def _reuse(facts: Facts, default: Reuse, renew: bool) -> dict[str, Any]:
    """How it comes through: as stated, else removable where a new one goes in, else the kind's own."""
    stated = _get(facts, "reuse")
    reuse = Reuse(stated) if stated else Reuse.REMOVABLE if renew else default
    return {"reuse": reuse, "reuse_stated": stated is not None}


def _part(base: Mapping[str, Any], common: Common, facts: Facts) -> Part:
    stated = facts.keys.get("class")
    cls = stated.value if stated else propose_class(common.name, common.language)
    return Part(
        **base,
        cls=cls,
        cls_proposed=cls is not None and stated is None,
        cls_span=stated.span if stated else None,
        inside=_one(facts, "in"),
        battery=_battery(facts) if cls == "battery" else None,
        **_as_said(facts, _OF_PARTS),
    )


def _battery(facts: Facts) -> Battery:
    """Capacity and voltage from the details; energy as typed, else capacity x voltage (UN Model Regulations)."""
    found: dict[str, Quantity] = {}
    for quantity in find_quantities(facts.raw, facts.details_span.start):
        found.setdefault(quantity.dimension, quantity)
    capacity, voltage, energy = (_value(found.get(what)) for what in ("charge", "voltage", "energy"))
    if energy is None and capacity is not None and voltage is not None:
        energy = round(capacity / 1000 * voltage, 6)
    return Battery(capacity, voltage, energy)


def _value(quantity: Quantity | None) -> float | None:
    """A single value, the upper end of a range."""
    return round(quantity.high, 9) if quantity else None


def _screw(base: Mapping[str, Any], common: Common, facts: Facts) -> ScrewSet:
    locked = _get(facts, "locked")
    renew = bool(_get(facts, "renew", False))
    return ScrewSet(
        **base,
        notation=facts.notation,
        left_hand=_get(facts, "hand") == "left",
        locked=None if locked is False else locked,
        captive=bool(_get(facts, "captive", False)),
        renew=renew,
        **_as_said(facts, _OF_SCREWS),
        **_reuse(facts, Reuse.REUSABLE, renew),
    )


def _connector(base: Mapping[str, Any], common: Common, facts: Facts) -> Connector:
    return Connector(
        **base,
        type=connector_type(facts.details),
        from_=_one(facts, "from"),
        to=_one(facts, "to"),
        qty=_get(facts, "qty", 1),
        **_reuse(facts, Reuse.REUSABLE, False),
    )


def _fastening(
    cls: type[Fastening], default: Reuse, renewed: bool, counted: bool
) -> Callable[[Mapping[str, Any], Common, Facts], Fastening]:
    """A maker for a plain fastening. `renewed`: a new one goes in unless said; `counted`: details may count."""

    def maker(base: Mapping[str, Any], common: Common, facts: Facts) -> Fastening:
        count, type_ = _count_and_type(facts.details) if counted else (None, facts.details)
        renew = bool(_get(facts, "renew", renewed))
        return cls(
            **base,
            type=type_,
            count=count,
            holds=_get(facts, "holds", ()),
            renew=renew,
            amount=_get(facts, "amount"),
            **_reuse(facts, default, renew),
        )

    return maker


def _count_and_type(details: str) -> tuple[int | None, str]:
    """`6`, `6x plastic`, `four hooks` -> how many, and of what type."""
    found = _LEADING.match(details)
    count = read_count(found["count"]) if found else None
    if found is None or count is None:
        return count_and_rest(details)
    return count, without_pieces(details[found.end() :].strip(" ,"))


def _tool(base: Mapping[str, Any], common: Common, facts: Facts) -> Tool:
    drives = turned_drives(common.name, facts.details)
    stated = _get(facts, "grade")
    grade = stated or propose_grade(common.name, drives)
    return Tool(
        **base,
        size=facts.details,
        grade=grade,
        grade_proposed=grade is not None and stated is None,
        link=_get(facts, "link"),
        drive=drives[0] if drives else None,
    )


def _supply(base: Mapping[str, Any], common: Common, facts: Facts) -> Supply:
    strength, amount = _strength_and_amount(facts.raw, facts.details_span.start)
    return Supply(**base, strength=strength, amount=amount, link=_get(facts, "link"))


def _strength_and_amount(details: str, offset: int) -> tuple[str, Amount | None]:
    """`99 %, 2 ml` -> the strength or type, and the amount: what is measured out or counted."""
    rest: list[str] = []
    amount: Amount | None = None
    for found in re.finditer(r"(?:[^,;]|[,;](?=\d))+", details):
        piece = " ".join(found[0].split())
        quantities = find_quantities(found[0], offset + found.start())
        measured = next((one for one in quantities if one.dimension in ("volume", "mass", "length")), None)
        counted = not quantities and _count_and_type(piece)[0] is not None
        if amount is None and (measured or counted):
            amount = Amount(piece, measured)
        elif piece:
            rest.append(piece)
    return ", ".join(rest), amount


_MAKERS: Mapping[Kind, Callable[[Mapping[str, Any], Common, Facts], Thing]] = {
    Kind.PART: _part,
    Kind.SCREW: _screw,
    Kind.CONNECTOR: _connector,
    Kind.ADHESIVE: _fastening(Adhesive, Reuse.REMOVABLE, renewed=True, counted=False),
    Kind.THERMAL: _fastening(Thermal, Reuse.REMOVABLE, renewed=True, counted=False),
    Kind.SOLDER: _fastening(Solder, Reuse.REMOVABLE, renewed=False, counted=True),
    Kind.CLIP: _fastening(Clip, Reuse.REUSABLE, renewed=False, counted=True),
    Kind.FASTENING: _fastening(Fastening, Reuse.UNKNOWN, renewed=False, counted=True),
    Kind.TOOL: _tool,
    Kind.SUPPLY: _supply,
}
