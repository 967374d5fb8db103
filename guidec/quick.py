"""A class of annotated fields -> the same as `dataclass(frozen=True, slots=True)` makes of it, made faster.

The standard decorator compiles six functions for each class, one by one. For this program's hundred kinds of
values that was a fifth of the time a check takes. Here the methods of a class are compiled in one piece, and
fields are set through their slots. `fields`, `replace`, pickling, inheritance, defaults, `kw_only` and
`__post_init__` work as usual; a class without slots, or one that can change, goes to the standard decorator.
Type checkers see that one.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from inspect import get_annotations
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from dataclasses import dataclass

__all__ = ["dataclass"]

_MISSING = dataclasses.MISSING
_OWN = "__quick_fields__"


class _Field(NamedTuple):
    """One field: its annotation, what stands in the class behind it, and how it takes part."""

    annotation: Any
    typed: Any
    default: Any
    factory: Any
    init: bool
    repr: bool
    compare: bool
    kw_only: bool


class _Described:
    """`__dataclass_fields__`, worked out when it is asked for: most classes are never asked."""

    def __get__(self, instance: object, owner: type) -> Any:
        every = _every(owner)
        given = {name: field.typed for name, field in every.items() if field.typed is not _MISSING}
        notes = {name: field.annotation for name, field in every.items()}
        plain = type(owner.__name__, (), {"__annotations__": notes, "__module__": owner.__module__, **given})
        described: Any = dataclasses.dataclass(init=False, repr=False, eq=False)(plain)
        described = described.__dataclass_fields__
        owner.__dataclass_fields__ = described  # type: ignore[attr-defined]
        return described


def _quick(
    cls: Any = None, /, *, frozen: bool = False, slots: bool = False, kw_only: bool = False, **more: Any
) -> Any:
    if not (frozen and slots) or more:
        return dataclasses.dataclass(cls, frozen=frozen, slots=slots, kw_only=kw_only, **more)
    return _made(cls, kw_only) if cls is not None else lambda later: _made(later, kw_only)


if not TYPE_CHECKING:
    dataclass = _quick


def _made(cls: Any, kw_only: bool) -> Any:
    own = {name: _field(cls, name, note, kw_only) for name, note in get_annotations(cls).items()}
    inherited = _every(cls)
    kept = {name: item for name, item in cls.__dict__.items() if name not in own and name not in _DROPPED}
    made = type(cls)(
        cls.__name__,
        cls.__bases__,
        {**_METHODS, **kept, _OWN: own, "__slots__": tuple(name for name in own if name not in inherited)},
    )
    made.__qualname__ = cls.__qualname__
    fields = {**inherited, **own}
    matched = tuple(name for name, field in fields.items() if field.init and not field.kw_only)
    for name, item in (("__match_args__", matched), ("__dataclass_fields__", _Described())):
        setattr(made, name, item)
    for name, function in _written(made, fields).items():
        if name not in kept:
            function.__qualname__ = f"{cls.__qualname__}.{name}"
            setattr(made, name, function)
    return made


def _field(cls: Any, name: str, annotation: Any, kw_only: bool) -> _Field:
    typed = cls.__dict__.get(name, _MISSING)
    if isinstance(typed, dataclasses.Field):
        only = kw_only if typed.kw_only is _MISSING else typed.kw_only
        compare = typed.compare if typed.hash is None else typed.hash
        return _Field(
            annotation, typed, typed.default, typed.default_factory, typed.init, typed.repr, compare, only
        )
    return _Field(annotation, typed, typed, _MISSING, True, True, True, kw_only)


def _every(cls: Any) -> dict[str, _Field]:
    """The fields of a class and of all it stands on, those it stands on first."""
    fields: dict[str, _Field] = {}
    for base in reversed(cls.__mro__):
        fields |= base.__dict__.get(_OWN, {})
    return fields


def _written(cls: Any, fields: dict[str, _Field]) -> dict[str, Any]:
    """`__init__`, `__eq__` and `__hash__` of a class, compiled in one piece."""
    names: dict[str, Any] = {"_new": _MISSING}
    plain = [_parameter(name, field) for name, field in fields.items() if field.init and not field.kw_only]
    named = [_parameter(name, field) for name, field in fields.items() if field.init and field.kw_only]
    parameters = ", ".join(["self", *plain, *(["*", *named] if named else [])])
    for name, field in fields.items():
        names |= {
            f"_set_{name}": getattr(cls, name).__set__,
            f"_d_{name}": field.default,
            f"_f_{name}": field.factory,
        }
    compared = [name for name, field in fields.items() if field.compare]
    ours, theirs = ("".join(f"{who}.{name}, " for name in compared) for who in ("self", "other"))
    lines = [
        f"def __init__({parameters}):",
        *(
            f"    {line}"
            for line in (*_settings(fields), "self.__post_init__()" if hasattr(cls, "__post_init__") else "pass")
        ),
        "def __eq__(self, other):",
        f"    return ({ours}) == ({theirs}) if other.__class__ is self.__class__ else NotImplemented",
        "def __hash__(self):",
        f"    return hash(({ours}))",
    ]
    made: dict[str, Any] = {}
    exec("\n".join(lines), names, made)
    return made


def _parameter(name: str, field: _Field) -> str:
    if field.factory is not _MISSING:
        return f"{name}=_new"
    return name if field.default is _MISSING else f"{name}=_d_{name}"


def _settings(fields: dict[str, _Field]) -> Iterator[str]:
    for name, field in fields.items():
        fresh = field.factory is not _MISSING
        if field.init:
            yield (
                f"_set_{name}(self, _f_{name}() if {name} is _new else {name})"
                if fresh
                else f"_set_{name}(self, {name})"
            )
        elif fresh or field.default is not _MISSING:
            yield f"_set_{name}(self, {f'_f_{name}()' if fresh else f'_d_{name}'})"


# ---------------------------------------------------------------- methods that all classes share


def _repr(self: Any) -> str:
    said = (f"{name}={getattr(self, name)!r}" for name, field in _every(type(self)).items() if field.repr)
    return f"{type(self).__qualname__}({', '.join(said)})"


def _refuse_set(self: Any, name: str, value: Any) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")


def _refuse_delete(self: Any, name: str) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot delete field {name!r}")


def _state(self: Any) -> list[Any]:
    return [getattr(self, name) for name in _every(type(self))]


def _restore(self: Any, state: list[Any]) -> None:
    for name, value in zip(_every(type(self)), state, strict=True):
        object.__setattr__(self, name, value)


_DROPPED = frozenset({"__dict__", "__weakref__"})
_METHODS = {
    "__repr__": _repr,
    "__setattr__": _refuse_set,
    "__delattr__": _refuse_delete,
    "__getstate__": _state,
    "__setstate__": _restore,
}
