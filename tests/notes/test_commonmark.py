"""Plain Markdown stays plain: the examples of the CommonMark 0.31.2 specification.

Source: spec.txt of the npm package `commonmark-spec` 0.31.2 (https://spec.commonmark.org/0.31.2/).
"""

from __future__ import annotations

import os
import re
from functools import cache
from pathlib import Path
from typing import NamedTuple

import pytest

from guidec.notes import read
from guidec.notes.markdown import parser
from guidec.notes.syntax import Block
from guidec.source import Source

ROOT = Path(__file__).parents[2]
NPM = Path(os.environ.get("GUIDEC_TEST_NPM") or ROOT / ".cache" / "npm" / "node_modules")
SPEC = NPM / "commonmark-spec" / "spec.txt"
EXAMPLE = re.compile(r"^`{32} example\n(.*?)^\.\n(.*?)^`{32}$", re.M | re.S)


class Example(NamedTuple):
    number: int
    markdown: str
    html: str


@cache
def examples() -> tuple[Example, ...]:
    text = SPEC.read_text(encoding="utf-8").partition("\n<!-- END TESTS -->")[0]
    found = EXAMPLE.findall(text)
    return tuple(
        Example(number, markdown.replace("→", "\t"), html.replace("→", "\t"))
        for number, (markdown, html) in enumerate(found, 1)
    )


def same(html: str) -> str:
    """HTML in which white space between tags, which means nothing, does not count (as in the specification's own
    test program): an empty quote is written `<blockquote></blockquote>` or with a line end inside."""
    return html.replace("<blockquote></blockquote>", "<blockquote>\n</blockquote>").rstrip("\n")


def test_the_package_holds_all_examples_of_the_version_that_is_promised() -> None:
    assert "version: '0.31.2'" in SPEC.read_text(encoding="utf-8")
    assert len(examples()) == 652


def test_every_example_without_a_mark_gives_the_specified_html() -> None:
    failed, marked = [], []
    for example in examples():
        env: dict[str, object] = {}
        md = parser(safe=False, marks=True)
        html = md.render(example.markdown, env)
        if "{" in example.markdown and any(token.type == "mark" for token in inline_tokens(example.markdown)):
            marked.append(example.number)
        elif same(html) != same(example.html):
            failed.append((example.number, html, example.html))
    assert failed == []
    assert len(marked) < 5, "examples set aside because they hold a mark"


def inline_tokens(markdown: str) -> list[object]:
    tokens = parser(safe=False).parse(markdown)
    return [child for token in tokens for child in token.children or ()]


@pytest.mark.parametrize("prefix", ["", "> ", "- "])
def test_every_example_is_read_into_blocks_whose_spans_are_nested_and_in_order(prefix: str) -> None:
    for example in examples():
        text = "".join(prefix + line for line in example.markdown.splitlines(keepends=True))
        source = Source.of(str(example.number), text)
        document, _ = read(source)
        check_nested(document.blocks, 0, len(source.text))


def check_nested(blocks: tuple[Block, ...], start: int, end: int) -> None:
    for block in blocks:
        assert start <= block.span.start <= block.span.end <= end, block
        if hasattr(block, "items"):
            for item in block.items:
                assert block.span.start <= item.marker.start <= item.span.end <= block.span.end
                check_nested(item.blocks, item.marker.end, item.span.end)
        if hasattr(block, "blocks"):
            check_nested(block.blocks, block.span.start, block.span.end)
        start = block.span.end
