"""A text, a size and a room -> its lines, by widths of letters that no font has to be opened for."""

from __future__ import annotations

__all__ = ["length", "wrapped"]


def wrapped(text: str, size: float, room: float) -> list[str]:
    """A text in lines that fit; a word too long for a line is parted."""
    lines, ems = [""], 0.0
    for word in text.split():
        joined = f" {word}" if lines[-1] else word
        longer = sum(map(_EMS.__getitem__, joined), ems)
        if size * longer <= room:
            lines[-1] += joined
            ems = longer
            continue
        lines += [word] if lines[-1] else []
        lines[-1] = word
        while length(lines[-1], size) > room:
            at = next(
                at for at in range(len(lines[-1]) - 1, 0, -1) if at == 1 or length(lines[-1][:at], size) <= room
            )
            lines[-1:] = [lines[-1][:at], lines[-1][at:]]
            if at == 1 and len(lines[-1]) == 1:
                break
        ems = sum(map(_EMS.__getitem__, lines[-1]), 0.0)
    return lines


def length(text: str, size: float) -> float:
    """How long a text is at most, in a plain sans serif (widths in ems: own measure, on the wide side)."""
    return size * sum(map(_EMS.__getitem__, text))


class _Ems(dict[str, float]):
    """The widths that were asked for, by character."""

    def __missing__(self, char: str) -> float:
        self[char] = _em(char)
        return self[char]


_EMS = _Ems()


def _em(char: str) -> float:
    if char in " .,:;'|!ijlftI()[]-/":
        return 0.33
    if char in "mwMW@%—…":
        return 0.9
    if ord(char) >= 0x1100:
        return 1.0
    return 0.68 if char.isupper() else 0.56
