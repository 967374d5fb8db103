"""A number of actions and a seed -> a clean note of a made-up device, of varied structure.

The notes look like what technicians write: screws, connectors, glue, clips, nested and free lists, tables,
remarks, hazards, times, parts of most classes. The same arguments give the same note. The benchmarks and
several tests share them.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

__all__ = ["note"]

MAKERS = ("Ostrava Licht", "Kestrel & Daughters", "Nordhavn", "Tamarack", "Belltower", "Quillon")
KINDS = ("work lamp", "field radio", "label printer", "bench scale", "tape deck", "air monitor")
PLACES = ("left", "right", "upper", "lower", "front", "rear", "inner", "outer", "middle")
NOUNS = ("bracket", "frame", "tray", "carrier", "guide", "shelf", "holder", "bridge", "rail", "plate")
SCREWS = ("PH0 M2x4", "T6 M2x6", "T8 M2.5x5", "PH1 M3x6", "H2.5 M3x10", "T5 M1.6x4", "T10 M3x8", "PH1 M2.5x8")
BOARDS = ("amplifier board", "tuner board", "sensor board", "driver board", "charging board", "logic board")
MOVERS = ("fan", "motor", "pump", "roller drive")
SMALL = ("gasket", "light guide", "felt pad", "dust grille", "spacer ring")


@dataclass
class _Writer:
    """Writes operations until enough actions are there."""

    dice: random.Random
    lines: list[str] = field(default_factory=list)
    actions: int = 0
    second: int = 20
    things: int = 0
    loose: str = "lid"
    """The part that came off last."""

    def add(self, *lines: str, actions: int = 0) -> None:
        self.lines += lines
        self.actions += actions

    def number(self) -> int:
        self.things += 1
        return self.things

    def name(self, nouns: tuple[str, ...]) -> str:
        return f"{self.dice.choice(PLACES)} {self.dice.choice(nouns)} {self.number()}"

    def screws(self) -> str:
        count = self.dice.choice((1, 2, 2, 3, 4, 4, 6))
        return f"{{screw S{self.number()}: {count}x {self.dice.choice(SCREWS)}}}"

    def heading(self, title: str, after: str = "") -> None:
        start, self.second = self.second, self.second + self.dice.randint(20, 90)
        times = f"@{_clock(start)}-{_clock(self.second)}"
        order = f" {{after {after}}}" if after else ""
        self.add("", f"## {title}{order} {times}", "")


def note(actions: int, seed: int = 1, *, other_ways: int = 0) -> str:
    """A note of at least `actions` actions (about a tenth more at most), with so many other ways."""
    dice = random.Random(f"{seed}-{actions}-{other_ways}")
    writer = _Writer(dice)
    _opening(writer)
    shapes = list(_SHAPES)
    while writer.actions < actions:
        dice.choice(shapes)(writer)
    for _ in range(other_ways):
        _two_ways(writer)
    return "\n".join([*_front(writer), *writer.lines, ""])


def _clock(seconds: int) -> str:
    minutes, rest = divmod(seconds, 60)
    return f"{minutes // 60}:{minutes % 60:02}:{rest:02}" if minutes >= 60 else f"{minutes}:{rest:02}"


def _front(writer: _Writer) -> Iterator[str]:
    maker, kind = writer.dice.choice(MAKERS), writer.dice.choice(KINDS)
    model = f"{writer.dice.choice('ABCDEFGH')}{writer.dice.randint(2, 90)}"
    yield from (
        "---",
        f"title: {maker} {model} {kind}, full teardown",
        f"subject: {{maker: {maker}, model: {model}, year: {writer.dice.randint(2012, 2026)}, kind: {kind}}}",
        "author: Workbench Two",
        "licence: CC-BY-4.0",
        "language: en",
        "revision: 3",
        f'recording: {{file: teardown.mp4, length: "{_clock(writer.second + 60)}"}}',
        "power: battery",
        "isolate: battery lead",
        "---",
        "",
        f"# {maker} {model}",
        "",
        f"A {kind} with a glued cell, taken apart to the last bracket. Bought used, not repaired before.",
    )


def _opening(writer: _Writer) -> None:
    writer.heading("Open the housing")
    writer.add(
        f"1. Undo {writer.screws()}.",
        "2. Lift off {part lid; class=cover} with {tool plastic card}.",
        actions=2,
    )
    writer.heading("Make it dead")
    writer.add("1. Unplug {connector battery lead: press-fit; from=cell pack; to=main board}.", actions=1)
    writer.heading("Take out the cells")
    writer.add(
        "> WARNING: A bent or pierced lithium cell can catch fire and burn you. Do not lever against the cells; "
        "stop if one swells, hisses or smells.",
        "",
        "1. Soak the edge of {adhesive cell tape: double-sided tape; holds=cell pack} with "
        "{supply isopropyl alcohol: 99 %, 2 ml} {wait 45 s}.",
        "2. Lift out {part cell pack: 2600 mAh, 3.7 V; class=battery} by hand.",
        "   {refit put new {supply cell tape strip: 60 mm} on bare plastic}",
        "3. Dry the tray {wait 5 min}.",
        actions=3,
    )
    writer.heading("Free the main board")
    writer.add(f"1. Undo {writer.screws()}.", "2. Lift out {part main board; class=board}.", actions=2)
    writer.loose = "main board"


def _board(writer: _Writer) -> None:
    board, lead = writer.name(BOARDS), f"signal lead {writer.number()}"
    writer.heading(f"Free the {board}", after=writer.loose if writer.dice.random() < 0.4 else "")
    writer.add(
        f"1. Unplug {{connector {lead}: press-fit; from={board}}}.",
        f"2. Undo {writer.screws()}.",
        f"3. Lift out {{part {board}; class=board}}.",
        "   {refit press the lead home before the screws go in}",
        actions=3,
    )
    if writer.dice.random() < 0.5:
        writer.add("", "The solder side is clean; nothing points to earlier work on it.")
    writer.loose = board


def _mover(writer: _Writer) -> None:
    mover, lead = writer.name(MOVERS), f"supply lead {writer.number()}"
    kind = "; class=motor" if "fan" not in mover else "; class=other"
    writer.heading(f"Take out the {mover}")
    writer.add(
        f"1. Slide {{part {mover}{kind}}} out to the side.",
        f"   1. Unplug {{connector {lead}: plug; from={mover}}}.",
        f"   2. Undo {writer.screws()} and fold aside the shaft guard.",
        "2. The shaft should run freely by hand.",
        actions=3,
    )
    writer.loose = mover


def _glued(writer: _Writer) -> None:
    panel, glue = writer.name(NOUNS), f"glue bead {writer.number()}"
    heat = writer.dice.choice((55, 60, 65, 70))
    writer.heading(f"Loosen the {panel}")
    writer.add(
        "> CAUTION: The warmed seam is hot enough to burn skin. Hold it through a cloth.",
        "",
        f"1. Warm the seam with {{tool hot-air gun}} {{heat {heat} °C, 2 min}} to soften "
        f"{{adhesive {glue}: hot-melt glue; holds={panel}}}.",
        f"2. Pry off {{part {panel}; class=other}} with {{tool plastic card}}.",
        f"   {{risk {panel}: bends easily along its long side}}",
        actions=2,
    )
    writer.loose = panel


def _small_parts(writer: _Writer) -> None:
    parts = [writer.name(SMALL) for _ in range(writer.dice.randint(2, 4))]
    writer.heading(f"Small parts, group {writer.number()}", after=writer.loose)
    for part in parts:
        verb = writer.dice.choice(("Peel off", "Lift off", "Carefully pull out"))
        extra = f" {{risk {part}: stretches, fit a new one}}" if writer.dice.random() < 0.3 else ""
        writer.add(f"- {verb} {{part {part}; class=other}}.{extra}", actions=1)
    writer.add(f"- Note the colour code beside {{{parts[0]}}}.", actions=1)


def _clipped(writer: _Writer) -> None:
    cover, clip = writer.name(NOUNS), f"catch row {writer.number()}"
    writer.heading(f"Unclip the {cover}")
    writer.add(
        f"1. Release {{clip {clip}: {writer.dice.randint(2, 8)}; holds={cover}}} with {{tool plastic card}}.",
        f"2. Lift away {{part {cover}; class=other}}.",
        "",
        "| seen | what it means |",
        "|---|---|",
        f"| dust at the vents | clean {{{cover}}} before it goes back |",
        "| worn catches | fit new ones |",
        actions=2,
    )
    writer.loose = cover


def _measured(writer: _Writer) -> None:
    holder = writer.name(NOUNS)
    writer.heading(f"Check and free the {holder}")
    writer.add(
        f"1. Measure {{measure <=0.5 Ω between the frame and ground}} at {{part {holder}; class=other}}.",
        f"2. Undo {writer.screws()}.",
        f"3. Undo {writer.screws()} and lift out {{{holder}}}.",
        actions=4,
    )
    writer.loose = holder


def _two_ways(writer: _Writer) -> None:
    part = writer.name(NOUNS)
    first = f"Take the {part} out from above"
    screws, clip = writer.screws(), f"spring catch {writer.number()}"
    writer.heading(first)
    writer.add(f"1. Undo {screws}.", f"2. Undo {writer.screws()}.", f"3. Lift out {{part {part}; class=other}}.")
    writer.heading(f"Take the {part} out from below {{instead of {first}}}")
    writer.add(f"1. Release {{clip {clip}: 2}}.", f"2. Pull out {{{part}}}.", actions=5)
    writer.loose = part


_SHAPES: tuple[Callable[[_Writer], None], ...] = (
    _board,
    _mover,
    _glued,
    _small_parts,
    _clipped,
    _measured,
)
