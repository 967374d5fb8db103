"""The end of a cue -> whether a clause ends with it."""

from __future__ import annotations

from collections.abc import Sequence

from guidec.draft.item import Item
from guidec.draft.starters import has_verb
from guidec.draft.verbs import doings
from guidec.draft.vocabulary import Vocabulary
from guidec.draft.wordset import among

__all__ = ["new_cue"]


def new_cue(items: Sequence[Item], at: int, now: list[Item], words: Vocabulary) -> bool:
    """Whether a clause ends with its cue: what was said can stand, and what comes can start."""
    item, before = items[at], now[-1]
    small = words.small
    follow = items[at + 1] if at + 1 < len(items) else None
    if item.text in ("free", "open", "loose") and before.text in among("it them that those this these"):
        return False
    if (
        item.kind == "verb"
        and follow is not None
        and follow.kind in ("thing", "noun")
        and follow.det
        and before.kind != "verb"
        and any("base" in doing.forms for doing in doings(item.text))
    ) and (
        before.text in ("her", "him", "me")
        or not (
            before.text in small["prepositions"]
            or before.text in small["auxiliaries"]
            or before.text in small["subjects"]
            or before.text in among("and or not don't the to i you we")
        )
    ):
        return True
    if before.kind == "word" and (
        before.text in small["prepositions"] - small["particles"]
        or before.text in small["determiners"]
        or before.text in small["auxiliaries"]
        or before.text in small["starters"]
        or before.text in small["be"]
        or before.text in among("and or i you we they it's that's there's i'm is very about like just a")
    ):
        return False
    verbs = [n for n, one in enumerate(now) if one.kind == "verb"]
    if verbs:
        tail = now[verbs[-1] + 1 :]
        front = now[: verbs[-1]]
        stands = any(
            one.kind in among("thing noun num value drive")
            or one.text in among("it them those that these this off out away free up over down")
            for one in tail
        ) or any(one.kind in ("thing", "noun") for one in front)
        if not stands or (
            len(now) > verbs[-1] + 1
            and tail[-1].text in among("off out up away")
            and not any(
                one.kind in ("thing", "noun") or one.text in among("it them those that they")
                for one in (*tail, *front)
            )
        ):
            return False
    elif not any(
        one.text in among("is are 's it's that's there's they're has have here's got") for one in now
    ) and (
        not any(one.kind in ("thing", "noun") for one in now)
        or (len(now) > 6 and before.kind not in among("thing noun drive size value num"))
    ):
        return False
    if item.kind == "verb":
        return any("base" in doing.forms for doing in doings(item.text))
    if item.kind in ("thing", "noun"):
        return (
            bool(item.det)
            or item.count is not None
            or has_verb(items, at, words)
            or (
                bool(items[at + 1 : at + 2])
                and items[at + 1].text
                in among("next first out off and now has hangs held at on in of sit sits goes go has have")
            )
        )
    if item.kind == "num":
        return before.kind not in ("thing", "noun") or True
    return item.text in among(
        "these those this they it they're it's that's there's here's both all each "
        "under underneath behind inside on with at before up down under use using with "
        "over"
    ) and item.text not in among("with on at before down up all using under behind inside over")
