"""Plastics marks, totals of mass, and what must come out first."""

from __future__ import annotations

import pytest

from guidec.trade.depollution import depollution, depollution_source
from guidec.trade.load import data
from guidec.trade.plastics import function_of, is_attacked, read_mark, totals


@pytest.mark.parametrize(
    ("mark", "polymers", "fillers"),
    [
        (">ABS<", ("ABS",), ()),
        (">ABS+PC<", ("ABS", "PC"), ()),
        ("PC/ABS", ("PC", "ABS"), ()),
        ("abs", ("ABS",), ()),
        (">PA66-GF30<", ("PA66",), (("glass", "fibre", 30),)),
        (">PA 66-GF 30<".replace(" ", ""), ("PA66",), (("glass", "fibre", 30),)),
        (">PP-TD20<", ("PP",), (("talc", "powder", 20),)),
        (">PA66-(GF25+MD15)<", ("PA66",), (("glass", "fibre", 25), ("mineral", "powder", 15))),
        (">PE-HD<", ("PE-HD",), ()),
        (">PVC-P(DEHP)<", ("PVC",), ()),
        (">PC+ABS-FR(40)<", ("PC", "ABS"), ()),
        ("PC-ABS", ("PC", "ABS"), ()),
        ("POM-C", ("POM",), ()),
        ("ABS V0", ("ABS",), ()),
        ("PA6 GF30", ("PA6",), (("glass", "fibre", 30),)),
        ("HDPE", ("HDPE",), ()),
    ],
)
def test_marks_are_read(mark: str, polymers: tuple[str, ...], fillers: tuple[tuple[str, str, int], ...]):
    """ISO 11469 with the symbols of ISO 1043 (from memory); the last three follow the standard's own pattern."""
    found = read_mark(mark)
    assert found.polymers == polymers
    assert tuple((each.substance, each.form, each.percent) for each in found.fillers) == fillers
    assert found.unknown == ()


@pytest.mark.parametrize(
    "text",
    [
        "steel",
        "aluminium 5052",
        "PCB",
        "FR4",
        "polycarbonate",
        "SUS304",
        "brass",
        "glass",
        "BRASS",
        "STEEL",
        "A2-70",
        "",
    ],
)
def test_words_are_no_marks(text: str):
    assert read_mark(text) is None


@pytest.mark.parametrize("mark", [">ABBS<", "ABBS", ">ABS+ABBS<"])
def test_an_unknown_symbol_is_told_with_the_nearest(mark: str):
    symbol, near = read_mark(mark).unknown[0]
    assert (symbol, near[0]) == ("ABBS", "ABS")


@pytest.mark.parametrize(
    ("number", "brominated"),
    [(14, True), (17, True), (22, True), (42, True), (13, False), (23, False), (40, False)],
)
def test_flame_retardants_with_bromine(number: int, brominated: bool):
    """ISO 1043-4 code numbers (from memory)."""
    found = read_mark(f">ABS-FR({number})<")
    assert found.flame_retarded
    assert found.brominated is brominated


def test_a_flame_retardant_without_a_number_is_not_called_brominated():
    found = read_mark(">ABS-FR<")
    assert (found.flame_retarded, found.brominated) == (True, False)


@pytest.mark.parametrize(
    ("material", "attacked"), [(">ABS+PC<", True), ("PC", True), (">PA66-GF30<", False), ("steel", False)]
)
def test_what_a_solvent_attacks(material: str, attacked: bool):
    assert is_attacked(material, ("ABS", "PC")) is attacked


@pytest.mark.parametrize(
    ("material", "language", "function"),
    [
        (">ABS<", "en", "plastic"),
        ("nylon", "en", "plastic"),
        ("stainless steel", "en", "metal"),
        ("Aluminium", "de", "metal"),
        ("tempered glass", "en", "glass and ceramic"),
        ("silicone rubber", "en", "rubber"),
        ("FR4", "en", "composite"),
        ("moon dust", "en", "other"),
    ],
)
def test_what_a_material_is_in_the_large(material: str, language: str, function: str):
    assert function_of(material, language) == function


def test_totals_lose_no_gram():
    rows = [(">ABS<", 10.0, 12.0, 2), ("ABS", 1.0, 1.0, 1), ("steel", 30.0, 30.0, 1), (None, 5.0, 5.0, 3)]
    found = totals(rows)
    assert [(each.material, each.low_g, each.high_g, each.parts) for each in found] == [
        ("steel", 30.0, 30.0, 1),
        ("ABS", 21.0, 25.0, 3),
        ("", 15.0, 15.0, 3),
    ]
    assert sum(each.low_g for each in found) == sum(low * count for _, low, _, count in rows)
    assert found[2].function == ""


# ---------------------------------------------------------------- Directive 2012/19/EU, Annex VII (published)


@pytest.mark.parametrize(
    ("name", "cls", "ids"),
    [
        ("battery pack", "battery", ["battery"]),
        ("battery cover", "cover", []),
        ("battery holder", None, []),
        ("battery lead", None, []),
        ("main board", "board", ["board"]),
        ("display", "display", ["display"]),
        ("OLED display", "display", []),
        ("display flex", "cable", []),
        ("mains lead", "cable", ["external-cable"]),
        ("smoothing capacitor", None, ["electrolytic-capacitor"]),
        ("toner cartridge", None, ["toner"]),
        ("CCFL", None, ["mercury", "gas-discharge-lamp"]),
        ("picture tube", None, ["picture-tube"]),
        ("compressor", None, ["refrigerant"]),
        ("front housing", None, []),
        ("motor", "motor", []),
    ],
)
def test_parts_fall_under_the_items_of_the_annex(name: str, cls: str | None, ids: list[str]):
    assert [each.id for each in depollution(name, cls)] == ids


@pytest.mark.parametrize(
    ("area", "listed", "condition"), [(None, True, "if over 10 cm²"), (10.0, False, ""), (10.01, True, "")]
)
def test_boards_count_above_10_square_centimetres(area: float | None, listed: bool, condition: str):
    found = depollution("main board", "board", area_cm2=area)
    assert bool(found) is listed
    assert not found or found[0].condition == condition


@pytest.mark.parametrize(("area", "listed"), [(100.0, False), (100.01, True)])
def test_displays_count_above_100_square_centimetres(area: float, listed: bool):
    assert bool(depollution("display", "display", area_cm2=area)) is listed


def test_the_board_of_a_phone_counts_whatever_its_size():
    assert depollution("main board", "board", subject_kind="smartphone")[0].condition == ""


def test_brominated_plastic_is_told_by_its_mark():
    assert [each.id for each in depollution("lid", "cover", material=">ABS-FR(17)<")] == ["brominated-plastic"]
    assert depollution("lid", "cover", material=">ABS-FR(40)<") == ()


def test_german_words():
    found = depollution("Elko", None, language="de")
    assert found[0].item.startswith("Elektrolytkondensatoren")


def test_every_item_of_the_annex_has_a_row():
    """Annex VII, point 1, has fifteen kinds that are kept here (two of lamps and displays run together)."""
    assert len(data("depollution")["rows"]) == 15
    assert "2012/19/EU" in depollution_source()
