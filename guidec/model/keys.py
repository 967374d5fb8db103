"""The `key=value` pairs of a mark -> typed values, each checked against what its kind takes."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, NamedTuple

from guidec.model.quantities import read_one
from guidec.model.types import Amount, Ref
from guidec.notes.syntax import Key
from guidec.quick import replace
from guidec.rules.finding import Finding
from guidec.source import Span
from guidec.trade.classes import part_classes, propose_class
from guidec.trade.likeness import fold, nearest
from guidec.trade.numbers import read_count
from guidec.trade.units import find_quantities

__all__ = ["KEYS", "Value", "canonical_key", "kinds_with", "read_key"]

RefReader = Callable[[str, Span], tuple[tuple[Ref, ...], tuple[Finding, ...]]]

REUSE = ("reusable", "resupplied", "removable", "neither")
GRADES = ("basic", "with-part", "with-product", "group", "trade", "maker")
_YES = {"yes": True, "true": True, "no": False, "false": False}
_FASTENED = {"holds": "refs", "renew": "yes", "reuse": "reuse"}

_KEYS: Mapping[str, Mapping[str, str]] = {
    "part": {
        "qty": "count",
        "number": "text",
        "class": "class",
        "material": "text",
        "mass": "mass",
        "under": "refs",
        "in": "ref",
        "sold-with": "refs",
        "source": "text",
    },
    "screw": {
        "head": "text",
        "colour": "text",
        "torque": "torque",
        "grade": "text",
        "hand": "hand",
        "locked": "yes-or-text",
        "captive": "yes",
    }
    | _FASTENED,
    "connector": {"from": "ref", "to": "ref", "qty": "count", "reuse": "reuse"},
    "adhesive": _FASTENED | {"amount": "amount"},
    "thermal": _FASTENED | {"amount": "amount"},
    "clip": _FASTENED,
    "solder": _FASTENED,
    "fastening": _FASTENED,
    "tool": {"grade": "grade", "link": "text"},
    "supply": {"link": "text"},
}
KEYS: Mapping[str, Mapping[str, str]] = {kind: {**keys, "was": "text"} for kind, keys in _KEYS.items()}
"""What each kind takes: the key and how its value is read."""

_ALIASES = {
    "color": "colour",
    "quantity": "qty",
    "klass": "class",
    "anzahl": "qty",
    "menge": "qty",
    "stück": "qty",
    "stk": "qty",
}


class Value(NamedTuple):
    """A key read: what it says, and where its value (or the bare key) stands."""

    value: Any
    span: Span


def canonical_key(name: str) -> str:
    """A key in its one spelling: `sold with` and `Sold_With` are `sold-with`."""
    key = "-".join(name.casefold().replace("_", " ").split())
    return _ALIASES.get(key, key)


def kinds_with(key: str) -> tuple[str, ...]:
    """The kinds that take a key."""
    return tuple(kind for kind, keys in KEYS.items() if key in keys)


def read_key(kind: str, key: Key, refs: RefReader) -> tuple[str, Value | None, tuple[Finding, ...]]:
    """A key's one spelling, its value (None where it could not be read) and what is wrong with it.

    `refs` reads the names in a value that names things.
    """
    name = canonical_key(key.name)
    how = KEYS[kind].get(name)
    if how is None:
        return name, None, (_unknown(kind, key, name),)
    typed = (key.value or "").strip()
    if not typed:
        return _bare(kind, key, name, how)
    if how in ("ref", "refs"):
        found, findings = refs(typed, key.value_span)
        return name, Value(found, key.value_span), findings
    value, findings = _READERS[how](key, name, typed)
    return name, None if value is None else Value(value, key.value_span), findings


def _unknown(kind: str, key: Key, name: str) -> Finding:
    others = kinds_with(name)
    known = ", ".join(f"`{one}`" for one in KEYS[kind])
    near = () if others else nearest(name, KEYS[kind])
    variant = "elsewhere" if others else ""
    facts: dict[str, Any] = {
        "key": key.name,
        "kind": kind,
        "known": known,
        "kinds": ", ".join(f"`{one}`" for one in others),
    }
    return Finding.at("M110", key.name_span, suggest=near, variant=variant, **facts)


def _bare(kind: str, key: Key, name: str, how: str) -> tuple[str, Value | None, tuple[Finding, ...]]:
    """A key without a value: right for a yes-or-no one."""
    if how == "yes":
        return name, Value(True, key.name_span), ()
    if how == "yes-or-text":
        return name, Value("", key.name_span), ()
    finding = Finding.at("M111", key.name_span, key=name, kind=kind, example=_EXAMPLES.get(name, "…"))
    return name, None, (finding,)


_EXAMPLES = {
    "qty": "2",
    "number": "AB-12",
    "class": "battery",
    "material": ">PC+ABS<",
    "mass": "12 g",
    "under": "shield",
    "in": "display assembly",
    "sold-with": "back cover",
    "source": "maker",
    "head": "pan",
    "colour": "black",
    "torque": "0.15 N·m",
    "grade": "basic",
    "hand": "left",
    "holds": "front housing",
    "reuse": "removable",
    "from": "battery pack",
    "to": "driver board",
    "amount": "1 ml",
    "link": "https://…",
    "was": "earlier name",
}

_Read = tuple[Any, tuple[Finding, ...]]


def _text(key: Key, name: str, typed: str) -> _Read:
    return " ".join(typed.split()), ()


def _yes(key: Key, name: str, typed: str) -> _Read:
    value = _YES.get(typed.casefold())
    if value is None:
        return None, (_bad(key, name, typed, ("yes", "no")),)
    return value, ()


def _yes_or_text(key: Key, name: str, typed: str) -> _Read:
    value = _YES.get(typed.casefold())
    if value is None:
        return typed, ()
    return ("" if value else False), ()


def _count(key: Key, name: str, typed: str) -> _Read:
    value = read_count(typed)
    if not value:
        return None, (Finding.at("M112", key.value_span, variant="count", key=name, value=typed),)
    return value, ()


def _choice(choices: Callable[[], tuple[str, ...]]) -> Callable[[Key, str, str], _Read]:
    def read(key: Key, name: str, typed: str) -> _Read:
        folded = "-".join(fold(typed).split())
        if folded in choices():
            return folded, ()
        return None, (_bad(key, name, typed, choices()),)

    return read


def _class(key: Key, name: str, typed: str) -> _Read:
    """A part class; of another word for one (`front camera`) the class is suggested."""
    value, findings = _of_table(key, name, typed)
    meant = propose_class(typed) if findings else None
    if meant:
        findings = (replace(findings[0], suggestions=(meant,)),)
    return value, findings


_of_table = _choice(part_classes)


def _bad(key: Key, name: str, typed: str, choices: tuple[str, ...]) -> Finding:
    known = ", ".join(f"`{one}`" for one in choices)
    near = nearest(typed, choices) or (choices if len(choices) <= 4 else ())
    return Finding.at("M112", key.value_span, suggest=near, key=name, value=typed, known=known)


def _quantity(dimension: str) -> Callable[[Key, str, str], _Read]:
    def read(key: Key, name: str, typed: str) -> _Read:
        return read_one(typed, key.value_span, (dimension,), name)

    return read


def _amount(key: Key, name: str, typed: str) -> _Read:
    found = find_quantities(typed, key.value_span.start)
    return Amount(typed, found[0] if found else None), ()


_READERS: Mapping[str, Callable[[Key, str, str], _Read]] = {
    "text": _text,
    "yes": _yes,
    "yes-or-text": _yes_or_text,
    "count": _count,
    "class": _class,
    "reuse": _choice(lambda: REUSE),
    "grade": _choice(lambda: GRADES),
    "hand": _choice(lambda: ("left", "right")),
    "torque": _quantity("torque"),
    "mass": _quantity("mass"),
    "amount": _amount,
}
