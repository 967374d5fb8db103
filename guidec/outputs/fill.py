"""A piece of HTML with `{}` in it and values -> the same with each value, escaped, in its place."""

from __future__ import annotations

from markupsafe import Markup, escape

__all__ = ["fill"]


def fill(html: str, *values: object, **named: object) -> Markup:
    """As `Markup(html).format(…)`, without format specifications: `html` is trusted, and so are values of Markup.

    Markup's own goes through Python's string formatter, which took half of the time that a page's values took.
    """
    return Markup(html.format(*map(escape, values), **{name: escape(value) for name, value in named.items()}))
