"""A piece of HTML with `{}` in it and values -> the same with each value, escaped, in its place."""

from __future__ import annotations

from collections.abc import Iterable

from markupsafe import Markup, escape

__all__ = ["fill", "joined"]


def joined(between: str, pieces: Iterable[Markup]) -> Markup:
    """As `Markup(between).join(pieces)`, of pieces that all are Markup."""
    return Markup(between.join(pieces))


def fill(html: str, *values: object, **named: object) -> Markup:
    """As `Markup(html).format(…)`, without format specifications: `html` is trusted, and so are values of Markup.

    Markup's own goes through Python's string formatter, which took half of the time that a page's values took.
    """
    return Markup(html.format(*map(escape, values), **{name: escape(value) for name, value in named.items()}))
