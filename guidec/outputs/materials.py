"""A guide -> the rows of its bill of materials, as plain data: what `bom.json` and the CSV files hold."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any, TypeVar

from guidec.model.printed import screw_notation
from guidec.model.types import (
    Adhesive,
    Connector,
    Fastening,
    Guide,
    Part,
    Quantity,
    Ref,
    ScrewSet,
    Supply,
    Thing,
    Tool,
)
from guidec.outputs.jsonable import number
from guidec.outputs.where import Where, where

__all__ = ["Row", "Rows"]

Row = dict[str, Any]
_T = TypeVar("_T", bound=Thing)


class Rows:
    """The tables of one guide, each a list of rows with the same keys."""

    def __init__(self, guide: Guide) -> None:
        self.guide = guide
        self.where: Where = where(guide)
        self._order = {operation.id: at for at, operation in enumerate(guide.operations)}

    def parts(self) -> list[Row]:
        """The parts, in note order. `operation`: where it comes off; if it never does, where it is first shown."""
        return [self._part(part) for part in self._of(Part)]

    def fasteners(self) -> list[Row]:
        """The screw sets, in the order in which they come out; a set taken out in shares is one row."""
        return [self._screws(screws) for screws in self._by_coming_out(self._of(ScrewSet))]

    def tools(self) -> list[Row]:
        """The tools, drivers that follow from the screws too."""
        return [
            {
                "id": tool.id,
                "name": tool.name,
                "size": tool.size or None,
                "grade": tool.grade,
                "grade_proposed": tool.grade_proposed,
                "drive": tool.drive,
                "implied": tool.implied,
                "link": tool.link,
                "refit_only": tool.id in self.where.refit_only,
                "operations": self._named(tool),
                **self._marked(tool),
            }
            for tool in self._of(Tool)
        ]

    def supplies(self) -> list[Row]:
        """What is used up, then what has to be new on refit (`renewal` says of which kind it is)."""
        renewed = (thing for thing in self.guide.things.values() if getattr(thing, "renew", False))
        return [*(self._supply(one) for one in self._of(Supply)), *(self._renewal(one) for one in renewed)]

    def connectors(self) -> list[Row]:
        """The connectors, in the order in which they are opened."""
        return [
            {
                "id": one.id,
                "name": one.name,
                "type": one.type or None,
                "qty": one.qty,
                "renew": False,
                "from": _named_ref(one.from_),
                "to": _named_ref(one.to),
                "reuse": one.reuse.value,
                **self._undone(one),
            }
            for one in self._by_coming_out(self._of(Connector))
        ]

    def adhesives(self) -> list[Row]:
        """The adhesives, in the order in which they come loose."""
        return [self._fastening(one) for one in self._by_coming_out(self._of(Adhesive))]

    def fastenings(self) -> list[Row]:
        """Clips, solder joints, thermal material and what else holds, in the order in which they are undone."""
        others = [one for one in self._of(Fastening) if not isinstance(one, Adhesive)]
        return [{**self._fastening(one), "kind": one.kind.value} for one in self._by_coming_out(others)]

    def batteries(self) -> list[Row]:
        """The parts with a battery's rating."""
        return [
            {
                "part": part.id,
                "name": part.name,
                "qty": part.qty,
                "capacity_mah": number(part.battery.capacity_mah),
                "voltage_v": number(part.battery.voltage_v),
                "energy_wh": number(part.battery.energy_wh),
            }
            for part in self._of(Part)
            if part.battery
        ]

    # ------------------------------------------------------------ rows

    def _part(self, part: Part) -> Row:
        return {
            "id": part.id,
            "name": part.name,
            "qty": part.qty,
            "class": part.cls,
            "class_proposed": part.cls_proposed,
            "number": part.number,
            "material": part.material,
            "mass_g": _value(part.mass),
            "in": _named_ref(part.inside),
            "sold_with": [_name(ref) for ref in part.sold_with],
            "source": part.source,
            "operation": self.where.first(part.id),
            "removed": part.id in self.where.changed,
            **self._marked(part),
        }

    def _screws(self, screws: ScrewSet) -> Row:
        thread = screws.thread
        return {
            "id": screws.id,
            "name": screws.name,
            "count": screws.count,
            "drive": "|".join(screws.drives) or None,
            "thread": _size(screws),
            "length_mm": number(thread.length_mm) if thread else None,
            "notation": screw_notation(screws) or None,
            "head": screws.head,
            "colour": screws.colour,
            "grade": screws.grade,
            "torque_nm": _value(screws.torque),
            "left_hand": screws.left_hand,
            "locked": screws.locked,
            "captive": screws.captive,
            "renew": screws.renew,
            "reuse": screws.reuse.value,
            "holds": [_name(ref) for ref in screws.holds],
            **self._undone(screws),
        }

    def _supply(self, supply: Supply) -> Row:
        amount = supply.amount
        quantity = amount.quantity if amount else None
        return self._used_up(supply, supply.strength, amount.text if amount else None, quantity)

    def _renewal(self, thing: Thing) -> Row:
        amount = getattr(thing, "amount", None)
        count = getattr(thing, "count", None)
        text = amount.text if amount else (str(count) if count else None)
        kind = screw_notation(thing) if isinstance(thing, ScrewSet) else getattr(thing, "type", "")
        return self._used_up(thing, kind, text, amount.quantity if amount else None)

    def _used_up(self, thing: Thing, strength: str, amount: str | None, quantity: Quantity | None) -> Row:
        return {
            "id": thing.id,
            "name": thing.name,
            "strength": strength or None,
            "amount": amount,
            "amount_low": number(quantity.low) if quantity and quantity.dimension else None,
            "amount_high": number(quantity.high) if quantity and quantity.dimension else None,
            "amount_unit": quantity.unit if quantity and quantity.dimension else None,
            "renewal": None if isinstance(thing, Supply) else thing.kind.value,
            "link": getattr(thing, "link", None),
            "refit_only": thing.id in self.where.refit_only,
            "operations": self._named(thing),
            **self._marked(thing),
        }

    def _fastening(self, one: Fastening) -> Row:
        return {
            "id": one.id,
            "name": one.name,
            "type": one.type or None,
            "count": one.count,
            "amount": one.amount.text if one.amount else None,
            "renew": one.renew,
            "reuse": one.reuse.value,
            "holds": [_name(ref) for ref in one.holds],
            **self._undone(one),
        }

    # ------------------------------------------------------------ what rows share

    def _of(self, kind: type[_T]) -> Iterator[_T]:
        return (thing for thing in self.guide.things.values() if isinstance(thing, kind))

    def _by_coming_out(self, things: Iterable[_T]) -> list[_T]:
        last = len(self._order)

        def first(thing: _T) -> int:
            found = self.where.changed.get(thing.id)
            return self._order[found[0]] if found else last

        return sorted(things, key=first)

    def _undone(self, thing: Thing) -> Row:
        found = self.where.changed.get(thing.id, ())
        return {"operation": found[0] if found else None, "operations": list(found), **self._marked(thing)}

    def _named(self, thing: Thing) -> list[str]:
        return list(self.where.named.get(thing.id, ()))

    def _marked(self, thing: Thing) -> Row:
        """Where the note has it: the line and column of its declaration; None where the compiler entered it."""
        place = None if thing.implied else self.guide.source.place(thing.span.start)
        return {
            "was": list(thing.was),
            "draft": thing.draft,
            "line": place.line if place else None,
            "column": place.column if place else None,
        }


def _size(screws: ScrewSet) -> str | None:
    """A thread without its length: `M2`, `M10x0.75`, `ST2.9`, `2.5`."""
    thread = screws.thread
    if thread is None:
        return None
    pitch = f"x{thread.pitch_mm:g}" if thread.pitch_mm else ""
    return f"{thread.system}{thread.diameter_mm:g}{pitch}"


def _value(quantity: Quantity | None) -> float | None:
    """A quantity as one number: the middle of a range."""
    if quantity is None or not quantity.dimension:
        return None
    return number(round((quantity.low + quantity.high) / 2, 9))


def _name(ref: Ref) -> str:
    return ref.id or ref.name


def _named_ref(ref: Ref | None) -> str | None:
    return _name(ref) if ref else None
