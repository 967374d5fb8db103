"""Lines and names that were meant otherwise: one message for each slip, with a way out that helps."""

from __future__ import annotations

from textwrap import dedent

import pytest

from guidec import checks
from guidec.model import build
from guidec.notes import read
from guidec.plan import graph
from guidec.rules.book import wording
from guidec.rules.finding import Finding
from guidec.source import Source


def found(text: str, *, checked: bool = False) -> list[Finding]:
    document, first = read(Source.of("note.md", dedent(text)))
    guide, second = build(document)
    third = checks.run(guide, graph(guide)) if checked else ()
    return [*first, *second, *third]


def only(text: str, code: str) -> Finding:
    (finding,) = found(text)
    assert finding.code == code
    return finding


def work(line: str) -> str:
    return f"# Lamp\n\n## Open\n\n1. {line}\n"


def test_a_verb_behind_its_object_is_asked_to_the_front_and_is_not_suggested_for_itself() -> None:
    finding = only(work("{screw A: 2x PH1 M3x8} undo."), "M201")
    assert finding.variant == "late"
    assert finding.suggestions == ()


@pytest.mark.parametrize(
    ("line", "verb"),
    [
        ("{connector Stecker: plug} lässt sich ziehen.", "ziehen"),
        ("{part Deckel} kann man vorsichtig abnehmen.", "abnehmen"),
        ("{part Deckel} muss jetzt abgenommen werden.", "abgenommen"),
    ],
)
def test_a_german_verb_that_is_told_of_is_named_and_asked_for(line: str, verb: str) -> None:
    text = "---\nlanguage: de\n---\n\n" + work(line)
    finding = only(text, "M201")
    assert finding.variant == "told"
    assert "`… abnehmen`" in wording(finding).help
    assert text[finding.span.start : finding.span.end] == verb


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("Unscrwe {screw A: 2x PH1 M3x8}.", "M201"),
        ("With a card, release {clip rim: 2x}.", "M201"),
        ("Pull {part knob}; unplug {connector lead: plug}.", "M202"),
        ("Unplug all: {connector lead: plug}.", "M202"),
    ],
)
def test_what_a_doubted_line_names_is_not_said_to_be_never_undone(line: str, code: str) -> None:
    only(work(line), code)


def test_a_set_that_no_line_doubts_is_still_said_to_be_never_undone() -> None:
    only(work("Lift off {part lid}.") + "\nOf {screw A: 2x PH1 M3x8} more.\n", "M204")


def test_a_language_without_a_lexicon_is_one_message() -> None:
    text = "---\nlanguage: is\nisolate: A\n---\n\n" + work("Losa {screw A: 2x PH1 M3x8} og {part lok}.")
    assert [finding.code for finding in found(text, checked=True)] == ["M209"]


def test_a_key_behind_a_comma_is_told_from_a_name() -> None:
    finding = only(work("Unplug {connector lead: plug; from=wall, to=wall}."), "M113")
    assert finding.variant == "key"
    assert "; to=wall" in (wording(finding).help or "")


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("WARN", "WARNING"), ("Attention", "CAUTION"), ("DANGR", "DANGER"), ("caution", "CAUTION")],
)
def test_a_signal_word_in_other_words_or_letters_is_asked_for(typed: str, meant: str) -> None:
    finding = only(f"# Lamp\n\n## Open\n\n> {typed}: Hot inside.\n\n1. Wait.\n", "M212")
    assert finding.suggestions == (meant,)


@pytest.mark.parametrize("typed", ["NOTE", "Note", "Tip", "Source"])
def test_a_plain_note_is_no_hazard(typed: str) -> None:
    assert found(f"# Lamp\n\n## Open\n\n> {typed}: the lid is blue.\n\n1. Wait.\n") == []


def test_an_operation_is_suggested_by_its_title_and_once() -> None:
    rest = "\n## Rear panel\n\n1. Wait.\n\n## Last {after operation Raer panel}\n\n1. Wait.\n"
    assert only(work("Lift off {part lid}.") + rest, "M301").suggestions == ("Rear panel",)


def test_two_numbers_without_a_comma_are_one_slip_of_a_pin() -> None:
    text = "# Lamp\n\n## Open\n\n![Lid](lid.jpg)\n{pin 20 40: lid}\n\n1. Lift off {part lid}.\n"
    finding = only(text, "N106")
    assert finding.suggestions == ("20,40",)
    assert text[finding.span.start : finding.span.end] == "20 40"


def test_a_markdown_table_in_the_front_matter_is_one_message() -> None:
    table = "parts:\n| name | details |\n|---|---|\n| cell | 2 Ah |\n"
    assert only(f"---\npower: battery\n{table}---\n\n" + work("Wait."), "N011").variant == "table"


def test_a_driver_declared_for_one_set_is_not_held_against_another_in_its_line() -> None:
    text = """
        ---
        tools:
          insulated screwdriver: {details: PH2}
        ---

        # Supply

        ## Fan

        1. Undo {screw F: 4x PH2 M4x10} and the nuts {screw N: 4x NUT7 M4x5}.
        2. Lift out {part fan}.
    """.strip("\n")
    quiet = found(dedent(text), checked=True)
    assert "T105" not in [finding.code for finding in quiet]


HEAT = "Heat the rim {} to soften {{adhesive rim: tape}}."


@pytest.mark.parametrize(
    ("typed", "mark"),
    [
        ("60C, 2 mins", "{heat 60C, 2 mins}"),
        ("to 140 °F", "{heat 140 °F}"),
        ("for 2 min at 60 °C", "{heat 60 °C}"),
    ],
)
def test_a_temperature_in_plain_text_is_asked_to_be_marked(typed: str, mark: str) -> None:
    (finding,) = [one for one in found(work(HEAT.format(typed)), checked=True) if one.code == "T201"]
    assert (finding.variant, finding.suggestions) == ("plain", (mark,))


def test_things_may_be_joined_with_a_plus() -> None:
    assert found(work("Undo {screw M: 4x PH0 M2x6} + {screw N: 2x PH0 M2x6}.")) == []


def test_the_kind_of_head_among_the_details_is_suggested_as_a_key() -> None:
    assert only(work("Undo {screw M: 6x H2 M3x8 csk}."), "M121").suggestions == ("head=csk",)


@pytest.mark.parametrize(("typed", "meant"), [("buttom", "bottom"), ("bakc", "back"), ("lfet", "left")])
def test_a_side_that_is_nearly_a_usual_one_is_asked_about(typed: str, meant: str) -> None:
    assert only(work(f"Turn over {{side {typed}}}."), "M213").suggestions == (meant,)
    heading = f"# Lamp\n\n## Open {{side {typed}}}\n\n1. Lift off {{part lid}}.\n"
    assert only(heading, "M213").suggestions == (meant,)


@pytest.mark.parametrize("side", ["base", "lid side", "rear", "top"])
def test_a_side_with_a_name_of_its_own_is_fine(side: str) -> None:
    assert found(work(f"Turn over {{side {side}}}.")) == []


@pytest.mark.parametrize("mark", ["wait 5 min; x=y", "torque 0.2 N·m; tool=PH0", "measure <5 V; across=C1"])
def test_a_value_with_keys_is_told_that_it_takes_none(mark: str) -> None:
    finding = only(work(f"Check the lamp {{{mark}}}."), "M110")
    assert finding.variant == "value"


def test_a_refit_note_with_a_key_is_told_to_take_a_mark_instead() -> None:
    text = work("Undo {screw A: 2x PH1 M3x8} {refit tighten; torque=0.5 N·m}.")
    finding = only(text, "M110")
    assert text[finding.span.start : finding.span.end] == "torque"
    assert found(work("Undo {screw A: 2x PH1 M3x8} {refit seat the {part gasket; class=other}}.")) == []


@pytest.mark.parametrize(
    "typed", ["WARNING hot inside", "**CAUTION** hot", "Warning\n> hot inside", "DANGER - mains"]
)
def test_a_signal_word_without_a_colon_is_pointed_out(typed: str) -> None:
    finding = only(f"# Lamp\n\n## Open\n\n> {typed}\n\n1. Wait.\n", "M212")
    assert finding.variant == "colon"


@pytest.mark.parametrize("typed", ["Caution is all it takes here", "A warning: none", "Notice the hinge"])
def test_a_sentence_with_such_a_word_is_a_plain_quote(typed: str) -> None:
    assert found(f"# Lamp\n\n## Open\n\n> {typed}\n\n1. Wait.\n") == []


def test_what_a_doubted_line_may_do_is_not_missed_elsewhere() -> None:
    text = work("With a card, pry off {part lid}.") + "2. Lift out {part board; under=lid}.\n"
    assert [finding.code for finding in found(text, checked=True)] == ["M201"]


def test_a_silenced_doubt_leaves_the_error_that_follows() -> None:
    text = work("With a card, pry off {part lid}.") + "2. Lift out {part board; under=lid}.\n"
    quiet = "---\nquiet: {M201: it is a remark}\n---\n"
    assert "M304" in [finding.code for finding in found(quiet + text)]


def test_a_count_that_two_places_disagree_on_is_one_message() -> None:
    text = work("Undo {screw A: 4x PH0 M2x6}.") + "2. Undo {screw A: 5x PH0 M2x6}.\n"
    assert [finding.code for finding in found(text)] == ["M103"]


def test_an_operation_is_suggested_as_its_heading_has_it() -> None:
    rest = "\n## Lift the Lid {after opne}\n\n1. Wait.\n\n## Cut {instead of lift teh lid}\n\n1. Wait.\n"
    suggestions = [finding.suggestions for finding in found(work("Wait.") + rest)]
    assert suggestions == [("Open",), ("Lift the Lid",)]


def test_a_thing_put_back_on_the_way_in_is_pointed_out() -> None:
    text = work("Unplug {connector lead: plug}.") + "2. Reconnect {lead}.\n"
    (finding,) = found(text, checked=True)
    assert finding.code == "M207"
    assert found(text.replace("2. Rec", "\n## Last {refit only}\n\n1. Rec"), checked=True) == []


@pytest.mark.parametrize("verb", ["Attach", "Reconnect", "Tighten", "Install", "Replace", "Fasten", "Plug in"])
def test_a_verb_that_puts_together_is_known_and_not_taken_for_its_opposite(verb: str) -> None:
    assert found(work(f"{verb} {{part lid}}.")) == []


@pytest.mark.parametrize(
    ("line", "off"),
    [
        ("Warm {part lid} {heat 60 °C, 1 min} and lift it off.", True),
        ("Warm {part lid} {heat 60 °C, 1 min} and pry off with a card.", True),
        ("Hold {part lid} and pull.", False),
        ("Warm {part lid} {heat 60 °C, 1 min} and pry off the tape.", False),
    ],
)
def test_an_action_without_an_object_goes_on_with_the_one_before(line: str, off: bool) -> None:
    document, _ = read(Source.of("note.md", work(line)))
    guide, _ = build(document)
    effects = {(one.id, one.change.value) for action in guide.actions.values() for one in action.effects}
    assert (("lid", "off") in effects) is off


@pytest.mark.parametrize(
    ("text", "verb"),
    [
        ("Step 1. Warm the rim.\nStep 2: Pry off {part lid}.", "Pry"),
        ("a) Unplug {connector lead: plug}\nb) lift out {part lid}", "Unplug"),
        ("Then lift off {part lid}.", "lift"),
    ],
)
def test_a_paragraph_that_reads_like_an_action_is_pointed_out_once(text: str, verb: str) -> None:
    whole = f"# Lamp\n\n## Open\n\n{text}\n\n1. Wait.\n"
    findings = found(whole, checked=True)
    assert [(one.code, one.variant) for one in findings] == [("M201", "paragraph")]
    assert whole[findings[0].span.start : findings[0].span.end] == verb


@pytest.mark.parametrize(
    "text", ["The {part lid} is glued.", "I removed {part lid}, it was loose.", "Note {part lid}."]
)
def test_a_paragraph_that_tells_is_left_alone(text: str) -> None:
    assert found(f"# Lamp\n\n## Open\n\n{text}\n\n1. Lift off {{part lid}}.\n") == []


def test_steps_in_a_table_are_pointed_out_once() -> None:
    table = "| 1 | Undo {screw A: 2x PH1 M3x8} |\n|---|---|\n| 2 | Lift off {part lid} |\n"
    assert only(f"# Lamp\n\n## Open\n\n{table}\n1. Wait.\n", "M201").variant == "table"


def test_lists_under_headings_of_another_level_are_one_message_each() -> None:
    text = "# Lamp\n\n### Open\n\n1. Undo {screw A: 2x PH1 M3x8}.\n2. Lift off {part lid}.\n"
    assert only(text, "M211").variant == "level"


@pytest.mark.parametrize("line", ["**Warning:** hot inside.", "WARNING: hot inside.", "⚠️ Caution: it is sharp."])
def test_a_hazard_that_is_no_quote_is_asked_to_be_one(line: str) -> None:
    assert only(f"# Lamp\n\n## Open\n\n{line}\n\n1. Wait.\n", "M212").variant == "quote"
    assert only(f"# Lamp\n\n## Open\n\n- {line}\n- Wait.\n", "M212").variant == "quote"


@pytest.mark.parametrize("line", ["Note: the lid is blue.", "Notice: it clicks.", "Danger is not far: hot."])
def test_a_plain_sentence_is_asked_for_no_quote(line: str) -> None:
    assert found(f"# Lamp\n\n## Open\n\n{line}\n\n1. Wait.\n") == []


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("4x PH0 M2x6", "{screw A: 4x PH0 M2x6}"), ("PH1 M3x8", "{screw A: PH1 M3x8}")],
)
def test_details_where_a_name_is_due_are_pointed_out(typed: str, meant: str) -> None:
    assert only(work(f"Undo {{screw {typed}}}."), "M123").suggestions == (meant,)


@pytest.mark.parametrize("name", ["A", "T5 screws", "M2x6", "4 corner screws", "back cover"])
def test_a_name_that_only_recalls_details_is_fine(name: str) -> None:
    assert found(work(f"Undo {{screw {name}}}.")) == []


@pytest.mark.parametrize(
    "line",
    [
        "Lift off {part lid}; do not tear {part cable}.",
        "Lift off {part lid}, never pull {part cable}.",
        "Roll {part lid} off the {part pulley}.",
    ],
)
def test_what_is_denied_or_governed_is_not_said_to_stand_free(line: str) -> None:
    assert found(work(line)) == []


def test_it_is_the_part_where_several_screws_were_undone() -> None:
    document, _ = read(
        Source.of("note.md", work("Undo {screw A: 4x PH1 M3x8} that hold {part lid}, then lift it off."))
    )
    guide, _ = build(document)
    assert [one.id for action in guide.actions.values() for one in action.effects] == ["a", "lid"]


@pytest.mark.parametrize(("language", "word"), [("en", "Frobnicate"), ("en", "Wangle"), ("de", "herauszaubern")])
def test_a_verb_that_the_lexicon_lacks_is_named_where_it_stands(language: str, word: str) -> None:
    line = f"{word} the {{part tray}}." if language == "en" else f"{{part Lade}} {word}."
    text = f"---\nlanguage: {language}\n---\n\n" + work(line)
    finding = only(text, "M201")
    assert (finding.variant, finding.suggestions) == ("unknown", ())
    assert text[finding.span.start : finding.span.end] == word


@pytest.mark.parametrize("line", ["never pull {part x}", "More {part x} here", "Those {part x} here"])
def test_a_word_that_only_looks_like_a_verb_is_not_taken_for_one(line: str) -> None:
    assert all(one.suggestions == () for one in found(work(line)))


@pytest.mark.parametrize(
    ("language", "line"),
    [
        ("en", "Heave out {part x}."),
        ("en", "Spudge off {part x}."),
        ("en", "Eject {part x}."),
        ("en", "Wiggle {part x} out."),
        ("de", "{part x} rausfummeln."),
        ("de", "{part x} herausruckeln."),
    ],
)
def test_more_verbs_of_the_bench(language: str, line: str) -> None:
    document, _ = read(Source.of("n.md", f"---\nlanguage: {language}\n---\n\n" + work(line)))
    guide, _ = build(document)
    assert [[effect.change for effect in one.effects] for one in guide.actions.values()] == [["off"]]


@pytest.mark.parametrize(
    ("typed", "first"),
    [
        ("{screws: 4x PH2 3x12}", "{screw screws: 4x PH2 3x12}"),
        ("{heater leads: solder}", "{solder heater leads: solder}"),
        ("{partt cover: steel}", "{part cover: steel}"),
    ],
)
def test_the_likeliest_kind_is_offered_first(typed: str, first: str) -> None:
    (finding,) = [one for one in found(work(f"Undo {typed}.")) if one.code == "M101"]
    assert finding.suggestions[0] == first
