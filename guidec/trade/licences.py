"""A licence as typed -> whether it is an SPDX expression of known identifiers, and what it may have meant."""

from __future__ import annotations

import re
from functools import cache

from guidec.trade.likeness import nearest
from guidec.trade.load import data

__all__ = ["meant", "unknown_in"]

_COMMON = "CC-BY-4.0 CC-BY-SA-4.0 CC0-1.0 CC-BY-NC-4.0 CC-BY-NC-SA-4.0 CC-BY-ND-4.0 Apache-2.0 MIT"
_QUICK = frozenset(_COMMON.lower().split())
_OWN = re.compile(r"(?:DocumentRef-[\w.-]+:)?LicenseRef-[\w.-]+", re.I)


def unknown_in(expression: str) -> tuple[str, ...]:
    """The identifiers in an SPDX expression that the list does not have; empty if all is well."""
    if expression.strip().lower() in _QUICK:
        return ()
    words = re.sub(r"[()]", " ", expression).split()
    joined = [word.upper() in ("AND", "OR", "WITH") for word in words]
    if not words or joined != [at % 2 == 1 for at in range(len(words))] or len(words) % 2 == 0:
        return (expression,)
    licences, exceptions = _known()
    unknown = []
    for at in range(0, len(words), 2):
        after_with = at > 0 and words[at - 1].upper() == "WITH"
        known = exceptions if after_with else licences
        if not _OWN.fullmatch(words[at]) and words[at].removesuffix("+").lower() not in known:
            unknown.append(words[at])
    return tuple(unknown)


def meant(typed: str) -> tuple[str, ...]:
    """The identifiers that a licence may have been meant for, nearest first."""
    shape = "-".join(re.sub(r"[\s_,]+", " ", typed).upper().replace("CREATIVE COMMONS", "CC").split())
    common = _COMMON.split()
    whole = [one for one in common if one.upper() == shape or one.upper() == f"{shape}-4.0"]
    return tuple(dict.fromkeys((*whole, *nearest(shape, common), *nearest(shape, _known()[0].values()))))[:4]


@cache
def _known() -> tuple[dict[str, str], dict[str, str]]:
    lists = data("licences")
    return tuple({one.lower(): one for one in lists[key].split()} for key in ("licences", "exceptions"))  # type: ignore[return-value]
