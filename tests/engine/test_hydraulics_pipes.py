"""Pipe friction and fittings against the fluids library, EPANET and published figures."""

import math
import random
from collections.abc import Callable
from typing import Any

import fluids.fittings
import fluids.friction
import pytest

from waterpark_designer.engine.formulas import pipe_strength, pipes
from waterpark_designer.engine.friction import friction
from waterpark_designer.engine.worked import Missing, Worked
from waterpark_designer.pipe_tables import read_pipe_sizes
from waterpark_designer.resources import resources_folder
from waterpark_designer.units import FOOT, GALLON, INCH, MINUTE, PSI

Table = Callable[[str], list[dict[str, str]]]
GPM = GALLON / MINUTE
PIPES = read_pipe_sizes(resources_folder())
SMOOTH = 1.5e-6
WARM_VISCOSITY = 8.53881e-7


def darcy_loss(flow: float, bore: float, length: float) -> tuple[Any, Any, Any, Any]:
    """Velocity, Reynolds number, friction factor and loss of a smooth pipe of water at 27 °C."""
    velocity = pipes.pipe_velocity(flow, bore)
    reynolds = pipes.reynolds_number(velocity, bore, WARM_VISCOSITY)
    factor = pipes.friction_factor(reynolds, SMOOTH, bore)
    return velocity, reynolds, factor, pipes.friction_loss(factor, length, bore, velocity)


def test_friction_of_twelve_pipes(table: Table, printed: Callable[[str], Any]) -> None:
    for row in table("pipe_friction"):
        bore = float(row["ID_in"]) * INCH
        velocity, reynolds, factor, loss = darcy_loss(float(row["Q_gpm"]) * GPM, bore, float(row["L_ft"]) * FOOT)
        assert velocity / FOOT == pytest.approx(float(row["V_fps"]), rel=2e-4)
        assert reynolds == pytest.approx(float(row["Re_27C"]), rel=1e-4)
        assert factor == printed(row["f_Colebrook"])
        assert loss / FOOT == pytest.approx(float(row["hf_DarcyWeisbach_ft_fluids"]), rel=1e-3)
        # EPANET has Swamee and Jain's approximation of Colebrook.
        assert loss / FOOT == pytest.approx(float(row["hf_DW_ft_EPANET"]), rel=8e-3)


def test_hazen_williams_against_epanet(table: Table) -> None:
    rows = table("empirical_friction_loss")
    assert len(rows) == 24
    for row in rows:
        flow, bore = float(row["flow_gpm"]) * GPM, float(row["inside_diameter_in"]) * INCH
        loss = pipes.empirical_friction_loss(flow, float(row["coefficient"]), float(row["length_ft"]) * FOOT, bore)
        assert loss / FOOT == pytest.approx(float(row["loss_ft"]), rel=3e-3), row


def test_colebrook_is_solved_to_its_root() -> None:
    rng = random.Random(3)
    for _ in range(500):
        reynolds, rough = 10 ** rng.uniform(3.61, 8), rng.choice([0.0, 10 ** rng.uniform(-7, -1.3)])
        assert friction(reynolds, rough) == pytest.approx(
            fluids.friction.friction_factor(reynolds, rough, Method="Clamond"), rel=1e-10
        )


def test_laminar_and_unsettled_flow() -> None:
    assert pipes.friction_factor(1000.0, SMOOTH, 0.1) == pytest.approx(0.064)
    assert pipes.friction_factor(2000.0, SMOOTH, 0.1) == pytest.approx(0.032)
    half_way: Any = pipes.friction_factor(3000.0, SMOOTH, 0.1)
    turbulent = pipes.friction_factor(4000.0, SMOOTH, 0.1)
    assert half_way == pytest.approx((0.032 + turbulent) / 2)
    assert half_way.step.formula.name == "unsettled_friction"
    for reynolds, rough in ((2000.0, 0.0), (4000.0, 1e-3)):
        assert friction(reynolds * (1 + 1e-9), rough) == pytest.approx(friction(reynolds * (1 - 1e-9), rough), rel=1e-6)


def test_friction_waits_for_its_flow() -> None:
    missing = Missing("Enter the flow.")
    assert pipes.friction_factor(missing, SMOOTH, 0.1) is missing


def test_fittings_against_crane(table: Table, printed: Callable[[str], Any]) -> None:
    steel_bores = {"2": 2.067, "3": 3.068, "4": 4.026, "6": 6.065, "8": 7.981, "10": 10.020, "12": 11.938}
    columns = {
        "elbow90_std_30fT": "elbow_90",
        "elbow45_16fT": "elbow_45",
        "tee_run_20fT": "tee_run",
        "tee_branch_60fT": "tee_branch",
        "gate_valve": "gate_valve",
        "globe_valve": "globe_valve",
        "ball_valve": "ball_valve",
        "swing_check_100fT": "swing_check",
        "bend90_r_over_D_1.5": "elbow_90_long",
    }
    rows = table("crane_fittings")
    assert {row["NPS_in"] for row in rows} == set(steel_bores)
    for row in rows:
        bore = steel_bores[row["NPS_in"]] * INCH
        full_turbulence = pipes.full_turbulence_friction(bore)
        # The library fits Crane's printed factors; his formula at 0.0018 in lies up to 1.2 % above that fit.
        assert full_turbulence == pytest.approx(float(row["fT"]), rel=1.5e-2)
        multiples = {column: pipes.FITTING_MULTIPLES[name] for column, name in columns.items()}
        multiples["butterfly_valve"] = pipes.butterfly_multiple(bore)
        for column, multiple in multiples.items():
            found = pipes.fitting_loss_coefficient(1, multiple, full_turbulence)
            assert found == pytest.approx(float(row[column]), rel=1.5e-2, abs=6e-4), (row["NPS_in"], column)


def test_butterfly_valves_of_every_standard_pipe() -> None:
    # Crane TP-410 goes by nominal size: 45 from 2 to 8 in, 35 from 10 to 14 in, 25 from 16 to 24 in.
    for size in PIPES:
        multiple = 45.0 if float(size.nominal) <= 8 else 35.0 if float(size.nominal) <= 14 else 25.0
        assert pipes.butterfly_multiple(size.inside_diameter) == multiple, size.label


def test_minor_and_equipment_losses() -> None:
    # K 2.783 at 3.40 ft/s takes 0.5 ft, worked by hand with g 32.174 ft/s².
    assert pipes.minor_loss(2.783, 3.40 * FOOT) / FOOT == pytest.approx(0.5, rel=1e-3)
    assert pipes.equipment_loss(2.0, 0.03, 0.02) == pytest.approx(4.5)
    # 1 psi is 2.31 ft of cold water.
    assert pipes.pressure_head(PSI, 999.0) / FOOT == pytest.approx(2.31, abs=0.005)


def test_bore_by_velocity_limit() -> None:
    # 500 gpm at 6 ft/s: d = sqrt(0.4085 · 500 / 6) in, the trade's own constant.
    least = pipes.least_inside_diameter(500 * GPM, 6 * FOOT)
    assert least / INCH == pytest.approx(math.sqrt(0.4085 * 500 / 6), rel=1e-4)
    assert pipes.pipe_velocity(500 * GPM, least) == pytest.approx(6 * FOOT)


def test_surge_of_a_six_inch_pipe() -> None:
    # Worked by hand: 6 in Schedule 40, inside 6.065 in, wall 0.280 in, E 2.76 GPa; stopping 6 ft/s.
    speed = pipe_strength.wave_speed(996.516, 6.065 * INCH, 0.280 * INCH, 2.76e9)
    assert speed == pytest.approx(347.7, rel=1e-3)
    assert pipe_strength.surge_pressure(996.516, speed, 6 * FOOT) / PSI == pytest.approx(91.9, rel=2e-3)


def test_wave_in_a_rigid_pipe_runs_as_fast_as_sound_in_water() -> None:
    # 1,480 m/s in water of 20 °C, of the order of 1,483 m/s in tables.
    assert pipe_strength.wave_speed(998.2, 0.1, 0.05, 1e16) == pytest.approx(1483, rel=5e-3)


def test_pvc_loses_strength_in_warm_water() -> None:
    def factor(fahrenheit: float) -> Any:
        return pipe_strength.pvc_temperature_factor((fahrenheit + 459.67) * 5 / 9)

    # Pipe data sheets, from memory.
    assert [round(factor(t), 3) for t in (60, 73, 90, 104, 140)] == [1.0, 1.0, 0.75, 0.576, 0.22]
    factors = [factor(t) for t in range(73, 141)]
    assert all(isinstance(each, Worked) and after < each for each, after in zip(factors, factors[1:], strict=False))
    assert isinstance(factor(141), Missing)
    assert pipe_strength.pressure_rating_at_temperature(180 * PSI, factor(100)) / PSI == pytest.approx(111.6)
    assert isinstance(pipe_strength.pressure_rating_at_temperature(180 * PSI, factor(150)), Missing)
