"""The shipped motors against the tables of the electrical code and the efficiency rule."""

import csv
from pathlib import Path

import fluids.pump
import pytest

from waterpark_designer.engine.formulas.pumps import electric_power, motor_current_estimate
from waterpark_designer.engine.next_size import next_motor
from waterpark_designer.motor_tables import MotorRating, MotorTableError, read_motor_ratings
from waterpark_designer.resources import resources_folder
from waterpark_designer.sources import Provenance
from waterpark_designer.units import HORSEPOWER

RATINGS = read_motor_ratings(resources_folder())
MOTORS = tuple(each for each in RATINGS if each.frequency == 60)
METRIC = tuple(each for each in RATINGS if each.frequency == 50)
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


def test_ratings_and_efficiencies_at_50_hz() -> None:
    # Commission Regulation (EU) 2019/1781, annex I, table 2: least efficiency of class IE3 at 50 Hz, from memory.
    published = {0.75: (80.7, 82.5), 7.5: (90.1, 90.4), 15: (91.9, 92.1), 37: (93.7, 93.9), 90: (95.0, 95.2)}
    found = {each.power / 1000: each for each in METRIC}
    for kilowatts, (two, four) in published.items():
        assert (found[kilowatts].efficiency_2_pole, found[kilowatts].efficiency_4_pole) == pytest.approx(
            (two / 100, four / 100)
        )
    for each in METRIC:
        assert each.source.provenance is Provenance.MEMORY
        assert each.current(400) is None
    assert [each.efficiency_4_pole for each in METRIC] == sorted(each.efficiency_4_pole for each in METRIC)


def test_a_motor_for_50_hz_is_one_of_its_own_ladder() -> None:
    found = next_motor(10_580, RATINGS, 50)
    assert found is not None and found.power == 11_000


def test_current_of_three_phase_power() -> None:
    # P = √3 · U · I · λ · η: 15 kW at 400 V, λ 0.85 and η 0.921 draw 27.7 A, worked by hand.
    assert motor_current_estimate(15_000.0, 400.0, 0.921) == pytest.approx(27.66, abs=0.01)


def test_a_value_from_memory_says_so() -> None:
    assert motor(100).source.provenance is Provenance.READ
    assert motor(125).source.provenance is Provenance.MEMORY


@pytest.mark.parametrize(("shaft", "rating"), [(19.43, 20.0), (20.0, 20.0), (20.1, 25.0), (0.2, 1.0)])
def test_next_motor(shaft: float, rating: float) -> None:
    found = next_motor(shaft * HORSEPOWER, MOTORS, 60)
    assert found is not None and found.power / HORSEPOWER == pytest.approx(rating)


def test_no_motor_beyond_the_table() -> None:
    assert next_motor(201 * HORSEPOWER, MOTORS, 60) is None


def test_a_broken_row_is_named(tmp_path: Path) -> None:
    (tmp_path / "motors.csv").write_text("power_hp,source\none,someone\n", encoding="utf-8")
    with pytest.raises(MotorTableError, match="row 2"):
        read_motor_ratings(tmp_path)
