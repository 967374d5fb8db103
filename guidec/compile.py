"""A path to a note -> a checked guide -> named bytes -> files. The whole program on one page.

load     the note's text, as the file has it            guidec.edge.load
read     text -> located syntax                         guidec.notes
find     the pictures it shows, inside its folder       guidec.edge.pictures
build    syntax -> typed guide                          guidec.model
graph    guide -> what needs what                       guidec.plan
check    guide and graph -> findings of the rules       guidec.checks
silence  findings -> without those the note silences    guidec.checks.quiet
make     guide, graph, pictures -> named bytes          guidec.make, guidec.outputs
write    named bytes -> a folder, whole or not at all   guidec.edge.write
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field
from pathlib import Path

from guidec import checks, model, notes, plan
from guidec.checks.quiet import silence
from guidec.collector import paused
from guidec.edge import pictures
from guidec.edge.load import Bundle, load
from guidec.model.types import Guide
from guidec.notes.syntax import Document
from guidec.plan import Graph
from guidec.quick import dataclass
from guidec.rules.book import page
from guidec.rules.finding import Finding, Severity

__all__ = ["Built", "Bundle", "Checked", "Model", "Options", "Said", "build", "check", "load", "write"]

Said = Callable[[str], None]
"""Told the name of each phase as it starts."""


@dataclass(frozen=True, slots=True)
class Model:
    """What is known of a note that could be read. `pictures`: the files it shows, by their path as typed."""

    document: Document
    guide: Guide
    graph: Graph
    pictures: Mapping[str, Path]


@dataclass(frozen=True, slots=True)
class Checked:
    """A note and all that was found. `model` is None where there was no text to read."""

    bundle: Bundle
    model: Model | None
    findings: tuple[Finding, ...]

    @property
    def clean(self) -> bool:
        """No errors; warnings are allowed."""
        return not any(_severity(finding) is Severity.ERROR for finding in self.findings)


@dataclass(frozen=True, slots=True)
class Options:
    """What a call may choose. `strict`: a note with errors gives no outputs. `pdf`: whether to set the PDF.

    `alone`: the parts (ids) whose routes are wanted as PDF and data of their own.
    """

    strict: bool = False
    pdf: bool = True
    alone: tuple[str, ...] = ()
    paper: str = "a4"
    label_sheet: str = ""
    address: str = ""
    cache: Path | None = None
    said: Said = field(default=lambda phase: None, repr=False)


@dataclass(frozen=True, slots=True)
class Built:
    """The outputs of one note, by name; none where the note could not be read, or was not clean and `strict`."""

    checked: Checked
    slug: str
    files: Mapping[str, bytes]
    findings: tuple[Finding, ...]


@paused()
def check(bundle: Bundle) -> Checked:
    """Everything short of the outputs."""
    if not bundle.readable:
        return Checked(bundle, None, bundle.findings)
    document, in_reading = notes.read(bundle.source)
    files, in_pictures = pictures.find(bundle.folder, document)
    guide, in_building = model.build(document)
    graph = plan.graph(guide)
    in_checks = checks.run(guide, graph)
    found = silence(document.front, (*bundle.findings, *in_reading, *in_pictures, *in_building, *in_checks))
    return Checked(bundle, Model(document, guide, graph, files), found)


@paused()
def build(bundle: Bundle, options: Options | None = None, checked: Checked | None = None) -> Built:
    """The note checked (unless that is done: `checked`), and all its outputs as named bytes."""
    options = options or Options()
    options.said("check")
    checked = checked or check(bundle)
    if checked.model is None or (options.strict and not checked.clean):
        return Built(checked, "", {}, checked.findings)
    from guidec.make import make  # here, not above: a check does without everything that sets pages

    known = checked.model
    files, found = make(
        known.guide,
        known.graph,
        known.pictures,
        checked.findings,
        clean=checked.clean,
        print_=options.pdf,
        alone=options.alone,
        paper=options.paper,
        label_sheet=options.label_sheet,
        address=options.address,
        cache=options.cache,
        said=options.said,
    )
    return Built(checked, known.guide.meta.slug, files, (*checked.findings, *found))


def write(built: Built, out: Path) -> Path:
    """The outputs in `out/SLUG`, which is returned. Raises `edge.write.RefusedError`, with nothing changed."""
    from guidec.edge.write import write_folder  # here, not above: a check does without

    return write_folder(out, built.slug, built.files)


def _severity(finding: Finding) -> Severity:
    return finding.severity or page(finding.code).severity
