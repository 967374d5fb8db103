"""Values in a clause -> heat, waiting, readings, amounts of the action or thing that they belong to."""

from __future__ import annotations

from guidec.draft import moods
from guidec.draft.clauses import Clause
from guidec.draft.hands import dress
from guidec.draft.heat import soften
from guidec.draft.item import Amount
from guidec.draft.mind import Mind
from guidec.draft.story import Act, Named, Screws
from guidec.draft.verbs import Doing
from guidec.draft.wordset import among, phrased

__all__ = ["amounts", "values"]


def values(mind: Mind, clause: Clause, told: Act | None) -> None:
    """Values of a clause: to the battery, to the action, to the meter."""
    if moods.phrase("work_only", clause.text):
        return
    for at, item in enumerate(clause.items):
        amount = item.amount
        if item.kind != "value" or amount is None:
            continue
        if amount.unit in ("mAh", "Ah", "Wh"):
            _to_battery(mind, clause, amount)
        elif amount.unit in ("V", "mV", "kV"):
            _volts(mind, clause, amount, told)
        elif _is_reading(mind, clause, amount, told):
            _measured(mind, clause, amount)
        elif amount.unit in ("°C", "°F"):
            _heated(mind, clause, amount, told)
        elif amount.unit in ("s", "min", "h"):
            _timed(mind, clause, at, amount, told)
        elif amount.unit in ("N·m", "N·cm"):
            mind.story.torques.append((amount, mind.quote(clause)))
        elif amount.unit in among("ml l g %"):
            _poured(mind, clause, amount, told)
    if told is None or told.do != "check":
        _bare_reading(mind, clause)


_METER = phrased("measur|meter|reads|read |across|should be|wants to be|under|less than|below")


def _checking(mind: Mind, clause: Clause, told: Act | None, span: float) -> bool:
    """Whether something is being measured: here, or a moment ago."""
    last = mind.last
    return (told is not None and told.do == "check") or (
        last is not None and last.do == "check" and clause.start - last.start < span
    )


def _volts(mind: Mind, clause: Clause, amount: Amount, told: Act | None) -> None:
    """A voltage: what a meter shows, else that of the battery."""
    if any(word in clause.text for word in _METER) or _checking(mind, clause, told, 12):
        _measured(mind, clause, amount)
    elif (
        not any(item.is_a("part") and "capacitor" in item.text for item in clause.items)
        and "about" not in clause.text.split()[:2]
    ):
        _to_battery(mind, clause, amount)


def _is_reading(mind: Mind, clause: Clause, amount: Amount, told: Act | None) -> bool:
    """Whether a value is one that a meter or a rule shows."""
    if amount.unit == "kohm":
        return not any(item.value == amount for item in clause.items)
    if amount.unit == "mm":
        return (told is not None and told.do == "check") or (
            _checking(mind, clause, told, 8) and ("should" in clause.text or "than" in clause.text)
        )
    return amount.unit in among("ohm Mohm A uF")


def _bare_reading(mind: Mind, clause: Clause) -> None:
    """`mine's 2.1`, `three sixty` with no unit: a reading or a temperature, by what went before."""
    last = mind.last
    for at, item in enumerate(clause.items):
        if (
            item.kind != "num"
            or item.number is None
            or (at + 1 < len(clause.items) and clause.items[at + 1].kind == "thing")
        ):
            continue
        if (
            last is not None
            and last.do == "check"
            and last.measures
            and clause.start - last.start < 15
            and item.number != int(item.number)
        ):
            last.measures.append(Amount(item.number, last.measures[-1].unit))
            last.quote = last.quote.to(mind.quote(clause))
        elif (
            item.number >= 150
            and any((one.is_a("tool") and "iron" in one.text) or one.text == "iron" for one in clause.items)
            and at
            and clause.items[at - 1].text in among("at to about around")
        ):
            _heated(mind, clause, Amount(item.number, "°C"), None)


def _to_battery(mind: Mind, clause: Clause, amount: Amount) -> None:
    battery = next(
        (
            row
            for row in reversed(mind.story.named)
            if row.kind == "part" and row.cls == "battery" and clause.start - row.heard < 60
        ),
        None,
    )
    if battery is not None and not any(value.unit == amount.unit for value in battery.values):
        battery.values.append(amount)
        battery.said = battery.said.to(mind.quote(clause)) if battery.said else mind.quote(clause)


def _measured(mind: Mind, clause: Clause, amount: Amount) -> None:
    last = mind.last
    if last is None or last.do != "check" or clause.start - last.start > 20:
        things: list[Named | Screws] = [mind.part] if mind.part is not None else []
        last = Act("check", "Measure", mind.quote(clause), things)
        dress(mind, last, clause)
        mind.add(last)
    if not any(value == amount for value in last.measures):
        last.measures.append(amount)
        last.quote = last.quote.to(mind.quote(clause))
    if "across" in clause.text and not last.where:
        last.where = "across " + clause.text.split("across ", 1)[1].split(" with ")[0].split(" is ")[0]


def _heated(mind: Mind, clause: Clause, amount: Amount, told: Act | None) -> None:
    text = clause.text
    if (amount.unit == "°C" and amount.low <= 45) or (
        amount.low in (90, 180) and any(word in text for word in among("rotate turn twist angle each swing"))
    ):
        return
    if told is None and any(item.is_a("tool") and "iron" in item.text for item in clause.items):
        mind.iron = amount
    soldered = mind.last is not None and any(
        isinstance(thing, Named) and thing.kind == "solder" for thing in mind.last.things
    )
    if told is None and soldered and mind.last is not None and clause.start - mind.last.start < 25:
        told = mind.last
        dress(mind, told, clause)
    if told is None and mind.iron is amount:
        return  # it goes with the next action that takes the iron
    last = told if told is not None and told.do in among("soften undo remove treat unplug") else mind.last
    hot = last is not None and (
        last.do == "soften"
        or any(
            "iron" in tool.name or "heat" in tool.name or "hot" in tool.name or "dryer" in tool.name
            for tool in last.tools
        )
    )
    if last is None or clause.start - last.start > 20 or (not hot and told is None):
        things: list[Named | Screws] = []
        if mind.glue is not None and not mind.glue.gone:
            things = [mind.glue]
        elif mind.part is not None and not mind.part.gone:
            things = [mind.part]
        last = Act("soften", "Warm", mind.quote(clause), things)
        dress(mind, last, clause)
        mind.add(last)
    if not any(value.unit == amount.unit for value in last.heat):
        last.heat.append(amount)
        last.quote = last.quote.to(mind.quote(clause))


_IDLE = phrased(
    "hours later buddy|minute job|minutes ago|hours ago|still got|years|this video|it took|takes me|took me|spent|"
    "quick|warranty|in a minute|in a second|give me a|back in|one second|wait a minute|per minute|thirty minute"
)


def _timed(mind: Mind, clause: Clause, at: int, amount: Amount, told: Act | None) -> None:
    """A time: of heating, of waiting; or of nothing that is work."""
    text, start = clause.text, clause.start
    loose = amount.low == 1 and clause.items[at].words[:1] == ("a",)
    if any(word in text for word in _IDLE) or (
        loose and not any(word in text for word in phrased("for a|sit|leave|wait|give|let"))
    ):
        return
    last = told or mind.last
    warm = (
        last
        if last is not None and last.do == "soften" and last.verb != "Soak" and start - last.start < 25
        else None
    )
    if warm is not None and not any(word in text.split() for word in among("sit leave wait cool")):
        _warmed(mind, clause, warm, amount)
        return
    if last is None or last.do != "soften" or last.verb == "Soak":
        heating = any(word in text for word in phrased("heat|warm|face down|hot")) and "cool" not in text
        if heating and any(word in text for word in ("for", "another", "about")):
            fresh = soften(mind, clause, clause.verb or 0, Doing("heat", "", "soften", "Warm", frozenset()))
            if fresh is not None:
                fresh.heat.append(amount)
                return
    if moods.phrase("wait", text) is not None:
        _waited(mind, clause, last, amount)
    elif warm is not None:
        warm.heat.append(amount)


def _warmed(mind: Mind, clause: Clause, warm: Act, amount: Amount) -> None:
    """How long it is warmed, the first time that it is said."""
    if not any(value.unit in ("s", "min", "h") for value in warm.heat):
        warm.heat.append(amount)
        warm.quote = warm.quote.to(mind.quote(clause))


def _waited(mind: Mind, clause: Clause, last: Act | None, amount: Amount) -> None:
    """A wait: of the action before it, or one of its own."""
    if "later" in clause.text and last is not None and last.waits:
        return
    if last is None or clause.start - last.start > 40:
        home = Act("treat", "Leave", mind.quote(clause), [mind.part] if mind.part is not None else [])
        home.waits.append(amount)
        mind.add(home)
    elif not any(value.unit == amount.unit and value.low == amount.low for value in last.waits):
        last.waits.append(amount)
        last.quote = last.quote.to(mind.quote(clause))


def _poured(mind: Mind, clause: Clause, amount: Amount, told: Act | None) -> None:
    last = told or mind.last
    supply = None
    for item in clause.items:
        if item.is_a("supply"):
            supply = mind.names.find("supply", item.text, item.start)
    if supply is None and last is not None and last.supplies and clause.start - last.start < 15:
        supply = last.supplies[-1]
    if supply is None or ("off" in clause.text and amount.unit == "%"):
        return
    if not any(value.unit == amount.unit for value in supply.values):
        supply.values.append(amount)
        supply.said = mind.quote(clause)


def amounts(mind: Mind, clause: Clause, supply: Named) -> None:
    """Strength and amount said in a clause that names a supply."""
    for item in clause.items:
        if (
            item.kind == "value"
            and item.amount
            and item.amount.unit in among("ml g l %")
            and not any(value.unit == item.amount.unit for value in supply.values)
        ):
            supply.values.append(item.amount)
            if supply.quote.first < clause.items[0].first:
                supply.said = mind.quote(clause)
