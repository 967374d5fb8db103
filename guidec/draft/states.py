"""States told without a verb ("the board is out", "same thing") -> actions."""

from __future__ import annotations

from guidec.draft.acts import undo
from guidec.draft.clauses import Clause
from guidec.draft.joints import connector
from guidec.draft.mind import Mind
from guidec.draft.objects import counted, things_of
from guidec.draft.pronouns import meant
from guidec.draft.reading import BE, NEGATIVE
from guidec.draft.story import Act, Named, Screws
from guidec.draft.verbs import Doing
from guidec.draft.wordset import among, phrased

__all__ = ["likewise", "state"]


def likewise(mind: Mind, clause: Clause) -> Act | None:
    """`there's a touch ribbon as well, same thing`: the last action again, on what is named here."""
    too = (
        clause.text.endswith((" too", " as well", " also"))
        and any(item.is_a("connector") for item in clause.items)
        and mind.last is not None
        and mind.last.do == "unplug"
    )
    if not too and not any(
        said in clause.text
        for said in phrased("same thing|same again|same deal|same way|same for|likewise|same with")
    ):
        return None
    last = mind.last
    if last is None or clause.start - last.start > 15 or last.do not in ("unplug", "remove"):
        return None
    row = Doing("unplug" if last.do == "unplug" else "take", "", "undo", "", frozenset({"base"}))
    for at, item in enumerate(clause.items):
        if item.is_a("part", "connector"):
            refs = things_of(mind, clause, at, row)
            if refs:
                return undo(mind, clause, item, Doing(row.base, "", "undo", last.verb, row.forms), "", refs)
    return None


def state(mind: Mind, clause: Clause) -> Act | None:
    """`motherboard is out`, `the cover's off`, `all nine out`, `battery out, card out`: done, with no verb."""
    items = clause.items
    if any(item.text in NEGATIVE or item.text in among("if before until unless sticking") for item in items):
        return None
    told: Act | None = None
    for at, item in enumerate(items):
        gone = item.kind == "verb" and item.text == "go" and at and items[at - 1].text == "can"
        if not gone and item.text not in among(
            "out off free gone loose away removed disconnected unplugged undone clear"
        ):
            continue
        if (item.kind == "verb" and item.text == "free") or (at == 0 and item.text != "out"):
            continue
        after = items[at + 1].text if at + 1 < len(items) else ""
        if "out of the way" in clause.text and item.text == "out":
            after = ""
        if (
            after in among("of the to there here on in with")
            and item.text in among("out off away clear")
            and not (
                after == "of"
                and items[at + 2 : at + 3]
                and items[at + 2].text in ("the",)
                and "way" in clause.text
            )
        ):
            continue
        back = at - 1
        while (
            back >= 0
            and items[back].kind in ("word", "verb")
            and (
                items[back].text in BE
                or items[back].text
                in among(
                    "can now just all completely fully right then it's that's is straight easy "
                    "already come nice 's"
                )
            )
        ):
            back -= 1
        if back < 0:
            if items[0].text in ("that's", "it's", "they're") and at <= 2 and item.text in ("out", "off", "free"):
                word = "they" if items[0].text == "they're" else "it"
                refs = meant(mind, clause, word, _TAKE, None)
                if refs:
                    told = undo(mind, clause, item, _TAKE, "out" if item.text == "out" else "off", refs) or told
            continue
        subject = items[back]
        refs = []
        if gone and (subject.kind != "thing" or subject.is_a("screw", "tool")):
            continue
        if subject.kind in ("thing",) and not (
            back and items[back - 1].text in mind.words.small["prepositions"] and items[back - 1].text != "with"
        ):
            refs = things_of(mind, clause, back, _UNPLUG if item.text in ("disconnected", "unplugged") else _TAKE)
            if subject.is_a("connector") and not subject.is_a("part"):
                refs = [connector(mind, clause, subject)]
        elif subject.kind == "num" and subject.number:
            refs = counted(mind, subject)
            if refs and mind.trip is None and isinstance(refs[0], Named) and refs[0].kind == "part":
                refs = []
        elif subject.text in ("it", "that", "this"):
            refs = meant(mind, clause, subject.text, _TAKE, None)
        elif subject.text in among("them those these they one"):
            refs = meant(mind, clause, "them", _TAKE, None)
            if subject.text == "one":
                refs = [ref for ref in refs if isinstance(ref, Screws) and ref.count == 1]
        if refs:
            told = undo(mind, clause, item, _TAKE, "off" if item.text == "off" else "out", refs) or told
    return told


_TAKE = Doing("take", "", "undo", "", frozenset({"base"}))


_UNPLUG = Doing("unplug", "", "undo", "Unplug", frozenset({"base"}))
