"""Screw sets as typed -> drives that do not suit the thread, lengths left out, captive screws to be renewed."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.types import Guide, ScrewSet
from guidec.plan import Graph
from guidec.rules.finding import Finding
from guidec.trade.recesses import Suit, suits

__all__ = ["check", "screw_sets"]

_SEVERAL = 3


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T101, once for each pair of drive and thread; T102; T107."""
    told: set[tuple[object, ...]] = set()
    for screws in screw_sets(guide):
        for finding in _drive(screws):
            kind = (finding.facts["drive"], finding.facts["thread"])
            if kind not in told:
                told.add(kind)
                yield finding
        if screws.captive and screws.renew:
            yield Finding.at("T107", screws.span, name=screws.name)
    yield from _lengths(guide)


def screw_sets(guide: Guide) -> Iterator[ScrewSet]:
    """The screw sets of a guide, in note order."""
    return (thing for thing in guide.things.values() if isinstance(thing, ScrewSet))


def _drive(screws: ScrewSet) -> Iterator[Finding]:
    """T101: only where none of its drives is what a standard gives the thread."""
    thread, notation = screws.thread, screws.notation
    if thread is None or notation is None or not screws.drives:
        return
    found = [
        (drive, suits(drive, thread.system, thread.diameter_mm, screws.head or "")) for drive in screws.drives
    ]
    if any(suit is None or (suit.fits and not suit.only) for _, suit in found):
        return
    drive, suit = found[0]
    if suit:
        yield Finding.at(
            "T101",
            notation.drive_span or screws.span,
            variant=_variant(suit),
            name=screws.name,
            drive=drive,
            thread=f"{thread.system}{thread.diameter_mm:g}",
            iso=" or ".join(suit.iso),
            jis=" or ".join(suit.jis),
        )


def _variant(suit: Suit) -> str:
    if suit.fits:
        return "jis" if suit.iso else "only-jis"
    if suit.iso and suit.jis:
        return "agree" if suit.iso == suit.jis else "disagree"
    return "" if suit.iso or suit.jis else "unlisted"


def _lengths(guide: Guide) -> Iterator[Finding]:
    """T102, one for all where several lack it. A nut has no length."""
    short = [screws for screws in screw_sets(guide) if _lacks_length(screws)]
    if len(short) >= _SEVERAL:
        first = short[0]
        yield Finding.at("T102", first.span, variant="several", name=first.name, count=len(short))
        return
    for screws in short:
        thread, notation = screws.thread, screws.notation
        if thread and notation:
            yield Finding.at("T102", notation.thread_span or screws.span, name=screws.name, thread=thread.text)


def _lacks_length(screws: ScrewSet) -> bool:
    if screws.thread is None or screws.thread.length_mm is not None:
        return False
    return not (any(drive.startswith("NUT") for drive in screws.drives) or "nut" in screws.name.casefold().split())
