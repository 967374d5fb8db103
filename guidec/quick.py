"""A class of annotated fields -> its values as the standard library's dataclasses mean them, made by msgspec.

The standard decorator compiles six functions for each class, and the values it makes set their fields one by one.
For this program's two hundred kinds of values that was a fifth of a cold check and a tenth of a long one; a
`msgspec.Struct` does both in C (10 µs a class for 430, 60 ns a value for 730). Classes are written, and type
checkers see them, as the standard library has them; `fields`, `replace`, `asdict`, pickling, inheritance,
defaults, `kw_only` and `__post_init__` work. What a Struct cannot do (fields left out of comparing or of making,
`order`, `eq=False`) goes to the standard decorator.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable
from inspect import get_annotations
from typing import TYPE_CHECKING, Any

import msgspec
from msgspec.structs import force_setattr

if TYPE_CHECKING:
    from dataclasses import dataclass, replace
else:
    from msgspec.structs import replace

__all__ = ["dataclass", "replace", "settle"]

settle: Callable[[Any, str, Any], None] = force_setattr
"""Sets a field of a frozen value: for `__post_init__` alone."""

_MISSING = dataclasses.MISSING
_OWN = "__quick_fields__"
_DROPPED = frozenset(("__dict__", "__weakref__", "__slots__", "__match_args__", _OWN))


def _quick(
    cls: Any = None, /, *, frozen: bool = False, slots: bool = False, kw_only: bool = False, **more: Any
) -> Any:
    if cls is None:
        return lambda later: _quick(later, frozen=frozen, slots=slots, kw_only=kw_only, **more)
    behind = _behind(cls)
    if more or not _fits(cls, behind):
        return dataclasses.dataclass(cls, frozen=frozen, slots=slots, kw_only=kw_only, **more)
    return _made(cls, behind, frozen=frozen, kw_only=kw_only, dict=not slots)


if not TYPE_CHECKING:
    dataclass = _quick


def _fits(cls: Any, behind: dict[str, Any]) -> bool:
    """Whether a Struct can be made of the class: of its fields, and of those it stands on."""
    plain = all(
        item.init and item.compare and item.hash is None
        for item in behind.values()
        if isinstance(item, dataclasses.Field)
    )
    return plain and all(base is object or issubclass(base, msgspec.Struct) for base in cls.__bases__)


def _behind(cls: Any) -> dict[str, Any]:
    """What stands in the class behind each of its own fields: a default, a `field(…)`, or nothing."""
    found = {name: cls.__dict__.get(name, _MISSING) for name in get_annotations(cls)}
    if isinstance(
        cls, msgspec.StructMeta
    ):  # its base is one, so that it has become one, and put its defaults away
        defaults = cls.__struct_defaults__
        stored = dict(zip(cls.__struct_fields__[-len(defaults) :], defaults, strict=True)) if defaults else {}
        found = {name: stored.get(name, _MISSING) for name in found}
        return {name: _MISSING if item is msgspec.NODEFAULT else item for name, item in found.items()}
    return found


def _made(cls: Any, behind: dict[str, Any], **how: Any) -> Any:
    body = {
        name: item
        for name, item in cls.__dict__.items()
        if name not in behind and name not in _DROPPED and not name.startswith("__struct_")
    }
    body |= {name: _default(item) for name, item in behind.items()}
    body |= {_OWN: behind, "__dataclass_fields__": _Described()}
    if any(isinstance(item, dataclasses.Field) and not item.repr for item in behind.values()):
        body.setdefault("__repr__", _repr)
    bases = tuple(base for base in cls.__bases__ if base is not object) or (msgspec.Struct,)
    return msgspec.StructMeta(cls.__name__, bases, body, **how)


def _default(item: Any) -> Any:
    if isinstance(item, dataclasses.Field):
        if item.default_factory is not _MISSING:
            return msgspec.field(default_factory=item.default_factory)
        item = item.default
    return msgspec.field() if item is _MISSING else item


class _Described:
    """`__dataclass_fields__`, worked out when it is asked for: most classes are never asked."""

    def __get__(self, instance: object, owner: type) -> Any:
        body: dict[str, Any] = {"__annotations__": {}, "__module__": owner.__module__}
        for base in reversed(owner.__mro__):
            own = base.__dict__.get(_OWN, {})
            body["__annotations__"] |= {name: base.__annotations__[name] for name in own}
            body |= {name: item for name, item in own.items() if item is not _MISSING}
        plain: Any = dataclasses.dataclass(init=False, repr=False, eq=False)(type(owner.__name__, (), body))
        owner.__dataclass_fields__ = plain.__dataclass_fields__  # type: ignore[attr-defined]
        return plain.__dataclass_fields__


def _repr(self: Any) -> str:
    said = (f"{one.name}={getattr(self, one.name)!r}" for one in dataclasses.fields(self) if one.repr)
    return f"{type(self).__qualname__}({', '.join(said)})"
