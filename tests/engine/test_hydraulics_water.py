"""Properties of water and air against tables computed from the reference equations elsewhere."""

import math
from collections.abc import Callable
from typing import Any

import pytest

from waterpark_designer.engine.formulas import water
from waterpark_designer.units import TEMPERATURE

Table = Callable[[str], list[dict[str, str]]]


@pytest.mark.parametrize(
    ("name", "column", "unit", "tolerance"),
    [
        ("water_density", "rho_kgm3", 1.0, 1e-5),
        ("water_viscosity", "mu_mPas", 1e-3, 1e-4),
        ("vapour_pressure", "pv_kPa", 1e3, 1e-4),
    ],
)
def test_water_by_temperature(table: Table, name: str, column: str, unit: float, tolerance: float) -> None:
    # CoolProp 8.0.0, 35 to 110 °F.
    rows = table(name)
    assert len(rows) == 16
    for row in rows:
        found = getattr(water, name)(TEMPERATURE.us.to_si(float(row["temperature_F"])))
        assert found == pytest.approx(float(row[column]) * unit, rel=tolerance), row


@pytest.mark.parametrize("name", ["water_density", "water_viscosity", "vapour_pressure", "atmospheric_pressure"])
def test_the_printed_equation_is_whole(name: str) -> None:
    """Whoever puts the number into the equation as it is printed gets what the program got."""
    formula = getattr(water, name)
    [symbol] = formula.formula.symbols.values()
    value = 300.15 if symbol == "T" else 640.0
    right = formula.formula.equation.partition("=")[2]
    for printed, meant in (("·", "*"), ("^", "**"), ("−", "-"), ("²", "**2"), ("³", "**3")):
        right = right.replace(printed, meant)
    assert eval(right, {"exp": math.exp, symbol: value}) == pytest.approx(float(formula(value)), rel=1e-6)


def test_air_by_altitude(table: Table) -> None:
    for row in table("atmospheric_pressure"):
        found = water.atmospheric_pressure(float(row["altitude_m"]))
        assert found == pytest.approx(float(row["pressure_Pa"]), rel=3e-4), row


def test_kinematic_viscosity() -> None:
    # CoolProp 8.0.0 at 27 °C: 996.516 kg/m³, 8.53881e-7 m²/s.
    warm = 300.15
    found = water.kinematic_viscosity(water.water_viscosity(warm), water.water_density(warm))
    assert found == pytest.approx(8.53881e-7, rel=1e-3)


@pytest.mark.parametrize("celsius, cautioned", [(27.0, 0), (120.0, 1), (-5.0, 1)])
def test_outside_liquid_water_a_caution_is_given(celsius: float, cautioned: int) -> None:
    found: Any = water.water_density(celsius + 273.15)
    assert len(found.step.cautions()) == cautioned
