"""Tokens -> tokens without what speech puts between: fillers, words said twice, numbers taken back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from guidec.draft.counting import number_at
from guidec.draft.hearing import Token
from guidec.draft.vocabulary import Vocabulary
from guidec.draft.wordset import among

__all__ = ["corrected_numbers", "parted", "without_fillers"]


_WHOLE = among(
    "it's that's there's here's what's let's who's he's she's where's how's everything's this's everybody's one's"
)


def parted(tokens: Sequence[Token]) -> list[Token]:
    """`board's` as `board` and `'s`, `screws're` likewise; `it's`, `let's` and their like stay whole."""
    parted: list[Token] = []
    for token in tokens:
        word, mark, tail = token.text.rpartition("'")
        if token.text == "right" and parted and parted[-1].text == "all" and not parted[-1].stop:
            parted[-1] = replace(parted[-1], text="alright", last=token.last, stop=token.stop)
            continue
        if (
            mark
            and tail in ("s", "re", "ll")
            and token.text not in _WHOLE
            and len(word) > 2
            and word not in ("they", "you")
        ):
            parted += [replace(token, text=word, stop=0), replace(token, text=f"'{tail}")]
        else:
            parted.append(token)
    return parted


def without_fillers(tokens: Sequence[Token], words: Vocabulary) -> list[Token]:
    """The tokens without `um`, `you know` and their like; a stop behind one goes to the token before."""
    kept: list[Token] = []
    at = 0
    texts = [token.text for token in tokens]
    while at < len(tokens):
        size = next(
            (len(phrase) for phrase in words.phrases if tuple(texts[at : at + len(phrase)]) == phrase), 0
        ) or (texts[at] in words.small["fillers"])
        nought = texts[at] in ("oh", "o") and at > 0 and texts[at - 1] in among("double triple oh o")
        if size and not nought and not _correcting(texts, at, words):
            stop = max(token.stop for token in tokens[at : at + size])
            if kept and stop:
                kept[-1] = replace(kept[-1], stop=max(kept[-1].stop, stop))
            at += size
            continue
        repeated = (
            kept
            and kept[-1].text == texts[at]
            and not kept[-1].stop
            and texts[at].isalpha()
            and texts[at] != "here"
        )
        if repeated and not number_at(texts, at):
            at += 1
            continue
        kept.append(tokens[at])
        at += 1
    return kept


def _correcting(texts: Sequence[str], at: int, words: Vocabulary) -> bool:
    return any(tuple(texts[at : at + len(phrase)]) == phrase for phrase in words.corrections) and bool(
        at and number_at(texts, at - 1)
    )


def corrected_numbers(tokens: list[Token], words: Vocabulary) -> list[Token]:
    """`three um sorry four more screws` -> `four more screws`; the same across a few words: `ten screws sorry
    eleven`."""
    texts = [token.text for token in tokens]
    at = 0
    while at < len(tokens):
        phrase = next((p for p in words.corrections if tuple(texts[at : at + len(p)]) == p), None)
        after = at + len(phrase) if phrase else 0
        right = number_at(texts, after) if phrase and after < len(texts) else None
        if phrase and right:
            for back in range(at - 1, max(at - 5, -1), -1):
                left = number_at(texts, back)
                if left and texts[back] not in ("a", "an") and (back == 0 or not number_at(texts, back - 1)):
                    between = texts[back + left[1] : at]
                    unit = texts[after + right[1] : after + right[1] + 1]
                    if not between or between == unit or back + left[1] == at:
                        del tokens[back:after]
                        del texts[back:after]
                        at = back
                        break
                    break
        at += 1
    return tokens
