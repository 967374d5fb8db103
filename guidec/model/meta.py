"""The front matter and the title -> the guide's meta data, typed. Wrong types were reported before."""

from __future__ import annotations

from typing import Any

from guidec.model.language import language_of
from guidec.model.slugs import earlier, slug
from guidec.model.types import Meta, Recording, Ref, Subject, Verdict
from guidec.notes.syntax import Document, Located
from guidec.notes.times import seconds
from guidec.source import Span

__all__ = ["meta", "names"]


def meta(document: Document, heading: str, isolate: tuple[Ref, ...]) -> Meta:
    """The guide's meta data. The title is the front matter's, else the heading's, else the file's name."""
    front = document.front
    stem = document.source.name.replace("\\", "/").rsplit("/", 1)[-1].rsplit(".", 1)[0]
    title = _text(front.get("title")) or heading or stem or "note"
    return Meta(
        title=title,
        slug=slug(title) or "guide",
        subject=_subject(front.get("subject")),
        author=_text(front.get("author")),
        licence=_text(front.get("licence")),
        language=language_of(front),
        revision=_text(front.get("revision")),
        date=_text(front.get("date")),
        recording=_recording(front.get("recording")),
        power=tuple(name for name, _ in names(front.get("power"))),
        isolate=isolate,
        verdict=_verdict(front.get("verdict")),
        quiet=_texts(front.get("quiet")),
        scoring=_mapping(front.get("scoring")),
        front=front,
        was=earlier(_titles(front.get("was"))),
        address=_text(front.get("address")),
    )


def names(located: Located | None) -> list[tuple[str, Span]]:
    """A YAML list, or a comma list in one string, as names with their places."""
    if located is None:
        return []
    if isinstance(located.value, tuple):
        return [pair for item in located.value for pair in names(item)]
    typed = _text(located)
    if typed is None:
        return []
    if located.span.end - located.span.start < len(typed):
        return [(typed, located.span)]
    found, at = [], located.span.start + (located.span.end - located.span.start - len(typed)) // 2
    for part in typed.split(","):
        name = part.strip()
        start = at + len(part) - len(part.lstrip())
        if name:
            found.append((name, Span(start, start + len(name))))
        at += len(part) + 1
    return found


def _titles(located: Located | None) -> list[str]:
    """A title, which may have commas, or a list of them."""
    items = located.value if located is not None and isinstance(located.value, tuple) else (located,)
    return [text for text in map(_text, items) if text]


def _text(located: Located | None) -> str | None:
    """A scalar as text, as it was typed."""
    if located is None or located.value is None or not isinstance(located.value, bool | int | float | str):
        return None
    return located.value if isinstance(located.value, str) else located.typed or str(located.value)


def _number(located: Located | None) -> float | None:
    value = located.value if located else None
    return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None


def _mapping(located: Located | None) -> dict[str, Any]:
    plain = located.plain() if located else None
    return plain if isinstance(plain, dict) else {}


def _texts(located: Located | None) -> dict[str, str]:
    if located is None or not isinstance(located.value, dict):
        return {}
    return {key: _text(entry.value) or "" for key, entry in located.value.items()}


def _subject(located: Located | None) -> Subject:
    if located is None:
        return Subject(identifiers={})
    year = _number(located.get("year"))
    return Subject(
        maker=_text(located.get("maker")),
        model=_text(located.get("model")),
        variant=_text(located.get("variant")),
        year=int(year) if year is not None else None,
        kind=_text(located.get("kind")),
        identifiers=_texts(located.get("identifiers")),
    )


def _recording(located: Located | None) -> Recording | None:
    if located is None or not isinstance(located.value, dict):
        return None
    return Recording(
        file=_text(located.get("file")),
        url=_text(located.get("url")),
        length=seconds(_text(located.get("length")) or ""),
        offset=seconds(_text(located.get("offset")) or "") or 0.0,
    )


def _verdict(located: Located | None) -> Verdict | None:
    if located is None or not isinstance(located.value, dict):
        return None
    return Verdict(_number(located.get("points")), _number(located.get("out_of")), _text(located.get("why")))
