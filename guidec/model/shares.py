"""The shares in which sets are taken -> counts, and findings where they do not add up.

The shares themselves are known from the line ("2 of", "all but 1 of", "the rest of"); only in note order, and
once it is known which operations are other ways, can they become numbers.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence

from guidec.model.context import Context
from guidec.model.families import Families
from guidec.model.objects import Share
from guidec.model.producers import DONE, Producers
from guidec.model.types import (
    Action,
    Change,
    Connector,
    Effect,
    Family,
    Fastening,
    Operation,
    Part,
    Reuse,
    ScrewSet,
    Thing,
)
from guidec.model.uncounted import check_uncounted
from guidec.quick import replace
from guidec.rules.finding import Finding
from guidec.source import Span

__all__ = ["check_counts", "count_of", "with_counts"]

_TAKES = (Change.OFF, Change.UNDONE, Change.OPEN)


def count_of(thing: Thing) -> int | None:
    """How many there are of a thing that is counted; None where that is not known."""
    if isinstance(thing, ScrewSet | Fastening):
        return thing.count
    if isinstance(thing, Connector):  # one is what nobody says, and may be several
        return thing.qty if thing.qty > 1 else None
    return thing.qty if isinstance(thing, Part) else None


def with_counts(
    operations: Sequence[Operation], actions: Mapping[str, Action], families: Families, context: Context
) -> Mapping[str, Action]:
    """The actions with their shares as numbers."""
    shared = {context.declared.resolved[span] for span in context.shares}
    if not shared:
        return actions
    taken: dict[str, dict[str, int]] = defaultdict(lambda: defaultdict(int))
    done = dict(actions)
    for operation in operations:
        for own in operation.actions:
            action = actions[own]
            if shared.isdisjoint([effect.id for effect in action.effects]):
                continue
            effects = tuple([_counted(effect, operation, taken, families, context) for effect in action.effects])
            counts = {effect.span: effect.count for effect in effects if effect.count is not None}
            if counts:
                objects = tuple([replace(use, count=counts.get(use.span)) for use in action.objects])
                done[own] = replace(action, effects=effects, objects=objects)
    return done


def _counted(
    effect: Effect,
    operation: Operation,
    taken: dict[str, dict[str, int]],
    families: Families,
    context: Context,
) -> Effect:
    """An effect with its count; `taken` grows: thing -> operation -> how many so far."""
    total = count_of(context.declared.things[effect.id])
    share = context.shares.get(effect.span)
    count = _number(share, total, _before(taken[effect.id], operation, families)) if share else None
    if effect.change in _TAKES and (count or total) is not None:
        taken[effect.id][operation.id] += count if count is not None else total or 0
    return replace(effect, count=count) if count is not None else effect


def _before(taken: Mapping[str, int], operation: Operation, families: Families) -> int:
    """How many of a set are out when an operation comes to it: by itself, and by what is no way to the same."""
    family = families.of(operation.id)
    return sum(
        count
        for other, count in taken.items()
        if other == operation.id or (other not in family and families.root[other] == other)
    )


def _number(share: Share | None, total: int | None, before: int) -> int | None:
    if share is None or share.how == "all":
        return None
    if share.how == "count":
        return share.count
    if total is None:
        return None
    return max(total - (share.count if share.how == "all_but" else before), 0)


def check_counts(actions: Mapping[str, Action], producers: Producers, context: Context) -> None:
    """Report what is taken more often than it is there, and what is never undone."""
    by_thing: dict[str, list[tuple[Action, Effect]]] = defaultdict(list)
    touched: set[str] = set()
    for action in actions.values():
        if action.partly or action.family in (Family.TREAT, Family.MOVE):
            touched.update([use.id for use in action.objects])
        operation = producers.operations[action.operation]
        lost = operation.instead_span is not None and operation.instead_of is None
        if not operation.refit_only and not lost:
            for effect in action.effects:
                if effect.change in DONE:
                    by_thing[effect.id].append((action, effect))
    for thing in context.declared.things.values():
        if thing.id in by_thing:
            _check_taken(thing, by_thing[thing.id], producers, context)
        elif thing.id not in touched:
            _check_never(thing, context)


def _check_taken(thing: Thing, takes: list[tuple[Action, Effect]], producers: Producers, context: Context) -> None:
    total = count_of(thing)
    if isinstance(thing, ScrewSet) and thing.count is None:
        check_uncounted(thing, takes, context)
    if total is None or (isinstance(thing, Connector) and all(effect.count is None for _, effect in takes)):
        return
    if len(takes) == 1 and takes[0][1].count is None:  # all of it at once, as most things are
        return
    sums: dict[str, int] = defaultdict(int)
    for action, effect in takes:
        sums[action.operation] += total if effect.count is None else effect.count
    most: dict[str, int] = defaultdict(int)
    for operation, count in sums.items():
        root = producers.families.root[operation]
        most[root] = max(most[root], count)
    out = sum(most.values())
    last = takes[-1]
    if out > total and isinstance(thing, Part):
        counted = total == 1 and any((effect.count or 0) > 1 for _, effect in takes)
        variant = "uncounted" if counted else "" if total == 1 else "several"
        labels = {"first": takes[0][1].span}
        context.report(
            Finding.at("M205", last[1].span, labels=labels, variant=variant, name=thing.name, out=out, count=total)
        )
    elif out > total:
        _too_many(thing, takes, out, total, context)
    elif isinstance(thing, ScrewSet | Fastening) and out < total:
        context.report(
            Finding.at("M204", thing.span, variant="some", name=thing.name, left=total - out, count=total, out=out)
        )


def _too_many(thing: Thing, takes: list[tuple[Action, Effect]], out: int, total: int, context: Context) -> None:
    last = takes[-1][0]
    span = Span(last.verb_span.start, max(last.verb_span.end, takes[-1][1].span.end))
    context.report(
        Finding.at(
            "M203",
            span,
            variant="connector" if isinstance(thing, Connector) else "",
            labels={"declared": thing.span},
            name=thing.name,
            out=out,
            count=total,
            more=out - total,
            line=context.source.place(thing.span.start).line,
        )
    )


def _check_never(thing: Thing, context: Context) -> None:
    """Report a fastening that nothing undoes; not what only goes in on refit, nor what cannot be undone.

    Where a line that names it was already doubted, or no verb can be known, that is the slip to mend.
    """
    if context.lexicon is None or not context.doubted.isdisjoint(thing.places):
        return
    if not isinstance(thing, ScrewSet | Fastening | Connector) or thing.reuse is Reuse.NEITHER:
        return
    if all(any(within.start <= place.start < within.end for within in context.refits) for place in thing.places):
        return
    variant = "connector" if isinstance(thing, Connector) else ""
    context.report(Finding.at("M204", thing.span, variant=variant, name=thing.name))
