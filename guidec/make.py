"""A checked note -> all its outputs as named bytes. The list of outputs is here.

Everything heavy is imported from here on, and nothing of it before: a check does without.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cached_property
from pathlib import Path
from typing import Any

from guidec.edge import pictures
from guidec.model.album import placed
from guidec.model.types import Guide
from guidec.outputs import bag_labels, bom, chapters, cyclonedx, guide_json, html, pdf, routes_json, xlsx
from guidec.outputs.cautioned import cautioned
from guidec.outputs.csv_files import csv_files
from guidec.outputs.figure import Figures, box_of
from guidec.outputs.materials import Rows
from guidec.outputs.photo_findings import photo_findings
from guidec.outputs.route_guides import RouteGuides, whole
from guidec.outputs.score_section import Scored, scored
from guidec.outputs.tray import sheet as tray
from guidec.outputs.words import words
from guidec.pictures.gallery import gallery
from guidec.plan import Graph, Route, routes
from guidec.plan.cautions import Placed, cautions
from guidec.quick import dataclass
from guidec.rules.finding import Finding
from guidec.source import Span

__all__ = ["OUTPUTS", "Maker", "Material", "make"]


@dataclass(frozen=True)
class Material:
    """What outputs are made of. `printed`: the guide with the added cautions at their places.

    `cautions`: those that the compiler adds, for the whole guide. `figures`: writes the pictures, and has their
    files. `scored`: how well it can be repaired. `alone`: the parts whose routes are wanted as PDF and data.
    """

    guide: Guide
    printed: Guide
    graph: Graph
    cautions: tuple[Placed, ...]
    findings: tuple[Finding, ...]
    clean: bool
    figures: Figures
    scored: Scored
    alone: tuple[str, ...] = ()
    paper: str = "a4"
    label_sheet: str = "a4"
    address: str = ""

    @cached_property
    def routes(self) -> tuple[Route, ...]:
        """The route to every part, worked out once for all that shows them."""
        return routes(self.graph)

    @cached_property
    def rows(self) -> Rows:
        """The rows of the bill of materials."""
        return Rows(self.guide)

    @cached_property
    def guides(self) -> RouteGuides:
        """What makes the guides of single routes."""
        return RouteGuides(self.guide, self.graph, self.clean, self.figures, self.figures.prints(), self.paper)

    def sections(self, *, paper: bool) -> dict[str, Any]:
        """What the whole guide says of cautions, routes, order, refit and itself."""
        own = whole(self.guide, self.graph, self.routes, added=len(self.cautions), paper=paper)
        if tray.wanted(self.guide):  # a page links to the sheet, and only paper holds it
            own["tray"] = tray.section(self.guide, self.paper) if paper else ()
        return {**own, **self.scored.section()}


Maker = Callable[[Material], Mapping[str, bytes]]

OUTPUTS: tuple[tuple[str, Maker], ...] = (
    ("pages", lambda given: {"index.html": _page(given)}),
    ("route guides", lambda given: _merged(given.guides.page(route) for route in given.routes)),
    ("routes alone", lambda given: _merged(given.guides.data(route) for route in _wanted(given))),
    (
        "guide.json",
        lambda given: {"guide.json": guide_json.encode(given.guide, given.cautions, clean=given.clean)},
    ),
    ("bom.json", lambda given: {"bom.json": _bom(given)}),
    ("routes.json", lambda given: {"routes.json": _routes(given)}),
    ("score.json", lambda given: given.scored.files(clean=given.clean)),
    ("tray sheet", lambda given: tray.files(given.guide, given.paper, clean=given.clean)),
    ("tables", lambda given: csv_files(given.guide, given.rows)),
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
    paper: str = "a4",
    label_sheet: str = "",
    address: str = "",
    cache: Path | None = None,
    said: Callable[[str], None],
) -> tuple[dict[str, bytes], tuple[Finding, ...]]:
    """The outputs of a note. `files`: its pictures by their path as typed; `print_`: whether to set the PDF.
    `alone`: the parts (ids) whose routes are wanted as PDF and data of their own. `paper`: `a4` or `letter`.
    `label_sheet`: the grid of the labels, the usual one of the paper unless given. `address`: where the guide can
    be read, for the labels. `cache`: where derived pictures are kept, the system's own place unless given."""
    said("pictures")
    figures, troubles = _figures(guide, files, cache, said)
    said("score")
    assessed = scored(graph, findings)
    clean = clean and assessed.clean and not any(one.code == "N007" for one in troubles)
    added = cautions(guide)
    printed = cautioned(guide, added)
    given = Material(
        guide,
        printed,
        graph,
        added,
        findings,
        clean,
        figures,
        assessed,
        tuple(alone),
        paper,
        label_sheet or paper,
        address,
    )
    made = given.figures.files()
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
        picture=given.figures,
        files=given.figures.prints(),
        paper=given.paper,
    )
    address = given.address or given.guide.meta.address or ""
    cut_out = bag_labels.labels(given.guide, sheet=given.label_sheet, address=address)
    made = {"guide.pdf": whole_guide} | ({"labels.pdf": cut_out} if cut_out else {})
    return made | _merged(given.guides.sheet(route) for route in _wanted(given))


def _page(given: Material) -> bytes:
    return html.page(given.printed, clean=given.clean, data=given.sections(paper=False), picture=given.figures)


def _bom(given: Material) -> bytes:
    return bom.encode(given.guide, given.cautions, clean=given.clean, rows=given.rows)


def _routes(given: Material) -> bytes:
    return guide_json.dumped(routes_json.as_data(given.graph, given.routes, "damage", clean=given.clean))


def _wanted(given: Material) -> list[Route]:
    return [route for route in given.routes if route.targets[0] in given.alone]


def _merged(made: Iterable[Mapping[str, bytes]]) -> dict[str, bytes]:
    return {name: content for files in made for name, content in files.items()}


def _figures(
    guide: Guide, files: Mapping[str, Path], cache: Path | None, said: Callable[[str], None]
) -> tuple[Figures, tuple[Finding, ...]]:
    """What writes the pictures of a guide, and what is to be said of the photos."""
    shown = [one for _, one in placed(guide)]
    there = [(one.path, box_of(one.crop)) for one in shown if one.path in files]
    found = gallery(there, lambda path: pictures.read(files[path]), folder=cache, said=said)
    says = words(guide.meta.language)
    figures = Figures(
        guide, found.derived, says("picture-marks", alt="{alt}"), says("picture-larger", alt="{alt}")
    )
    return figures, photo_findings(shown, found.derived, found.troubles)
