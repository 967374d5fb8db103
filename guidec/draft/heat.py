"""Words of heat, solvents and what is put on -> actions that soften and apply."""

from __future__ import annotations

from guidec.draft.clauses import Clause
from guidec.draft.cleaning import cleaned
from guidec.draft.hands import dress
from guidec.draft.kinds import kind_of
from guidec.draft.mind import Mind, recent
from guidec.draft.reading import barred_from
from guidec.draft.refer import part_of, placed
from guidec.draft.story import Act, Named, Screws, Things
from guidec.draft.told import mention
from guidec.draft.verbs import Doing
from guidec.draft.wordset import among

__all__ = ["SOLVENTS", "soak", "soften", "solvent", "supplied"]

SOLVENTS = (
    "isopropyl",
    "alcohol",
    "isopropanol",
    "ipa",
    "acetone",
    "adhesive remover",
    "glue remover",
    "naphtha",
    "lighter fluid",
    "petroleum",
    "ethanol",
    "meths",
)


def soften(mind: Mind, clause: Clause, verb: int, row: Doing) -> Act | None:
    """Heat: the glue named in the clause, else the part, else whatever glue or part is in focus."""
    things, plain = _heated_names(mind, clause, verb, row)
    glue = [thing for thing in things if isinstance(thing, Named) and thing.kind == "adhesive"]
    things = things or _in_focus(mind, clause)
    if not things and not plain and not any(item.kind == "value" for item in clause.items):
        return None
    act = Act("soften", _heat_verb(row), mind.quote(clause), list(glue) or things[:1], plain=plain)
    dress(mind, act, clause)
    last = mind.last
    if (
        last is not None
        and last.do == "soften"
        and clause.start - last.start < 15
        and (last.things == act.things or not act.things or not last.things)
    ):
        last.quote = last.quote.to(act.quote)
        last.things = last.things or act.things
        last.tools += [tool for tool in act.tools if tool not in last.tools]
        return last
    mind.add(act)
    return act


def _heated_names(mind: Mind, clause: Clause, verb: int, row: Doing) -> tuple[Things, str]:
    """The glue, parts and sets named, and a place that is none of them (`the edge`)."""
    things: Things = []
    plain = ""
    for at, item in enumerate(clause.items):
        if item.kind not in ("thing", "noun") or at == verb:
            continue
        kind = kind_of(mind, clause, at, row.base)
        if kind == "adhesive":
            things.append(mind.names.thing("adhesive", item, name=placed(mind, clause, item, "adhesive")))
        elif kind == "part" and not (
            at and clause.items[at - 1].text in among("from with off on onto in at using")
        ):
            things.append(part_of(mind, item))
        elif kind == "screw":
            found = mention(mind, clause, at)
            things += [found] if found else []
        elif (
            kind == "noun" and (row.base == "soak" or item.head in among("edge seam side perimeter border rim"))
        ) or (kind == "" and item.is_a("device")):
            plain = plain or " ".join(item.words)
    return things, plain


def _in_focus(mind: Mind, clause: Clause) -> Things:
    """What `warm it up` warms: glue told lately, else a cable, else a set, else the part."""
    start = clause.start
    cord = recent(mind.cord, start, 10)
    if cord is not None and mind.part is not None and cord.heard < mind.part.heard:
        cord = None
    fixed = recent(mind.set, start, 15) if "it" in clause.text.split() else None
    found = recent(mind.glue, start, 30) or cord or fixed or recent(mind.part, start, 60)
    return [found] if found is not None else []


def _heat_verb(row: Doing) -> str:
    return row.note or {"warm": "Warm", "heat": "Heat", "soak": "Soak", "soften": "Soften"}.get(row.base, "Warm")


_HEATERS = (
    "heat gun",
    "hot air",
    "heat mat",
    "heating mat",
    "hair dryer",
    "heat pad",
    "hot plate",
    "heat plate",
    "heat bag",
    "heat lamp",
    "heated mat",
    "heating pad",
    "hairdryer",
    "hot air station",
    "heat",
)


def supplied(mind: Mind, clause: Clause, verb: int, row: Doing) -> Act | None:
    """`drop a bit of isopropyl on the edge`, `put a dab of grease on the gears`, `heat needs to be applied`."""
    items = clause.items
    if any(item.text == "heat" for item in items) and row.base in among("apply put add use"):
        return soften(mind, clause, verb, Doing("heat", "", "soften", "Warm", frozenset()))
    supply = next(
        (
            at
            for at, item in enumerate(items)
            if item.kind == "thing" and kind_of(mind, clause, at, row.base) == "supply"
        ),
        None,
    )
    if supply is None:
        if row.base in ("use", "using") or row.base == "put":
            tool = next(
                (item for item in items if item.is_a("tool") and any(word in item.text for word in _HEATERS)), None
            )
            if tool is not None and any(
                item.kind == "value" and item.amount and item.amount.unit in ("°C", "°F") for item in items
            ):
                return soften(mind, clause, verb, Doing("heat", "", "soften", "Warm", frozenset()))
        return None
    name = items[supply].text
    if any(word in name for word in SOLVENTS):
        return soak(mind, clause)
    if any(word in name for word in among("cleaner spirit vinegar descaler detergent degreaser soap air water")):
        return cleaned(mind, clause, "Clean")
    if row.base in ("use", "run") or any(
        word in name for word in among("tape swab cloth bud wipe towel braid wick flux solder")
    ):
        return None
    things = _near_things(mind, clause, supply)
    act = Act("treat", "Apply", mind.quote(clause), things)
    dress(mind, act, clause)
    mind.add(act)
    return act


def _near_things(mind: Mind, clause: Clause, supply: int) -> list[Named | Screws]:
    found: list[Named | Screws] = []
    for at, item in enumerate(clause.items):
        if at != supply and kind_of(mind, clause, at) == "part":
            found.append(part_of(mind, item))
    return found


def solvent(mind: Mind, clause: Clause) -> Act | None:
    """`just a bit of isopropyl along the edge`: a solvent and a place, with no verb."""
    if barred_from(clause):
        return None
    at = next(
        (
            n
            for n, item in enumerate(clause.items)
            if item.is_a("supply") and any(word in item.text for word in SOLVENTS)
        ),
        None,
    )
    if at is None:
        at = next(
            (
                n
                for n, item in enumerate(clause.items)
                if item.is_a("supply") and any(word in item.text for word in among("cleaner grease oil lube"))
            ),
            None,
        )
        target = next(
            (
                n
                for n, item in enumerate(clause.items)
                if at is not None
                and n > at
                and kind_of(mind, clause, n) == "part"
                and clause.items[n - 1].text in among("on in into onto to at round around over")
            ),
            None,
        )
        if at is None or target is None or clause.verb is not None:
            return None
        act = Act("treat", "Apply", mind.quote(clause), [part_of(mind, clause.items[target])])
        dress(mind, act, clause)
        mind.add(act)
        return act
    if not any(
        item.text
        in among(
            "along under around underneath behind between in into down on over beneath at loosens softens "
            "dissolves"
        )
        for item in clause.items
    ):
        return None
    if mind.last is not None and mind.last.do == "treat" and clause.start - mind.last.start < 6:
        return None
    return soak(mind, clause)


def soak(mind: Mind, clause: Clause) -> Act | None:
    """A solvent on glue: soaking. On a board or contacts with a brush or cloth it cleans."""
    items = clause.items
    text = clause.text
    if any(
        word in text.split()
        for word in among("clean wipe scrub swab brush cloth toothbrush cotton wash rinse filter")
    ):
        return cleaned(mind, clause, "Clean")
    things: list[Named | Screws] = []
    for at, item in enumerate(items):
        kind = kind_of(mind, clause, at) if item.kind == "thing" else ""
        if kind == "adhesive":
            things.append(mind.names.thing("adhesive", item, name=placed(mind, clause, item, "adhesive")))
        elif kind == "part" and item.det and not things:
            things.append(part_of(mind, item))
    glue = (
        mind.glue if mind.glue is not None and not mind.glue.gone and clause.start - mind.glue.heard < 45 else None
    )
    if not any(isinstance(thing, Named) and thing.kind == "adhesive" for thing in things) and glue is not None:
        things = [glue]
    if not things and mind.part is not None and not mind.part.gone:
        things = [mind.part]
    act = Act("soften", "Soak", mind.quote(clause), things[:1], plain="the edge" if "edge" in text else "")
    dress(mind, act, clause)
    mind.add(act)
    return act
