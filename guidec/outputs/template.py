"""Values and words -> the text of a page: the templates, compiled once, and what may run and show in it."""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from guidec.outputs.sections import Section
from guidec.outputs.view import Sheet

__all__ = ["file", "policy", "render"]

FOLDER = Path(__file__).parent / "page"


@cache
def _environment() -> Environment:
    return Environment(
        loader=FileSystemLoader(FOLDER),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )


@cache
def file(name: str) -> str:
    """A file of the page's folder; nothing where there is none of that name."""
    path = FOLDER / name
    return path.read_text(encoding="utf-8") if path.is_file() else ""


def render(
    sheet: Sheet, sections: tuple[Section, ...], data: Mapping[str, Any], style: str = "", script: str = ""
) -> str:
    """The page. `style` and `script` stand in it as they are; no others run."""
    return (
        _environment()
        .get_template("sheet.html")
        .render(
            sheet=sheet,
            w=sheet.words,
            paper=sheet.paper,
            sections=sections,
            data=data,
            style=Markup(style),
            script=Markup(script),
            policy=policy(style, script),
        )
    )


@cache
def policy(style: str, script: str) -> str:
    """A content security policy: this style, this script, pictures beside the page, nothing else."""
    scripts = _hash(script) if script else "'none'"
    return (
        f"default-src 'none'; img-src 'self' file: data:; style-src {_hash(style)}; script-src {scripts}; "
        "base-uri 'none'; form-action 'none'"
    )


def _hash(text: str) -> str:
    digest = base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()
    return f"'sha256-{digest}'"
