"""Random notes with every order said in words: `after` and sides explicit, so that operations may be permuted.

Each operation takes off one part. Some operations are another way to an earlier one.
"""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from guidec import model, notes, plan
from guidec.model.types import Guide
from guidec.plan import Graph
from guidec.rules.book import wording
from guidec.rules.finding import Severity
from guidec.source import Source

DRIVES = ("PH0", "T5", "T8", "PH1")


@dataclass(frozen=True)
class Written:
    """A note as front matter and operations, in an order."""

    operations: tuple[str, ...]

    def text(self, order: list[int] | None = None) -> str:
        chosen = self.operations if order is None else tuple(self.operations[at] for at in order)
        return "---\ntitle: Device\nlanguage: en\npower: none\n---\n\n# Device\n\n" + "\n".join(chosen)


def random_note(random: Random, parts: int, other_ways: int, *, sides: bool = True) -> Written:
    """A note of so many parts, and operations that are another way to some of them."""
    operations = []
    afters: list[str] = []
    ways = dict.fromkeys(range(parts), 0)
    for _ in range(other_ways):
        ways[random.randrange(parts)] += 1
    for at in range(parts):
        above = random.sample(range(at), min(at, random.choice((0, 1, 1, 1, 2))))
        after = ", ".join(f"part {one}" for one in sorted(above)) or "nothing"
        afters.append(after)
        under = f"; under=part {above[0]}" if above and random.random() < 0.5 else ""
        for way in range(ways[at] + 1):
            operations.append(_operation(random, at, way, after, under, sides))
    return Written(tuple(operations))


def _operation(random: Random, at: int, way: int, after: str, under: str, sides: bool) -> str:
    side = f" {{side {random.choice(('front', 'front', 'back'))}}}" if sides else ""
    instead = f" {{instead of Off {at}}}" if way else ""
    title = f"Off {at} otherwise {way}" if way else f"Off {at}"
    lines = [f"## {title} {{after {after}}}{instead}{side}", ""]
    for number in range(random.choice((0, 1, 1, 2))):
        lines.append(_loosening(random, f"{at}.{way}.{number}"))
    tool = random.choice(("", "", " with {tool card}", " with {tool spudger}"))
    risk = random.choice(("", "", " {risk chips}"))
    part = f"part {at}" if way else f"part part {at}{under}"
    lines.append(f"Lift off {{{part}}}{tool}.{risk}")
    mark = "-" if len(lines) > 4 and random.random() < 0.5 else "1."
    if mark == "-":
        *free, last = lines[2:]
        return "\n".join([*lines[:2], *(f"- {line}" for line in free), "", f"1. {last}", ""])
    return "\n".join([*lines[:2], *(f"1. {line}" for line in lines[2:]), ""])


def _loosening(random: Random, name: str) -> str:
    kind = random.random()
    if kind < 0.6:
        return f"Undo {{screw set {name}: {random.randint(1, 5)}x {random.choice(DRIVES)} M2x4}}."
    if kind < 0.8:
        return f"Unplug {{connector lead {name}: plug}}."
    return f"Cut {{adhesive tape {name}: double-sided tape}} with {{tool knife}}."


def graph_of(text: str) -> Graph:
    """The graph of a note, which must be free of errors."""
    return plan.graph(guide_of(text))


def guide_of(text: str) -> Guide:
    document, first = notes.read(Source.of("note.md", text))
    guide, second = model.build(document)
    errors = [one.message for one in map(wording, (*first, *second)) if one.severity is Severity.ERROR]
    assert not errors, f"{errors}\n{text}"
    return guide
