"""A job that makes pages -> every template it rendered and the values it was given, on their way to Jinja2."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

__all__ = ["Rendered", "rendered"]

Rendered = list[tuple[Any, dict[str, Any]]]


def rendered(job: Callable[[], object]) -> Rendered:
    """The templates and values, in their order."""
    import jinja2

    taken: Rendered = []
    render = jinja2.Template.render

    def take(self: jinja2.Template, **values: Any) -> str:
        taken.append((self, values))
        return render(self, **values)

    jinja2.Template.render = take  # type: ignore[method-assign]
    try:
        job()
    finally:
        jinja2.Template.render = render  # type: ignore[method-assign]
    return taken
