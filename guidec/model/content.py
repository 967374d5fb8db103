"""The blocks of an operation -> what stands in it, in order, and its actions."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import field

from guidec.model.actions import LinePlace, line_actions
from guidec.model.asides import check_homeless, is_optional
from guidec.model.context import Context
from guidec.model.hazards import hazard, is_heard
from guidec.model.misplaced import check_early, check_paragraph, check_signal, check_table, has_other_level
from guidec.model.pictures import Album, shows_only
from guidec.model.types import Action, Content, Group, Hazard, Line, Lines, Prose
from guidec.notes.syntax import Block, Heading, Inline, Item, ItemList, Paragraph, Quote, Table
from guidec.quick import dataclass, replace

__all__ = ["Body", "read_body", "read_intro"]


@dataclass(slots=True)
class Body:
    """An operation's content and actions while they are gathered. `order`: actions and hazards as they come."""

    operation: str
    content: tuple[Content, ...] = ()
    actions: dict[str, Action] = field(default_factory=dict)
    order: list[tuple[Hazard | None, tuple[str, ...]]] = field(default_factory=list)
    album: Album = field(default_factory=Album)

    def place_hazards(self) -> tuple[Hazard, ...]:
        """Give each hazard to the actions it belongs to; return those of the whole operation.

        Before the first action: the operation's. In a line with actions: the first of them. Else the next
        action's, and after the last one that one's.
        """
        whole: list[Hazard] = []
        waiting: list[Hazard] = []
        last: str | None = None
        for found, actions in self.order:
            if found is None:
                for one in waiting:
                    self._add(actions[0], one)
                waiting, last = [], actions[-1]
            elif actions:
                self._add(actions[0], found)
            elif last is None:
                whole.append(found)
            else:
                waiting.append(found)
        for one in waiting:
            self._add(last or "", one)
        return tuple(whole)

    def _add(self, action: str, found: Hazard) -> None:
        self.actions[action] = replace(self.actions[action], hazards=(*self.actions[action].hazards, found))


def read_body(operation: str, blocks: Sequence[Block], context: Context) -> Body:
    """The content and the actions of one operation."""
    body = Body(operation)
    content = _contents(blocks, body, context, within=(), optional=False)
    body.content = body.album.pinned(content)
    return body


def read_intro(blocks: Sequence[Block], context: Context) -> tuple[Content, ...]:
    """What stands before the first operation: lists are prose there."""
    body = Body("")
    found: list[Content] = []
    for block in blocks:
        if isinstance(block, ItemList):
            check_early(block, context, level=has_other_level(blocks))
            found.append(Prose(block.span, block))
        else:
            found += _content(block, body, context, ())
    return body.album.pinned(tuple(found))


def _contents(
    blocks: Iterable[Block], body: Body, context: Context, *, within: tuple[str, ...], optional: bool
) -> tuple[Content, ...]:
    found: list[Content] = []
    for block in blocks:
        if isinstance(block, ItemList):
            found.append(_lines(block, body, context, optional=optional))
        else:
            found += _content(block, body, context, within)
    return tuple(found)


def _content(block: Block, body: Body, context: Context, within: tuple[str, ...]) -> list[Content]:
    """One block that is no list; `within`: the actions of the line it stands in."""
    if isinstance(block, Quote):
        return _quote(block, body, context, within)
    if isinstance(block, Heading):
        return [Group(block.span, block.level, block.inline)]
    if isinstance(block, Paragraph):
        if not within and not (check_signal(block.inline, context) or check_paragraph(block.inline, context)):
            check_homeless(block.inline.marks, context)
        pictures = body.album.take(block.inline, context)
        return pictures if shows_only(block.inline) else [*pictures, Prose(block.span, block)]
    if isinstance(block, Table):
        misread = check_table(block, context)
        for row in block.rows if not misread else ():
            for cell in row:
                check_homeless(cell.marks, context)
    return [Prose(block.span, block)]


def _quote(block: Quote, body: Body, context: Context, within: tuple[str, ...]) -> list[Content]:
    if is_heard(block, context):
        return []
    found = hazard(block, context)
    if found is None:
        return [Prose(block.span, block)]
    body.order.append((found, within))
    return [found]


def _lines(block: ItemList, body: Body, context: Context, *, optional: bool) -> Lines:
    lines = tuple(
        _line(item, block, block.start + at if block.ordered else None, body, context, optional)
        for at, item in enumerate(block.items)
    )
    return Lines(block.span, block.ordered, lines)


def _line(item: Item, block: ItemList, number: int | None, body: Body, context: Context, optional: bool) -> Line:
    first = item.blocks[0] if item.blocks else None
    rest = item.blocks[1:] if isinstance(first, Paragraph) else item.blocks
    inline = first.inline if isinstance(first, Paragraph) else Inline(item.marker, ())
    more = [one.inline for one in rest if isinstance(one, Paragraph)]
    place = LinePlace(body.operation, len(body.actions) + 1, inline.span, not block.ordered, optional)
    actions = line_actions(inline, more, place, context)
    ids = tuple([action.id for action in actions])
    if ids:
        body.actions.update(zip(ids, actions, strict=True))
        body.order.append((None, ids))
    optional = optional or is_optional(inline)
    pictures = body.album.take(inline, context)
    content = _contents(rest, body, context, within=ids, optional=optional)
    return Line(item.span, inline, ids, (*pictures, *content), number)
