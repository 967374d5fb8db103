"""The way back -> what a page prints of it: sentences in order, what it takes, the checks at the end."""

from __future__ import annotations

from markupsafe import Markup

from guidec.model.types import Guide
from guidec.outputs.fill import fill, joined
from guidec.outputs.inline import anchor, bound
from guidec.outputs.words import words
from guidec.plan import Refit
from guidec.quick import dataclass

__all__ = ["RefitView", "StageView", "refit_view"]


@dataclass(frozen=True, slots=True)
class StageView:
    """What takes back one operation. `lines`: text, notes of the author, and whether power is on after it.
    `own`: an operation of the author's for the way back."""

    number: int
    href: str
    title: str
    lines: tuple[tuple[str, tuple[str, ...], bool], ...]
    own: bool


@dataclass(frozen=True, slots=True)
class RefitView:
    """The way back. `takes`: class, label and things for tools, supplies and what is renewed, those there are."""

    stages: tuple[StageView, ...]
    takes: tuple[tuple[str, str, Markup], ...]
    closing: tuple[str, ...]


def refit_view(guide: Guide, back: Refit) -> RefitView:
    """The values of the section. `guide`: the one it stands in, of which only what is in it is linked to."""
    says = words(guide.meta.language)
    stages = tuple(
        StageView(
            number=stage.number,
            href=f"#op-{stage.operation}" if stage.operation in guide.operation else "",
            title=stage.title,
            lines=tuple(
                (
                    bound(says.figures(line.text)),
                    tuple(bound(says.figures(note)) for note in line.notes),
                    line.power,
                )
                for line in stage.lines
            ),
            own=stage.own,
        )
        for stage in back.stages
    )
    takes = (("tools", back.tools), ("supplies", back.supplies), ("renewals", back.renewals))
    return RefitView(
        stages=stages,
        takes=tuple((key, says(key), _names(guide, own)) for key, own in takes if own),
        closing=tuple(says.figures(text) for text in back.closing),
    )


def _names(guide: Guide, own: tuple[str, ...]) -> Markup:
    link = '<a class="th {}" href="#{}">{}</a>'
    things = (guide.things[name] for name in own if name in guide.things)
    return joined(", ", [fill(link, one.kind.value, anchor(one.id), one.name) for one in things])
