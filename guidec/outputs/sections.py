"""The sections of a bench sheet, in their order.

To add one: write `page/sections/NAME.html` (and, where it needs rules of its own, `NAME.css` beside it) and put a
row here. The template sees `sheet`, `w` (the words), `part` (the shared pieces), `paper`, and as `data` what the
caller hands over under the section's name. A section that `wants` data is left out where there is none. A template
may not use `style` attributes: the page's policy refuses them.
"""

from __future__ import annotations

from collections.abc import Container, Mapping
from typing import Any

from guidec.quick import dataclass

__all__ = ["ORDER", "Section", "on_paper", "present"]


@dataclass(frozen=True, slots=True)
class Section:
    """One section. `title`: the key of its words in the contents; empty for what the contents do not list.
    `wants`: the caller must hand over data for it. `rows`: the list of the guide that must not be empty."""

    name: str
    title: str = ""
    wants: bool = False
    rows: str = ""

    @property
    def template(self) -> str:
        """The template's name."""
        return f"sections/{self.name}.html"


ORDER: tuple[Section, ...] = (
    Section("title"),
    Section("way", "way-head", wants=True),
    Section("hazards", "hazards"),
    Section("usual", "usual", wants=True),
    Section("lay-out", "lay-out"),
    Section("operations"),
    Section("routes", "routes", wants=True),
    Section("order", "order", wants=True),
    Section("tray", "tray", wants=True),
    Section("refit", "refit", wants=True),
    Section("other-ways", "other-ways", wants=True),
    Section("materials", "materials", rows="materials"),
    Section("score", "score", wants=True),
    Section("index", "index", rows="index"),
    Section("colophon", "colophon", wants=True),
)


def present(wanted: Container[str] | None, data: Mapping[str, Any], lists: object) -> tuple[Section, ...]:
    """The sections to print: those asked for (None: all), without those whose data or rows are missing."""
    return tuple(
        section
        for section in ORDER
        if (wanted is None or section.name in wanted)
        and (not section.wants or section.name in data)
        and (not section.rows or getattr(lists, section.rows))
    )


def on_paper(sections: tuple[Section, ...]) -> tuple[Section, ...]:
    """The same, the index last: where leaves are turned it is looked up from the back."""
    return tuple(sorted(sections, key=lambda section: section.name == "index"))
