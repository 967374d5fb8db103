"""Instructions that end with their verb, as German ones mostly do: what they act on, and what is none."""

from __future__ import annotations

import pytest

from tests.model.helpers import built


def read(line: str) -> tuple[list[tuple[str, str, int | None]], tuple[str, ...]]:
    """What a line changes, as (thing, change, count), and the codes of the findings."""
    guide, codes = built(f"---\nlanguage: de\n---\n# Gerät\n\n## Öffnen\n\n1. {line}\n")
    changes = [
        (effect.id, effect.change.value, effect.count)
        for action in guide.actions.values()
        for effect in action.effects
    ]
    return changes, codes


SCREWS = "{screw A: 4x PH1 M3x8}"
OFF, OPEN, UNDONE = ("deckel", "off", None), ("x", "open", None), ("a", "undone", None)
MOVED = ("deckel", "moved", None)


@pytest.mark.parametrize(
    ("line", "changes"),
    [
        ("{part Deckel} abnehmen", [OFF]),
        (f"Alle {SCREWS} herausdrehen.", [UNDONE]),
        ("Den {part Deckel} vorsichtig heraushebeln", [OFF]),
        ("Stecker {connector X: plug} abziehen", [OPEN]),
        ("{part Deckel} mit {tool Karte} nach oben abhebeln", [OFF]),
        ("Mit {tool Karte} den {part Deckel} abhebeln.", [OFF]),
        ("Mit einer Karte {part Deckel} rausnehmen", [OFF]),
        ("{part Deckel} ab nehmen", [OFF]),
        ("Jetzt den {part Deckel} abnehmen und beiseite legen.", [OFF]),
        ("{part Deckel} hochklappen", [MOVED]),
        ("{part Deckel} anheben und abnehmen", [MOVED, OFF]),
        ("{part Deckel} erwärmen {heat 70 °C, 2 min} und abheben", [OFF]),
        ("Erwärme {part Deckel} {heat 70 °C, 2 min} und hebe ihn ab.", [OFF]),
        (f"{SCREWS} lösen, {{part Deckel}} abnehmen.", [UNDONE, OFF]),
        (f"{SCREWS} lösen (nicht verlieren!), dann {{part Deckel}} abheben", [UNDONE, OFF]),
        (f"{SCREWS} und {{connector X: plug}} lösen", [UNDONE, OPEN]),
        (f"Rückseite: {SCREWS} lösen mit {{tool Dreher}}", [UNDONE]),
        (f"An der Rückseite {SCREWS} lösen", [UNDONE]),
        (f"Die {SCREWS}, die den {{part Deckel}} halten, lösen.", [UNDONE]),
        (f"Die {SCREWS} lösen, die den {{part Deckel}} halten.", [UNDONE]),
        (f"Die den {{part Deckel}} haltenden {SCREWS} lösen", [UNDONE]),
        (f"Die Schrauben des Deckels {SCREWS} lösen", [UNDONE]),
        (f"Die Schrauben {SCREWS} des {{part Deckel}} lösen", [UNDONE]),
        (f"Um den {{part Deckel}} abzunehmen, {SCREWS} lösen.", [UNDONE]),
        (f"{SCREWS} lösen, ohne den {{part Deckel}} zu zerkratzen", [UNDONE]),
        (f"Sobald der {{part Deckel}} sich bewegt, {SCREWS} lösen", [UNDONE]),
        ("{connector X: plug} von der {part Platine} abziehen", [OPEN]),
        ("{part Deckel} vom {part Rahmen} lösen", [OFF]),
        ("Den Stecker der Platine {connector X: plug} entriegeln und abziehen.", [OPEN]),
        ("{connector X: plug} öffnen", [OPEN]),
        ("Klappe {part Deckel} öffnen", [MOVED]),
        ("Seitenschneider ansetzen und {part Deckel} abtrennen", [OFF]),
    ],
)
def test_a_line_that_ends_with_its_verb_acts_on_what_stands_free_before_it(
    line: str, changes: list[tuple[str, str, int | None]]
) -> None:
    assert read(line) == (changes, ())


@pytest.mark.parametrize(
    ("line", "changes"),
    [
        (f"2 von {SCREWS} herausdrehen", [("a", "undone", 2)]),
        (f"Zwei der {SCREWS} herausdrehen", [("a", "undone", 2)]),
        (f"Beide {SCREWS} lösen", [("a", "undone", 2)]),
        (f"Alle bis auf 1 von {SCREWS} lösen", [("a", "undone", 3)]),
    ],
)
def test_shares_are_told_before_the_verb_too(line: str, changes: list[tuple[str, str, int | None]]) -> None:
    assert read(line) == (changes, ("M204",))


@pytest.mark.parametrize(
    "line",
    [
        "{part Deckel} nicht abnehmen",
        "{part Deckel} lässt sich abnehmen",
        "Man kann den {part Deckel} abnehmen",
        "{part Deckel} kann jetzt abgenommen werden",
        "Vorsicht beim Abnehmen von {part Deckel}",
        "{part Deckel} sitzt fest. Vorsichtig abhebeln.",
    ],
)
def test_what_is_told_or_denied_changes_nothing_and_is_doubted(line: str) -> None:
    assert read(line) == ([], ("M201",))


@pytest.mark.parametrize(
    ("line", "family"),
    [
        ("Gerät umdrehen", "turn"),
        ("Eine Stunde abkühlen lassen {wait 60 min}", "treat"),
        ("Kondensator entladen", "treat"),
        ("Spannung am {part Kondensator} messen {measure <=5 V}", "check"),
        ("Auf festen Sitz von {part Kabel} achten", "look"),
        ("Netzstecker ziehen", "undo"),
        ("Schrauben festziehen", "treat"),
    ],
)
def test_other_families_end_lines_as_well(line: str, family: str) -> None:
    guide, codes = built(f"---\nlanguage: de\n---\n# Gerät\n\n## Öffnen\n\n1. {line}\n")
    assert [action.family.value for action in guide.actions.values()] == [family]
    assert codes == ()


def test_the_text_of_each_action_is_the_clause_as_typed() -> None:
    lines = "1. {part Deckel} vorsichtig abnehmen, dann {part Akku} ablösen.\n"
    guide, _ = built(f"---\nlanguage: de\n---\n# Gerät\n\n## Öffnen\n\n{lines}")
    texts = [action.text for action in guide.actions.values()]
    assert texts == ["Deckel vorsichtig abnehmen.", "Akku ablösen."]


def test_a_german_remark_with_nouns_like_verbs_is_not_doubted() -> None:
    assert read("Bitte Klappe und Falte des Beutels nicht verwechseln, die Suche dauert.") == ([], ())


@pytest.mark.parametrize(
    ("line", "verb"),
    [
        ("Kondensator kurzschließen", "schließe kurz"),
        ("Kondensator kurzschliessen", "schließe kurz"),
        ("Schließe den Kondensator kurz", "schließe kurz"),
    ],
)
def test_sharp_s_and_double_s_are_the_same_word(line: str, verb: str) -> None:
    guide, codes = built(f"---\nlanguage: de\n---\n# Gerät\n\n## Öffnen\n\n1. {line}.\n")
    assert ([action.verb for action in guide.actions.values()], codes) == ([verb], ())


UNDO = """
    ausklipsen aushebeln abhebeln herausziehen wegnehmen abmontieren demontieren entnehmen herunternehmen
    losdrehen abstreifen herausklopfen herauslösen hochheben herausschieben wegschieben ausbauen abbauen
    abziehen ablösen entfernen abnehmen abheben herausheben aushängen ausfädeln heraustreiben abtrennen abschneiden
"""
MOVE = "aufklappen hochklappen wegklappen kippen umlegen ablegen wegbiegen festhalten anheben beiseitelegen"
NEITHER = "reinigen aufbewahren beschriften sichern abdecken einsetzen einbauen festschrauben prüfen entsorgen"


@pytest.mark.parametrize(
    ("verb", "change"),
    [
        (verb, change)
        for verbs, change in ((UNDO, "off"), (MOVE, "moved"), (NEITHER, None))
        for verb in verbs.split()
    ],
)
def test_the_usual_verbs_do_what_they_say(verb: str, change: str | None) -> None:
    changes, codes = read(f"Den {{part Deckel}} vorsichtig {verb}")
    assert (changes, codes) == ([] if change is None else [("deckel", change, None)], ())
