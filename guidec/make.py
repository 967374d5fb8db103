"""A checked note -> all its outputs as named bytes. The list of outputs is here.

Everything heavy is imported from here on, and nothing of it before: a check does without.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cached_property
from pathlib import Path
from typing import Any
from urllib.parse import quote

from markupsafe import Markup

from guidec.edge import pictures
from guidec.model.types import Content, Guide, Line, Lines, Shown
from guidec.outputs import bom, chapters, cyclonedx, guide_json, html, pdf, photo, routes_json, xlsx
from guidec.outputs.cautioned import cautioned
from guidec.outputs.csv_files import csv_files
from guidec.outputs.route_guides import RouteGuides, whole
from guidec.outputs.score_section import Scored, scored
from guidec.plan import Graph, Route, routes
from guidec.plan.cautions import Placed, cautions
from guidec.quick import dataclass
from guidec.rules.finding import Finding
from guidec.source import Span

__all__ = ["OUTPUTS", "Maker", "Material", "make"]


@dataclass(frozen=True)
class Material:
    """What outputs are made of. `printed`: the guide with the added cautions at their places.

    `cautions`: those that the compiler adds, for the whole guide. `photos`: the pictures to publish, by their path
    as typed. `scored`: how well it can be repaired. `alone`: the parts whose routes are wanted as PDF and data.
    """

    guide: Guide
    printed: Guide
    graph: Graph
    cautions: tuple[Placed, ...]
    findings: tuple[Finding, ...]
    clean: bool
    photos: Mapping[str, photo.Published]
    scored: Scored
    alone: tuple[str, ...] = ()

    @cached_property
    def routes(self) -> tuple[Route, ...]:
        """The route to every part, worked out once for all that shows them."""
        return routes(self.graph)

    @cached_property
    def guides(self) -> RouteGuides:
        """What makes the guides of single routes."""
        return RouteGuides(self.guide, self.graph, self.clean, self.picture, self.files)

    def sections(self, *, paper: bool) -> dict[str, Any]:
        """What the whole guide says of cautions, routes, order, refit and itself."""
        own = whole(self.guide, self.graph, self.routes, added=len(self.cautions), paper=paper)
        return {**own, **self.scored.section()}

    def picture(self, shown: Shown) -> Markup:
        """The element for a picture; its words alone where there is no file to show."""
        found = self.photos.get(shown.path)
        if found is None:
            return Markup("<em>{alt}</em>").format(alt=shown.alt or shown.path)
        tag = '<img src="{src}" alt="{alt}" width="{width}" height="{height}" loading="lazy" decoding="async">'
        src = quote(f"pictures/{found.name}")
        return Markup(tag).format(src=src, alt=shown.alt, width=found.width, height=found.height)

    @property
    def files(self) -> dict[str, bytes]:
        """The pictures by the address that `picture` gives them."""
        return {f"pictures/{one.name}": one.data for one in self.photos.values()}


Maker = Callable[[Material], Mapping[str, bytes]]

OUTPUTS: tuple[tuple[str, Maker], ...] = (
    ("pages", lambda given: {"index.html": _page(given)}),
    ("route guides", lambda given: _merged(given.guides.page(route) for route in given.routes)),
    ("routes alone", lambda given: _merged(given.guides.data(route) for route in _wanted(given))),
    (
        "guide.json",
        lambda given: {"guide.json": guide_json.encode(given.guide, given.cautions, clean=given.clean)},
    ),
    ("bom.json", lambda given: {"bom.json": bom.encode(given.guide, given.cautions, clean=given.clean)}),
    ("routes.json", lambda given: {"routes.json": _routes(given)}),
    ("score.json", lambda given: given.scored.files(clean=given.clean)),
    ("tables", lambda given: csv_files(given.guide)),
    ("bom.cdx.json", lambda given: {"bom.cdx.json": cyclonedx.encode(given.guide)}),
    ("bom.xlsx", lambda given: {"bom.xlsx": xlsx.encode(given.guide, given.cautions, clean=given.clean)}),
    ("chapters", lambda given: chapters.files(given.guide)),
)
"""What is made, in this order: a word for the progress line, and the function that makes one or more files."""


def make(
    guide: Guide,
    graph: Graph,
    files: Mapping[str, Path],
    findings: tuple[Finding, ...],
    *,
    clean: bool,
    print_: bool,
    alone: Sequence[str] = (),
    said: Callable[[str], None],
) -> tuple[dict[str, bytes], tuple[Finding, ...]]:
    """The outputs of a note. `files`: its pictures by their path as typed; `print_`: whether to set the PDF.
    `alone`: the parts (ids) whose routes are wanted as PDF and data of their own."""
    said("pictures")
    photos, troubles = _photos(guide, files)
    said("score")
    assessed = scored(graph, findings)
    clean = clean and not troubles and assessed.clean
    added = cautions(guide)
    printed = cautioned(guide, added)
    given = Material(guide, printed, graph, added, findings, clean, photos, assessed, tuple(alone))
    made = dict(given.files)
    for word, maker in OUTPUTS:
        said(word)
        made |= maker(given)
    if print_:
        said("guide.pdf")
        try:
            made |= _printed(given)
        except pdf.CannotPrintError as error:
            troubles = (*troubles, Finding.at("N009", Span(0, 0), reason=str(error)))
    return made, (*troubles, *assessed.findings)


def _printed(given: Material) -> dict[str, bytes]:
    """The PDF of the whole guide, and those of the routes that are wanted alone."""
    whole_guide = pdf.sheet(
        given.printed,
        clean=given.clean,
        data=given.sections(paper=True),
        picture=given.picture,
        files=given.files,
    )
    return {"guide.pdf": whole_guide} | _merged(given.guides.sheet(route) for route in _wanted(given))


def _page(given: Material) -> bytes:
    return html.page(given.printed, clean=given.clean, data=given.sections(paper=False), picture=given.picture)


def _routes(given: Material) -> bytes:
    return guide_json.dumped(routes_json.as_data(given.graph, given.routes, "damage", clean=given.clean))


def _wanted(given: Material) -> list[Route]:
    return [route for route in given.routes if route.targets[0] in given.alone]


def _merged(made: Iterable[Mapping[str, bytes]]) -> dict[str, bytes]:
    return {name: content for files in made for name, content in files.items()}


def _photos(guide: Guide, files: Mapping[str, Path]) -> tuple[dict[str, photo.Published], tuple[Finding, ...]]:
    photos: dict[str, photo.Published] = {}
    troubles: list[Finding] = []
    for shown in _shown(guide):
        if shown.path not in files or shown.path in photos:
            continue
        try:
            photos[shown.path] = photo.publish(pictures.read(files[shown.path]))
        except (photo.UnreadableError, OSError) as error:
            reason = (error.strerror or "it is gone").lower() if isinstance(error, OSError) else str(error)
            troubles.append(Finding.at("N007", shown.path_span, path=shown.path, reason=reason))
    return photos, tuple(troubles)


def _shown(guide: Guide) -> list[Shown]:
    contents = [*guide.intro, *(content for operation in guide.operations for content in operation.content)]
    return [shown for content in contents for shown in _within(content)]


def _within(content: Content | Line) -> list[Shown]:
    if isinstance(content, Shown):
        return [content]
    if isinstance(content, Lines):
        return [shown for line in content.lines for shown in _within(line)]
    if isinstance(content, Line):
        return [shown for inner in content.content for shown in _within(inner)]
    return []
