"""Lines that may not have been read as they were meant -> findings with the nearest reading."""

from __future__ import annotations

from difflib import get_close_matches

from guidec.model.asides import check_homeless
from guidec.model.clauses import nearest_verb, word
from guidec.model.context import Context
from guidec.model.misplaced import check_signal
from guidec.model.objects import Roles
from guidec.model.types import Action, Family
from guidec.notes.syntax import Inline, Mark, Word
from guidec.rules.finding import Finding
from guidec.source import Span
from guidec.trade.lexicon import Lexicon

__all__ = ["check_loose", "check_remark"]

_SHORT = 4
_ACTS_ON = {
    Family.UNDO: ("part", "screw", "clip", "adhesive", "connector", "solder", "thermal", "fastening"),
    Family.MOVE: ("part",),
    Family.LOOK: ("part",),
}


def check_remark(inline: Inline, context: Context) -> None:
    """Report a remark that names a thing, holds a verb further on, or a value that so belongs to nothing."""
    lexicon = context.lexicon
    if lexicon is None or check_signal(inline, context):
        return
    check_homeless((mark for mark in inline.marks if mark.kind != "optional"), context)
    words = [piece for piece in inline.pieces if isinstance(piece, Word) and word(piece)[:1].isalpha()]
    first = words[0] if words else None
    named = [mark for mark in inline.marks if context.acted_on(mark)]
    verb = nearest_verb(inline.pieces, lexicon)
    if not named and verb is None:
        return
    late = _late(words, named, lexicon)
    close = _misspelt(word(first), lexicon) if first and late is None else []
    apart = _parted(word(first), lexicon) if first and late is None else ()
    lost = _unknown(inline, words, named, lexicon) if not (late or close or apart or verb) else None
    suggestion = late.text if late else close[0] if close else (verb[0] if verb else "")
    shown = lost or first
    place = late or (first if close or apart else lost)
    span = place.span if place else verb[1] if verb else named[0].span
    order = "late" if lexicon.last is None else "told"
    variant = order if late else "particle" if apart else "misspelt" if close else "verb" if verb else ""
    variant = "unknown" if lost else variant
    context.doubted.update(mark.span for mark in named)
    thing = context.thing(named[0]) if named else None
    context.report(
        Finding.at(
            "M201",
            span,
            variant=variant,
            suggest=apart or close,
            word=shown.text if shown else "",
            examples=lexicon.examples,
            verb=suggestion,
            name=thing.name if thing else "",
        )
    )


def _late(words: list[Word], named: list[Mark], lexicon: Lexicon) -> Word | None:
    """The verb behind what it acts on: at once, or in German anywhere ("{lid} lässt sich abnehmen")."""
    if not named:
        return None
    behind = [one for one in words if one.span.start > named[0].span.start]
    tried = behind if lexicon.last else behind[:1] if behind == words else []
    return next((one for one in tried if _is_verb(one, lexicon)), None)


def _is_verb(one: Word, lexicon: Lexicon) -> bool:
    """Whether a word is a verb of the lexicon, with its particle before it too (German "abnehmen")."""
    text = word(one)
    if lexicon.last is None or text in lexicon.senses:
        return text in lexicon.senses and (lexicon.last is None or one.text.islower())
    begun = [particle for particle in lexicon.particles if text.startswith(particle)]
    return one.text.islower() and any(text[len(particle) :] in lexicon.senses for particle in begun)


def _misspelt(first: str, lexicon: Lexicon) -> list[str]:
    """The verb that a line's first word may have been meant for; small words are not misspelt verbs."""
    if first in _small(lexicon):
        return []
    cutoff = 0.75 if len(first) > _SHORT else 0.85
    near = get_close_matches(first, lexicon.words(), n=4, cutoff=cutoff)
    return [one for one in near if one != first and _begins_alike(first, one)][:1]


def _begins_alike(typed: str, meant: str) -> bool:
    """Whether two words begin with one letter, with two swapped, or the first of one was left out."""
    return typed[0] == meant[0] or typed[1::-1] == meant[:2] or typed == meant[1:]


def _small(lexicon: Lexicon) -> frozenset[str]:
    """Words that are no verb, whatever they look like."""
    small = lexicon.prepositions | lexicon.determiners | lexicon.connectives | lexicon.linking
    return small | lexicon.negations | lexicon.adverbs | lexicon.pronouns


def _unknown(inline: Inline, words: list[Word], named: list[Mark], lexicon: Lexicon) -> Word | None:
    """The word that stands where a verb would: the first, its object behind it; in German the last, behind it."""
    if not named or not words:
        return None
    if lexicon.last is not None:
        last = words[-1]
        ends = last.span.start > named[-1].span.start and last.text.islower() and word(last).endswith("n")
        return last if ends and word(last) not in _small(lexicon) else None
    at = inline.pieces.index(named[0])
    between = [word(piece) for piece in inline.pieces[1:at]]
    plain = all(text in lexicon.particles or text in lexicon.determiners for text in between)
    return words[0] if at and plain and word(words[0]) not in _small(lexicon) else None


def _parted(first: str, lexicon: Lexicon) -> tuple[str, ...]:
    """The verbs that begin with a line's first word and go on with a particle which the line has not."""
    return tuple(dict.fromkeys(sense.verb for sense in lexicon.senses.get(first, ()) if sense.particle))[:4]


def check_loose(parts: tuple[tuple[Action, Roles], ...], context: Context) -> None:
    """Report things in an action's line that it could act on, that stand free, and that nothing there takes."""
    taken = {effect.id for action, _ in parts for effect in action.effects}
    taken |= {use.id for action, _ in parts for use in action.objects}
    seen: set[Span] = set()
    for action, part in parts:
        for mark in part.loose:
            thing = context.thing(mark)
            if thing is None or thing.id in taken or mark.span in seen:
                continue
            if thing.kind.value in _ACTS_ON.get(action.family, ()):
                seen.add(mark.span)
                context.doubted.add(mark.span)
                context.report(
                    Finding.at(
                        "M202", mark.span, labels={"verb": action.verb_span}, name=thing.name, verb=action.verb
                    )
                )
