"""A picture of a note -> the element that shows it: as it is, or in its sizes with all that is marked on it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol
from urllib.parse import quote

from markupsafe import Markup

from guidec.model.types import Crop, Guide, Shown
from guidec.outputs.fill import fill
from guidec.outputs.inline import Pen
from guidec.outputs.legend import Row, legend
from guidec.outputs.overlay import overlay
from guidec.pictures.recipe import PRINT_MM
from guidec.pictures.types import Box, Derived
from guidec.quick import dataclass

__all__ = ["Draws", "Figures", "box_of", "key", "picture", "size_on_paper"]

COLUMN, HIGHEST = 646, 620
"""The most pixels that a picture takes on a screen, across and down."""
_DOTS = 96 / 25.4
_DOT_MM = PRINT_MM[1] / (COLUMN * 3 / 4)
"""What a pixel on a screen stands for: a photo of 4 to 3 has its marks as on paper, any other as large as that."""


class Draws(Protocol):
    """Writes a picture, without its caption, for a screen or for paper."""

    def __call__(self, shown: Shown, *, paper: bool = False) -> Markup: ...


def picture(shown: Shown, *, paper: bool = False) -> Markup:
    """The picture under the path that the note gives it, loaded when it comes into view."""
    tag = '<img src="{src}" alt="{alt}" loading="lazy" decoding="async">'
    return fill(tag, src=quote(shown.path, safe="/"), alt=shown.alt)


def box_of(crop: Crop | None) -> Box | None:
    """The part of a picture that a crop leaves."""
    return (crop.left, crop.top, crop.right, crop.bottom) if crop else None


def size_on_paper(derived: Derived) -> tuple[float, float]:
    """Width and height in mm: as large as the sheet lets it, but no pixel larger than 1/96 inch."""
    width, height = derived.width, derived.height
    scale = min(PRINT_MM[0] / width, PRINT_MM[1] / height, 1 / _DOTS)
    return round(max(width * scale, 2), 2), round(max(height * scale, 2), 2)


def size_on_screen(derived: Derived) -> tuple[float, float]:
    """Width and height in pixels at the most."""
    scale = min(1, COLUMN / derived.width, HIGHEST / derived.height)
    return max(1.0, derived.width * scale), max(1.0, derived.height * scale)


@dataclass(frozen=True, slots=True)
class Figures:
    """Writes the pictures of a guide. `derived`: what there is of each, by path and box."""

    guide: Guide
    derived: Mapping[tuple[str, Box | None], Derived]
    title: str
    larger: str

    def __call__(self, shown: Shown, *, paper: bool = False) -> Markup:
        """The picture with its marks; its words alone where there is no file to show."""
        found = self.derived.get((shown.path, box_of(shown.crop)))
        if found is None:
            return fill('<p class="no-photo"><em>{alt}</em></p>', alt=shown.alt or shown.path)
        width, height = size_on_paper(found) if paper else size_on_screen(found)
        frame = (width, height) if paper else (round(width * _DOT_MM, 2), round(height * _DOT_MM, 2))
        marks = overlay(legend(self.guide, shown), frame, self.title.format(alt=shown.alt), paper=paper)
        return _on_paper(shown, found, marks) if paper else self._on_screen(shown, found, marks)

    def files(self) -> dict[str, bytes]:
        """The pictures for screens by their addresses."""
        return {
            f"pictures/{one.name}": one.data
            for found in self.derived.values()
            for one in (*found.screen, found.fallback)
        }

    def prints(self) -> dict[str, bytes]:
        """The pictures for paper by the addresses that they have there."""
        return {f"pictures/{found.printed.name}": found.printed.data for found in self.derived.values()}

    def _on_screen(self, shown: Shown, found: Derived, marks: Markup) -> Markup:
        width, height = (round(each) for each in size_on_screen(found))
        tag = (
            '<div class="photo"><a class="larger" href="pictures/{large}" aria-label="{larger}">'
            '<picture><source type="image/webp" srcset="{sizes}" sizes="(max-width: 44rem) 94vw, {width}px">'
            '<img src="pictures/{src}" alt="{alt}" width="{width}" height="{height}" '
            'loading="lazy" decoding="async">'
            "</picture></a>{marks}</div>"
        )
        return fill(
            tag,
            large=found.screen[-1].name,
            larger=self.larger.format(alt=shown.alt),
            sizes=", ".join(f"pictures/{one.name} {one.width}w" for one in found.screen),
            src=found.fallback.name,
            alt=shown.alt,
            width=width,
            height=height,
            marks=marks,
        )


def _on_paper(shown: Shown, found: Derived, marks: Markup) -> Markup:
    width, height = size_on_paper(found)
    tag = (
        '<div class="photo" style="width: {width}mm; height: {height}mm">'
        '<img src="pictures/{src}" alt="{alt}" style="width: {width}mm; height: {height}mm">{marks}</div>'
    )
    alt = shown.alt or shown.path
    return fill(tag, width=width, height=height, src=found.printed.name, alt=alt, marks=marks)


def key(pen: Pen, shown: Shown, number: int) -> Markup:
    """The key of a picture as a list; nothing where nothing on it has words."""
    rows = [row for row in legend(pen.guide, shown) if row.label]
    if not rows:
        return Markup("")
    items = Markup("").join(_item(pen, row) for row in rows)
    says = pen.words("picture-key", number=number)
    return fill('<ol class="key" aria-label="{}">{}</ol>', says, items)


def _item(pen: Pen, row: Row) -> Markup:
    name = pen.thing(row.thing) if row.thing else Markup.escape(row.text)
    return fill('<li><span class="pin">{}</span> {}</li>', row.label, name)
