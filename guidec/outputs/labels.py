"""A guide -> the label of each of its lines, as the whole sheet prints it: a part of the guide keeps them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from guidec.model.types import Content, Guide, Lines
from guidec.outputs.viewlines import Counts
from guidec.source import Span

__all__ = ["labels"]


def labels(guide: Guide) -> Mapping[Span, str]:
    """The label of each line by the line's span; nothing for a remark that has none."""
    found: dict[Span, str] = {}
    for operation in guide.operations:
        _walk(Counts(), operation.content, "", found)
    return found


def _walk(counts: Counts, content: Sequence[Content], under: str, found: dict[Span, str]) -> None:
    for item in content:
        if not isinstance(item, Lines):
            continue
        for line in item.lines:
            own, whole = counts.label(under, ordered=item.ordered, action=bool(line.actions))
            found[line.span] = whole if own else ""
            _walk(counts, line.content, whole, found)
