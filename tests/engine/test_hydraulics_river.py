"""The river's momentum balance against a table worked by hand in US units, and its published field result."""

from collections.abc import Callable

import pytest

from waterpark_designer.engine.formulas import river
from waterpark_designer.units import FOOT, GALLON, HORSEPOWER, MINUTE, POUND_FORCE

Table = Callable[[str], list[dict[str, str]]]
CUBIC_FEET = FOOT**3
DENSITY = 62.2 * POUND_FORCE / 9.80665 / FOOT**3
"""62.2 lbf/ft³ [kg/m³]."""
CLOSE = 1e-3


def test_thrust_table(table: Table) -> None:
    rows = table("river_thrust")
    assert len(rows) == 10
    for row in rows:
        speed, jet = float(row["U_fps"]) * FOOT, float(row["Vj_fps"]) * FOOT
        width, depth = float(row["width_ft"]) * FOOT, float(row["depth_ft"]) * FOOT
        area = river.channel_area(width, depth)
        radius = river.hydraulic_radius(area, river.wetted_perimeter(width, depth))
        slope = river.friction_slope(float(row["n_Manning"]), speed, radius)
        head = river.channel_loss(slope, float(row["L_ft"]) * FOOT)
        walls = river.wall_resistance(DENSITY, area, head)
        people = river.people_drag(float(row["standing_persons"]), DENSITY, speed)
        thrust = river.jet_thrust(walls, people)
        flow = river.jet_flow(thrust, DENSITY, jet, speed)
        power, useful = river.jet_power(DENSITY, flow, jet), river.useful_power(thrust, speed)
        found = {
            "A_ft2": area / FOOT**2,
            "R_ft": radius / FOOT,
            "Sf": slope,
            "hf_ft": head / FOOT,
            "F_wall_lbf": walls / POUND_FORCE,
            "F_person_lbf": people / POUND_FORCE,
            "thrust_lbf": thrust / POUND_FORCE,
            "useful_hp": useful / HORSEPOWER,
            "Q_cfs": flow / CUBIC_FEET,
            "Q_gpm": flow / GALLON * MINUTE,
            "jet_hp": power / HORSEPOWER,
            "propulsive_eff": river.propulsive_efficiency(useful, power),
        }
        for column, value in found.items():
            assert value == pytest.approx(float(row[column]), rel=CLOSE), column


def test_manning_by_its_us_form(table: Table) -> None:
    for row in table("friction_slope"):
        found = river.friction_slope(
            float(row["manning"]), float(row["current_fps"]) * FOOT, float(row["hydraulic_radius_ft"]) * FOOT
        )
        assert found == pytest.approx(float(row["slope"]), rel=CLOSE)


def test_field_result_is_the_default_roughness() -> None:
    # McEnroe (2006), abstract: n = 0.015 for all losses matched field tests of three rivers.
    assert river.RIVER_MANNING == 0.015


def test_least_power_at_twice_the_current() -> None:
    def power(jet: float) -> float:
        return river.jet_power(DENSITY, river.jet_flow(1000.0, DENSITY, jet, 0.8, 0.9), jet)

    best = river.jet_speed_of_least_power(0.8, 0.9)
    assert best == pytest.approx(2 * 0.8 / 0.9)
    assert power(best) < min(power(best * 0.98), power(best * 1.02))
    useful = river.useful_power(1000.0, 0.8)
    square_on = river.jet_power(DENSITY, river.jet_flow(1000.0, DENSITY, 1.6, 0.8), 1.6)
    assert river.propulsive_efficiency(useful, square_on) == pytest.approx(0.5)


def test_bore_and_head_of_jets() -> None:
    # 5,728 gpm at 15 ft/s in 16 jets: 3.13 in each by d = sqrt(0.4085 gpm / v).
    flow, jet = 5728 * GALLON / MINUTE, 15 * FOOT
    assert river.jet_bore(flow, 16, jet) / 0.0254 == pytest.approx((0.4085 * 5728 / 16 / 15) ** 0.5, rel=1e-3)
    # v²/2g: 15² / 64.35 = 3.497 ft, a tenth more with a nozzle that gives 0.953 of it.
    assert river.jet_head(jet) / FOOT == pytest.approx(3.497, abs=1e-3)
    assert river.jet_head(jet, 0.953) / FOOT == pytest.approx(3.497 / 0.953**2, rel=1e-3)
