"""Energy and limits of batteries."""

from __future__ import annotations

import pytest

from guidec.trade.batteries import cell_limit_c, charge_limit, energy_wh, hazardous_v, transport


@pytest.mark.parametrize(
    ("capacity", "voltage", "energy"),
    [
        (3000, 3.85, 11.55),  # computed from the definition
        (2600, 3.7, 9.62),
        (5000, 18, 90),
        (5000, 12, 60),  # the worked example of IATA's guidance on lithium batteries (from memory)
        (27027, 3.7, 100.0),
    ],
)
def test_energy_is_rated_capacity_times_nominal_voltage(capacity: float, voltage: float, energy: float):
    """UN Model Regulations: watt-hours = Ah x V (published)."""
    assert energy_wh(capacity, voltage) == pytest.approx(energy, abs=0.001)


@pytest.mark.parametrize(
    ("energy", "voltage", "small", "limit"),
    [
        (19.99, 3.85, True, 20),
        (20.0, 3.85, True, 20),
        (20.01, 3.85, None, 20),  # one cell: no; several in parallel: yes
        (100.0, 3.85, None, 20),
        (100.01, 3.85, False, 100),
        (20.01, 7.4, True, 100),
        (100.0, 18, True, 100),
        (100.01, 18, False, 100),
        (15.0, None, True, 20),
        (50.0, None, None, 20),
        (150.0, None, False, 100),
    ],
)
def test_the_limits_of_special_provision_188(
    energy: float, voltage: float | None, small: bool | None, limit: float
):
    """20 Wh a cell, 100 Wh a battery (published); from 4.5 V a battery has several cells (own assumption)."""
    found = transport(energy, voltage)
    assert (found.small, found.limit_wh) == (small, limit)


def test_numbers_of_the_dangerous_goods_list():
    """UN3480 alone, UN3481 with or in equipment; lithium metal 3090 and 3091 (published)."""
    ion, metal = transport(10), transport(10, chemistry="lithium-metal")
    assert (ion.alone, ion.packed) == ("UN3480", "UN3481")
    assert (metal.alone, metal.packed) == ("UN3090", "UN3091")


@pytest.mark.parametrize(
    ("voltage", "found"),
    [
        (4.4, (4.4, 1)),  # charge limits: from memory
        (4.2, (4.2, 1)),
        (4.35, (4.35, 1)),
        (12.6, (4.2, 3)),
        (3.7, None),
        (3.85, None),
        (3.87, None),
        (7.4, None),
        (11.1, None),
        (10.8, None),
        (14.4, None),
        (18, None),
        (12, None),
        (9, None),
        (8.4, None),  # seven nickel cells as well
        (4.5, None),  # three 1.5 V cells as well
        (36, None),
    ],
)
def test_a_charge_limit_typed_as_the_nominal_voltage(voltage: float, found: tuple[float, int] | None):
    assert charge_limit(voltage) == found


def test_other_limits():
    """60 °C: from memory. 60 V: IEC 60204-1, 6.2.4 (published)."""
    assert (cell_limit_c(), hazardous_v()) == (60, 60)
