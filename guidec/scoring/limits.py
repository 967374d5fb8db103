"""The ways to a part -> whether it passes what regulations ask of its removal, with reasons.

Lines: Reg. (EU) 2023/1670, Annex II B 1.1(5), for smartphones, and Reg. (EU) 2023/1542, Art. 11, for any battery.
What is known to break a line fails it; what is not known leaves it open. A part passes if one of its ways does.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any, Literal

from guidec.model.types import Action, Family, Guide, Part, Supply
from guidec.plan import Route
from guidec.quick import dataclass
from guidec.scoring.en45554 import classes
from guidec.scoring.evidence import Met, met_fastenings, met_tools
from guidec.scoring.library import method
from guidec.trade.deeds import is_deed, speaks_of
from guidec.trade.load import data
from guidec.trade.solvents import solvent

__all__ = ["Line", "Reason", "Verdict", "lines"]

Verdict = Literal["pass", "fail", "open"]
About = Literal["fastenings", "tools", "environment", "skill", "heat", "solvents", "way"]


@dataclass(frozen=True, slots=True)
class Reason:
    """One thing that a line asks. `ok`: None where it is not known. `things`: what decides it; `found`: words for
    it (grades, a class's letter); `assumed`: a default or a proposal decides it."""

    about: About
    ok: bool | None
    things: tuple[str, ...] = ()
    found: tuple[str, ...] = ()
    assumed: bool = False


@dataclass(frozen=True, slots=True)
class Line:
    """One line. `rule`: the key in the data; `place`: which of its lists; `operations`: of the way judged."""

    rule: str
    place: int
    part: str
    verdict: Verdict
    reasons: tuple[Reason, ...]
    operations: tuple[str, ...] = ()


Ways = Callable[[str], Sequence[Route]]
"""The ways to a part that are looked at, by its id; none where it never comes off."""


def lines(guide: Guide, ways: Ways) -> tuple[Line, ...]:
    """All lines that apply to a guide's subject."""
    parts = [thing for thing in guide.things.values() if isinstance(thing, Part)]
    table = data("limits")
    found: list[Line] = []
    if method("eu-2023-1669").kind_of(guide.meta.subject.kind) in table["ecodesign"]["kinds"]:
        for place, row in enumerate(table["ecodesign"]["lists"]):
            for part in parts:
                if part.cls in row["classes"]:
                    found.append(_best("ecodesign", place, part, _ecodesign, row, guide, ways))
    for part in parts:
        if part.cls in table["batteries"]["classes"]:
            found.append(_best("batteries", 0, part, _batteries, table["batteries"], guide, ways))
    return tuple(found)


Judge = Callable[[Part, Mapping[str, Any], Guide, Route], tuple[Reason, ...]]


def _best(
    rule: str, place: int, part: Part, judge: Judge, row: Mapping[str, Any], guide: Guide, ways: Ways
) -> Line:
    """The line by the way that does best in it."""
    found = []
    for route in ways(part.id):
        reasons = judge(part, row, guide, route)
        found.append(Line(rule, place, part.id, _verdict(reasons), reasons, route.operations))
    if not found:
        return Line(rule, place, part.id, "open", (Reason("way", None),))
    order: list[Verdict] = ["pass", "open", "fail"]
    return min(found, key=lambda line: (order.index(line.verdict), _failing(line.reasons)))


def _failing(reasons: Iterable[Reason]) -> int:
    return sum(one.ok is False for one in reasons)


def _verdict(reasons: Iterable[Reason]) -> Verdict:
    held = [one.ok for one in reasons]
    if any(one is False for one in held):
        return "fail"
    return "open" if any(one is None for one in held) else "pass"


# ---------------------------------------------------------------- 2023/1670


def _ecodesign(part: Part, row: Mapping[str, Any], guide: Guide, route: Route) -> tuple[Reason, ...]:
    actions = [guide.actions[one] for one in route.actions]
    reasons = [
        _among("fastenings", met_fastenings(actions, guide), row["fastenings"]),
        _among("tools", met_tools(actions, guide), row["tools"]),
    ]
    own = classes(part, guide, route, None)
    if "environment" in row:
        letter = own.environment.letter if own.environment else None
        reasons.append(_at_most("environment", letter, row["environment"]))
    letter = own.skill.letter if own.skill else None
    reasons.append(_at_most("skill", letter, row["skill"]))
    return tuple(reasons)


def _among(about: About, found: Sequence[Met], passing: Sequence[str]) -> Reason:
    """Whether all that is met is among the words that pass; the things that fail, else those not known."""
    failing = [one for one in found if one.word is not None and one.word not in passing]
    unknown = [one for one in found if one.word is None]
    deciding = failing or unknown
    return Reason(
        about,
        not failing if not unknown or failing else None,
        tuple(one.thing for one in deciding),
        tuple(dict.fromkeys(one.word or "" for one in deciding)),
        any(one.assumed for one in (failing or found)),
    )


def _at_most(about: About, letter: str | None, worst: str) -> Reason:
    return Reason(about, None if letter is None else letter <= worst, (), (letter,) if letter else ())


# ---------------------------------------------------------------- 2023/1542


def _batteries(part: Part, row: Mapping[str, Any], guide: Guide, route: Route) -> tuple[Reason, ...]:
    actions = [guide.actions[one] for one in route.actions]
    heat = tuple(dict.fromkeys(action.id for action in actions if _heats(action, guide)))
    wet = tuple(dict.fromkeys(own for action in actions for own in _solvents(action, guide)))
    return (
        _among("tools", met_tools(actions, guide), row["tools"]),
        Reason("heat", not heat, heat),
        Reason("solvents", not wet, wet),
    )


def _heats(action: Action, guide: Guide) -> bool:
    """Whether an action warms something to get it off: a heat value, a verb of warming, or a hot tool."""
    language = guide.meta.language
    if action.family is not Family.UNDO and action.family is not Family.SOFTEN:
        return False
    hot = any(speaks_of(guide.things[use.id].name, "hot_tools", language) for use in action.tools)
    return bool(action.heats) or hot or is_deed(action.verb, "heat", language)


def _solvents(action: Action, guide: Guide) -> Iterator[str]:
    """The solvents that an action loosens something with."""
    if action.family not in (Family.UNDO, Family.SOFTEN):
        return
    for use in action.supplies:
        thing = guide.things[use.id]
        if isinstance(thing, Supply) and solvent(f"{thing.name} {thing.details}"):
            yield thing.id
