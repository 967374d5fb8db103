"""A guide and its routes -> the guide to each part alone, as a page, as a PDF and as data."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property
from typing import Any

from guidec.model.types import Guide
from guidec.outputs import bom, html, pdf, routes_json
from guidec.outputs.cautioned import cautioned
from guidec.outputs.csv_files import csv_files
from guidec.outputs.cut import cut
from guidec.outputs.figure import Draws
from guidec.outputs.guide_json import dumped
from guidec.outputs.inline import anchor
from guidec.outputs.labels import labels
from guidec.outputs.order_picture import order_view
from guidec.outputs.precedence import precedence
from guidec.outputs.viewcolophon import colophon
from guidec.outputs.viewmaterials import out_first
from guidec.outputs.viewrefit import refit_view
from guidec.outputs.viewroutes import file_of, routes_view, way_view
from guidec.outputs.words import words
from guidec.plan import Graph, Route, refit
from guidec.plan.cautions import Placed, cautions
from guidec.plan.deeds import batteries
from guidec.quick import dataclass, replace
from guidec.source import Span
from guidec.trade.cautions import Usual, usual_cautions

__all__ = ["RouteGuides", "whole"]


def whole(guide: Guide, graph: Graph, routes: Sequence[Route], *, added: int, paper: bool) -> dict[str, Any]:
    """What the sections of a whole guide print of cautions, routes, order, refit and the guide itself.

    `added`: how many cautions the compiler put in.
    """
    says = words(guide.meta.language)
    found: dict[str, Any] = {
        "usual": _usual(guide, guide),
        "colophon": colophon(guide, added=added),
    }
    if routes:
        found["routes"] = routes_view(guide, routes, pages=not paper)
        found["index"] = {} if paper else {anchor(route.targets[0]): file_of(route) for route in routes}
    if len(graph.operations) > 1:
        found["order"] = order_view(precedence(graph), says, paper=paper)
    back = refit(graph)
    if back.stages:
        found["refit"] = refit_view(guide, back)
    return found


def _usual(guide: Guide, printed: Guide) -> Usual:
    """The usual cautions for a device, as far as they are about it. `printed`: what is listed is of this guide."""
    return usual_cautions(
        guide.meta.language,
        power=guide.meta.power != ("none",),
        cells="battery" in guide.meta.power or bool(batteries(guide)),
        waste=next(out_first(printed), None) is not None,
    )


@dataclass(frozen=True)
class RouteGuides:
    """Makes the guides of single routes; what they share is worked out once.

    `picture` writes a picture, without its caption; `files`: the bytes of pictures by the address it gives them.
    """

    guide: Guide
    graph: Graph
    clean: bool
    picture: Draws
    files: Mapping[str, bytes]
    paper: str = "a4"

    @cached_property
    def _labels(self) -> Mapping[Span, str]:
        return labels(self.guide)

    def page(self, route: Route) -> dict[str, bytes]:
        """`route-PART.html`."""
        made = _Made.of(self.guide, self.graph, route)
        page = html.page(
            made.printed, clean=self.clean, data=made.sections, picture=self.picture, labels=self._labels
        )
        return {file_of(route): page}

    def sheet(self, route: Route) -> dict[str, bytes]:
        """`route-PART.pdf`. Raises `pdf.CannotPrintError` as that does."""
        made = _Made.of(self.guide, self.graph, route)
        sheet = pdf.sheet(
            made.printed,
            clean=self.clean,
            data=made.sections,
            picture=self.picture,
            files=self.files,
            labels=self._labels,
            paper=self.paper,
        )
        return {file_of(route).removesuffix(".html") + ".pdf": sheet}

    def data(self, route: Route) -> dict[str, bytes]:
        """The bill of materials, the tables and the route as data, in the folder `route-PART`."""
        made = _Made.of(self.guide, self.graph, route)
        found = routes_json.as_data(self.graph, [route], route.by, clean=self.clean)
        files = {
            "bom.json": bom.encode(made.alone, made.added, clean=self.clean),
            "routes.json": dumped(found),
            **csv_files(made.alone),
        }
        folder = file_of(route).removesuffix(".html")
        return {f"{folder}/{name}": content for name, content in files.items()}


@dataclass(frozen=True, slots=True)
class _Made:
    """One route's guide: as it is (`alone`), with title and cautions for print, and what its sections print."""

    alone: Guide
    printed: Guide
    added: tuple[Placed, ...]
    sections: Mapping[str, Any]

    @classmethod
    def of(cls, guide: Guide, graph: Graph, route: Route) -> _Made:
        back = refit(graph, route)
        alone = cut(guide, route, back)
        added = cautions(guide, route.actions)
        says = words(guide.meta.language)
        whole = guide.meta.title or says("untitled")
        names = says.joined(guide.things[part].name for part in route.targets)
        slug = f"{guide.meta.slug}:{'-'.join(route.targets)}"
        meta = replace(guide.meta, title=says("route-title", part=names, title=whole), slug=slug)
        way = way_view(graph, route)
        sections = {
            "way": {"way": way, "whole": whole},
            "usual": _usual(guide, alone),
            "refit": refit_view(alone, back),
            "other-ways": way.others,
            "colophon": colophon(replace(alone, meta=guide.meta), added=len(added)),
        }
        if guide.isolating and not alone.isolating:
            sections["hazards"] = says("isolation-not-here")
        return cls(alone, cautioned(replace(alone, meta=meta), added), added, sections)
