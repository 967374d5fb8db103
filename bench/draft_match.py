"""A fact of a draft, and one made by hand -> how well they match, kind by kind: 0 not at all, 1 in every way.

What is compared, and what is forgiven, is written in `tests/draft/transcripts/README.md`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

__all__ = ["MATCH", "Fact", "same"]

NEAR = 30.0
"""Seconds."""
Fact = Mapping[str, Any]


def clock(text: Any) -> float:
    """`m:ss` -> seconds. YAML reads an unquoted `1:12` as a number to base 60, which is the same."""
    if isinstance(text, int | float):
        return float(text)
    total = 0.0
    for part in str(text).split(":"):
        total = total * 60 + float(part)
    return total


_FOLD = {
    "colour": "color", "grey": "gray", "fibre": "fiber", "metre": "meter", "mould": "mold",
    "screwdriver": "driver",
    "aluminium": "aluminum", "loudspeaker": "speaker", "silicon": "silicone",
}  # fmt: skip


def fold(name: Any) -> list[str]:
    """The words of a name as they are compared: lower case, singular, one spelling, no article."""
    words = str(name).lower().replace("-", " ").replace(".", " ").split()
    rows = [one for one in words if one not in ("the", "a", "an", "this", "little", "new", "of")]
    rows = [_FOLD.get(one, one) for one in rows]
    return [_one(word) for word in rows]


def _one(word: str) -> str:
    if word in ("teeth",):
        return "tooth"
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("shes", "ches", "xes")):
        return word[:-2]
    return word[:-1] if word.endswith("s") and not word.endswith("ss") and len(word) > 3 else word


def same(name: Any, fact: Fact, key: str = "name") -> float:
    """How well a name matches a fact: 1 equal, 0.5 one adds describing words to the other, 0 not."""
    best = 0.0
    mine = fold(name)
    for other in [fact.get(key, ""), *fact.get("also", [])]:
        theirs = fold(other)
        if mine == theirs or "".join(mine) == "".join(theirs):
            return 1.0
        if mine and theirs and mine[-1] == theirs[-1] and (set(mine) <= set(theirs) or set(theirs) <= set(mine)):
            best = 0.5
    return best


def near(found: Fact, fact: Fact) -> float:
    """1 at the same time, falling to 0 beyond 30 s; 0.5 where either has no time."""
    if "at" not in found or "at" not in fact:
        return 0.5
    told = found["at"] if isinstance(found["at"], list) else [found["at"]]
    apart = min(abs(clock(one) - clock(fact["at"])) for one in told)
    return 0.0 if apart > NEAR else 1.0 - apart / (2 * NEAR)


def screws(found: Fact, fact: Fact) -> float:
    drives = [str(fact.get("drive", "")), *map(str, fact.get("also_drive", []))]
    alike = found.get("count") == fact.get("count") and str(found.get("drive", "")) in drives
    return near(found, fact) if alike and str(found.get("size", "")) == str(fact.get("size", "")) else 0.0


def named(found: Fact, fact: Fact) -> float:
    return same(found["name"], fact)


def values(found: Fact, fact: Fact) -> float:
    if found["kind"] != fact["kind"] or _si(found["value"], found["unit"]) != _si(fact["value"], fact["unit"]):
        return 0.0
    ends = [_si(one["to"], one["unit"]) if "to" in one else None for one in (found, fact)]
    return near(found, fact) if ends[0] == ends[1] else 0.0


_UNITS = {
    "Ω": "ohm",
    "kΩ": "kohm",
    "MΩ": "Mohm",
    "Nm": "N·m",
    "Ncm": "N·cm",
    "µF": "uF",
    "μF": "uF",
    "sec": "s",
    "mL": "ml",
}


def _si(value: float, unit: str) -> tuple[float, str]:
    unit = _UNITS.get(unit, unit)
    scale = {
        "uF": (1e-6, "F"),
        "mA": (0.001, "A"),
        "N·cm": (0.01, "N·m"),
        "cm": (10, "mm"),
        "min": (60, "s"),
        "h": (3600, "s"),
        "Ah": (1000, "mAh"),
        "kohm": (1000, "ohm"),
        "Mohm": (1e6, "ohm"),
        "mV": (0.001, "V"),
        "kV": (1000, "V"),
        "l": (1000, "ml"),
    }
    by, base = scale.get(unit, (1, unit))
    return float(f"{float(value) * by:.6g}"), base


_TYPES = {
    "flip-lock": "flip lock latch flap bar zif gate hinged", "slide-lock": "slide sliding slider drawer",
    "press-fit": "press push on snap popper board", "coaxial": "coax coaxial fl ball",
    "plug": "plug jst molex iec spade two three four five six pin wire header",
}  # fmt: skip
"""The notes language's types of connectors, and words of a type as heard that mean them."""


def family(type_: str) -> str:
    """A connector's type as heard -> the type in the notes language, `` where it has none for it."""
    said = fold(type_)
    return next((name for name, row in _TYPES.items() if name == type_ or set(said) & set(row.split())), "")


def connectors(found: Fact, fact: Fact) -> float:
    wanted = {family(one) for one in [fact.get("type", ""), *fact.get("types", [])]} - {""}
    right = not wanted or family(found.get("type", "")) in wanted
    return same(found["name"], fact) * near(found, fact) * (1.0 if right else 0.0)


def actions(found: Fact, fact: Fact) -> float:
    if found["do"] != fact["do"]:
        return 0.0
    if fact["do"] == "turn":
        return near(found, fact)
    if not found.get("thing") and fact["do"] != "turn":
        return 0.0
    return same(found["thing"], fact, "thing") * near(found, fact)


def operations(found: Fact, fact: Fact) -> float:
    apart = abs(clock(found["at"]) - clock(fact["at"]))
    hit = max((same(name, fact, "about") for name in found["about"]), default=0.0)
    return hit * (1.0 - apart / 120) if apart <= 60 else 0.0


def words(found: Fact, fact: Fact) -> float:
    """A remark: near in time, and half of the fact's words in it."""
    wanted = fold(fact["words"])
    have = set(fold(found["words"]))
    return near(found, fact) if wanted and sum(word in have for word in wanted) * 2 >= len(wanted) else 0.0


def trips(found: Fact, fact: Fact) -> float:
    return same(found["thing"], fact, "thing") * near(found, fact)


def misheard(found: Fact, fact: Fact) -> float:
    mine, theirs = fold(found["meant"]), fold(fact["meant"])
    alike = set(mine) & set(theirs) or "".join(mine) == "".join(theirs)
    return near(found, fact) if alike or fact["meant"] in ("T5", "PH00", "five-lobe", "JIS00") else 0.0


MATCH: Mapping[str, Callable[[Fact, Fact], float]] = {
    "screws": screws, "tools": named, "supplies": named, "values": values, "connectors": connectors,
    "parts": named,
    "actions": actions, "adhesives": named, "clips": lambda a, b: near(a, b) * (a.get("count") == b.get("count")),
    "operations": operations, "refits": words, "risks": words, "hazards": words, "side_trips": trips,
    "misheard": misheard,
}  # fmt: skip
