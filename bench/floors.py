"""What each job costs at the least: the libraries under it, used bare, as a script of a few lines would."""

from __future__ import annotations

from typing import Any

__all__ = ["BARE_CHECK", "bare_parse"]

BARE_CHECK = """
import sys
for extra in "fqdn idna rfc3987 rfc3987_syntax webcolors uri_template isoduration jsonpointer".split():
    sys.modules[extra] = None
import yaml, markdown_it, jsonschema
text = open(sys.argv[1], encoding="utf-8").read()
_, front, body = text.split("---\\n", 2)
yaml.load(front, getattr(yaml, "CSafeLoader", yaml.SafeLoader))
markdown_it.MarkdownIt("commonmark").enable("table").parse(body)
"""
"""A script: the libraries that reading a note calls for, imported, and the note parsed bare.

What jsonschema loads besides where it happens to be installed, for formats, is kept out: it would flatter us.
"""


def bare_parse(text: str) -> list[Any]:
    """The note through markdown-it-py, bare."""
    from markdown_it import MarkdownIt

    return MarkdownIt("commonmark").enable("table").parse(text)
