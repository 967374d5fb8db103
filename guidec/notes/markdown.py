"""A Markdown parser that knows marks: text -> markdown-it's tokens, with places.

`parser()` is CommonMark with tables. A mark is a token of type `mark` with its `Mark` in `meta["mark"]`. Tokens of
type `inline` carry `meta["chart"]` (see `guidec.notes.chart`), `meta["events"]` (see `guidec.notes.trace`) and
`meta["odd"]` (the events hold more than words and marks). `env["findings"]` collects what is wrong with marks,
`env["headed"]` the marks of kinds for headings. `env["source"]` and `env["offset"]` say which source the text is
of and where it starts in it; without them the text is its own source.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from markdown_it import MarkdownIt
from markdown_it.common.normalize_url import normalizeLink
from markdown_it.common.utils import escapeHtml
from markdown_it.renderer import RendererHTML
from markdown_it.rules_core import StateCore
from markdown_it.token import Token
from markdown_it.utils import EnvType, OptionsDict

from guidec.notes import block_rules, inline_rules
from guidec.notes.chart import Chart
from guidec.notes.inline_parser import InlineParser
from guidec.notes.kinds import HEADINGS
from guidec.notes.marks import MarkReader
from guidec.notes.syntax import Mark
from guidec.notes.trace import Met, Trace
from guidec.source import Source

__all__ = ["DEEPEST", "parser"]

DEEPEST = 100
"""How deep blocks and inline spans may nest (a list in a list is two more)."""

_PLAIN = re.compile(r"[A-Za-z0-9_-][A-Za-z0-9_./-]*")
_SCHEME = re.compile(r"([a-z][a-z0-9+.-]*):", re.I)
_MARK = Met.MARK
_HEADED = frozenset(HEADINGS)
_FOLLOWED = frozenset(("http", "https", "mailto"))


def parser(*, safe: bool = True, marks: bool = True) -> MarkdownIt:
    """A new parser. `safe`: raw HTML is text, and only http, https, mailto and relative links are links."""
    md = MarkdownIt("commonmark", {"html": not safe, "maxNesting": DEEPEST}, renderer_cls=_Renderer)
    md.enable("table")
    trace = Trace()
    block_rules.use(md, trace)
    md.inline = InlineParser(inline_rules.rules(trace, marks), trace)
    md.core.ruler.at("inline", _inline(trace))
    md.disable("text_join")
    md.normalizeLink = _normalized  # type: ignore[method-assign]
    if safe:
        md.validateLink = _follows(trace)  # type: ignore[method-assign, assignment]
    return md


def _normalized(url: str) -> str:
    """An address with what must be escaped in it escaped; a plain relative path has nothing to escape."""
    return url if _PLAIN.fullmatch(url) else normalizeLink(url)


def _follows(trace: Trace) -> Callable[[str], bool]:
    """Whether a link may be followed; one that may not is written down."""

    def follows(url: str) -> bool:
        if trace.lenient:
            return True
        scheme = _SCHEME.match(url.strip())
        good = scheme[1].lower() in _FOLLOWED if scheme else not url.strip().startswith("//")
        if not good:
            trace.refused.append(url)
        return good

    return follows


def _inline(trace: Trace) -> Callable[[StateCore], None]:
    """The step that reads the text of each block."""

    def inline(state: StateCore) -> None:
        env = state.env
        source = env.get("source") or Source("", state.src)
        reader = MarkReader(source)
        for token in state.tokens:
            if token.type != "inline":
                continue
            trace.take()
            token.children = []
            state.md.inline.parse(token.content, state.md, env, token.children)
            _finish(token, trace, reader, env.setdefault("headed", []))
        env.setdefault("findings", []).extend(reader.findings)

    return inline


def _finish(token: Token, trace: Trace, reader: MarkReader, headed: list[Mark]) -> None:
    """Give a block's tokens their marks, now that places can be told."""
    meta = token.meta
    chart = meta.get("chart") or meta.setdefault("chart", Chart([0], [0]))
    meta["odd"] = trace.odd
    meta["events"] = events = trace.take()
    for met, _, _, mark in events:
        if met is _MARK:
            mark.meta["mark"] = read = reader.read(token.content, chart, mark.meta.pop("extent"))
            mark.content = read.name or read.kind
            if read.kind in _HEADED:
                headed.append(read)


class _Renderer(RendererHTML):
    """Prints a mark as its name, also in alt text."""

    def mark(self, tokens: Sequence[Token], idx: int, options: OptionsDict, env: EnvType) -> str:
        return escapeHtml(tokens[idx].content)

    def renderInlineAsText(  # noqa: N802
        self, tokens: Sequence[Token] | None, options: OptionsDict, env: EnvType
    ) -> str:
        out: list[str] = []
        for token in tokens or ():
            if token.type == "mark":
                out.append(token.content)
            else:
                out.append(super().renderInlineAsText([token], options, env))
        return "".join(out)
