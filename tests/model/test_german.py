"""The lexicon is a data file per language: the same rules read a German note."""

from __future__ import annotations

from tests.model.helpers import guide_of

NOTE = """\
---
language: de
---
# Radio

## Öffnen

> WARNUNG: Die Feder steht unter Spannung. Sie kann ins Auge springen. Schutzbrille tragen.

1. Löse vorsichtig {screw A: 4x PH0 M2x6} und nimm {part Deckel} mit {tool Karte} ab.
2. Lösen Sie 2 von {screw B: 4x PH0 M2x8}, dann ziehen Sie {connector Akkukabel: plug} ab.
3. Drehe die beiden restlichen {screw B} heraus.
4. Drehe das Gerät um.
5. Hebe {part Platine} ab.
"""


def test_a_german_note_reads_like_an_english_one() -> None:
    guide = guide_of(NOTE)
    changes = [
        (effect.id, effect.change.value, effect.count)
        for action in guide.actions.values()
        for effect in action.effects
    ]
    assert changes == [
        ("a", "undone", None),
        ("deckel", "off", None),
        ("b", "undone", 2),
        ("akkukabel", "open", None),
        ("b", "undone", 2),
        ("platine", "off", None),
    ]
    assert guide.operations[0].id == "oeffnen"
    assert guide.operations[0].hazards[0].signal == "WARNING"
    assert guide.actions["oeffnen/7"].side == "hinten"
