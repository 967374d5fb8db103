"""The quick decorator makes what the standard library's makes: each behaviour is asked of both.

And of both sorts of classes: those that a Struct is made of, and those with a field that does not take part in
comparing, which go to the standard decorator.
"""

from __future__ import annotations

import copy
import dataclasses
import pickle
from collections.abc import Callable
from functools import cached_property
from typing import Any

import msgspec
import pytest

from guidec import quick

Decorator = Callable[..., Any]


@quick.dataclass(frozen=True, slots=True)
class Module:
    """A value at module level, so that it can be pickled."""

    a: int
    b: tuple[str, ...] = ()


@quick.dataclass(frozen=True, slots=True, kw_only=True)
class Base:
    """A value at module level that another stands on."""

    a: int
    b: tuple[str, ...] = ()


@quick.dataclass(frozen=True, slots=True, kw_only=True)
class Derived(Base):
    """The other."""

    c: str = ""
    d: list[int] = dataclasses.field(default_factory=list)


@pytest.fixture(params=[dataclasses.dataclass, quick.dataclass], ids=["standard", "quick"])
def dataclass(request: pytest.FixtureRequest) -> Decorator:
    decorator: Decorator = request.param
    return decorator


@pytest.fixture(params=[True, False], ids=["compared", "uncompared"])
def compare(request: pytest.FixtureRequest) -> bool:
    whether: bool = request.param
    return whether


def family(dataclass: Decorator, compare: bool) -> tuple[Any, Any]:
    @dataclass(frozen=True, slots=True, kw_only=True)
    class Thing:
        """A base."""

        id: str
        places: tuple[int, ...] = ()
        note: str = dataclasses.field(default="", repr=False, compare=compare)

        @property
        def shout(self) -> str:
            return self.id.upper()

    @dataclass(frozen=True, slots=True, kw_only=True)
    class Part(Thing):
        """One that stands on it."""

        qty: int = 1
        extra: dict[str, int] = dataclasses.field(default_factory=dict)

    return Thing, Part


def test_values_are_made_from_places_names_and_defaults(dataclass: Decorator):
    @dataclass(frozen=True, slots=True)
    class Point:
        """Two numbers."""

        x: int
        y: int = 7

    assert (Point(1).x, Point(1).y, Point(1, 2).y, Point(y=3, x=4).y) == (1, 7, 2, 3)
    assert Point.__match_args__ == ("x", "y")
    for wrong in ((), (1, 2, 3)):
        with pytest.raises(TypeError):
            Point(*wrong)
    with pytest.raises(TypeError):
        Point(1, z=2)


def test_values_are_equal_and_hashed_by_what_is_in_them(dataclass: Decorator, compare: bool):
    thing, part = family(dataclass, compare)
    assert part(id="a", qty=2) == part(id="a", qty=2, note="" if compare else "not compared")
    assert part(id="a", qty=2) != part(id="a", qty=3)
    assert (part(id="a") == part(id="a", note="other")) is not compare
    assert thing(id="a") != part(id="a"), "another class is another value"
    assert hash(thing(id="a")) == hash(thing(id="a", note="" if compare else "n"))
    assert len({thing(id="a"), thing(id="a"), thing(id="b")}) == 2


def test_values_print_as_they_are_written(dataclass: Decorator, compare: bool):
    _, part = family(dataclass, compare)
    assert repr(part(id="a")).endswith("Part(id='a', places=(), qty=1, extra={})")


def test_values_cannot_be_changed(dataclass: Decorator, compare: bool):
    _, part = family(dataclass, compare)
    one = part(id="a")
    with pytest.raises(AttributeError):
        one.id = "b"
    with pytest.raises(AttributeError):
        del one.id
    with pytest.raises((AttributeError, TypeError)):
        one.other = 1
    assert not hasattr(one, "__dict__")


def test_a_class_that_stands_on_another_takes_its_fields_and_methods(dataclass: Decorator, compare: bool):
    thing, part = family(dataclass, compare)
    assert isinstance(part(id="a"), thing)
    assert part(id="a").shout == "A"
    assert [field.name for field in dataclasses.fields(part)] == ["id", "places", "note", "qty", "extra"]
    assert part(id="a").extra is not part(id="a").extra


def test_keyword_fields_are_taken_by_name_alone(dataclass: Decorator, compare: bool):
    thing, _ = family(dataclass, compare)
    with pytest.raises(TypeError):
        thing("a")


def test_what_the_standard_library_does_with_values_works(dataclass: Decorator, compare: bool):
    _, part = family(dataclass, compare)
    one = part(id="a", qty=2)
    assert dataclasses.replace(one, qty=3) == part(id="a", qty=3)
    assert dataclasses.asdict(one) == {"id": "a", "places": (), "note": "", "qty": 2, "extra": {}}
    assert dataclasses.is_dataclass(part)
    assert copy.deepcopy(one) == one
    assert {field.name: field.repr for field in dataclasses.fields(part)}["note"] is False


def test_what_is_worked_out_at_the_start_is_kept(dataclass: Decorator):
    @dataclass(frozen=True, slots=True)
    class Area:
        """A product."""

        x: int
        y: int
        size: int = dataclasses.field(init=False, compare=False)

        def __post_init__(self) -> None:
            object.__setattr__(self, "size", self.x * self.y)

    assert Area(3, 4).size == 12
    assert Area.__match_args__ == ("x", "y")


@pytest.mark.parametrize("value", [Module(1, ("x",)), Base(a=1), Derived(a=1, b=("x",), c="y", d=[2])])
def test_values_go_between_processes(value: Any):
    assert pickle.loads(pickle.dumps(value)) == value


def test_a_value_is_made_of_another_with_some_fields_new():
    one = Derived(a=1, b=("x",))
    assert quick.replace(one, a=2) == dataclasses.replace(one, a=2) == Derived(a=2, b=("x",))
    with pytest.raises(TypeError):
        quick.replace(one, e=2)


def test_what_is_worked_out_at_the_start_is_settled():
    @quick.dataclass(frozen=True, slots=True)
    class Area:
        """A product."""

        x: int
        size: int = 0

        def __post_init__(self) -> None:
            quick.settle(self, "size", self.x**2)

    assert quick.replace(Area(2), x=3).size == 9


def test_the_classes_of_the_program_are_structs():
    assert all(issubclass(one, msgspec.Struct) for one in (Module, Base, Derived))


def test_a_class_without_slots_keeps_what_is_worked_out(dataclass: Decorator):
    @dataclass(frozen=True)
    class Open:
        """No slots."""

        a: int

        @cached_property
        def double(self) -> list[int]:
            return [self.a, self.a]

    one = Open(1)
    assert one.double is one.double
    with pytest.raises(AttributeError):
        one.a = 2


def test_values_that_can_change_are_set_and_have_no_hash(dataclass: Decorator):
    @dataclass(slots=True)
    class Changing:
        """Can change."""

        a: int
        found: list[int] = dataclasses.field(default_factory=list)

    one = Changing(1)
    one.a = 2
    one.found.append(3)
    assert one == Changing(2, [3])
    with pytest.raises(TypeError):
        hash(one)
    with pytest.raises(AttributeError):
        one.other = 1


def test_classes_of_other_sorts_go_to_the_standard_decorator():
    @quick.dataclass(slots=True, eq=False)
    class Alone:
        """Is equal to itself alone."""

        a: int

    assert not issubclass(Alone, msgspec.Struct)
    assert Alone(1) != Alone(1)


def test_methods_of_the_classs_own_are_left():
    @quick.dataclass(frozen=True, slots=True)
    class Loud:
        """Prints its own way."""

        a: int

        def __repr__(self) -> str:
            return "loud"

        def __hash__(self) -> int:
            return 5

    assert repr(Loud(1)) == "loud"
    assert hash(Loud(1)) == 5
