"""The drives of the screw sets -> the tool that turns each, declared or implied."""

from __future__ import annotations

from guidec.model.slugs import slug, unique
from guidec.model.types import Kind, ScrewSet, Thing, Tool
from guidec.trade.tools import driver_grade, driver_name, turned_drives

__all__ = ["add_drivers", "driver_of"]


def driver_of(drive: str, language: str = "en") -> tuple[str, str]:
    """The id and the name that the driver for a drive has where nobody declares one; the id is in any language
    that of the English name, so that data can be put together."""
    return slug(driver_name(drive)), driver_name(drive, language)


def add_drivers(things: dict[str, Thing], language: str = "en") -> dict[str, str]:
    """Add a driver for each drive that no declared tool turns; gives the driver of each screw set.

    Of drives that both fit a set (`SL4|PZ1`) the one counts whose driver is declared or another set needs;
    else the first.
    """
    sets = [thing for thing in things.values() if isinstance(thing, ScrewSet) and thing.drives]
    turns: dict[str, str] = {}
    for tool in [thing for thing in things.values() if isinstance(thing, Tool)]:
        for drive in turned_drives(tool.name, tool.size):
            turns.setdefault(drive, tool.id)
    alone = {screws.drives[0] for screws in sets if len(screws.drives) == 1}
    drivers: dict[str, str] = {}
    for screws in sets:
        drive = next((one for one in screws.drives if one in turns or one in alone), screws.drives[0])
        if drive not in turns:
            turns[drive] = _imply(drive, screws, things, language)
        drivers[screws.id] = turns[drive]
    return drivers


def _imply(drive: str, screws: ScrewSet, things: dict[str, Thing], language: str) -> str:
    id_, name = driver_of(drive, language)
    id_ = unique(id_, things)
    span = (screws.notation.drive_span if screws.notation else None) or screws.span
    grade = driver_grade(drive)
    things[id_] = Tool(
        id=id_,
        name=name,
        span=span,
        places=(),
        kind=Kind.TOOL,
        implied=True,
        grade=grade,
        grade_proposed=grade is not None,
        drive=drive,
    )
    return id_
