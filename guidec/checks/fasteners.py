"""Screw sets as typed -> drives that do not suit the thread, lengths left out, captive screws to be renewed."""

from __future__ import annotations

from collections.abc import Iterator

from guidec.model.types import Guide, ScrewSet
from guidec.plan import Graph
from guidec.rules.finding import Finding
from guidec.trade.recesses import Suit, suits

__all__ = ["check", "screw_sets"]


def check(guide: Guide, graph: Graph) -> Iterator[Finding]:
    """T101, T102, T107."""
    for screws in screw_sets(guide):
        yield from _drive(screws)
        yield from _length(screws)
        if screws.captive and screws.renew:
            yield Finding.at("T107", screws.span, name=screws.name)


def screw_sets(guide: Guide) -> Iterator[ScrewSet]:
    """The screw sets of a guide, in note order."""
    return (thing for thing in guide.things.values() if isinstance(thing, ScrewSet))


def _drive(screws: ScrewSet) -> Iterator[Finding]:
    """T101, once for a set: only where none of its drives is what a standard gives the thread."""
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


def _length(screws: ScrewSet) -> Iterator[Finding]:
    """T102. A nut has no length, and a standoff's is not always known."""
    thread, notation = screws.thread, screws.notation
    if thread is None or notation is None or thread.length_mm is not None:
        return
    nut = any(drive.startswith("NUT") for drive in screws.drives) or "nut" in screws.name.casefold().split()
    if not nut:
        yield Finding.at("T102", notation.thread_span or screws.span, name=screws.name, thread=thread.text)
