"""Rows of guides -> one Parquet file a table. Needs `pyarrow`, which comes with the extra `guidec[parquet]`."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any, BinaryIO

import pyarrow  # type: ignore[import-untyped]
from pyarrow import parquet

from guidec.shelf.data.columns import Table

__all__ = ["Sheet"]

_TYPES: dict[str, Any] = {
    "text": pyarrow.string(),
    "whole": pyarrow.int64(),
    "real": pyarrow.float64(),
    "yes": pyarrow.bool_(),
    "list": pyarrow.list_(pyarrow.string()),
    "json": pyarrow.string(),
}
_GROUP = 50_000
"""Rows held back until they are written as one row group."""


class Sheet:
    """One table being written to an open file; lists stay lists. The same rows give the same bytes."""

    def __init__(self, table: Table, out: BinaryIO) -> None:
        self._schema = pyarrow.schema(
            [pyarrow.field(one.name, _TYPES[one.type], nullable=not one.needed) for one in table.columns]
        )
        self._json = [at for at, one in enumerate(table.columns) if one.type == "json"]
        self._whole = [at for at, one in enumerate(table.columns) if one.type == "real"]
        self._writer = parquet.ParquetWriter(out, self._schema, compression="zstd")
        self._rows: list[Sequence[Any]] = []

    def add(self, rows: Sequence[Sequence[Any]]) -> None:
        """Take the rows of one guide."""
        self._rows += rows
        if len(self._rows) >= _GROUP:
            self._flush()

    def finish(self) -> None:
        """Write what is left and the end of the file."""
        self._flush()
        self._writer.close()

    def _flush(self) -> None:
        columns: list[Sequence[Any]] = [*zip(*self._rows, strict=True)] or [()] * len(self._schema)
        arrays = [
            pyarrow.array(self._plain(at, values), type=one.type)
            for at, (values, one) in enumerate(zip(columns, self._schema, strict=True))
        ]
        self._writer.write_table(pyarrow.Table.from_arrays(arrays, schema=self._schema))
        self._rows = []

    def _plain(self, at: int, values: Sequence[Any]) -> Sequence[Any]:
        if at in self._json:
            return [json.dumps(value, ensure_ascii=False, separators=(",", ":")) for value in values]
        if at in self._whole:
            return [None if value is None else float(value) for value in values]
        return values
