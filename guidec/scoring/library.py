"""The name of a method -> the method: those that come with the program, and which one a note asks for."""

from __future__ import annotations

from functools import cache

from guidec.model.types import Guide
from guidec.quick import dataclass
from guidec.scoring.method import Method, method_of
from guidec.trade.likeness import fold
from guidec.trade.load import data, names

__all__ = ["Choice", "chosen", "known", "method"]


@dataclass(frozen=True, slots=True)
class Choice:
    """The method that a guide is scored by, if any.

    `asked`: the note or the call asks for it. `outside`: it is not made for such a subject. `taken_as`: the
    method's kind that the subject's kind is read as, where it is another word.
    """

    method: Method | None
    asked: bool = False
    outside: bool = False
    taken_as: str | None = None


def known() -> tuple[str, ...]:
    """The ids of the methods that come with the program."""
    return tuple(name.removeprefix("methods/") for name in names("methods"))


@cache
def method(own: str) -> Method:
    """The method of that id. Raises KeyError for an id that is none of `known()`."""
    if own not in known():
        raise KeyError(own)
    return method_of(data(f"methods/{own}"))


def chosen(guide: Guide, given: Method | None = None) -> Choice:
    """The method of the call, else the note's, else the one made for that kind of subject; else none."""
    kind = guide.meta.subject.kind
    named = guide.meta.scoring.get("method")
    if given is None and isinstance(named, str) and fold(named) in known():
        given = method(fold(named))
    if given is not None:
        return Choice(given, True, not given.applies(kind), _other_word(given, kind))
    for own in known():
        one = method(own)
        if one.kinds and one.kind_of(kind) is not None and one.kind_of(kind) in one.kinds:
            return Choice(one, False, False, _other_word(one, kind))
    return Choice(None)


def _other_word(one: Method, kind: str | None) -> str | None:
    """The kind that a subject's kind is taken as, where the method does not name it in so many words."""
    taken = one.kind_of(kind) if one.kinds else None
    return taken if taken is not None and kind is not None and taken != fold(kind).replace("-", " ") else None
