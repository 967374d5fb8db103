"""A guide -> the plain values that the bench sheet's templates print.

Everything is decided here: what stands where, in which words, under which number. The templates only set it.
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping

from markupsafe import Markup, escape

from guidec.model.types import Guide, Hazard, Operation, Shown
from guidec.outputs.figure import Draws
from guidec.outputs.fill import fill, joined
from guidec.outputs.inline import Pen
from guidec.outputs.strip import strips
from guidec.outputs.viewlines import Content, Draw, HazardView, contents, hazard, stamp
from guidec.outputs.viewlists import Lists, lists
from guidec.outputs.viewstrip import StripView, strip_view
from guidec.outputs.words import Words, words
from guidec.quick import dataclass
from guidec.source import Span

ROW, LONG = 4, 22
__all__ = ["OperationView", "Sheet", "sheet"]


@dataclass(frozen=True, slots=True)
class OperationView:
    """One operation. `run`: what the running head says of it; `other`: it is another way to a result."""

    number: int
    id: str
    title: str
    heading: Markup
    run: str
    strip: StripView
    notes: tuple[Markup, ...]
    hazards: tuple[HazardView, ...]
    content: tuple[Content, ...]
    supposed: tuple[Markup, ...]
    other: bool


@dataclass(frozen=True, slots=True)
class Sheet:
    """A whole guide as a bench sheet. `facts`: class, label and value of each cell of the title block."""

    title: str
    slug: str
    key: str
    language: str
    words: Words
    clean: bool
    paper: bool
    facts: tuple[tuple[str, str, Markup], ...]
    author: str
    intro: tuple[Content, ...]
    hazards: tuple[HazardView, ...]
    further: tuple[tuple[HazardView, tuple[tuple[int, str], ...]], ...]
    powered: bool
    isolation: tuple[Markup, ...]
    operations: tuple[OperationView, ...]
    lists: Lists


def sheet(
    guide: Guide,
    *,
    clean: bool,
    paper: bool,
    picture: Draws,
    labels: Mapping[Span, str] | None = None,
) -> Sheet:
    """The values of a guide's page. `picture` writes the picture itself, without its caption. `labels`: of the
    lines by their spans, where the guide is part of another one."""
    says = words(guide.meta.language)
    pen = Pen(guide, says, paper)
    draw = _numbered(picture, paper)
    meta = guide.meta
    return Sheet(
        title=meta.title or says("untitled"),
        slug=meta.slug,
        key=_key(guide),
        language=meta.language,
        words=says,
        clean=clean,
        paper=paper,
        facts=_facts(guide, says),
        author=meta.author or "",
        intro=contents(pen, draw, None, guide.intro, ()),
        hazards=tuple(hazard(pen, item) for item in guide.hazards),
        further=_further(pen, guide),
        powered=meta.power != ("none",),
        isolation=tuple(_isolating(pen, guide, name) for name in guide.isolating),
        operations=_operations(pen, draw, guide, labels),
        lists=lists(pen),
    )


def _key(guide: Guide) -> str:
    """What ticks are kept under: the guide, its revision, and a digest of the note where it states none."""
    digest = hashlib.sha256(guide.source.text.encode()).hexdigest()[:12]
    return f"{guide.meta.slug}:{guide.meta.revision or digest}"


def _numbered(picture: Draws, paper: bool) -> Draw:
    """Pictures with their number on the sheet, from 1."""
    seen: list[Shown] = []

    def draw(shown: Shown) -> tuple[int, Markup]:
        seen.append(shown)
        return len(seen), picture(shown, paper=paper)

    return draw


def _facts(guide: Guide, says: Words) -> tuple[tuple[str, str, Markup], ...]:
    """The cells of the title block, those the note states, and how much there is to do."""
    meta, subject = guide.meta, guide.meta.subject
    maker = " ".join(part for part in (subject.maker, subject.model, subject.variant) if part)
    screws = sum(getattr(thing, "count", None) or 0 for thing in guide.things.values() if thing.kind == "screw")
    extent = [
        says("count.operations", count=len(guide.operations)),
        says("count.actions", count=len(guide.actions)),
    ]
    extent += [says("count.screws", count=screws)] if screws else []
    cells = {
        "device": maker,
        "kind": subject.kind,
        "year": str(subject.year) if subject.year else None,
        "power": says.joined(says.named("power", word) for word in meta.power),
        "author": meta.author or says("not-stated"),
        "licence": meta.licence or says("not-stated"),
        "revision": meta.revision or says("not-stated"),
        "date": says.date(meta.date) if meta.date else None,
        "recording": _recording(guide, says),
        "identifiers": says.between.join(f"{name} {value}" for name, value in dict(subject.identifiers).items()),
        "extent": says.between.join(extent),
    }
    return _in_rows([(says(key), escape(value)) for key, value in cells.items() if value])


def _in_rows(cells: list[tuple[str, Markup]]) -> tuple[tuple[str, str, Markup], ...]:
    """Cells with their width in quarters of a row: a long value takes two, and a row's last cell what is left."""
    made: list[tuple[str, str, Markup]] = []
    left = ROW
    for at, (label, value) in enumerate(cells):
        width = 2 if len(value) > LONG else 1
        follows = 2 if at + 1 < len(cells) and len(cells[at + 1][1]) > LONG else 1
        if left - width < follows or at + 1 == len(cells):
            width = left
        made.append((f"w{width}", label, value))
        left = left - width or ROW
    return tuple(made)


def _recording(guide: Guide, says: Words) -> str | None:
    film = guide.meta.recording
    name = (film.file or film.url) if film else None
    if film is None or name is None:
        return None
    return says("recording-length", name=name, length=stamp(film.length)) if film.length else name


def _isolating(pen: Pen, guide: Guide, name: str) -> Markup:
    """An action that makes the device dead, with its place."""
    action = guide.actions[name]
    operation = guide.operation[action.operation]
    link = Markup('<a class="no" href="#{}">{}</a> {}')
    return link.format(f"a-{name.replace('/', '-')}", operation.number, pen.words.figures(action.text))


def _further(pen: Pen, guide: Guide) -> tuple[tuple[HazardView, tuple[tuple[int, str], ...]], ...]:
    """For each signal word met in the operations, gravest first: a hazard of it and the operations."""
    found: dict[str, tuple[Hazard, dict[int, str]]] = {}
    for operation in guide.operations:
        for item in (
            *operation.hazards,
            *(item for name in operation.actions for item in guide.actions[name].hazards),
        ):
            found.setdefault(item.signal, (item, {}))[1][operation.number] = operation.id
    order = ("DANGER", "WARNING", "CAUTION", "NOTICE")
    rows = sorted(found.values(), key=lambda row: order.index(row[0].signal))
    return tuple((hazard(pen, item), tuple(numbers.items())) for item, numbers in rows)


def _operations(
    pen: Pen, draw: Draw, guide: Guide, labels: Mapping[Span, str] | None
) -> tuple[OperationView, ...]:
    found = strips(guide)
    return tuple(
        _operation(pen, draw, operation, strip_view(pen, operation, found[operation.id]), labels)
        for operation in guide.operations
    )


def _operation(
    pen: Pen, draw: Draw, operation: Operation, strip: StripView, labels: Mapping[Span, str] | None
) -> OperationView:
    return OperationView(
        number=operation.number,
        id=f"op-{operation.id}",
        title=operation.title,
        heading=pen.text(operation.heading) or escape(operation.title),
        run=f"{operation.number}  {operation.title}" + (f" · {strip.run}" if strip.run else ""),
        strip=strip,
        notes=_notes(pen, operation),
        hazards=tuple(hazard(pen, item) for item in operation.hazards),
        content=contents(pen, draw, operation, operation.content, operation.actions, labels),
        supposed=_supposed(pen, operation),
        other=operation.instead_of is not None,
    )


def _notes(pen: Pen, operation: Operation) -> tuple[Markup, ...]:
    """What marks an operation out, in words: another way, live, optional, on refit only."""
    says, guide = pen.words, pen.guide
    notes = []
    if (target := guide.operation.get(operation.instead_of or "")) is not None:
        link = fill('<a href="#op-{}">{} {}</a>', target.id, target.number, target.title)
        notes.append(fill(says("instead-of", name="{name}"), name=link))
    for flag, key in (
        (operation.live, "live-why"),
        (operation.optional, "optional-why"),
        (operation.refit_only, "refit-only-why"),
    ):
        notes += [escape(says(key))] if flag else []
    return tuple(notes)


def _supposed(pen: Pen, operation: Operation) -> tuple[Markup, ...]:
    """Parts with the fastenings that are taken to hold them, one line a part."""
    by_part: dict[str, list[str]] = {}
    for item in operation.supposed:
        names = by_part.setdefault(item.part, [])
        names += [item.fastening] if item.fastening not in names else []
    row = Markup(pen.words("supposed-one", part="{part}", fastenings="{fastenings}"))
    return tuple(
        row.format(part=pen.thing(part), fastenings=joined(", ", map(pen.thing, names)))
        for part, names in by_part.items()
    )
