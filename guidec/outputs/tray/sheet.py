"""A guide -> its tray sheet: pages for the guide's own PDF, `tray.html`, and `tray.svg`, one file a page."""

from __future__ import annotations

from functools import lru_cache

from markupsafe import Markup

from guidec.model.types import Guide
from guidec.outputs.fill import fill
from guidec.outputs.template import file, policy
from guidec.outputs.tray.fields import bags, fields
from guidec.outputs.tray.layout import Page, pages
from guidec.outputs.words import words

__all__ = ["PAPER", "files", "section", "tray", "wanted"]

PAPER = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""Sheets by name, in mm (ISO 216; ANSI/ASME Y14.1)."""
SPARE = (32.0, 44.0)
"""What the guide's own margins take of a sheet, in mm."""
_HTML = Markup(
    '<!DOCTYPE html>\n<html lang="{lang}">\n<head>\n<meta charset="utf-8">\n'
    '<meta http-equiv="Content-Security-Policy" content="{policy}">\n'
    '<meta name="viewport" content="width=device-width, initial-scale=1">\n<title>{title}</title>\n'
    "<style>{style}</style>\n</head>\n<body>\n<main>\n"
    '<h1>{title}</h1>\n{unclean}<p class="how">{how} <a href="index.html">{back}</a></p>\n'
    "{pages}\n</main>\n</body>\n</html>\n"
)


def tray(guide: Guide, paper: str = "a4") -> tuple[Page, ...]:
    """The pages; none where nothing comes out or off. Raises KeyError for another paper."""
    says = words(guide.meta.language)
    width, height = PAPER[paper]
    size = (width - SPARE[0], height - SPARE[1])
    return pages(fields(guide, says), bags(guide), _device(guide), size, says)


def wanted(guide: Guide) -> bool:
    """Whether there is a tray sheet: something comes off or out."""
    return bool(bags(guide) or fields(guide, words(guide.meta.language)))


def section(guide: Guide, paper: str = "a4") -> list[Markup] | None:
    """The pages as elements of the guide's PDF; None where there are none."""
    return [_element(page) for page in tray(guide, paper)] or None


def files(guide: Guide, paper: str = "a4", *, clean: bool = True) -> dict[str, bytes]:
    """`tray.html`, `tray.svg` and, where it takes more pages, `tray-2.svg` and so on."""
    made = tray(guide, paper)
    if not made:
        return {}
    found = {"tray.html": _page(guide, made, paper, clean=clean)}
    for at, page in enumerate(made, 1):
        found["tray.svg" if at == 1 else f"tray-{at}.svg"] = _alone(guide, page, PAPER[paper], clean=clean)
    return found


def _device(guide: Guide) -> str:
    subject = guide.meta.subject
    return " ".join(part for part in (subject.maker, subject.model) if part) or guide.meta.title


def _element(page: Page) -> Markup:
    box = '<svg class="tray-page" role="img" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}">'
    return fill(
        f"{box}<title>{{t}}</title>{{s}}</svg>",
        w=f"{page.width:g}",
        h=f"{page.height:g}",
        t=page.title,
        s=page.svg,
    )


def _alone(guide: Guide, page: Page, paper: tuple[float, float], *, clean: bool) -> bytes:
    """A page as a file that prints to scale: the whole sheet with its margins."""
    says = words(guide.meta.language)
    left, top = SPARE[0] / 2, 20.0
    title = f"{guide.meta.title}: {page.title}" + ("" if clean else f" ({says('not-clean')})")
    body = Markup(
        '<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="{h}mm" viewBox="0 0 {w} {h}">'
        '<title>{title}</title><rect width="{w}" height="{h}" fill="#fff"/><text x="{left}" y="14" font-size="4" '
        'font-weight="700" font-family="sans-serif">{title}</text>'
        '<g transform="translate({left} {top})">{svg}</g></svg>\n'
    )
    return body.format(
        w=f"{paper[0]:g}", h=f"{paper[1]:g}", title=title, left=f"{left:g}", top=f"{top:g}", svg=page.svg
    ).encode()


def _page(guide: Guide, made: tuple[Page, ...], paper: str, *, clean: bool) -> bytes:
    says = words(guide.meta.language)
    style = _style(paper)
    band = fill("<p><strong>{}</strong> {}</p>\n", says("not-clean"), says("not-clean-why"))
    return (
        _HTML.format(
            lang=guide.meta.language,
            policy=policy(style, ""),
            title=f"{says('tray')}: {guide.meta.title}",
            style=Markup(style),
            unclean=band if not clean else "",
            how=says("tray-how"),
            back=says("tray-back"),
            pages=Markup("\n").join(_element(page) for page in made),
        )
    ).encode()


@lru_cache(4)
def _style(paper: str) -> str:
    width, height = PAPER[paper]
    return file("tray.css").replace("$size", f"{width:g}mm {height:g}mm").strip()
