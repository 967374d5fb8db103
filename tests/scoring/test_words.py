"""Every word of scoring whose key is put together in the program is in every catalogue, and none is left over."""

from __future__ import annotations

from typing import get_args

import pytest

from guidec.model.types import Reuse
from guidec.outputs.words import languages, words
from guidec.plan.types import EndsBy
from guidec.scoring.assumed import Why
from guidec.scoring.limits import Verdict

WHYS = {"answer", "class", "removal", "fastenings", "tools", "parts"}
REASONS = {
    f"{about}.{ok}" for about in ("fastenings", "tools", "environment", "skill") for ok in ("yes", "no", "open")
}
REASONS |= {f"{about}.{ok}" for about in ("heat", "solvents") for ok in ("yes", "no")} | {"way.open"}
COLUMNS = {
    "score",
    "id",
    "name",
    "points",
    "weight",
    "product",
    "part",
    "steps",
    "gain",
    "index",
    "class",
    "change",
}
COLUMNS |= {
    "change",
    "fastenings",
    "tools",
    "environment",
    "skill",
    "number",
    "operation",
    "hand",
    "wait",
    "recorded",
}
GROUPS = {
    "score.ends": set(get_args(EndsBy)),
    "score.assumed": set(get_args(Why)) - {"method"},
    "score.unknown": WHYS,
    "score.reason": REASONS,
    "score.verdict": set(get_args(Verdict)),
    "score.col": COLUMNS,
    "reuse": {one.value for one in Reuse if one is not Reuse.UNKNOWN},
    "environment": set("ABC"),
    "skill": set("ABCDE"),
}


@pytest.mark.parametrize("language", languages())
@pytest.mark.parametrize("group", GROUPS)
def test_a_group_has_just_the_words_that_are_asked_for(language: str, group: str):
    prefix = f"{group}."
    found = {key.removeprefix(prefix) for key in words(language).entries if key.startswith(prefix)}
    assert found == GROUPS[group]
