"""Shelves for tests: small notes of made-up devices, a build of them, and what lies in a site."""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import Any

from guidec.shelf.build import Options, Report, build
from guidec.shelf.inputs import opened
from guidec.shelf.run import local
from guidec.shelf.store import Store

REPOSITORY = Path(__file__).parent.parent.parent
SAMPLES = REPOSITORY / "samples"

SETTINGS = """
title: Bench shelf
description: Three devices of the bench, for the tests.
address: https://shelf.example/guides
author: Workbench Two
licence: CC-BY-4.0
languages: [en, de]
footer: Ask before you solder. [The house rules](https://shelf.example/rules)
"""


def note(model: str, *, maker: str = "Nordhavn", extra: str = "", date: str = "2026-03-01") -> str:
    """A clean note."""
    return f"""---
title: {maker} {model} work lamp
subject: {{maker: {maker}, model: {model}, year: 2024, kind: work lamp}}
author: Workbench Two
licence: CC-BY-4.0
language: en
revision: 1
date: {date}
power: battery
isolate: battery lead
---

# {maker} {model}

A work lamp with one cell.

## Open the housing

1. Undo {{screw A: 4x PH0 M2x6}}.
2. Lift off {{part lid; class=cover; number=NL-{model}-7}} with {{tool plastic card}}.

## Make it dead

1. Unplug {{connector battery lead: press-fit; from=cell pack}}.

## Take out the cell

> WARNING: A bent or pierced lithium cell can catch fire and burn you. Do not lever against it; stop if it swells.

1. Soak {{adhesive cell tape: double-sided tape; holds=cell pack}} with {{supply isopropyl alcohol: 99 %, 2 ml}}.
2. Lift out {{part cell pack: 2600 mAh, 3.7 V; class=battery}} by hand.
{extra}"""


BROKEN = "\n## More\n\n1. Undo 9 of {A}.\n"
"""Makes a note one with an error: more screws than there are."""


def shelf(folder: Path, notes: dict[str, str], settings: str = "title: Bench shelf\n") -> Path:
    """A folder with notes and settings."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "shelf.yaml").write_text(settings, encoding="utf-8")
    for name, text in notes.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def built(folder: Path, out: Path, *, jobs: int = 1, **options: Any) -> Report:
    """The site built, without PDFs."""
    return build(opened(str(folder)), Store(out), Options(lambda units: local(jobs, units), pdf=False, **options))


def contents(site: Path, *, state: bool = False) -> dict[str, str]:
    """Every file of a site with its digest; the state only where asked for, since it holds times."""
    return {
        path.relative_to(site).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(site.rglob("*"))
        if path.is_file() and (state or path.name != ".guidec-shelf")
    }


def codes(report: Report) -> dict[str, list[str]]:
    """The codes of the errors, by note."""
    found = {
        name: [row["code"] for row in rows if row["severity"] == "error"]
        for name, rows in report.diagnostics.items()
    }
    return {name: row for name, row in found.items() if row}
