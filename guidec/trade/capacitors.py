"""A part's name and details, and a device -> whether it stores a charge that can hurt after the plug is pulled."""

from __future__ import annotations

import re
from functools import cache, lru_cache

from guidec.trade.dangers import stored_charge_limit_v
from guidec.trade.load import data
from guidec.trade.units import find_quantities

__all__ = ["stores_charge"]

_STOP = re.compile(r"\s+(?:of|for|from|with|to|on|in|at|under|behind|von|für|mit|am|an|auf|der|des)\s+|\s*[(,]")


@lru_cache(1024)
def stores_charge(name: str, details: str, *, mains: bool, device: str = "") -> bool:
    """Whether a part is a capacitor that may hold a charge to be afraid of.

    A stated voltage decides, held against the limit for stored charge (IEC 60204-1, 6.2.4); without one it is any
    in a device on the mains (`mains`). `device`: its kind and title; in a dryer a German `Kondensator` is none.
    """
    low = name.casefold()
    if "kondens" not in low and "elko" not in low and "cap" not in low:
        return False
    folded = _STOP.split(" ".join(low.split()), 1)[0]
    names, small, other, alone = _patterns()
    if not names.search(folded):
        return False
    volts = [one.high for one in find_quantities(f"{name} {details}", 0) if one.dimension == "voltage"]
    if volts:
        return max(volts) >= stored_charge_limit_v()
    if small.search(folded) or (alone.search(folded) and other.search(device.casefold())):
        return False
    return mains


@cache
def _patterns() -> tuple[re.Pattern[str], ...]:
    rows = data("stored-charge")["capacitors"]
    names = "|".join(rows["names"])
    return tuple(re.compile(pattern) for pattern in (names, rows["small"], rows["except"], rows["alone"]))
