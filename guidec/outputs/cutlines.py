"""The content of an operation and the actions to keep -> the content of those alone, in the order they are done.

A remark goes with the action after it in its list, the last with the one before. A line of which only some actions
are done is cut to those. Prose goes with the list after it (the last with the one before), a picture and a hazard
with the list before it (the first with the one after).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence

from markdown_it.token import Token

from guidec.model.types import Content, Group, Guide, Line, Lines, Prose, Shown
from guidec.notes.syntax import Inline, Mark
from guidec.quick import dataclass, replace
from guidec.source import Span

__all__ = ["Keep", "kept"]

_MARKDOWN = re.compile(r"[*_`\[\]<>\\&~|]")
"""What may mean more to Markdown than it says: a text with it is not taken apart."""


@dataclass(frozen=True, slots=True)
class Keep:
    """What to keep. `place`: each action's place in the order; `turns`: the line to put before an action, those
    that are not put in yet.

    `picture`: what to make of a picture that is kept.
    """

    guide: Guide
    place: Mapping[str, int]
    turns: dict[str, Line]
    picture: Callable[[Shown], Shown]

    def first(self, content: Content | Line) -> int | None:
        """The place of the first kept action in a list or line; None where it has none."""
        places = [self.place[own] for own in _actions(content) if own in self.place]
        return min(places, default=None)

    def turn(self, line: Line) -> list[Line]:
        """The line to put before one: where the turn comes before all that is done in it, below it too."""
        early = [own for own in _actions(line) if own in self.turns]
        early = [own for own in early if own in line.actions or self.place[own] == self.first(line)]
        return [self.turns.pop(own) for own in early[:1]]


def kept(keep: Keep, content: Sequence[Content]) -> tuple[Content, ...]:
    """The content to print. An operation's content without any list is kept whole."""
    chunks = _chunks(content)
    alive = [(keep.first(chunk.lines), chunk) for chunk in chunks if chunk.lines is not None]
    if not alive:
        return tuple(_other(keep, item) for item in content)
    found = sorted(((at, chunk) for at, chunk in alive if at is not None), key=lambda entry: entry[0])
    made: list[Content] = []
    for _, chunk in found:
        made += [_other(keep, item) for item in chunk.before]
        assert chunk.lines is not None
        made += _list(keep, chunk.lines)
        made += [_other(keep, item) for item in chunk.after]
    return tuple(made)


@dataclass(slots=True)
class _Chunk:
    """A list with what goes with it."""

    before: list[Content]
    lines: Lines | None
    after: list[Content]


def _chunks(content: Sequence[Content]) -> list[_Chunk]:
    """Content parted at its lists."""
    chunks: list[_Chunk] = []
    waiting: list[Content] = []
    for item in content:
        if isinstance(item, Lines):
            chunks.append(_Chunk(waiting, item, []))
            waiting = []
        elif chunks and not isinstance(item, Prose | Group) and not waiting:
            chunks[-1].after.append(item)
        else:
            waiting.append(item)
    if chunks:
        chunks[-1].after += waiting
    return chunks


def _other(keep: Keep, item: Content) -> Content:
    return keep.picture(item) if isinstance(item, Shown) else item


def _actions(content: Content | Line) -> list[str]:
    """All actions in a list or line, those below it too."""
    if isinstance(content, Lines):
        return [own for line in content.lines for own in _actions(line)]
    if isinstance(content, Line):
        return [*content.actions, *(own for item in content.content for own in _actions(item))]
    return []


def _list(keep: Keep, lines: Lines) -> list[Content]:
    """A list with its kept lines in order; lists below a line that is not done itself stand in its place."""
    made: list[Content] = []
    run: list[Line] = []
    for line in _in_order(keep, lines):
        if line.actions and not any(own in keep.place for own in line.actions):
            made += [replace(lines, lines=tuple(run))] if run else []
            run = []
            made += kept(keep, line.content)
        else:
            run += [*keep.turn(line), _line(keep, line)]
    made += [replace(lines, lines=tuple(run))] if run else []
    return made


def _in_order(keep: Keep, lines: Lines) -> list[Line]:
    """The kept lines in the order they are done, each after the remarks that go with it."""
    groups: list[tuple[int | None, list[Line]]] = []
    waiting: list[Line] = []
    for line in lines.lines:
        waiting.append(line)
        if _actions(line):
            groups.append((keep.first(line), waiting))
            waiting = []
    if groups:
        groups[-1][1].extend(waiting)
    done = sorted(((at, group) for at, group in groups if at is not None), key=lambda entry: entry[0])
    return [line for _, group in done for line in group if keep.first(line) is not None or not _actions(line)]


def _line(keep: Keep, line: Line) -> Line:
    """A line with its kept actions alone; a remark as it is."""
    below = kept(keep, line.content) if any(_actions(item) for item in line.content) else line.content
    own = tuple(action for action in line.actions if action in keep.place)
    if len(own) == len(line.actions):
        return replace(line, content=below)
    return replace(line, content=below, actions=own, inline=_cut(keep.guide, line.inline, own))


def _cut(guide: Guide, inline: Inline, own: Sequence[str]) -> Inline:
    """The text of some of a line's actions, as sentences."""
    tokens: list[Token] = []
    marks: list[Mark] = []
    for name in own:
        action = guide.actions[name]
        inside = [mark for mark in inline.marks if action.span.start <= mark.span.start < action.span.end]
        tokens += [_text(" ")] if tokens else []
        tokens += _tokens(guide, action.span, inside) or [_text(action.text.rstrip("."))]
        tokens.append(_text("."))
        said = {risk.span for risk in action.risks} | {note.span for note in action.refits}
        marks += [mark for mark in inline.marks if mark in inside or mark.span in said]
    return Inline(inline.span, tuple(marks), tuple(tokens))


def _tokens(guide: Guide, span: Span, marks: Sequence[Mark]) -> list[Token]:
    """A stretch of the note as tokens, its first letter a capital; none where it holds Markdown of its own."""
    found: list[Token] = []
    at = span.start
    for mark in marks:
        found += [_text(guide.source.text[at : mark.span.start]), Token("mark", "", 0, meta={"mark": mark})]
        at = mark.span.end
    found.append(_text(guide.source.text[at : max(at, span.end)].rstrip(" .")))
    if any(_MARKDOWN.search(token.content) for token in found):
        return []
    first = found[0]
    first.content = first.content.lstrip()
    first.content = first.content[:1].upper() + first.content[1:]
    return found


def _text(words: str) -> Token:
    return Token("text", "", 0, content=" ".join(words.split("\n")))
