"""The tables of the catalogue: their columns, in order, with types, keys and references. All formats follow it."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property

from guidec.quick import dataclass

__all__ = ["TABLES", "Column", "Reference", "Table", "table"]

TYPES = {
    "text": "TEXT",
    "whole": "INTEGER",
    "real": "REAL",
    "yes": "INTEGER",
    "list": "TEXT",
    "json": "TEXT",
}
"""Type of a column -> type in SQLite. `yes` is 0 or 1 there; `list` (of texts) and `json` are JSON text."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column. `needed`: never empty; `source`: the key in the rows of an entry, where it is another."""

    name: str
    type: str
    needed: bool = False
    source: str = ""

    @property
    def key(self) -> str:
        """The key of an entry's rows that it is read from."""
        return self.source or self.name


@dataclass(frozen=True, slots=True)
class Reference:
    """Columns whose values together name a row of another table, where none of them is empty."""

    columns: tuple[str, ...]
    table: str
    to: tuple[str, ...]


@dataclass(frozen=True)
class Table:
    """A table. `key`: the columns that tell its rows apart; `indexed`: those that questions often ask by."""

    name: str
    columns: tuple[Column, ...]
    key: tuple[str, ...]
    references: tuple[Reference, ...] = ()
    indexed: tuple[str, ...] = ()

    @cached_property
    def names(self) -> tuple[str, ...]:
        """The names of its columns."""
        return tuple(column.name for column in self.columns)


def _columns(typed: str) -> tuple[Column, ...]:
    """`name:type`, `!` behind it where it is never empty, `=key` where entries call it something else."""
    found = []
    for word in typed.split():
        name, _, rest = word.partition(":")
        kind, _, source = rest.partition("=")
        found.append(Column(name, kind.rstrip("!"), kind.endswith("!"), source))
    return tuple(found)


_PLACE = "draft:yes line:whole col:whole=column"
_NAMED = "guide:text! id:text! name:text! was:list!"
_UNDONE = f"operation:text operations:list! {_PLACE}"
_GUIDE = Reference(("guide",), "guides", ("id",))
_OPERATION = Reference(("guide", "operation"), "operations", ("guide", "id"))


def _thing(name: str, typed: str, *, undone: bool = True, indexed: tuple[str, ...] = ()) -> Table:
    references = (_GUIDE, _OPERATION) if undone else (_GUIDE,)
    return Table(name, _columns(f"{_NAMED} {typed}"), ("guide", "id"), references, indexed)


TABLES: tuple[Table, ...] = (
    Table(
        "guides",
        _columns(
            "id:text! title:text! was:list! maker:text model:text variant:text year:whole kind:text "
            "author:text licence:text language:text! revision:text date:text note:text! clean:yes! draft:yes! "
            "errors:whole! warnings:whole!"
        ),
        ("id",),
        indexed=("maker", "kind", "year"),
    ),
    Table(
        "operations",
        _columns(
            "guide:text! id:text! number:whole! title:text! was:list! side:text instead_of:text live:yes! "
            "optional:yes! refit_only:yes! start_s:real end_s:real line:whole! col:whole!=column"
        ),
        ("guide", "id"),
        (_GUIDE, Reference(("guide", "instead_of"), "operations", ("guide", "id"))),
    ),
    Table(
        "actions",
        _columns(
            "guide:text! id:text! operation:text! verb:text! family:text! text:text! objects:list! tools:list! "
            "supplies:list! effects:json! optional:yes! line:whole! col:whole!=column"
        ),
        ("guide", "id"),
        (_GUIDE, _OPERATION),
    ),
    _thing(
        "parts",
        "qty:whole! class:text class_proposed:yes! number:text material:text mass_g:real inside:text=in "
        f"sold_with:list! source:text capacity_mah:real voltage_v:real energy_wh:real operation:text removed:yes! "
        f"{_PLACE}",
        indexed=("class", "number"),
    ),
    _thing(
        "fasteners",
        "kind:text! count:whole drive:text thread:text length_mm:real notation:text type:text head:text "
        "colour:text grade:text torque_nm:real left_hand:yes locked:text captive:yes renew:yes! reuse:text! "
        f"holds:list! {_UNDONE}",
        indexed=("drive",),
    ),
    _thing(
        "connectors",
        f"type:text qty:whole! from_end:text=from to_end:text=to renew:yes! reuse:text! {_UNDONE}",
    ),
    _thing(
        "adhesives",
        f"type:text count:whole amount:text renew:yes! reuse:text! holds:list! {_UNDONE}",
    ),
    _thing(
        "tools",
        "size:text grade:text grade_proposed:yes! drive:text implied:yes! refit_only:yes! link:text "
        f"operations:list! {_PLACE}",
        undone=False,
        indexed=("drive",),
    ),
    _thing(
        "supplies",
        "strength:text amount:text amount_low:real amount_high:real amount_unit:text renewal:text "
        f"refit_only:yes! link:text operations:list! {_PLACE}",
        undone=False,
    ),
    Table(
        "hazards",
        _columns(
            "guide:text! number:whole! signal:text! text:text! operation:text action:text added:yes! rule:text "
            "line:whole col:whole=column"
        ),
        ("guide", "number"),
        (_GUIDE, _OPERATION, Reference(("guide", "action"), "actions", ("guide", "id"))),
    ),
    Table(
        "routes",
        _columns(
            "guide:text! part:text! reached:text! spares:text!=by exact:yes! steps:whole! tool_changes:whole! "
            "turn_overs:whole! screws:whole! not_reusable:whole! risks_met:whole! time_s:real! hand_s:real! "
            "wait_s:real! distance:whole! operations:list! tools:list! supplies:list! renewals:list! "
            "alternatives:whole!"
        ),
        ("guide", "part", "spares"),
        (_GUIDE, Reference(("guide", "part"), "parts", ("guide", "id"))),
    ),
    Table(
        "indices",
        _columns(
            "guide:text! method:text! name:text=title low:real! high:real! class:text variant:text scores:json! "
            "unknowns:list!"
        ),
        ("guide", "method"),
        (_GUIDE,),
    ),
)
"""The tables in the order in which they can be filled."""

_BY_NAME: Mapping[str, Table] = {one.name: one for one in TABLES}


def table(name: str) -> Table:
    """The table of a name. Raises KeyError."""
    return _BY_NAME[name]
