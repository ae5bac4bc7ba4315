"""The shipped table of variable-speed drives against the fluids library, which took it from the US DOE's tip sheet."""

import random
from pathlib import Path

import fluids
import pytest

from waterpark_designer.drive_tables import DriveTableError, read_drive_table
from waterpark_designer.resources import resources_folder
from waterpark_designer.units import HORSEPOWER

DRIVES = read_drive_table(resources_folder())


@pytest.mark.parametrize(("horsepower", "load", "efficiency"), [
    # Printed in the library's documentation, and 30 hp: 97 % at full load, 95 % at half.
    (10, 1.0, 0.96), (100, 0.2, 0.92), (30, 1.0, 0.97), (30, 0.5, 0.95),
])  # fmt: skip
def test_printed_efficiencies(horsepower: float, load: float, efficiency: float) -> None:
    assert DRIVES.efficiency(horsepower * HORSEPOWER, load) == pytest.approx(efficiency, abs=5e-4)


def test_efficiencies_between_and_beyond_the_table_are_the_librarys() -> None:
    chance = random.Random(4)
    for _ in range(300):
        power, load = chance.uniform(0.5, 600) * HORSEPOWER, chance.uniform(0.0, 1.3)
        expected = fluids.VFD_efficiency(power, load=min(load, 1.0))
        assert DRIVES.efficiency(power, load) == pytest.approx(expected, abs=1e-4), (power / HORSEPOWER, load)


@pytest.mark.parametrize("text", [
    "power_hp,efficiency_at_50_pct,source\nten,90,someone\n",
    "power_hp,efficiency_at_50_pct,source\n10,most,someone\n",
])  # fmt: skip
def test_a_broken_row_is_named(tmp_path: Path, text: str) -> None:
    (tmp_path / "drives.csv").write_text(text, encoding="utf-8")
    with pytest.raises(DriveTableError, match="row 2"):
        read_drive_table(tmp_path)


def test_an_empty_table_is_told(tmp_path: Path) -> None:
    (tmp_path / "drives.csv").write_text("power_hp,source\n", encoding="utf-8")
    with pytest.raises(DriveTableError, match="no rows"):
        read_drive_table(tmp_path)
