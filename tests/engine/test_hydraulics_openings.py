"""Skimmers, drains, inlets, strainers, gravity lines and tanks against codes' own words and worked examples."""

import pytest

from waterpark_designer.engine.formulas import flow_features, openings, pipes
from waterpark_designer.engine.system_curve import Line, gravity_flow
from waterpark_designer.units import FOOT, GALLON, INCH, MINUTE

GPM = GALLON / MINUTE


@pytest.mark.parametrize(("square_feet", "count"), [(400.0, 1), (401.0, 2), (2000.0, 5)])
def test_a_skimmer_for_each_400_square_feet_or_fraction(square_feet: float, count: int) -> None:
    # Oregon OAR 333-060-0505(3)(a).
    assert openings.skimmers_by_area(square_feet * FOOT**2, 400 * FOOT**2) == count


def test_skimmers_by_flow() -> None:
    # Oregon OAR 333-060-0505(1)(b): 70 % of the flow through skimmers of 30 to 45 gpm each.
    surface = pipes.part_of_flow(180 * GPM, 0.7)
    assert openings.skimmers_by_flow(surface, 45 * GPM) == 3
    assert openings.skimmers_by_flow(surface, 30 * GPM) == 5


def test_inlets_by_area_and_perimeter() -> None:
    # Georgia 511-3-5-.10(1): one for 300 ft² or 20 ft of perimeter.
    assert openings.inlets_by_area(1800 * FOOT**2, 300 * FOOT**2) == 6
    assert openings.inlets_by_perimeter(180 * FOOT, 20 * FOOT) == 9


def test_outlets_carry_the_flow_with_one_blocked() -> None:
    assert openings.flow_of_each(600 * GPM, 3) / GPM == pytest.approx(200.0)
    assert openings.outlet_flow_one_blocked(600 * GPM, 3) / GPM == pytest.approx(300.0)
    assert openings.outlet_flow_one_blocked(600 * GPM, 2) / GPM == pytest.approx(600.0)


def test_grate_area_and_approach_velocity() -> None:
    # gpm = 3.117 · in² · ft/s, the trade's own constant: 300 gpm at 1.5 ft/s needs 64.2 in².
    area = openings.open_area_needed(300 * GPM, 1.5 * FOOT)
    assert area / INCH**2 == pytest.approx(300 / 3.117 / 1.5, rel=1e-3)
    assert openings.approach_velocity(300 * GPM, area) / FOOT == pytest.approx(1.5)


def test_inlet_velocity() -> None:
    # v = 0.4085 gpm / d²: 25 gpm through 3/4 in is 18.2 ft/s.
    assert openings.inlet_velocity(25 * GPM, 0.75 * INCH) / FOOT == pytest.approx(0.4085 * 25 / 0.75**2, rel=1e-3)


def test_strainer_and_meter() -> None:
    # Four times a 6.031 in bore: the area of a bore twice as wide.
    assert openings.strainer_free_area(6.031 * INCH) / INCH**2 == pytest.approx(3.14159 * 6.031**2, rel=1e-5)
    assert openings.flow_meter_range(400 * GPM) / GPM == pytest.approx(600.0)


@pytest.mark.parametrize(("feet", "gpm"), [(0.5, 1186.0), (1.0, 1678.0)])
def test_balance_line_by_available_head(feet: float, gpm: float) -> None:
    # 12 in Schedule 40 (11.938 in), 40 ft, two elbows of K 0.39, K 0.5 + 1.0, f 0.0125: worked by hand.
    coefficient = openings.line_loss_coefficient(2 * 0.39 + 1.5, 0.0125, 40 * FOOT, 11.938 * INCH)
    assert coefficient == pytest.approx(2.783, abs=1e-3)
    velocity = openings.gravity_velocity(feet * FOOT, coefficient)
    assert openings.line_capacity(11.938 * INCH, velocity) / GPM == pytest.approx(gpm, rel=1e-3)
    solved = gravity_flow(Line(11.938 * INCH, 40 * FOOT, 1.5e-6, 2 * 0.39 + 1.5), feet * FOOT, 8.53881e-7)
    # Friction follows the flow here: 0.0140 and 0.0132 in place of the example's 0.0125.
    assert solved is not None and solved / GPM == pytest.approx(gpm, rel=1.2e-2)


def test_gravity_line_without_head_or_resistance() -> None:
    line = Line(0.2, 10.0, 1.5e-6, 1.5)
    assert gravity_flow(line, 0.0, 1e-6) == 0.0
    assert gravity_flow(line, -1.0, 1e-6) is None
    assert gravity_flow(Line(0.2, 0.0, 1.5e-6, 0.0), 1.0, 1e-6) is None


@pytest.mark.parametrize(("gpm_per_foot", "inches"), [(5.0, 0.268), (20.0, 0.676)])
def test_depth_over_a_gutters_lip(gpm_per_foot: float, inches: float) -> None:
    # Francis inverted by hand: H = (q / 3.33)^(2/3) in feet.
    per_length = flow_features.flow_per_length(gpm_per_foot * GPM * 100, 100 * FOOT)
    assert flow_features.weir_head(per_length) / INCH == pytest.approx(inches, abs=1e-3)


def test_surge_volumes() -> None:
    # 75 L a bather; a gallon to the square foot; 300 ft of gutter at 12 in²; a film of 0.268 in on 5,000 ft².
    assert openings.bather_displacement(400) == pytest.approx(30.0)
    assert openings.surge_by_area(5000 * FOOT**2) / GALLON == pytest.approx(5000.0)
    assert openings.water_in_gutters(300 * FOOT, 12 * INCH**2) / GALLON == pytest.approx(300 * 12 * 12 / 231, rel=1e-9)
    assert openings.water_above_rim(5000 * FOOT**2, 0.268 * INCH) / GALLON == pytest.approx(835.3, rel=1e-3)
    assert openings.level_change(30.0, 60.0) == pytest.approx(0.5)


@pytest.mark.parametrize(("sewer_gpm", "gallons"), [(100.0, 1620.0), (424.0, 0.0), (500.0, 0.0)])
def test_waste_sump(sewer_gpm: float, gallons: float) -> None:
    # 424 gpm for 5 min against what the sewer takes.
    found = openings.waste_sump_volume(424 * GPM, sewer_gpm * GPM, 5 * MINUTE)
    assert found / GALLON == pytest.approx(gallons)


@pytest.mark.parametrize(("gpm", "inches"), [(500.0, 6.0), (2000.0, 12.0), (8000.0, 24.0)])
def test_cover_over_a_suction(gpm: float, inches: float) -> None:
    # ANSI/HI 9.8 also prints it as S = D + 0.574 · Q / D^1.5, in inches and gallons a minute.
    velocity = 0.4085 * gpm / inches**2 * FOOT
    expected = inches + 0.574 * gpm / inches**1.5
    assert openings.vortex_cover(inches * INCH, velocity) / INCH == pytest.approx(expected, rel=2e-3)
