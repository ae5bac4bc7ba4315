"""The shipped motors against the tables of the electrical code and the efficiency rule."""

import csv
from pathlib import Path

import fluids.pump
import pytest

from waterpark_designer.engine.formulas.pumps import electric_power
from waterpark_designer.engine.next_size import next_motor
from waterpark_designer.motor_tables import MotorRating, MotorTableError, read_motor_ratings
from waterpark_designer.resources import resources_folder
from waterpark_designer.units import HORSEPOWER

MOTORS = read_motor_ratings(resources_folder())
PRINTED = Path(__file__).parent / "engine" / "published" / "motors.csv"


def motor(horsepower: float) -> MotorRating:
    return next(each for each in MOTORS if each.power == pytest.approx(horsepower * HORSEPOWER))


def test_currents_efficiencies_and_full_load_input() -> None:
    with PRINTED.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(line for line in file if not line.startswith("#")))
    assert len(rows) == 16
    for row in rows:
        found = motor(float(row["hp"]))
        for volts in (208, 230, 460):
            assert found.current(volts) == float(row[f"FLC_{volts}V_A"])
        assert found.efficiency_4_pole == pytest.approx(float(row["eff_enclosed_4p"]) / 100)
        assert found.efficiency_2_pole == pytest.approx(float(row["eff_enclosed_2p"]) / 100)
        full_load = electric_power(found.power, found.efficiency_4_pole)
        assert full_load / 1000 == pytest.approx(float(row["kW_in_full_load"]), rel=6e-4)


@pytest.mark.parametrize("rating", MOTORS, ids=lambda each: f"{each.power / HORSEPOWER:g} hp")
def test_efficiency_agrees_with_an_independent_table(rating: MotorRating) -> None:
    for poles, efficiency in ((2, rating.efficiency_2_pole), (4, rating.efficiency_4_pole)):
        assert efficiency == pytest.approx(
            fluids.pump.CSA_motor_efficiency(rating.power, closed=True, poles=poles, high_efficiency=True)
        )


def test_ladder_of_ratings() -> None:
    # 10 CFR 431.25, rows of Table 1.
    ladder = [1, 1.5, 2, 3, 5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 75, 100, 125, 150, 200]
    assert [each.power / HORSEPOWER for each in MOTORS] == pytest.approx(ladder)


def test_current_falls_with_voltage_and_rises_with_power() -> None:
    for each in MOTORS:
        amperes = [each.current(volts) for volts in (208, 230, 460)]
        assert amperes == sorted(amperes, reverse=True)
    assert [each.current(460) for each in MOTORS] == sorted(each.current(460) or 0.0 for each in MOTORS)
    assert motor(20).current(400) is None


@pytest.mark.parametrize(("shaft", "rating"), [(19.43, 20.0), (20.0, 20.0), (20.1, 25.0), (0.2, 1.0)])
def test_next_motor(shaft: float, rating: float) -> None:
    found = next_motor(shaft * HORSEPOWER, MOTORS)
    assert found is not None and found.power / HORSEPOWER == pytest.approx(rating)


def test_no_motor_beyond_the_table() -> None:
    assert next_motor(201 * HORSEPOWER, MOTORS) is None


def test_a_broken_row_is_named(tmp_path: Path) -> None:
    (tmp_path / "motors.csv").write_text("power_hp,source\none,someone\n", encoding="utf-8")
    with pytest.raises(MotorTableError, match="row 2"):
        read_motor_ratings(tmp_path)
