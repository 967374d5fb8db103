"""A whole note as a model, and what its front matter says."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from typing import Any

from guidec.model.types.actions import Action
from guidec.model.types.operations import Content, Hazard, Operation
from guidec.model.types.said import Ref
from guidec.model.types.things import Thing
from guidec.notes.syntax import Located
from guidec.quick import dataclass
from guidec.source import Source, Span

__all__ = ["Guide", "Meta", "Recording", "Subject", "Verdict"]


@dataclass(frozen=True, slots=True)
class Subject:
    """The device. `identifiers`: such as a GTIN, by their name."""

    maker: str | None = None
    model: str | None = None
    variant: str | None = None
    year: int | None = None
    kind: str | None = None
    identifiers: Mapping[str, str] = ()  # type: ignore[assignment]


@dataclass(frozen=True, slots=True)
class Recording:
    """The recording: a file in the note's folder or an address; length and offset in seconds."""

    file: str | None = None
    url: str | None = None
    length: float | None = None
    offset: float = 0.0


@dataclass(frozen=True, slots=True)
class Verdict:
    """The author's own word on repair."""

    points: float | None
    out_of: float | None
    why: str | None


@dataclass(frozen=True, slots=True)
class Meta:
    """The front matter, typed. `front` keeps the whole of it with places, for what other phases read."""

    title: str
    slug: str
    subject: Subject
    author: str | None
    licence: str | None
    language: str
    revision: str | None
    date: str | None
    recording: Recording | None
    power: tuple[str, ...]
    isolate: tuple[Ref, ...]
    verdict: Verdict | None
    quiet: Mapping[str, str]
    scoring: Mapping[str, Any]
    front: Located
    was: tuple[str, ...] = ()
    """The slugs that the guide had under earlier titles."""
    address: str | None = None
    """Where the guide can be read."""


@dataclass(frozen=True)
class Guide:
    """A whole note as a model. `intro`: what stands between the title and the first operation."""

    source: Source
    meta: Meta
    things: Mapping[str, Thing]
    operations: tuple[Operation, ...]
    actions: Mapping[str, Action]
    hazards: tuple[Hazard, ...]
    intro: tuple[Content, ...]
    resolved: Mapping[Span, str]
    """The span of every mark that names a thing (those inside other marks too) -> the thing's id."""
    printed: Mapping[Span, str]
    """The span of every mark -> how it reads in a sentence; nothing for those that only say more."""
    isolating: tuple[str, ...] = ()
    """The actions that make the device dead."""
    doubted: tuple[str, ...] = ()
    """The things in lines that may be meant otherwise than they were read, which has been said."""

    @cached_property
    def operation(self) -> Mapping[str, Operation]:
        """Operations by id."""
        return {operation.id: operation for operation in self.operations}
