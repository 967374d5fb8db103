"""docs/drafts.md, held to the program: its figures are those measured, its lexicon loads."""

from __future__ import annotations

import re
from pathlib import Path

import yaml

from bench.draft_facts import found_in
from bench.drafts import TRANSCRIPTS, facts_of, measure, names, table, total
from guidec.draft.vocabulary import build

TEXT = (Path(__file__).parent.parent.parent / "docs" / "drafts.md").read_text(encoding="utf-8")


def test_the_figures_are_those_that_are_measured():
    parts = [measure(found_in(TRANSCRIPTS / facts_of(name)["transcript"]), facts_of(name)) for name in names()]
    (shown,) = re.findall(r"^```text measured\n(.*?)^```$", TEXT, re.M | re.S)
    assert shown.strip() == table(total(parts), f"{len(parts)} transcripts").strip()


def test_the_lexicon_shown_is_one():
    shown = next(block for block in re.findall(r"^```yaml\n(.*?)^```$", TEXT, re.M | re.S) if "misheard" in block)
    own = build(yaml.safe_load(shown))
    assert own.term(["thrust", "cone"])
    assert "wonder grease" in own.strange
    assert "snorkel" in own.ordinary
