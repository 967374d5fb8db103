"""Transcripts with hand-made facts -> precision and recall of the drafts, per kind of fact.

    python bench/drafts.py [NAME…] [--misses] [--of DIR]

Facts and how they match: `tests/draft/transcripts/README.md`.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import yaml

ROOT = Path(__file__).parent.parent
sys.path.insert(0, str(ROOT))

from bench.draft_match import MATCH, Fact, same  # noqa: E402 - after the path

TRANSCRIPTS = ROOT / "tests" / "draft" / "transcripts"
KINDS = (
    "screws", "tools", "supplies", "values", "connectors", "parts", "classes", "actions", "adhesives", "clips",
    "operations", "refits", "risks", "hazards", "side_trips", "isolate", "verdict", "misheard",
)  # fmt: skip


@dataclass
class Count:
    """How many facts were found (`hit`), missed, and made up (`wrong`)."""

    hit: int = 0
    missed: int = 0
    wrong: int = 0
    lines: list[str] = field(default_factory=list)

    def add(self, other: Count) -> None:
        self.hit += other.hit
        self.missed += other.missed
        self.wrong += other.wrong

    @property
    def precision(self) -> float:
        return self.hit / (self.hit + self.wrong) if self.hit + self.wrong else 1.0

    @property
    def recall(self) -> float:
        return self.hit / (self.hit + self.missed) if self.hit + self.missed else 1.0


def compare(found: Sequence[Fact], facts: Sequence[Fact], score: Callable[[Fact, Fact], float]) -> Count:
    """Pair found and given facts one to one, the best pairs first."""
    pairs = sorted(
        (
            (score(one, fact) - 0.001 * bool(fact.get("maybe")), a, b)
            for a, one in enumerate(found)
            for b, fact in enumerate(facts)
        ),
        key=lambda row: (-row[0], row[1], row[2]),
    )
    mine: dict[int, int] = {}
    theirs: set[int] = set()
    for value, a, b in pairs:
        if value > 0.01 and a not in mine and b not in theirs:
            mine[a] = b
            theirs.add(b)
    count = Count()
    for a, one in enumerate(found):
        if a in mine:
            count.hit += not facts[mine[a]].get("maybe")
        elif not any(score(one, fact) > 0.01 and fact.get("maybe") for fact in facts):
            count.wrong += 1
            count.lines.append(f"    made up: {dict(one)}")
    for b, fact in enumerate(facts):
        if b not in theirs and not fact.get("maybe"):
            count.missed += 1
            count.lines.append(f"    missed:  {dict(fact)}")
    return count


def measure(found: Mapping[str, Any], facts: Mapping[str, Any]) -> dict[str, Count]:
    """The counts of one transcript, kind by kind."""
    counts = {kind: compare(found.get(kind, []), facts.get(kind, []), MATCH[kind]) for kind in MATCH}
    counts["classes"] = _classes(found.get("parts", []), facts.get("parts", []))
    for kind in ("isolate", "verdict"):
        counts[kind] = _single(kind, found.get(kind), facts)
    return counts


def _classes(found: Sequence[Fact], facts: Sequence[Fact]) -> Count:
    """Of the parts found by name: is the proposed class right?"""
    count = Count()
    for one in found:
        fact = max(facts, key=lambda row: same(one["name"], row), default=None)
        if fact is None or same(one["name"], fact) == 0 or "class" not in fact:
            continue
        if one.get("class", "other") in [fact["class"], *fact.get("classes", [])]:
            count.hit += 1
        else:
            count.wrong += 1
            count.missed += 1
            count.lines.append(f"    class: {one} for {dict(fact)}")
    return count


def _single(kind: str, found: Any, facts: Mapping[str, Any]) -> Count:
    fact = facts.get(kind)
    if kind == "isolate":
        rows = [row for name in ("connectors", "parts") for row in facts.get(name, [])]
        known = next((row for row in rows if fact and same(fact, row) == 1.0), {"name": fact or ""})
        right = bool(found and fact and (same(found, known) or same(found, {"name": fact})))
    else:
        right = bool(found and fact and dict(found) == dict(fact))
    count = Count(hit=int(right), missed=int(bool(fact) and not right), wrong=int(bool(found) and not right))
    if not right and (found or fact):
        count.lines.append(f"    {kind}: found {found}, fact {fact}")
    return count


def names(folder: Path = TRANSCRIPTS) -> list[str]:
    """The transcripts that have facts."""
    return sorted(path.name.removesuffix(".facts.yaml") for path in folder.glob("*.facts.yaml"))


def facts_of(name: str, folder: Path = TRANSCRIPTS) -> dict[str, Any]:
    """The facts of a transcript."""
    loaded: dict[str, Any] = yaml.safe_load((folder / f"{name}.facts.yaml").read_text(encoding="utf-8"))
    return loaded


def table(rows: Mapping[str, Count], title: str) -> str:
    """Precision and recall as a table."""
    lines = [f"{title:<24} facts  found right  precision recall"]
    for kind in KINDS:
        one = rows[kind]
        facts, found = one.hit + one.missed, one.hit + one.wrong
        lines.append(f"  {kind:<22} {facts:5} {found:6} {one.hit:5}      {one.precision:.2f}   {one.recall:.2f}")
    return "\n".join(lines)


def total(parts: Iterable[dict[str, Count]]) -> dict[str, Count]:
    """The sums over transcripts."""
    summed = {kind: Count() for kind in KINDS}
    for part in parts:
        for kind in KINDS:
            summed[kind].add(part[kind])
    return summed


def main(arguments: Sequence[str]) -> int:
    from bench.draft_facts import found_in  # only the command needs the drafter

    folder = Path(arguments[arguments.index("--of") + 1]) if "--of" in arguments else TRANSCRIPTS
    chosen = [name for name in arguments if not name.startswith("-") and name != str(folder)] or names(folder)
    parts = {}
    for name in chosen:
        facts = facts_of(name, folder)
        parts[name] = measure(found_in(folder / facts["transcript"]), facts)
        if "--misses" in arguments:
            print(name)
            for kind in KINDS:
                if parts[name][kind].lines:
                    print(f"  {kind}", *parts[name][kind].lines, sep="\n")
    print(table(total(parts.values()), f"{len(parts)} transcripts"))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
