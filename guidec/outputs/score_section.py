"""A graph -> what a compile says of repairability: `score.json` where there is a method, and a section."""

from __future__ import annotations

from collections.abc import Iterable

from guidec.outputs import score_json
from guidec.outputs.score_view import ScoreView, score_view
from guidec.outputs.words import words
from guidec.plan import Graph
from guidec.quick import dataclass
from guidec.rules.book import page
from guidec.rules.finding import Finding, Severity
from guidec.scoring import Assessment, assess
from guidec.scoring.answers import typed_elsewhere
from guidec.scoring.ideas import Idea, ideas

__all__ = ["Scored", "scored"]


@dataclass(frozen=True, slots=True)
class Scored:
    """An assessment, what the maker could have done, and what is wrong with the answers."""

    assessment: Assessment
    ideas: tuple[Idea, ...]
    findings: tuple[Finding, ...]

    @property
    def clean(self) -> bool:
        """No error among the answers; warnings are allowed."""
        severities = (one.severity or page(one.code).severity for one in self.findings)
        return Severity.ERROR not in severities

    def files(self, *, clean: bool) -> dict[str, bytes]:
        """`score.json`, where a method applies or is asked for."""
        if self.assessment.method is None:
            return {}
        return {"score.json": score_json.encode(self.assessment, self.ideas, clean=clean)}

    def section(self) -> dict[str, ScoreView]:
        """The data of the section `score`; none where nothing comes off and there is no method."""
        if self.assessment.method is None and not self.assessment.classes:
            return {}
        says = words(self.assessment.guide.meta.language)
        return {"score": score_view(self.assessment, says, self.ideas)}


def scored(graph: Graph, known: Iterable[Finding] = ()) -> Scored:
    """Assess a guide by its own method, with the project's own work times. `known`: findings made before."""
    assessment, found = assess(graph)
    places = {(one.span.start, one.span.end): one.code for one in known}
    return Scored(assessment, ideas(assessment), tuple(one for one in found if not typed_elsewhere(one, places)))
