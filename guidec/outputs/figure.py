"""A picture of a note -> the element that shows it, as it is."""

from __future__ import annotations

from urllib.parse import quote

from markupsafe import Markup

from guidec.model.types import Shown

__all__ = ["picture"]


def picture(shown: Shown) -> Markup:
    """The picture under the path that the note gives it, loaded when it comes into view."""
    tag = '<img src="{src}" alt="{alt}" loading="lazy" decoding="async">'
    return Markup(tag).format(src=quote(shown.path, safe="/"), alt=shown.alt)
