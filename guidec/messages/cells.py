"""A line of text -> terminal cells: what to print, and the column at which each character stands.

Tabs go to the next multiple of four. Characters that would move the cursor or turn the reading direction are
shown as a sign in their place, so that a note cannot write to the terminal of the person who checks it.
"""

from __future__ import annotations

from collections.abc import Iterator

from guidec.quick import dataclass

__all__ = ["Cells", "cells", "one_line", "printable"]

TAB = 4
_TURNING = frozenset("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


@dataclass(frozen=True, slots=True)
class Cells:
    """`shown[k]` starts at column `columns[k]`; `starts[i]` and `ends[i]` are the columns at which a span that
    starts or ends before character i does. The last of `columns` is the width of the line."""

    shown: tuple[str, ...]
    columns: tuple[int, ...]
    starts: tuple[int, ...]
    ends: tuple[int, ...]

    @property
    def width(self) -> int:
        """The columns that the whole line takes."""
        return self.columns[-1]


def printable(char: str) -> str:
    """The character, or a sign for it where it is a control or turns the reading direction."""
    code = ord(char)
    if code < 0x20:
        return chr(0x2400 + code)
    if code == 0x7F:
        return "\u2421"
    if 0x80 <= code < 0xA0 or char in _TURNING or char in "\u2028\u2029":
        return "\ufffd"
    return char


def one_line(text: str) -> str:
    """Text on one line, safe to print: runs of white space and line ends become one blank each."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(map(printable, " ".join(text.split("\n")).replace("\t", " ")))


def cells(line: str) -> Cells:
    """The cells of a line without its line end."""
    shown: list[str] = []
    columns = [0]
    starts: list[int] = []
    ends: list[int] = []
    for cluster, width in _clusters(line):
        at = columns[-1]
        step = TAB - at % TAB if cluster == "\t" else width
        shown.append(" " * step if cluster == "\t" else "".join(map(printable, cluster)))
        starts += [at] * len(cluster)
        ends += [at] + [at + step] * (len(cluster) - 1)
        columns.append(at + step)
    return Cells(tuple(shown), tuple(columns), (*starts, columns[-1]), (*ends, columns[-1]))


def _clusters(line: str) -> Iterator[tuple[str, int]]:
    """What a reader sees as one character each, with its width."""
    if line.isascii():
        yield from ((char, 1) for char in line)
        return
    import wcwidth  # here, not above: most lines do without, and a check should start fast

    for cluster in wcwidth.iter_graphemes(line):
        width = wcwidth.wcswidth("".join(map(printable, cluster)))
        yield cluster, max(width, 0)
