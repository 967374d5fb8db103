"""What is supposed, as typed: what is understood, and messages at the place where it is not."""

from __future__ import annotations

import pytest

from guidec.messages import diagnose, text
from guidec.model.types import Reuse
from guidec.rules.book import lacking
from guidec.scoring.change import Answer, Change, Edge, Gone, Grade, OfClass, Through
from guidec.scoring.what_if import read
from guidec.source import Source
from tests.scoring.helpers import EU, graph_of
from tests.scoring.test_notes import PHONE

GUIDE = graph_of(PHONE).guide


def understood(typed: str) -> tuple[Change, ...]:
    changes, found = read(Source.of("--what-if", typed), GUIDE, EU)
    assert found == (), text(diagnose(Source.of("--what-if", typed), found))
    return changes


@pytest.mark.parametrize(
    ("typed", "change"),
    [
        ("update_years = 7", Answer("update_years", 7)),
        ("update_years=7", Answer("update_years", 7)),
        ("foldable = yes", Answer("foldable", True)),
        ("repair_information = professionals-fee", Answer("repair_information", "professionals-fee")),
        ("spare_parts = all", Answer("spare_parts", ["all"])),
        ("spare_parts + speaker", Answer("spare_parts", ["display", "battery", "back cover", "speaker"])),
        ("spare_parts - battery", Answer("spare_parts", ["cover", "display"])),
        ("cell tape: reuse = reusable", Through("cell-tape", Reuse.REUSABLE)),
        ("Cell  Tape: resupplied", Through("cell-tape", Reuse.RESUPPLIED)),
        ("heat gun: basic", Grade("heat-gun", "basic")),
        ("heat gun: grade = with-product", Grade("heat-gun", "with-product")),
        ("speaker: class = other", OfClass("speaker", "other")),
        ("battery: not after back cover", Edge("battery", ("back-cover",))),
        ("battery: not after back cover, A", Edge("battery", ("back-cover", "a"))),
        ("speaker: not after Open the back", Edge("speaker", ("a", "back-cover", "battery-lead"))),
        ("battery: authorisations = 2", Answer("authorisations", 2, "battery")),
        ("battery: skill = layman", Answer("skill", "layman", "battery")),
        ("cell tape: absent", Gone("cell-tape")),
        ("button: absent", Answer("absent", ["microphone", "rear camera", "button"])),
    ],
)  # fmt: skip
def test_a_change_is_understood(typed: str, change: Change):
    assert understood(typed) == (change,)


def test_several_changes_are_set_off_by_semicolons():
    assert len(understood("update_years = 7; cell tape: reusable ;")) == 2


@pytest.mark.parametrize(
    ("typed", "code", "place", "near"),
    [
        ("update_yeras = 7", "S121", "update_yeras", "update_years"),
        ("update_years = many", "S122", "many", ""),
        ("update_years =", "S122", "update_years", ""),
        ("update_years + 1", "S122", "update_years", ""),
        ("repair_information = publik", "S122", "publik", "public"),
        ("foldable = perhaps", "S122", "perhaps", ""),
        ("spare_parts = display, bettery", "S121", "bettery", "battery"),
        ("cell tepe: reusable", "S121", "cell tepe", "cell tape"),
        ("cell tape: reuseable", "S122", "reuseable", "reusable"),
        ("cell tape: basic", "S122", "basic", ""),
        ("cell tape: reuse = reuseable", "S122", "reuseable", "reusable"),
        ("cell tape: grade = basic", "S122", "grade", ""),
        ("cell tape: colour = red", "S121", "colour", ""),
        ("heat gun: not after battery", "S122", "heat gun", ""),
        ("battery: not after back cver", "S121", "back cver", "back cover"),
        ("battery: not after", "S121", "battery", ""),
        ("battery: authorisations = some", "S122", "some", ""),
        ("battery: skill = laymen", "S122", "laymen", "layman"),
        ("speaker: class = spekaer", "S122", "spekaer", "speaker"),
        ("more updates please", "S120", "more updates please", ""),
        (" ; ", "S120", " ; ", ""),
    ],
)
def test_a_slip_is_shown_at_its_place(typed: str, code: str, place: str, near: str):
    source = Source.of("--what-if", typed)
    _, (found,) = read(source, GUIDE, EU)
    assert (found.code, source.slice(found.span)) == (code, place)
    assert lacking(found) == ()
    assert not near or near in found.suggestions
    assert "^" in text(diagnose(source, [found]))


def test_a_good_change_is_kept_beside_a_slip():
    changes, found = read(Source.of("--what-if", "update_years = 7; nonsense"), GUIDE, EU)
    assert (len(changes), len(found)) == (1, 1)
