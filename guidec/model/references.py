"""Names that are referred to -> ids; names nobody declared -> findings with the nearest ones."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from functools import cached_property

from guidec.model.types import Ref
from guidec.quick import dataclass
from guidec.rules.finding import Finding
from guidec.source import Span
from guidec.trade.likeness import fold, nearest

__all__ = ["Names"]

_FEW = 400
_SEARCHES = 400
"""For so many unknown names the nearest ones are looked for; a note with more has another trouble."""

_WALL = frozenset({"wall"})


@dataclass(frozen=True)
class Names:
    """The names of a note's things. `ids`: folded name -> id; `spelled`: folded name -> as declared; `kinds`:
    folded name -> kind.

    `broken`: folded names of marks that were meant to declare and could not: nobody complains of them twice.
    """

    ids: Mapping[str, str]
    spelled: Mapping[str, str]
    kinds: Mapping[str, str]
    broken: frozenset[str] = frozenset()
    _near: dict[str, tuple[str, ...]] = field(default_factory=dict, repr=False)

    def find(self, name: str) -> str | None:
        """The id of the thing of that name (case and white space fold), or None.

        A name with its own kind before it (`screw A`) is found too, where nothing has all of it for a name.
        """
        folded = fold(name)
        if folded in self.ids:
            return self.ids[folded]
        kind, _, rest = folded.partition(" ")
        return self.ids[rest] if rest and self.kinds.get(rest) == kind else None

    def nearest(self, name: str, n: int = 4) -> tuple[str, ...]:
        """Up to `n` declared names that were most likely meant, nearest first."""
        folded = fold(name)
        if folded not in self._near and len(self._near) < _SEARCHES:
            self._near[folded] = self._search(folded)
        return self._near.get(folded, ())[:n]

    def _search(self, folded: str) -> tuple[str, ...]:
        pool = self.spelled
        if len(pool) > _FEW:
            pool = {key: pool[key] for word in folded.split() for key in self._by_start.get(word[:2], ())[:_FEW]}
        near = list(nearest(folded, pool.values()))
        words = set(folded.split())
        sharing = [(len(words & set(key.split())), key) for key in pool]
        best = sorted((-shared, abs(len(key) - len(folded)), key) for shared, key in sharing if shared)
        return tuple(dict.fromkeys(near + [pool[key] for *_, key in best[:4]]))

    @cached_property
    def _by_start(self) -> Mapping[str, list[str]]:
        """Folded names by the first two letters of each of their words, for notes of many things."""
        table: dict[str, list[str]] = {}
        for key in self.spelled:
            for word in key.split():
                table.setdefault(word[:2], []).append(key)
        return table

    def refs(self, typed: str, span: Span) -> tuple[tuple[Ref, ...], tuple[Finding, ...]]:
        """The names of a comma list in a key's value; a whole value that is one name is one reference."""
        found = tuple(Ref(name, at, self.find(name)) for name, at in self._pieces(typed, span))
        lost = [ref for ref in found if ref.id is None and not self.excused(ref.name)]
        return found, tuple(
            Finding.at("M113", ref.span, variant="key", name=ref.name, key=ref.name.partition("=")[0].strip())
            if "=" in ref.name
            else Finding.at("M113", ref.span, suggest=self.nearest(ref.name), name=ref.name)
            for ref in lost
        )

    def excused(self, name: str) -> bool:
        """Whether a name needs no declaration: the wall, or one whose declaration is broken."""
        return fold(name) in _WALL or fold(name) in self.broken

    def _pieces(self, typed: str, span: Span) -> list[tuple[str, Span]]:
        if self.find(typed) is not None:
            return [(_tidy(typed), span)]
        found: list[tuple[str, Span]] = []
        at = 0
        for part in typed.split(","):
            found += self._joined(part, span.start + at) if part.strip() else []
            at += len(part) + 1
        exact = len(typed) == span.end - span.start
        return found if exact else [(name, span) for name, _ in found]

    def _joined(self, part: str, start: int) -> list[tuple[str, Span]]:
        """One entry of a list, or two joined by "and" where each is a name and the whole is none."""
        for joint in (" and ", " und ", " & "):
            left, middle, right = part.partition(joint)
            if middle and self.find(part.strip()) is None and self.find(left) and self.find(right):
                after = start + len(left) + len(middle)
                return [(_tidy(left), _tight(left, start)), (_tidy(right), _tight(right, after))]
        return [(_tidy(part), _tight(part, start))]


def _tidy(name: str) -> str:
    return " ".join(name.split())


def _tight(text: str, start: int) -> Span:
    """The span of a text without the white space around it."""
    begin = start + len(text) - len(text.lstrip())
    return Span(begin, begin + len(text.strip()))
