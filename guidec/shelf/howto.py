"""A guide -> its description as a schema.org HowTo, for search engines and other programs (JSON-LD).

Types and properties: schema.org, HowTo, HowToSection, HowToStep, HowToTool, HowToSupply.
"""

from __future__ import annotations

import json
from typing import Any

from guidec.model.types import Family, Guide, Supply
from guidec.shelf.entry import Entry

__all__ = ["howto", "script"]

Data = dict[str, Any]


def howto(entry: Entry, guide: Guide, address: str | None) -> Data:
    """The HowTo of a whole guide. `address`: that of its page, where the site has one."""
    data: Data = {
        "@context": "https://schema.org",
        "@type": "HowTo",
        "name": entry.title,
        "description": entry.text or None,
        "inLanguage": entry.language,
        "url": address,
        "image": _picture(entry, address),
        "author": {"@type": "Person", "name": entry.author} if entry.author else None,
        "datePublished": entry.date,
        "version": entry.revision,
        "license": f"https://spdx.org/licenses/{entry.licence}.html" if _one_licence(entry.licence) else None,
        "about": _device(entry),
        "tool": [{"@type": "HowToTool", "name": tool.name} for tool in entry.tools],
        "supply": [
            {"@type": "HowToSupply", "name": one.name} for one in guide.things.values() if isinstance(one, Supply)
        ],
        "step": [_section(guide, own.id, at, address) for at, own in enumerate(_done(guide), 1)],
    }
    kept: Data = _without_gaps(data)
    return kept


def script(data: Data) -> str:
    """The JSON as it may stand in a page: nothing in it can end the element."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    return text.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e")


def _done(guide: Guide) -> list[Any]:
    return [one for one in guide.operations if one.actions and one.instead_of is None]


def _section(guide: Guide, own: str, position: int, address: str | None) -> Data:
    operation = guide.operation[own]
    steps = [guide.actions[one] for one in operation.actions if guide.actions[one].family is not Family.LOOK]
    steps = steps or [guide.actions[one] for one in operation.actions]
    return {
        "@type": "HowToSection",
        "name": operation.title,
        "position": position,
        "url": f"{address}#{own}" if address else None,
        "itemListElement": [
            {"@type": "HowToStep", "position": at, "text": action.text} for at, action in enumerate(steps, 1)
        ],
    }


def _picture(entry: Entry, address: str | None) -> str | None:
    if not address or not entry.picture:
        return None
    return f"{address.rpartition('/')[0]}/{entry.picture}"


def _device(entry: Entry) -> Data | None:
    if not (entry.maker or entry.model):
        return None
    maker = {"@type": "Brand", "name": entry.maker} if entry.maker else None
    return {"@type": "Product", "name": entry.device, "brand": maker, "model": entry.model, "category": entry.kind}


def _one_licence(licence: str | None) -> bool:
    return bool(licence) and " " not in str(licence)


def _without_gaps(value: Any) -> Any:
    """The same without keys that hold nothing."""
    if isinstance(value, dict):
        kept = ((key, _without_gaps(one)) for key, one in value.items())
        return {key: one for key, one in kept if one not in (None, "", [])}
    return [_without_gaps(one) for one in value] if isinstance(value, list) else value
