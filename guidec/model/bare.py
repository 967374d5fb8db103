"""Clauses that undo something named without braces -> findings that ask for the braces.

"Lift lid off" tells a reader what comes off, and the compiler nothing. Names of things are told from other words
by being declared; what plainly holds ("4 screws") is known by the lexicon.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import field

from guidec.model.clauses import STOPS, Clause, aside
from guidec.model.context import Context
from guidec.model.objects import Bare, Roles
from guidec.model.types import Action, Change, Family
from guidec.notes.syntax import Word
from guidec.quick import dataclass
from guidec.rules.finding import Finding, Severity
from guidec.source import Span
from guidec.trade.deeds import is_deed
from guidec.trade.lexicon import Lexicon

__all__ = ["check_bare", "find_bare"]

_DONE = frozenset((Change.OFF, Change.OPEN, Change.UNDONE))
_ENDINGS = ("s", "es", "n", "en")


@dataclass(slots=True)
class _Run:
    """Words in a row that no mark and no small word parts; `free`: nothing governs them, no mark follows.

    `joined`: a comma or connective stands before them.
    """

    joined: bool
    free: bool = True
    words: list[tuple[str, Word]] = field(default_factory=list)


def find_bare(clause: Clause, part: Roles, line: Span, context: Context) -> None:
    """Keep the words in a clause that stand where its object would, for `check_bare` to tell what they are."""
    lexicon = context.lexicon
    if lexicon is None or not (clause.sense.family == Family.UNDO or clause.sense.verb in lexicon.opening):
        return
    if part.objects and not _joins(clause, lexicon):
        return
    for run in _runs(clause, lexicon):
        if run.free and run.words and (run.joined or not part.objects):
            found = _read(run, clause, line, context, lexicon, named_only=bool(part.objects))
            if found is not None and not _goes_back(clause, context):
                context.bare.append(found)


def _joins(clause: Clause, lexicon: Lexicon) -> bool:
    """Whether something may join words to the objects of a clause."""
    return "," in clause.words or not lexicon.connectives.isdisjoint(clause.words)


def _goes_back(clause: Clause, context: Context) -> bool:
    """Whether a clause stands in a note on the way back."""
    return any(span.start <= clause.verb_span.start < span.end for span in context.refits)


def _runs(clause: Clause, lexicon: Lexicon) -> Iterator[_Run]:
    """The runs of a clause's words, up to where its objects end."""
    run, before = _Run(False), ""
    upto = len(clause.pieces) if clause.last is None else clause.last
    for at in range(upto):
        piece, text = clause.pieces[at], clause.words[at]
        if not isinstance(piece, Word):
            if aside(piece):
                continue
            run.free = False
            yield run
            run = _Run(False, free=False)
        elif _is_noun(at, text, before, clause, lexicon):
            run.words.append((text, piece))
        else:
            yield run
            if clause.last is None and _ends(text, lexicon):
                return
            run = _after(run, text, lexicon)
        before = text
    yield run


def _after(run: _Run, text: str, lexicon: Lexicon) -> _Run:
    """The run that begins behind a small word."""
    if text in lexicon.determiners:
        hangs = lexicon.last is not None and text in lexicon.last.genitive | lexicon.last.dative
        return _Run(run.joined and not run.words, (run.free or bool(run.words)) and not hangs)
    if text in lexicon.prepositions and text not in lexicon.particles:
        return _Run(False, free=False)
    if text == "," or text in lexicon.connectives:
        return _Run(True)
    return _Run(run.joined and not run.words, free=run.free or not run.words)


def _ends(text: str, lexicon: Lexicon) -> bool:
    stops = text in STOPS or text in lexicon.linking or text in lexicon.gerunds
    return stops or (text in lexicon.prepositions and text not in lexicon.particles and text not in lexicon.of)


def _is_noun(at: int, text: str, before: str, clause: Clause, lexicon: Lexicon) -> bool:
    """Whether a word may be part of a name: no small word, unless an article stands right before it."""
    if at in clause.outer or text in STOPS or text == "," or text in lexicon.connectives:
        return False
    if text in lexicon.particles or text in lexicon.adverbs:
        return before in lexicon.determiners and text not in lexicon.prepositions - lexicon.particles
    if text in lexicon.determiners:  # a set may be named `A`
        return len(text) == 1 and clause.pieces[at].text.isupper() and before not in STOPS
    governs = text in lexicon.prepositions or text in lexicon.of or text in lexicon.linking
    return not (governs or text in lexicon.pronouns or text in lexicon.gerunds)


def _read(
    run: _Run, clause: Clause, line: Span, context: Context, lexicon: Lexicon, *, named_only: bool
) -> Bare | None:
    """What the words of a run name, its counts and adjectives left out."""
    words = run.words
    while words and _leads(*words[0], lexicon):
        words = words[1:]
    if not words:
        return None
    span = words[0][1].span.to(words[-1][1].span)
    thing = _named(context.source.slice(span), context)
    if thing is not None:
        return Bare(span, clause.sense.verb, line, thing=thing)
    kind = lexicon.plainly.get(words[-1][0], "")
    if named_only or not kind or clause.sense.family != Family.UNDO:
        return None
    if kind == "connector" and not is_deed(clause.sense.verb, "disconnect", lexicon.language):
        return None
    return Bare(span, clause.sense.verb, line, kind=kind)


def _leads(text: str, word: Word, lexicon: Lexicon) -> bool:
    """Whether a word in front of a name is a count or share, or in German no noun."""
    if text[0].isdigit() or text in ("x", "×") or (text in lexicon.numbers and len(text) > 1):
        return True
    shares = any((text,) in phrases for phrases in lexicon.shares.values())
    return shares or (lexicon.last is not None and word.text[0].islower())


def _named(typed: str, context: Context) -> str | None:
    """The id of the thing that words name, in the plural too; a name of one letter only as it is spelled."""
    for ending in ("", *_ENDINGS):
        name = typed.removesuffix(ending) if ending else typed
        found = context.declared.find(name) if name and typed.endswith(ending) else None
        if found is None:
            continue
        thing = context.declared.things[found]
        fits = len(name) > 1 or thing.name == name
        if fits and thing.kind.value not in ("tool", "supply"):
            return found
    return None


def check_bare(actions: Mapping[str, Action], context: Context) -> None:
    """Report what stands without braces where it would be undone, and that nothing else in the note undoes."""
    if not context.bare:
        return
    done = {
        effect.id
        for action in actions.values()
        for effect in action.effects
        if effect.change in _DONE and not action.partly
    }
    order = list(actions.values())
    told: set[str] = set()
    for bare in context.bare:
        if bare.thing and bare.thing not in done | told:
            told.add(bare.thing)
            thing = context.declared.things[bare.thing]
            context.doubted.update(thing.places)
            mark = f"{{{thing.name}}}"
            context.report(
                Finding.at("M219", bare.span, suggest=[mark], name=thing.name, verb=bare.verb, mark=mark)
            )
        elif bare.kind and _marked(context) and bare.kind not in _kinds_near(bare, order, context):
            context.report(_plain(bare, done, context))


def _marked(context: Context) -> bool:
    """Whether the note marks anything that could be undone: one without braces is a plain guide."""
    return any(thing.kind.value not in ("tool", "supply") for thing in context.declared.things.values())


def _kinds_near(bare: Bare, actions: Sequence[Action], context: Context) -> set[str]:
    """The kinds of what is named in the line itself and undone in the one before it."""
    own = [at for at, action in enumerate(actions) if action.line_span == bare.line]
    ids = {use.id for at in own for use in (*actions[at].objects, *actions[at].mentions)}
    if own and own[0]:
        ids |= {effect.id for effect in actions[own[0] - 1].effects}
    return {context.declared.things[one].kind.value for one in ids if one in context.declared.things}


def _plain(bare: Bare, done: set[str], context: Context) -> Finding:
    """What to say of plain words for something that holds: its marks that nothing undoes are offered."""
    left = [one for one in context.declared.things.values() if one.kind.value == bare.kind and one.id not in done]
    words = " ".join(context.source.slice(bare.span).split())
    new = "{screw A: 4x PH1 M3x8}" if bare.kind == "screw" else f"{{{bare.kind} {words}}}"
    mark = f"{{{left[0].name}}}" if left else new
    return Finding.at(
        "M219",
        bare.span,
        variant="plain",
        severity=Severity.INFO,
        suggest=[f"{{{one.name}}}" for one in left],
        name=words,
        verb=bare.verb,
        mark=mark,
    )
