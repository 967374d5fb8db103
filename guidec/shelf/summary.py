"""A built guide -> its entry: what the shared pages and the data need to know of it."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from guidec.compile import Built
from guidec.model.types import Action, Adhesive, Change, Guide, Operation, Prose, ScrewSet, Shown
from guidec.notes.syntax import Paragraph
from guidec.outputs.jsonable import Encoder, number
from guidec.shelf.entry import Entry, Index, PartRow, ToolRow, pack

__all__ = ["summary"]

Row = dict[str, Any]
_LONGEST = 280
_OF_SCORE = ("method", "title", "scores", "score_ranges", "variant", "index", "low", "high", "class", "clean")
_LARGEST = 10**12
"""Numbers of screws and parts past this, which a slip of the pen gives, are cut to it: files hold no larger."""
_NOT_KEPT = ("actions", "step_ends", "skipped", "turns")


def summary(note: str, built: Built, diagnostics: Sequence[Row]) -> Entry:
    """The entry of a guide that was made."""
    model = built.checked.model
    assert model is not None
    guide = model.guide
    bom, routes = _data(built.files, "bom.json"), _data(built.files, "routes.json")
    score = _data(built.files, "score.json")
    meta, subject = guide.meta, guide.meta.subject
    severities = Counter(one["severity"] for one in diagnostics)
    shown = _first_picture(guide)
    glued, removed = _glued(guide, bom)
    return Entry(
        slug=built.slug,
        note=note,
        title=meta.title,
        maker=subject.maker,
        model=subject.model,
        variant=subject.variant,
        year=subject.year,
        kind=subject.kind,
        author=meta.author,
        licence=meta.licence,
        language=meta.language,
        revision=meta.revision,
        date=meta.date,
        aliases=meta.was,
        clean=not severities["error"],
        draft=any(one["code"].startswith("D1") for one in diagnostics) or _is_draft(guide),
        errors=severities["error"],
        warnings=severities["warning"],
        text=_text(guide),
        picture=next((name for name in built.files if name.startswith("pictures/")), None) if shown else None,
        picture_alt=shown.alt if shown else "",
        files=tuple(sorted(built.files)),
        operations=len(guide.operations),
        actions=len(guide.actions),
        parts=_parts(guide, bom, routes, built.files),
        tools=_tools(bom),
        screws=_screws(guide),
        glued=glued,
        removed=removed,
        hazards=tuple(dict.fromkeys((one["signal"], one["text"], one["added"]) for one in bom["hazards"])),
        numbers=_numbers(guide, bom),
        index=_index(score),
        tables=pack(_tables(guide, bom, routes, score)),
    )


def _data(files: Mapping[str, bytes], name: str) -> Row:
    return dict(json.loads(files[name])) if name in files else {}


def _is_draft(guide: Guide) -> bool:
    rows: Iterable[Any] = (*guide.things.values(), *guide.operations, *guide.actions.values())
    return any(one.draft for one in rows)


def _text(guide: Guide) -> str:
    """The first paragraph of the note, cut at a word's end."""
    encoder = Encoder(guide)
    blocks = (one.block for one in guide.intro if isinstance(one, Prose) and isinstance(one.block, Paragraph))
    text = " ".join(next((encoder.plain(block) for block in blocks), "").split())
    return text if len(text) <= _LONGEST else text[:_LONGEST].rpartition(" ")[0] + " …"


def _first_picture(guide: Guide) -> Shown | None:
    contents = [*guide.intro, *(one for operation in guide.operations for one in operation.content)]
    return next((one for one in contents if isinstance(one, Shown)), None)


def _parts(guide: Guide, bom: Row, routes: Row, files: Mapping[str, bytes]) -> tuple[PartRow, ...]:
    by_part = {row["part"]: row for row in routes.get("routes", ())}
    names = {row["id"]: row["name"] for row in bom["tools"]}
    glue = _glue_by_line(guide)
    found = []
    for row in bom["parts"]:
        route = by_part.get(row["id"])
        page = f"route-{row['id']}.html"
        found.append(
            PartRow(
                id=row["id"],
                name=row["name"],
                cls=row["class"],
                qty=_whole(row["qty"]),
                number=row["number"],
                reached=route["reached"][0] if route else None,
                steps=route["steps"] if route else None,
                screws=_whole(route["screws"]) if route else None,
                seconds=route["time_s"] if route else None,
                adhesives=_on_route(route, glue) if route else None,
                tools=tuple(names[own] for own in route["tools"] if own in names) if route else (),
                page=page if page in files else None,
            )
        )
    return tuple(found)


def _whole(count: int) -> int:
    return min(count, _LARGEST)


def _glue_by_line(guide: Guide) -> dict[tuple[str, int, str], set[str]]:
    """The adhesives that an action undoes, by what routes tell of it: operation, line, text."""
    found: dict[tuple[str, int, str], set[str]] = {}
    for action in guide.actions.values():
        undone = {one.id for one in action.effects if one.change is Change.UNDONE}
        glue = {own for own in undone if isinstance(guide.things[own], Adhesive)}
        if glue:
            line = guide.source.place(action.span.start).line
            found.setdefault((action.operation, line, action.text), set()).update(glue)
    return found


def _on_route(route: Row, glue: Mapping[tuple[str, int, str], set[str]]) -> int:
    rows = ((one["operation"], one["line"], one["text"]) for one in route["actions"])
    return len(set().union(*(glue.get(row, set()) for row in rows)))


def _tools(bom: Row) -> tuple[ToolRow, ...]:
    return tuple(
        ToolRow(row["id"], row["name"], row["size"] or "", row["grade"], row["drive"], tuple(row["operations"]))
        for row in bom["tools"]
    )


def _screws(guide: Guide) -> tuple[tuple[str, int], ...]:
    """Single screws by drive, most first; a set without a count is one."""
    found: Counter[str] = Counter()
    for thing in guide.things.values():
        if isinstance(thing, ScrewSet):
            found["|".join(thing.drives)] += _whole(thing.count or 1)
    return tuple(sorted(found.items(), key=lambda one: (-one[1], one[0])))


def _glued(guide: Guide, bom: Row) -> tuple[int, int]:
    """How many of the parts that come off are held by glue, said or supposed, and how many come off."""
    held = {ref.id for one in guide.things.values() if isinstance(one, Adhesive) for ref in one.holds}
    for operation in guide.operations:
        held |= {one.part for one in operation.supposed if isinstance(guide.things.get(one.fastening), Adhesive)}
    off = [row["id"] for row in bom["parts"] if row["removed"]]
    return sum(own in held for own in off), len(off)


def _numbers(guide: Guide, bom: Row) -> tuple[str, ...]:
    own = dict(guide.meta.subject.identifiers or {}).values()
    numbers = (row["number"] for row in bom["parts"] if row["number"])
    return tuple(dict.fromkeys(map(str, (*own, *numbers))))


def _index(score: Row) -> Index | None:
    """The index of `score.json`; None where there is none, or nothing of it is known."""
    if score.get("low") is None or score.get("high") is None:
        return None
    return Index(str(score.get("method") or ""), float(score["low"]), float(score["high"]), score.get("class"))


# ---------------------------------------------------------------- rows for the data


def _tables(guide: Guide, bom: Row, routes: Row, score: Row) -> dict[str, list[Row]]:
    names = (
        "parts",
        "fasteners",
        "tools",
        "supplies",
        "connectors",
        "adhesives",
        "fastenings",
        "batteries",
        "hazards",
    )
    return {
        "operations": [_operation(guide, one) for one in guide.operations],
        "actions": [_action(guide, one) for one in guide.actions.values()],
        **{name: bom[name] for name in names},
        "routes": [
            {key: value for key, value in row.items() if key not in _NOT_KEPT} for row in routes.get("routes", ())
        ],
        "indices": [_of_score(score)] if score else [],
    }


def _of_score(score: Row) -> Row:
    """What the data tell of a score: the index, its parts, and the keys of the answers that are missing."""
    unknowns = [str(one["key"] or one["about"]) for one in score.get("unknowns", ())]
    return {key: score[key] for key in _OF_SCORE if key in score} | {"unknowns": list(dict.fromkeys(unknowns))}


def _operation(guide: Guide, one: Operation) -> Row:
    place = guide.source.place(one.span.start)
    return {
        "id": one.id,
        "number": one.number,
        "title": one.title,
        "was": list(one.was),
        "side": one.side,
        "instead_of": one.instead_of,
        "live": one.live,
        "optional": one.optional,
        "refit_only": one.refit_only,
        "start_s": number(one.time.start) if one.time else None,
        "end_s": number(one.time.end) if one.time else None,
        "line": place.line,
        "column": place.column,
    }


def _action(guide: Guide, one: Action) -> Row:
    place = guide.source.place(one.span.start)
    return {
        "id": one.id,
        "operation": one.operation,
        "verb": one.verb,
        "family": one.family.value,
        "text": one.text,
        "objects": [use.id for use in one.objects],
        "tools": [use.id for use in one.tools],
        "supplies": [use.id for use in one.supplies],
        "effects": [{"id": each.id, "change": each.change.value, "count": each.count} for each in one.effects],
        "optional": one.optional,
        "line": place.line,
        "column": place.column,
    }
