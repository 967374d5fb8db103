"""A guide -> its page: one file that requests nothing but the pictures beside it, and works without scripts."""

from __future__ import annotations

from collections.abc import Container, Mapping
from typing import Any

from guidec.model.types import Guide
from guidec.outputs import figure
from guidec.outputs.sections import Section, present
from guidec.outputs.template import file, render
from guidec.outputs.view import sheet
from guidec.source import Span

__all__ = ["page"]


def page(
    guide: Guide,
    *,
    clean: bool,
    sections: Container[str] | None = None,
    data: Mapping[str, Any] | None = None,
    picture: figure.Draws = figure.picture,
    labels: Mapping[Span, str] | None = None,
) -> bytes:
    """The page of a guide, UTF-8.

    `clean` false marks it as not clean. `sections`: the names to print, all unless given. `data`: what sections
    of other parts print, by the section's name. `picture`: writes a picture, without its caption. `labels`: of the
    lines by their spans, where the guide is part of another one.
    """
    given = data or {}
    values = sheet(guide, clean=clean, paper=False, picture=picture, labels=labels)
    chosen = present(sections, given, values.lists)
    return render(values, chosen, given, style(chosen), script()).encode()


def script() -> str:
    """All that runs in a page."""
    return "\n".join(file(name).strip() for name in ("ticks.js", "larger.js"))


def style(sections: tuple[Section, ...]) -> str:
    """The style sheet of a page with these sections."""
    own = (file(f"sections/{section.name}.css") for section in sections)
    return "\n".join((file("base.css"), *own, file("screen.css"), file("print.css"))).strip()
