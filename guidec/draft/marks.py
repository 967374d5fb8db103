"""Things of a story -> their marks: with all that is known where they are first met, by their name after that."""

from __future__ import annotations

from collections.abc import Mapping

from guidec.draft.plain import as_name, letter
from guidec.draft.story import Named, Screws, Story

__all__ = ["Marks"]


class Marks:
    """The marks of one note; which names are declared already is known as it goes."""

    def __init__(self, story: Story) -> None:
        self.story = story
        self.declared: dict[int, str] = {}
        self.names: dict[str, int] = {}
        self.told: set[int] = set()
        """The things whose own words stand in the note already."""
        self._kept: dict[str, str] = {}
        self._letters: list[str] = []

    def clear(self) -> None:
        """Begin again."""
        self.declared.clear()
        self.names.clear()
        self.told.clear()

    def keep(self, known: Mapping[str, str]) -> None:
        """Take names (folded) with their kinds as declared by a note that lines are to be added to."""
        self.clear()
        self._kept = dict(known)
        sets = {name for name, kind in known.items() if kind == "screw"}
        self._letters = [one for one in map(letter, range(26 * 27)) if one.casefold() not in sets]
        for thing in self.story.named:
            name = as_name(thing.name)
            if known.get(name.casefold()) == thing.kind:
                self.declared[id(thing)] = name
                self.names[name.casefold()] = id(thing)

    def knows(self, thing: Named | Screws) -> bool:
        """Whether a thing is declared."""
        return id(thing) in self.declared

    @staticmethod
    def plain(thing: Named) -> str:
        """A name as it is said, for running text."""
        return as_name(thing.name)

    def name(self, thing: Named | Screws) -> str:
        """The name of a thing in the note: alone among the note's names."""
        if id(thing) in self.declared:
            return self.declared[id(thing)]
        if isinstance(thing, Screws):
            return self._set_name(thing)
        name = as_name(thing.name)
        if not self._is_free(name, thing):
            others = (f"{name} {thing.kind}", f"other {name}", f"third {name}")
            last = f"further {name} at {int(thing.quote.start)} s"
            name = next((one for one in others if self.names.get(one.casefold()) in (None, id(thing))), last)
        self.names[name.casefold()] = id(thing)
        return name

    def _is_free(self, name: str, thing: Named) -> bool:
        taken = self.names.get(name.casefold(), -1 if name.casefold() in self._kept else id(thing))
        return taken == id(thing)

    def _set_name(self, row: Screws) -> str:
        sets = [one for one in self.story.screws if not one.split]
        number = sets.index(row) if row in sets else len(sets)
        name = self._letters[number] if number < len(self._letters) else letter(number)
        return f"{name} {row.size[1:]} mm" if row.size.startswith("x") else name

    def thing(self, thing: Named | Screws, bare: bool) -> str:
        """The mark of a part, set, connector, tool, …; `bare`: without proposed keys."""
        name = self.name(thing)
        if id(thing) in self.declared:
            return f"{{? {name}}}"
        self.declared[id(thing)] = name
        return _set(thing, name, bare) if isinstance(thing, Screws) else _named(thing, name, bare)

    def supply(self, thing: Named) -> str:
        """The mark of a supply, with its strength and amount."""
        name = self.name(thing)
        if id(thing) in self.declared:
            return f"{{? {name}}}"
        self.declared[id(thing)] = name
        details = ", ".join(one.text for one in sorted(thing.values, key=lambda one: one.unit != "%"))
        return f"{{? supply {name}" + (f": {details}" if details else "") + "}"


def _named(thing: Named, name: str, bare: bool) -> str:
    details, keys = "", []
    many = bool(thing.count and thing.count > 1)
    if thing.kind == "part":
        details = ", ".join(one.text for one in thing.values if one.unit in ("mAh", "Ah", "Wh", "V"))
        if thing.cls and thing.cls != "other" and not bare:
            keys.append(f"class={thing.cls}")
    elif thing.kind == "connector":
        details = thing.type
    elif thing.kind in ("clip", "fastening", "solder"):
        details = str(thing.count) if thing.count else ""
    if many and thing.kind in ("part", "connector"):
        keys.append(f"qty={thing.count}")
    return _mark(f"{thing.kind} {name}", details, keys)


def _set(row: Screws, name: str, bare: bool) -> str:
    size = "" if row.size.startswith("x") else row.size
    details = " ".join(word for word in (f"{row.count}x" if row.count else "", row.drive, size) if word)
    keys = ["captive"] if row.captive else []
    keys += ["hand=left"] if row.left_hand else []
    keys += [f"torque={row.torque.text}"] if row.torque and not bare else []
    return _mark(f"screw {name}", details, keys)


def _mark(head: str, details: str, keys: list[str]) -> str:
    return f"{{? {head}" + (f": {details}" if details else "") + "".join(f"; {key}" for key in keys) + "}"
