"""Located syntax -> HTML: a line's text, a kept block, the words of a mark.

markdown-it's own renderer with own rules for what a note adds to Markdown. A thing is a link to its row in the
index of things, set off by its class; a value stands with its other units beside it; marks that say more about an
action or belong to a heading print nothing here (the page shows them at their place). Raw HTML is text.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, MutableMapping, Sequence
from functools import cached_property, lru_cache
from itertools import count
from typing import Any

from markdown_it import MarkdownIt
from markdown_it.renderer import RendererHTML
from markdown_it.token import Token
from markdown_it.utils import OptionsDict
from markupsafe import Markup, escape

from guidec.model import printed
from guidec.model.types import Guide, Kind
from guidec.notes.kinds import PICTURE
from guidec.notes.syntax import Block, Inline, Mark
from guidec.outputs.fill import fill
from guidec.outputs.words import Words
from guidec.quick import dataclass

__all__ = ["Pen", "after_colon", "anchor", "bound"]

SILENT = frozenset(
    ("after", "also", "instead of", "side", "live", "optional", "refit only", "refit", "risk", "partly", *PICTURE)
)
SHORT = 26
"""Up to how many characters a screw set stays on one line."""
MORE = frozenset(("refit", "risk", *PICTURE))
VALUES = frozenset(("heat", "wait", "torque", "measure"))
_OPTIONS: OptionsDict = MarkdownIt("commonmark").options
_NOTHING = "\ue000"
"""Stands where a mark prints nothing, so that the blank before it can go too."""
_BEFORE_STOP = re.compile(rf"\s*{_NOTHING}(?=[.,;:!?)]|\s*$)")
_ELSEWHERE = re.compile(rf"{_NOTHING}\s*")
_SIGNAL = re.compile(r"(?:<(?:strong|em)>)*[^<>:]+(?:</(?:strong|em)>)*\s*:(?:</(?:strong|em)>)*\s*")
_UNITS = r"°[CF]|[kM]?Ω|N·m|mN·m|[mk]?[VAW]|mAh|Wh|[mµ]?F|[mcµk]?m|[mk]?g|m?l|kgf·cm|lbf·in|s|min|h|%"
_TOGETHER = re.compile(rf" (?:(?<=[≤≥×±] )(?=\S)|(?<=\d )(?=×|(?:{_UNITS})(?!\w)))")
"""The blanks between a sign and its figure, a figure and its unit, a count and what is counted."""
_A_TAG = re.compile(r"</?a\b[^>]*>")
_OUT = re.compile(r"(?:https?|mailto):", re.I)
_AWAY = re.compile(r"[a-z][a-z0-9+.-]*:|[/\\]{2}", re.I)
"""An address with a scheme, or one that names a host: no relative one."""


def anchor(thing: str) -> str:
    """The HTML id of a thing's row in the index of things."""
    return f"thing-{thing}"


@dataclass(frozen=True)
class Pen:
    """What writes a guide's text. `paper`: for print, where a relative link leads nowhere."""

    guide: Guide
    words: Words
    paper: bool = False

    @cached_property
    def operations(self) -> Mapping[int, str]:
        """The operations' ids by their numbers."""
        return {operation.number: operation.id for operation in self.guide.operations}

    def text(self, inline: Inline | None) -> Markup:
        """The text of a line, heading or cell."""
        return self.tokens(inline.tokens) if inline else Markup("")

    def tokens(self, tokens: Sequence[Token]) -> Markup:
        """Inline or block tokens as HTML."""
        return _close_up(_RENDERER.render(list(tokens), _OPTIONS, {"pen": self}))

    def block(self, block: Block) -> Markup:
        """A block that is kept as the author wrote it."""
        return self.tokens(block.tokens)

    def thing(self, thing: str, shown: str | None = None) -> Markup:
        """A link to a thing by its id, shown as its name unless said; set off by its kind."""
        found = self.guide.things[thing]
        text = shown or printed.thing_text(found)
        name = _link(found.kind, found.id, self.words.figures(text) if found.kind is Kind.SCREW else text)
        return self._unconfirmed(name) if found.draft else name

    def mark(self, mark: Mark) -> Markup:
        """A mark where it stands in a text."""
        if mark.kind in MORE and mark.details:
            return Markup(_NOTHING)
        thing = self.guide.resolved.get(mark.span)
        if thing is not None and thing in self.guide.things:
            link = self.thing(thing, self._spelled(mark, thing))
            return self._unconfirmed(link) if mark.draft and not self.guide.things[thing].draft else link
        if mark.kind in SILENT:
            return Markup(_NOTHING)
        if mark.kind in VALUES:
            shown = self.words.figures(self.guide.printed.get(mark.span) or mark.name)
            return fill('<span class="v">{}</span>', shown)
        return escape(mark.name if mark.kind or mark.name else mark.text)

    def say_more(self, mark: Mark) -> Markup:
        """The text of a `refit` or `risk` (without the thing at risk), with the marks inside it."""
        source = self.guide.source
        start = mark.details_span.start if mark.kind == "risk" and mark.details else mark.name_span.start
        end = mark.span.end - (1 if mark.text.endswith("}") else 0)
        pieces, at = [], start
        for inner in mark.inner:
            if inner.span.start >= at:
                pieces += [_typed(source.text[at : inner.span.start]), self.mark(inner)]
                at = inner.span.end
        pieces.append(_typed(source.text[at:end]))
        return _close_up(" ".join(Markup("").join(pieces).split()))

    def _spelled(self, mark: Mark, thing: str) -> str | None:
        """A name as this place spells it, or a thing that prints as more than its name; None where it is usual."""
        found, shown = self.guide.things[thing], self.guide.printed.get(mark.span)
        if found.kind is Kind.SCREW:
            return shown
        if shown and shown != found.name:
            return shown
        typed = mark.whole if not mark.kind else mark.name
        return " ".join(typed.split()) or None

    def _unconfirmed(self, name: Markup) -> Markup:
        word = self.words("unconfirmed")
        return fill('<span class="draft">{} <span class="flag">{}</span></span>', name, word)


@lru_cache(maxsize=4096)
def _link(kind: Kind, thing: str, text: str) -> Markup:
    """A link to a thing; a guide and the guides to its parts say most of them many times."""
    whole = " nb" if kind is Kind.SCREW and len(text) <= SHORT else ""
    text = bound(text)
    return fill('<a class="th {}{}" href="#{}">{}</a>', kind.value, whole, anchor(thing), text)


def bound(text: str) -> str:
    """A text whose counts, figures and units do not part at a line's end."""
    return _TOGETHER.sub("\u00a0", text)


def _typed(text: str) -> Markup:
    """Text of a mark without the backslashes that made its signs plain."""
    return escape(text.replace("\\", ""))


def after_colon(html: Markup) -> Markup:
    """A hazard's text without the signal word that it starts with, whether that is plain, strong or stressed."""
    found = _SIGNAL.match(html)
    if found is None:
        return html
    opened = re.findall(r"<(\w+)>", found[0])
    for tag in re.findall(r"</(\w+)>", found[0]):
        opened.remove(tag)
    return Markup("".join(f"<{tag}>" for tag in opened) + str(html)[found.end() :])


def _close_up(html: str) -> Markup:
    """Take the stand-ins for silent marks out, with the blank that each leaves over."""
    if _NOTHING in html:
        html = _ELSEWHERE.sub("", _BEFORE_STOP.sub("", html))
    return Markup(html.strip())


Env = MutableMapping[str, Any]


def _rule_text(tokens: Sequence[Token], at: int, options: OptionsDict, env: Env) -> str:
    return str(escape(bound(tokens[at].content)))


def _rule_mark(tokens: Sequence[Token], at: int, options: OptionsDict, env: Env) -> str:
    """A mark; inside a link its own link gives way, since links do not nest."""
    shown = str(env["pen"].mark(tokens[at].meta["mark"]))
    return _A_TAG.sub("", shown) if env.get("links") else shown


def _rule_image(tokens: Sequence[Token], at: int, options: OptionsDict, env: Env) -> str:
    """Pictures are shown below the text that they stand in."""
    return _NOTHING


def _rule_raw(tokens: Sequence[Token], at: int, options: OptionsDict, env: Env) -> str:
    return str(escape(tokens[at].content))


def _rule_raw_block(tokens: Sequence[Token], at: int, options: OptionsDict, env: Env) -> str:
    return str(fill("<p>{}</p>\n", tokens[at].content.strip()))


def _rule_link_open(tokens: Sequence[Token], at: int, options: OptionsDict, env: Env) -> str:
    """A link out or to a file beside the page; on paper the latter leads nowhere and is plain text."""
    href = str(tokens[at].attrGet("href") or "")
    kept = bool(_OUT.match(href)) or (href != "" and not _AWAY.match(href) and not env["pen"].paper)
    env.setdefault("links", []).append("a" if kept else "span")
    if not kept:
        return "<span>"
    far = Markup(' class="out" rel="noopener noreferrer"') if href[:4].lower() == "http" else ""
    return str(fill('<a href="{}"{}>', href, far))


def _rule_link_close(tokens: Sequence[Token], at: int, options: OptionsDict, env: Env) -> str:
    return f"</{env['links'].pop()}>"


def _rule_head(tokens: Sequence[Token], at: int, options: OptionsDict, env: Env) -> str:
    """A heading inside kept prose: set as one, but no part of the page's outline."""
    return '<p class="head">' if tokens[at].nesting > 0 else "</p>\n"


def _rule_cell(tokens: Sequence[Token], at: int, options: OptionsDict, env: Env) -> str:
    """A table cell; its alignment is a class, since the page allows no style of its own in a tag."""
    token = tokens[at]
    align = str(token.attrGet("style") or "").partition(":")[2]
    scope = ' scope="col"' if token.tag == "th" else ""
    return f"<{token.tag}{scope}" + (f' class="{align}">' if align.isalpha() else ">")


def _rule_table(tokens: Sequence[Token], at: int, options: OptionsDict, env: Env) -> str:
    """A table; on a screen in a box of its own that can be scrolled, by keys too."""
    opening, pen = tokens[at].nesting > 0, env["pen"]
    if pen.paper:
        return "<table>\n" if opening else "</table>\n"
    box = Markup('<div class="scroll" tabindex="0" role="region" aria-label="{}"><table>\n')
    return str(box.format(pen.words("table"))) if opening else "</table></div>\n"


def _rule_list(tokens: Sequence[Token], at: int, options: OptionsDict, env: Env) -> str:
    """A list that the author wrote; what marks its items is remembered."""
    token, lists = tokens[at], env.setdefault("lists", [])
    if token.nesting < 0:
        lists.pop()
        return f"</{token.tag}>\n"
    start = int(token.attrGet("start") or 1)
    lists.append(count(start) if token.tag == "ol" else None)
    return f'<ol start="{start}">\n' if token.tag == "ol" and start != 1 else f"<{token.tag}>\n"


def _rule_item(tokens: Sequence[Token], at: int, options: OptionsDict, env: Env) -> str:
    """An item. On paper its marker is text before it: the PDF's tags allow no other beside several blocks."""
    if tokens[at].nesting < 0:
        return "</li>\n"
    numbers = env["lists"][-1]
    mark = f"{next(numbers)}." if numbers else "•"
    return f'<li data-mark="{mark}">' if env["pen"].paper else "<li>"


_OWN_RULES = {
    "bullet_list_open": _rule_list,
    "bullet_list_close": _rule_list,
    "ordered_list_open": _rule_list,
    "ordered_list_close": _rule_list,
    "list_item_open": _rule_item,
    "list_item_close": _rule_item,
    "mark": _rule_mark,
    "text": _rule_text,
    "image": _rule_image,
    "html_inline": _rule_raw,
    "html_block": _rule_raw_block,
    "link_open": _rule_link_open,
    "link_close": _rule_link_close,
    "heading_open": _rule_head,
    "heading_close": _rule_head,
    "th_open": _rule_cell,
    "td_open": _rule_cell,
    "table_open": _rule_table,
    "table_close": _rule_table,
}
_RENDERER = RendererHTML()
_RENDERER.rules.update(_OWN_RULES)  # type: ignore[arg-type]
