"""Pumps and motors against worked examples and standard tables."""

import math
from collections.abc import Callable

import fluids.pump
import pytest

from waterpark_designer.engine.curves import curve_through
from waterpark_designer.engine.formulas import pumps, water
from waterpark_designer.engine.pump_curves import (
    AtSpeed,
    GenericCurve,
    InParallel,
    PointsCurve,
    operating_point,
    speed_for_flow,
)
from waterpark_designer.engine.system_curve import EquipmentLoss, Line, SystemCurve
from waterpark_designer.units import DAY, FOOT, GALLON, HORSEPOWER, HOUR, MINUTE, TEMPERATURE

GPM = GALLON / MINUTE
KWH = 3.6e6


def test_power_of_a_thousand_gallons_a_minute() -> None:
    # hp = gpm · ft / 3960 with water at 8.34 lb/gal; 1,000 gpm at 60 ft, pump 0.78, motor 0.93: worked by hand.
    hydraulic = pumps.hydraulic_power(998.9, 1000 * GPM, 60 * FOOT)
    assert hydraulic / HORSEPOWER == pytest.approx(15.15, rel=1e-3)
    shaft = pumps.shaft_power(hydraulic, 0.78)
    assert shaft / HORSEPOWER == pytest.approx(19.43, rel=1e-3)
    assert pumps.electric_power(shaft, 0.93) / 1000 == pytest.approx(15.58, rel=1e-3)
    assert pumps.electric_power(shaft, 0.93, 0.97) == pytest.approx(pumps.electric_power(shaft, 0.93) / 0.97)


def test_suction_head_available() -> None:
    # 85 °F at sea level, 3 ft flooded, 4.5 ft of loss: 34.04 − 1.38 + 3 − 4.5 = 31.16 ft, worked by hand.
    warm = TEMPERATURE.us.to_si(85.0)
    found = pumps.suction_head_available(
        water.atmospheric_pressure(0.0), water.vapour_pressure(warm), water.water_density(warm), 3 * FOOT, 4.5 * FOOT
    )
    assert found / FOOT == pytest.approx(31.16, abs=0.01)


def test_suction_head_falls_with_altitude_and_warmth() -> None:
    def available(altitude: float, fahrenheit: float) -> float:
        warm = TEMPERATURE.us.to_si(fahrenheit)
        return pumps.suction_head_available(
            water.atmospheric_pressure(altitude), water.vapour_pressure(warm), water.water_density(warm), 0.0, 0.0
        )

    # 5,000 ft of altitude take 5.7 ft off sea level's 33.9 ft (handbook tables of barometric head in feet of water).
    assert (available(0.0, 60.0) - available(5000 * FOOT, 60.0)) / FOOT == pytest.approx(5.7, abs=0.1)
    assert available(0.0, 104.0) < available(0.0, 60.0)


@pytest.mark.parametrize(("required", "needed"), [(10.0, 13.0), (30.0, 33.0), (40.0, 44.0)])
def test_margin_on_suction_head(required: float, needed: float) -> None:
    assert pumps.suction_head_needed(required * FOOT) / FOOT == pytest.approx(needed)


@pytest.mark.parametrize("gpm", [50.0, 100.0, 461.0, 1000.0, 3000.0, 5000.0])
def test_efficiency_estimate(gpm: float) -> None:
    assert pumps.pump_efficiency_estimate(gpm * GPM) == pytest.approx(
        fluids.pump.Corripio_pump_efficiency(gpm * GPM), rel=1e-6
    )


def test_efficiency_estimate_of_a_published_example(table: Callable[[str], list[dict[str, str]]]) -> None:
    # 461 gpm is Example 16.5 of Seider, Seader and Lewin (2003), as the fluids library cites it.
    for row in table("pump_efficiency_estimate"):
        found = pumps.pump_efficiency_estimate(float(row["flow_gpm"]) * GPM)
        assert found == pytest.approx(float(row["efficiency"]), abs=5e-4), row


def test_efficiency_estimate_is_cautious_of_small_pumps() -> None:
    assert pumps.pump_efficiency_estimate(20 * GPM).step.cautions()
    assert not pumps.pump_efficiency_estimate(200 * GPM).step.cautions()


def test_generic_curve_passes_through_duty_and_shutoff() -> None:
    shutoff = pumps.shutoff_head(20.0, 1.3)
    curve = GenericCurve(shutoff, 0.03, 20.0)
    assert [curve.head(0.0), curve.head(0.03), curve.head(curve.greatest_flow)] == pytest.approx([26.0, 20.0, 0.0])
    assert pumps.pump_head(0.015, shutoff, 0.03, 20.0) == pytest.approx(curve.head(0.015))
    # Common practice for an end-suction pump: a quarter above the duty head, within 1.15 to 1.4.
    assert pumps.shutoff_head(20.0) == pytest.approx(25.0)
    # An EPANET single-point curve: shutoff 4/3 of the design head, no head at twice the design flow.
    assert GenericCurve(4 / 3 * 20.0, 0.03, 20.0).greatest_flow == pytest.approx(0.06)


def test_affinity_laws() -> None:
    curve, slow = GenericCurve(26.0, 0.03, 20.0), AtSpeed(GenericCurve(26.0, 0.03, 20.0), 0.8)
    flow, head = pumps.flow_at_speed(0.8, 0.03), pumps.head_at_speed(0.8, 20.0)
    assert slow.head(flow) == pytest.approx(head) == pytest.approx(12.8)
    assert slow.greatest_flow == pytest.approx(0.8 * curve.greatest_flow)
    # Half speed takes an eighth of the power.
    assert pumps.power_at_speed(0.5, 8000.0) == pytest.approx(1000.0)


def test_two_like_pumps_share_the_flow() -> None:
    pair = InParallel(GenericCurve(26.0, 0.03, 20.0), 2)
    assert pair.head(0.06) == pytest.approx(20.0)
    assert pumps.flow_of_each_pump(0.06, 2) == pytest.approx(0.03)


def test_operating_point_by_the_closed_form() -> None:
    # 26 − 6 (Q/0.03)² = 5 + 15 (Q/0.03)²: (Q/0.03)² = 1.
    system = SystemCurve(5.0, 1e-6, (EquipmentLoss(15.0, 0.03),))
    found = operating_point(GenericCurve(26.0, 0.03, 20.0), system)
    assert found is not None
    assert (found.flow, found.head) == (pytest.approx(0.03), pytest.approx(20.0))


def test_no_operating_point_is_said_and_not_raised() -> None:
    pump = GenericCurve(26.0, 0.03, 20.0)
    assert operating_point(pump, SystemCurve(30.0, 1e-6, (EquipmentLoss(15.0, 0.03),))) is None
    assert operating_point(pump, SystemCurve(5.0, 1e-6, (EquipmentLoss(15.0, 0.0),))) is None
    assert operating_point(GenericCurve(20.0, 0.03, 20.0), SystemCurve(5.0, 1e-6, ())) is None
    assert operating_point(pump, SystemCurve(5.0, math.nan, (Line(0.1, 10.0, 1e-6),))) is None
    assert operating_point(pump, SystemCurve(5.0, 1e-6, (Line(0.0, 10.0, 1e-6),))) is None


def test_a_users_curve_says_nothing_beyond_its_points() -> None:
    points = curve_through([(0.01, 24.0), (0.02, 22.0), (0.03, 18.0)])
    assert points is not None
    pump = PointsCurve(points)
    inside = operating_point(pump, SystemCurve(0.0, 1e-6, (EquipmentLoss(22.0, 0.02),)))
    assert inside is not None and inside.flow == pytest.approx(0.02)
    assert operating_point(pump, SystemCurve(0.0, 1e-6, (EquipmentLoss(2.0, 0.03),))) is None
    assert operating_point(pump, SystemCurve(0.0, 1e-6, (EquipmentLoss(60.0, 0.01),))) is None


def test_speed_follows_friction_only() -> None:
    pump = GenericCurve(26.0, 0.03, 20.0)
    friction_only = SystemCurve(0.0, 1e-6, (EquipmentLoss(20.0, 0.03),))
    with_static = SystemCurve(8.0, 1e-6, (EquipmentLoss(12.0, 0.03),))
    assert speed_for_flow(pump, friction_only, 0.021) == pytest.approx(0.7)
    # 26 r² − 6 · 0.49 = 8 + 12 · 0.49.
    assert speed_for_flow(pump, with_static, 0.021) == pytest.approx(((8 + 18 * 0.49) / 26) ** 0.5)
    assert speed_for_flow(pump, with_static, 0.031) is None
    assert speed_for_flow(pump, with_static, 0.0) is None


def test_energy_and_its_cost() -> None:
    # 10 kW for 16 h is 160 kWh a day, 14,400 kWh in 90 days, 1,728 at 0.12.
    day = pumps.energy_a_day(10_000.0, 16 * HOUR)
    assert day / KWH == pytest.approx(160.0)
    season = pumps.energy_of_season(day, 90 * DAY)
    assert season / KWH == pytest.approx(14_400.0)
    assert pumps.energy_cost(season, 0.12 / KWH) == pytest.approx(1728.0)
    assert pumps.energy_saved_a_day(10_000.0, 4000.0, 8 * HOUR) / KWH == pytest.approx(48.0)


def test_motor_to_carry_the_shaft() -> None:
    assert pumps.motor_rating_needed(19.43 * HORSEPOWER) / HORSEPOWER == pytest.approx(19.43)
    assert pumps.motor_rating_needed(23.0 * HORSEPOWER, 1.15) / HORSEPOWER == pytest.approx(20.0)
