"""Values in a clause -> heat, waiting, readings, amounts of the action or thing that they belong to."""

from __future__ import annotations

from guidec.draft import moods
from guidec.draft.clauses import Clause
from guidec.draft.hands import dress
from guidec.draft.heat import soften
from guidec.draft.item import Amount
from guidec.draft.mind import Mind
from guidec.draft.readings import bare_reading, checking, is_reading, measured, metered
from guidec.draft.story import Act, Named, Screws
from guidec.draft.verbs import Doing
from guidec.draft.wordset import among, phrased

__all__ = ["amounts", "unused_iron", "values"]


def values(mind: Mind, clause: Clause, told: Act | None) -> None:
    """Values of a clause: to the battery, to the action, to the meter."""
    unused_iron(mind, clause.start)
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
        elif is_reading(mind, clause, amount, told):
            measured(mind, clause, amount)
        elif amount.unit in ("°C", "°F"):
            _heated(mind, clause, amount, told)
        elif amount.unit in ("s", "min", "h"):
            _timed(mind, clause, at, amount, told)
        elif amount.unit in ("N·m", "N·cm"):
            mind.story.torques.append((amount, mind.quote(clause)))
        elif amount.unit in among("ml l g %"):
            _poured(mind, clause, amount, told)
    if not _bare_heat(mind, clause, told):
        bare_reading(mind, clause)


def _volts(mind: Mind, clause: Clause, amount: Amount, told: Act | None) -> None:
    """A voltage: what a meter shows, else that of the battery."""
    rated = any(item.amount and item.amount.unit in ("mAh", "Ah", "Wh", "uF") for item in clause.items)
    read = metered(clause) and not any(word in clause.text for word in phrased("nominal|rated|label|printed"))
    if not rated and (read or checking(mind, clause, told, 12)):
        measured(mind, clause, amount)
    elif (
        not any(item.amount and item.amount.unit == "uF" for item in clause.items)
        and not any(item.is_a("part") and "capacitor" in item.text for item in clause.items)
        and "about" not in clause.text.split()[:2]
    ):
        _to_battery(mind, clause, amount)


_HOT = phrased("iron|hot air|heat gun|hot plate|heat mat|dryer|heat plate|warm air|heating mat|heat|oven")


def _bare_heat(mind: Mind, clause: Clause, told: Act | None) -> bool:
    """`hot air at ninety`, `iron on, three seventy`, `i set mine at two hundred`: degrees that are not said."""
    last = told or mind.last
    warm = last is not None and last.do == "soften" and clause.start - last.quote.start < 12
    hot = any(f" {word} " in f" {clause.text} " for word in _HOT)
    if not (warm or hot):
        return False
    for at, item in enumerate(clause.items):
        if item.kind != "num" or item.number is None or not 40 <= item.number <= 480:
            continue
        before = clause.items[at - 1].text if at else ""
        after = clause.items[at + 1] if at + 1 < len(clause.items) and not item.stop else None
        placed = before in among("at to about around above on is roughly") or (
            at == 0 or clause.items[at - 1].stop
        )
        if placed and (after is None or after.kind in ("word", "value")):
            _heated(mind, clause, Amount(item.number, "°C"), told)
            return True
    return False


def _to_battery(mind: Mind, clause: Clause, amount: Amount) -> None:
    battery = _battery(mind, clause)
    if battery is not None and not any(value.unit == amount.unit for value in battery.values):
        battery.values.append(amount)
        battery.said = battery.said.to(mind.quote(clause)) if battery.said else mind.quote(clause)
        battery.shown = True


def _battery(mind: Mind, clause: Clause) -> Named | None:
    """The battery that is named here, else the one told lately."""
    for item in clause.items:
        if item.is_a("part") and item.kinds.get("part") == "battery" and item.det not in ("a", "an", "no"):
            return mind.names.thing("part", item)
    return next(
        (
            row
            for row in reversed(mind.story.named)
            if row.kind == "part" and row.cls == "battery" and clause.start - row.heard < 60
        ),
        None,
    )


def unused_iron(mind: Mind, now: float) -> None:
    """The heat of an iron that no action took: noted where it was said."""
    if mind.iron is None or mind.ironed is None or now - mind.ironed.start < 25:
        return
    iron = next((row for row in reversed(mind.story.named) if row.kind == "tool" and "iron" in row.name), None)
    if iron is not None:
        act = Act("look", "Note", mind.ironed, [iron], heat=[mind.iron])
        mind.story.acts.append(act)
    mind.iron = None


def _is_angle(mind: Mind, clause: Clause, amount: Amount, told: Act | None) -> bool:
    """`flip it up ninety degrees`, `tilt it to about seventy`: no heat."""
    text = f" {clause.text} "
    turned = any(word in text for word in phrased(
        "rotate| turn |twist|angle|swing|flip|tilt|hinge|open it|stand|fold|clockwise|quarter"
    ))  # fmt: skip
    hot = any(word in text for word in phrased("heat|warm| hot |iron|celsius|oven|dry|water|air|gun|plate|bath"))
    last = told if told is not None and told.do == "soften" else mind.last
    warm = last is not None and last.do == "soften" and clause.start - last.quote.start < 15
    return not hot and (turned or (amount.low in (45, 90, 180, 270, 360) and not warm))


def _heated(mind: Mind, clause: Clause, amount: Amount, told: Act | None) -> None:
    if (amount.unit == "°C" and amount.low <= 45) or _is_angle(mind, clause, amount, told):
        return
    if told is None and any(item.is_a("tool") and "iron" in item.text for item in clause.items):
        mind.iron, mind.ironed = amount, mind.quote(clause)
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


_STILL = among("sit sits leave wait cool lie lies soak stand stands rest dry waited left stay")


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
    if warm is not None and (_on_heater(warm, clause) or not any(word in text.split() for word in _STILL)):
        _warmed(mind, clause, warm, amount)
        return
    if last is None or last.do != "soften" or last.verb == "Soak":
        heating = any(word in text for word in phrased("heat|warm|face down|hot| iron ")) and "cool" not in text
        if not heating and (heater := _heater_in_hand(mind, start)):
            heating = heater
        if heating and any(word in text for word in ("for", "another", "about", "on the")):
            fresh = soften(mind, clause, clause.verb or 0, Doing("heat", "", "soften", "Warm", frozenset()))
            if fresh is not None:
                fresh.heat.append(amount)
                return
    poured = any(item.is_a("supply") for item in clause.items)
    ends = clause.items[-1].kind == "value" or clause.verb is None
    if moods.phrase("wait", text) is not None or (poured and ends):
        _waited(mind, clause, last, amount)
    elif warm is not None:
        warm.heat.append(amount)


def _on_heater(warm: Act, clause: Clause) -> bool:
    """`leave it face down on there for five minutes`: it lies on what warms it."""
    lies = any(word in among("mat plate pad bag oven") for tool in warm.tools for word in tool.name.split())
    timed = any(value.unit in ("s", "min", "h") for value in warm.heat)
    wet = any(item.is_a("supply") for item in clause.items)
    return lies and not timed and not wet and "cool" not in clause.text and "weight" not in clause.text


def _heater_in_hand(mind: Mind, start: float) -> bool:
    """Whether a heater has been named just before."""
    return any(
        start - heard < 8 and any(word in tool.name for word in among("dryer heat hot iron"))
        for heard, tool in mind.hand
    )


def _warmed(mind: Mind, clause: Clause, warm: Act, amount: Amount) -> None:
    """How long it is warmed, the first time that it is said."""
    if not any(value.unit in ("s", "min", "h") for value in warm.heat):
        warm.heat.append(amount)
        warm.quote = warm.quote.to(mind.quote(clause))


def _waited(mind: Mind, clause: Clause, last: Act | None, amount: Amount) -> None:
    """A wait: of the action before it, or one of its own."""
    if "later" in clause.text and last is not None and last.waits:
        return
    plain = any(
        word in clause.text.split() for word in among("wait leave let hold sit rest stand cool give stay dry")
    )
    if not plain and (last is None or clause.start - last.start > 40):
        return
    if last is None or clause.start - last.start > 40 or last.do in ("remove", "turn", "move"):
        home = Act("treat", "Wait", mind.quote(clause))
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
