"""Other speeds of a river's jets, against the table of a river worked by hand in US units."""

from collections.abc import Callable

import pytest

from waterpark_designer.engine.jet_speeds import JetSpeeds
from waterpark_designer.units import FOOT, GALLON, HORSEPOWER, MINUTE, POUND, STANDARD_GRAVITY

POUND_FORCE = POUND * STANDARD_GRAVITY
DENSITY = 62.2 * POUND / FOOT**3


def speeds(chosen: float | None = None) -> JetSpeeds:
    """600 ft of river, 10 by 3 ft, at 2.5 ft/s with n 0.015: 308.38 lbf of thrust."""
    return JetSpeeds(308.38 * POUND_FORCE, DENSITY, 2.5 * FOOT, 4, chosen and chosen * FOOT)


def test_twice_to_eight_times_the_current_as_worked_by_hand(table: Callable[[str], list[dict[str, str]]]) -> None:
    rows = [row for row in table("river_thrust") if row["thrust_lbf"] == "308.38" and row["U_fps"] == "2.5"]
    found = speeds().compared()
    assert len(found) == len(rows) == 4
    for duty, row in zip(found, rows, strict=True):
        assert duty.speed / FOOT == pytest.approx(float(row["Vj_fps"]))
        assert duty.flow / (GALLON / MINUTE) == pytest.approx(float(row["Q_gpm"]), rel=2e-4)
        assert duty.power / HORSEPOWER == pytest.approx(float(row["jet_hp"]), rel=2e-4)
        assert duty.efficiency == pytest.approx(float(row["propulsive_eff"]), abs=6e-5)


def test_the_speed_entered_stands_among_them_once() -> None:
    assert [round(duty.speed / FOOT, 3) for duty in speeds(16).compared()] == [5, 10, 15, 16, 20]
    assert len(speeds(15).compared()) == 4


def test_bore_and_head_of_one_jet() -> None:
    # 12.76 ft³/s in 4 jets at 15 ft/s: 6.245 in; 15² / 64.35 = 3.497 ft.
    duty = speeds().compared()[2]
    assert duty.bore / FOOT * 12 == pytest.approx(6.245, rel=1e-3)
    assert duty.head / FOOT == pytest.approx(3.497, rel=1e-3)


def test_power_is_least_at_twice_the_current() -> None:
    found = speeds(16)
    least = found.at(found.of_least_power)
    assert least.speed == pytest.approx(5 * FOOT)
    assert all(duty.power >= least.power for duty in found.evenly(50))
    assert found.evenly(50)[-1].speed == pytest.approx(1.2 * 16 * FOOT)
