"""A draft -> what was found, what was left out, what was corrected: as text for people and data for programs."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from guidec.draft.draft import Drafted
from guidec.draft.plain import clock
from guidec.draft.story import Quote

__all__ = ["as_data", "as_text"]

SHOWN = 12


def as_data(drafted: Drafted) -> dict[str, Any]:
    """Counts of operations, actions, screw sets, parts; cues used and left out, with what was said;
    corrections."""
    story = drafted.story
    acts = [act for job in drafted.jobs for act in job.acts if act.do not in ("hand", "look")]
    used = _used(drafted)
    left = [number for number in range(len(drafted.cues)) if number not in used]
    talk = _talk(drafted)
    return {
        "operations": len(drafted.jobs),
        "actions": len(acts),
        "screw_sets": len(story.screws),
        "parts": sum(thing.kind == "part" and (thing.gone or thing.shown) for thing in story.named),
        "tools": sum(thing.kind == "tool" for thing in story.named),
        "remarks": sum(row.level >= 2 for row in drafted.writer.rows),
        "cues": len(drafted.cues),
        "cues_used": len(used),
        "cues_left_out": len(left),
        "left_out": [
            {"at": drafted.cues[number].start, "text": drafted.cues[number].text, "talk": number in talk}
            for number in left
        ],
        "left_out_share": round(
            _seconds(drafted, left) / max(_seconds(drafted, range(len(drafted.cues))), 1e-9), 3
        ),
        "corrected": [{"at": one.start, "heard": one.heard, "meant": one.meant} for one in story.corrected],
    }


def as_text(drafted: Drafted) -> str:
    """The summary in lines."""
    data = as_data(drafted)
    lines = [
        ", ".join(
            _count(data[f"{word.replace(' ', '_')}s"], word)
            for word in ("operation", "action", "screw set", "part")
        ),
        f"{data['cues_used']} of {_count(data['cues'], 'cue')} used, {data['cues_left_out']} left out"
        f" ({data['left_out_share']:.0%} of the time)",
    ]
    talk = [row for row in data["left_out"] if row["talk"]]
    rest = [row for row in data["left_out"] if not row["talk"]]
    for title, rows in (("talk, left out", talk), ("nothing found in", rest)):
        if rows:
            lines.append(f"{title}:")
            lines += [f"  {clock(row['at'])} {row['text']}" for row in rows[:SHOWN]]
            lines += [f"  and {len(rows) - SHOWN} more"] if len(rows) > SHOWN else []
    lines.append(_count(len(data["corrected"]), "word") + " corrected" + (":" if data["corrected"] else ""))
    lines += [f"  {clock(row['at'])} “{row['heard']}” → {row['meant']}" for row in data["corrected"][:SHOWN]]
    if len(data["corrected"]) > SHOWN:
        lines.append(f"  and {len(data['corrected']) - SHOWN} more")
    if data["remarks"]:
        lines.append(f"{_count(data['remarks'], 'line')} could only be kept as a remark")
    return "\n".join(lines) + "\n"


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'' if number == 1 else 's'}"


def _used(drafted: Drafted) -> set[int]:
    """The cues whose words stand in the note."""
    story = drafted.story
    quotes: list[Quote] = []
    for job in drafted.jobs:
        quotes += [aside.quote for aside in job.hazards]
        quotes += [trip.quote for trip in (job.trip, *job.asides) if trip]
        for act in job.acts:
            quotes.append(act.quote)
            quotes += [thing.quote for thing in (*act.things, *act.tools, *act.supplies)]
            quotes += [aside.quote for aside in (*act.risks, *act.refits)]
    quotes += [story.verdict.quote] if story.verdict else []
    return {
        drafted.words[number].cue
        for quote in quotes
        for number in range(quote.first, min(quote.last + 1, len(drafted.words)))
    }


def _talk(drafted: Drafted) -> set[int]:
    return {
        drafted.words[number].cue for quote in drafted.story.talk for number in range(quote.first, quote.last + 1)
    }


def _seconds(drafted: Drafted, numbers: Iterable[int]) -> float:
    return sum((max(drafted.cues[number].end - drafted.cues[number].start, 0.0) for number in numbers), 0.0)
