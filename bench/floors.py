"""What each job costs at the least: the libraries under it, used bare, as a script of a few lines would."""

from __future__ import annotations

from functools import cache
from typing import Any

__all__ = ["BARE_CHECK", "bare_parse", "bare_render"]

BARE_CHECK = """
import sys
import yaml, markdown_it, jsonschema
text = open(sys.argv[1], encoding="utf-8").read()
_, front, body = text.split("---\\n", 2)
yaml.load(front, getattr(yaml, "CSafeLoader", yaml.SafeLoader))
markdown_it.MarkdownIt("commonmark").enable("table").parse(body)
"""
"""A script: the libraries that reading a note calls for, imported, and the note parsed bare."""

_PAGE = """<!doctype html><html lang="en"><head><meta charset="utf-8"><title>{{ title }}</title></head><body>
<h1>{{ title }}</h1>
<nav><ol>{% for block in blocks if block.tag == "h2" %}<li><a href="#b{{ loop.index }}">{{ block.text }}</a></li>
{% endfor %}</ol></nav>
{% for block in blocks %}<{{ block.tag }} id="b{{ loop.index }}">{{ block.text }}</{{ block.tag }}>
{% endfor %}
<table>{% for block in blocks if block.tag == "p" %}<tr><th>{{ loop.index }}</th><td>{{ block.text }}</td></tr>
{% endfor %}</table></body></html>
"""


def bare_parse(text: str) -> list[Any]:
    """The note through markdown-it-py, bare."""
    from markdown_it import MarkdownIt

    return MarkdownIt("commonmark").enable("table").parse(text)


@cache
def _template() -> Any:
    from jinja2 import Environment

    return Environment(autoescape=True).from_string(_PAGE)


def bare_render(text: str) -> str:
    """The note parsed bare, and its text put through one Jinja2 page: contents, body, one list."""
    tokens = bare_parse(text)
    blocks = [
        {"tag": tokens[at - 1].tag or "p", "text": token.content}
        for at, token in enumerate(tokens)
        if token.type == "inline"
    ]
    page: str = _template().render(title=blocks[0]["text"], blocks=blocks)
    return page
